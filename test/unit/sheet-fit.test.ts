import { describe, expect, it } from 'vitest';
import {
  huberWeight,
  medianOf,
  robustFit,
  tukeyWeight,
  weightedLeastSquares,
} from '../../core/geometry/fit.js';
import stack from '../reference/robust-fit.json' with { type: 'json' };

const design = Float64Array.from(stack.x.flatMap((row) => [1, ...row]));
const values = Float64Array.from(stack.y);
const whole = { tolerance: 1e-12, rounds: 500 };

describe('weights of M-estimates', () => {
  // Huber 1964: psi(u) = u up to k, else k sign(u); weight psi(u) / u.
  it("follow Huber's formula", () => {
    for (const u of [-8, -2.69, -1.345, -0.4, 0, 1, 1.345, 2.69, 100]) {
      const psi = Math.max(-1.345, Math.min(1.345, u));
      expect(huberWeight(u)).toBeCloseTo(u === 0 ? 1 : psi / u, 12);
    }
  });

  // Beaton & Tukey 1974: w(u) = (1 - (u / c)^2)^2 within c, 0 beyond.
  it("follow Tukey's biweight", () => {
    expect(tukeyWeight(0)).toBe(1);
    expect(tukeyWeight(4.685 / 2)).toBeCloseTo(0.5625, 12);
    expect(tukeyWeight(-4.685 / 2)).toBeCloseTo(0.5625, 12);
    expect(tukeyWeight(4.685)).toBe(0);
    expect(tukeyWeight(50)).toBe(0);
  });
});

describe('robust fits of the stack loss data', () => {
  it("give statsmodels' coefficients and scale with Huber's weight", () => {
    const { coefficients, scale } = robustFit(design, 4, values, { weight: 'huber', ...whole });
    stack.huber.coefficients.forEach((b, i) => expect(coefficients[i]).toBeCloseTo(b, 5));
    expect(scale).toBeCloseTo(stack.huber.scale, 5);
  });

  it("give statsmodels' coefficients, scale and weights with Tukey's biweight", () => {
    const fit = robustFit(design, 4, values, { weight: 'tukey', ...whole });
    stack.tukey.coefficients.forEach((b, i) => expect(fit.coefficients[i]).toBeCloseTo(b, 4));
    expect(fit.scale).toBeCloseTo(stack.tukey.scale, 4);
    stack.tukey.weights.forEach((w, i) => expect(fit.weights[i]).toBeCloseTo(w, 4));
  });

  // Ordinary least squares of the same data: -39.91967442, 0.71564020, 1.29528612, -0.15212252, printed with R's stackloss and in
  // many textbooks.
  it('start from plain least squares', () => {
    const [plain] = weightedLeastSquares(design, 4, [values], new Float64Array(21).fill(1));
    [-39.91967442, 0.7156402, 1.29528612, -0.15212252].forEach((b, i) =>
      expect(plain[i]).toBeCloseTo(b, 7),
    );
  });
});

it('the median of an even count is the mean of the middle two', () => {
  expect(medianOf([3, 1, 2])).toBe(2);
  expect(medianOf([4, 1, 3, 2])).toBe(2.5);
  expect(() => medianOf([])).toThrow(RangeError);
});

it('a design that does not say all coefficients is refused', () => {
  const twice = Float64Array.from([1, 1, 1, 1, 1, 1]);
  expect(() => robustFit(twice, 2, Float64Array.from([1, 2, 3]), { weight: 'huber' })).toThrow(
    RangeError,
  );
});
