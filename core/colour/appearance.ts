import type { Lab } from '../base/types.js';
import { lchOf } from './lab.js';

/** The name of a lean: a stable code, not a word to show. */
export type LeanName =
  | 'neutral'
  | 'red'
  | 'orange'
  | 'yellow'
  | 'yellow-green'
  | 'green'
  | 'blue-green'
  | 'blue'
  | 'violet'
  | 'red-violet';

/** The direction a colour leans in. */
export interface Lean {
  /** CIELAB hue, degrees 0..360 (0 for an exact neutral). */
  hue: number;
  /** CIELAB chroma C*. */
  chroma: number;
  name: LeanName;
}

/**
 * Chroma below which a colour is called neutral. Our own choice: a little above the just noticeable
 * difference of about 2.3 CIELAB units, so that the noise of a photo does not give a grey a lean.
 */
export const NEUTRAL_CHROMA = 3;

/**
 * Where each lean begins, in degrees of CIELAB hue (D65). Our own choice; the plain hue words of
 * CSS fall in the lean of their name. Red goes round through 0.
 */
const LEANS: readonly [from: number, name: LeanName][] = [
  [0, 'red'],
  [50, 'orange'],
  [80, 'yellow'],
  [108, 'yellow-green'],
  [130, 'green'],
  [175, 'blue-green'],
  [225, 'blue'],
  [308, 'violet'],
  [332, 'red-violet'],
  [358, 'red'],
];

/** The lean of a colour: CIELAB hue and chroma, and the name of its hue sector. */
export function leanOf(lab: Readonly<Lab>): Lean {
  const { C, h } = lchOf(lab);
  let name: LeanName = 'neutral';
  if (C >= NEUTRAL_CHROMA) for (const [from, lean] of LEANS) if (h >= from) name = lean;
  return { hue: h, chroma: C, name };
}

/**
 * The lightness a chromatic colour seems to have (Helmholtz-Kohlrausch effect): the L** of
 * Fairchild & Pirrotta 1991, "Predicting the lightness of chromatic object colors using CIELAB":
 * `L** = L* + (2.5 - 0.025 L*) (0.116 |sin((h - 90) / 2)| + 0.085) C*`, h in degrees. A neutral
 * keeps its L*; `L** - L*` is how much lighter the eye may take the colour for.
 * @returns L**, at least L* while L* <= 100
 */
export function helmholtzKohlrausch(lab: Readonly<Lab>): number {
  const { L, C, h } = lchOf(lab);
  const hueTerm = 0.116 * Math.abs(Math.sin((((h - 90) / 2) * Math.PI) / 180)) + 0.085;
  return L + (2.5 - 0.025 * L) * hueTerm * C;
}
