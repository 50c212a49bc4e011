/** Direction along the form at each pixel. */
export interface DirectionField {
  width: number;
  height: number;
  /** Degrees clockwise from +x (image y down), 0 <= angle < 180. */
  angle: Float32Array;
  /** 0 (mute) .. 1 (one direction only). */
  coherence: Float32Array;
}

/** A stroke to draw on the sheet. */
export interface Arrow {
  region: number;
  /** x, y pairs in pixels, root to tip. */
  line: Float32Array;
  /** Whether its sense (root to tip) is known from a stroke that the painter drew. */
  sensed: boolean;
}
