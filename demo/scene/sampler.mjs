/** Seeded random numbers, spread evenly over the samples of a pixel (shuffled, jittered strata). */
import { hash3 } from './sdf.mjs';

const STRIDES = [1, 3, 5, 7, 11, 13, 17, 19, 23, 29];

export class Sampler {
  /** @param {number} side samples per pixel = side * side */
  constructor(side) {
    this.side = side;
    this.count = side * side;
    this.strides = STRIDES.filter((s) => gcd(s, this.count) === 1);
    this.a = 0;
    this.b = 0;
  }

  start(x, y, sample) {
    this.key = hash3(x, y, 71);
    this.sample = sample;
  }

  /** Fills `a` and `b` with the sample's two numbers for one of the pairs it uses. */
  draw(pair) {
    const { side, count, strides, key, sample } = this;
    const h = hash3(key, pair, 5);
    const stride = strides[h % strides.length];
    const cell = (sample * stride + (h >>> 8)) % count;
    const j = hash3(key, pair * 64 + 7, sample);
    this.a = ((cell % side) + (j & 0xffff) / 65536) / side;
    this.b = (Math.floor(cell / side) + (j >>> 16) / 65536) / side;
  }
}

function gcd(a, b) {
  return b === 0 ? a : gcd(b, a % b);
}
