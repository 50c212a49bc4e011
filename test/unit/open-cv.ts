/** OpenCV.js 4.12 (a dev dependency) in Node. Its module object has a `then` of its own, so it is handed on in a box. */
import { createRequire } from 'node:module';

export interface Mat {
  data: Uint8Array;
  data32F: Float32Array;
  data64F: Float64Array;
  delete(): void;
}

export interface OpenCv {
  Mat: new () => Mat;
  Size: new (width: number, height: number) => unknown;
  Scalar: new (...values: number[]) => unknown;
  matFromArray(rows: number, columns: number, type: number, values: ArrayLike<number>): Mat;
  getPerspectiveTransform(from: Mat, to: Mat): Mat;
  findHomography(from: Mat, to: Mat, method?: number): Mat;
  warpPerspective(
    source: Mat,
    target: Mat,
    map: Mat,
    size: unknown,
    flags: number,
    border: number,
  ): void;
  CV_32FC1: number;
  CV_32FC2: number;
  CV_64FC1: number;
  INTER_LINEAR: number;
  BORDER_REPLICATE: number;
}

export function openCv(): Promise<{ cv: OpenCv }> {
  const module = createRequire(import.meta.url)('@techstark/opencv-js') as {
    then(use: (cv: OpenCv) => void): void;
  };
  return new Promise((resolve) => {
    module.then((cv) => resolve({ cv }));
  });
}
