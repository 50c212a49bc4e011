/** A division of a picture: labels 0..count - 1. */
export interface Division {
  labels: Int32Array;
  count: number;
}

export interface Quality {
  count: number;
  error: number;
  edges: number;
  roughness: number;
}

export function floodParts(data: Uint8Array, width: number): Division;
export function absorbed(bands: Uint8Array, width: number, least: number): Division;
export function absorbedTo(bands: Uint8Array, width: number, wanted: number): Division;
export function bandsOfCodes(codes: Uint8Array, thresholds: readonly number[]): Uint8Array;
export function meanError(codes: Uint8Array, labels: Int32Array, count: number): number;
export function strongEdges(
  codes: Uint8Array,
  width: number,
  height: number,
  sigma?: number,
): Uint8Array;
export function edgesMet(
  edges: Uint8Array,
  labels: Int32Array,
  width: number,
  height: number,
  reach?: number,
): number;
export function roughness(
  labels: Int32Array,
  width: number,
  height: number,
  radius: number,
): number;
export function qualityOf(
  codes: Uint8Array,
  edges: Uint8Array,
  labels: Int32Array,
  count: number,
  width: number,
  height: number,
  brushPx: number,
): Quality;
