import { svg, type SVGTemplateResult } from 'lit';
import { cssOfLab, labOf, type BoardSwatch, type SwatchVerdictKind } from '../shared/core.js';

/** Outlines of dabs of paint on a field of 120 x 76: brushed, so no edge is quite straight. */
const OUTLINES = [
  'M112.9 38C113.2 44 112.3 52.2 111.9 56.3C111.6 60.5 111.9 61.5 110.7 63.2C109.5 64.9 107 65.6 104.8 66.7C102.6 67.8 101 69 97.4 69.7C93.9 70.3 93.5 70.7 83.4 70.7C73.3 70.8 46.9 70.6 37 70.1C27.2 69.7 27.5 69.1 24.2 68.3C21 67.5 19.5 66.3 17.3 65.3C15.1 64.4 12.9 63.7 10.9 62.4C8.8 61.1 5.9 61.5 4.9 57.5C4 53.4 4.9 44.4 5.1 38C5.3 31.6 5.6 23.2 6.2 19C6.9 14.8 7.4 14.2 8.9 12.6C10.5 11.1 13 10.4 15.4 9.4C17.8 8.5 19.7 7.4 23.4 7C27.1 6.6 27.8 7.2 37.8 6.9C47.8 6.7 73.2 5.7 83.2 5.5C93.3 5.3 94.1 5.4 98.1 5.8C102.1 6.1 105.2 6.5 107.2 7.8C109.2 9 109.6 11 110.1 13.1C110.6 15.2 109.8 16.1 110.3 20.2C110.7 24.4 112.7 32 112.9 38Z',
  'M114 38C113.4 44.3 112.1 52 111.4 56.2C110.7 60.3 110.8 60.9 109.8 62.7C108.8 64.5 107.5 66 105.3 67C103.1 68.1 100.3 68.4 96.6 69C92.9 69.6 93.3 70.3 83.3 70.6C73.3 70.9 46.7 70.9 36.6 70.8C26.4 70.6 26.2 70.3 22.6 69.6C19 69 17.1 68 15.1 66.8C13 65.6 11.6 64.3 10.6 62.6C9.5 60.8 9.8 60.1 8.9 56.1C8 52 6 44.3 5.3 38C4.6 31.7 3.9 22.6 4.6 18.4C5.3 14.3 7.7 14.4 9.6 13C11.5 11.5 13.7 10.8 16.1 9.9C18.5 9 20.6 8.3 24.1 7.6C27.6 7 27.3 6.2 37.1 6C46.9 5.7 72.9 5.9 82.8 6.1C92.7 6.3 92.8 6.6 96.4 7.2C99.9 7.8 101.4 9 104 9.8C106.6 10.6 110 10.8 111.8 12.3C113.7 13.7 114.6 14.3 115 18.6C115.3 22.9 114.6 31.7 114 38Z',
  'M115.4 38C115.8 44.2 115 53 114 57.1C113 61.2 111.2 61.1 109.4 62.5C107.6 64 105.4 64.7 103.2 65.7C101 66.7 99.4 67.7 96 68.5C92.7 69.2 92.8 69.9 83 70.2C73.2 70.4 46.9 70.3 37.1 70C27.3 69.7 27.8 68.9 24 68.5C20.1 68.1 16.3 68.4 14 67.5C11.6 66.6 11.1 64.7 9.9 62.9C8.7 61.1 7.2 61 6.7 56.8C6.3 52.7 7.2 44.2 7.3 38C7.4 31.8 7 23.6 7.4 19.4C7.7 15.2 8.5 14.8 9.5 12.9C10.5 11 10.9 9 13.3 8.1C15.6 7.1 19.5 7.5 23.4 7C27.3 6.5 26.5 5.4 36.5 5.1C46.5 4.8 73.3 4.9 83.5 5.2C93.6 5.4 93.9 5.6 97.3 6.4C100.7 7.3 101.7 8.8 103.6 10C105.6 11.3 107.6 12.1 109 13.7C110.4 15.3 111 15.6 112.1 19.6C113.1 23.7 115.1 31.8 115.4 38Z',
  'M113.6 38C113.5 44.3 113.6 52.6 112.8 56.7C112.1 60.7 110.5 60.8 109.2 62.4C107.8 64.1 106.6 65.4 104.7 66.6C102.8 67.9 101.4 69.2 97.9 70.1C94.5 70.9 94.3 71.8 84.1 71.8C74 71.7 47.2 70.5 37.1 70C27.1 69.4 27.4 69.2 24 68.4C20.7 67.7 19.5 66.4 17.3 65.3C15.2 64.3 12.9 63.7 11.1 62.3C9.4 60.8 7.5 60.9 6.7 56.8C5.9 52.8 6.5 44.3 6.4 38C6.4 31.7 6.1 23.3 6.5 19.1C7 14.9 7.8 14.5 9 12.7C10.3 10.9 11.3 9.3 13.8 8.4C16.4 7.6 20.4 8.1 24.3 7.8C28.3 7.5 27.7 6.9 37.5 6.5C47.3 6.2 72.9 6 83 5.8C93.2 5.6 94.7 5 98.4 5.5C102.2 6 103.4 7.7 105.4 8.9C107.4 10.2 109.1 11.3 110.4 13C111.7 14.7 112.8 15 113.4 19.1C113.9 23.3 113.7 31.7 113.6 38Z',
  'M114 38C114.2 44.1 113.1 52.4 112.4 56.5C111.6 60.6 110.7 60.9 109.5 62.6C108.3 64.3 107 65.6 105 66.8C103 68 101.3 69.2 97.7 69.9C94.1 70.6 93.6 71.1 83.6 70.9C73.5 70.8 47.6 69.6 37.7 69.3C27.7 68.9 27.3 69.3 23.6 68.8C19.9 68.3 18.1 67.3 15.6 66.4C13.1 65.5 10.2 65.1 8.7 63.5C7.1 61.9 7 61.1 6.6 56.9C6.1 52.6 5.8 44.3 5.9 38C6 31.7 6.8 23.6 7.2 19.4C7.6 15.1 6.9 14 8.2 12.3C9.5 10.6 12.3 9.9 15 9.2C17.7 8.4 20.6 8.3 24.4 7.9C28.1 7.4 27.7 7 37.5 6.6C47.4 6.1 73.4 5.3 83.4 5.2C93.4 5.2 93.9 5.6 97.5 6.2C101.2 6.8 103.3 7.8 105.5 8.9C107.6 10 109.5 11.1 110.5 12.9C111.5 14.7 111 15.6 111.6 19.8C112.2 23.9 113.9 31.9 114 38Z',
  'M113.9 38C114.3 44.2 114.5 52.9 113.8 57C113.2 61.2 111.6 61.3 110.1 62.9C108.5 64.4 107 65.7 104.5 66.5C102 67.3 98.4 66.9 94.8 67.5C91.2 68 92.6 69.6 82.9 70.1C73.3 70.5 47 70.3 36.9 70.3C26.8 70.2 25.8 70.6 22.3 69.9C18.8 69.3 18.1 67.4 15.9 66.3C13.6 65.2 10.6 64.9 8.9 63.4C7.2 61.9 6 61.4 5.7 57.2C5.4 52.9 6.8 44.2 7.3 38C7.8 31.8 8.1 24 8.5 19.8C9 15.7 9 15 10.1 13.2C11.1 11.4 12.7 10.2 14.7 9C16.7 7.7 18.2 6.3 21.9 5.8C25.6 5.2 26.9 5.9 37 5.9C47.2 5.9 73.2 5.6 82.9 5.9C92.7 6.3 92.1 7.2 95.7 7.8C99.2 8.4 102 8.7 104.3 9.6C106.6 10.6 108.2 11.8 109.4 13.5C110.6 15.2 110.8 15.7 111.5 19.8C112.3 23.9 113.5 31.8 113.9 38Z',
] as const;

/** An outline that stays the same for a swatch, whatever its place. */
export function outlineOf(id: string): string {
  let sum = 7;
  for (let i = 0; i < id.length; i++) sum = (sum * 31 + id.charCodeAt(i)) >>> 0;
  return OUTLINES[sum % OUTLINES.length];
}

/** The grey of a lightness L* as a CSS colour. */
export function greyOf(lightness: number): string {
  return cssOfLab([lightness, 0, 0]).css;
}

/** What swatches are shown in, worked out once. */
const shownPaints = new WeakMap<BoardSwatch, string>();
const shownGreys = new WeakMap<BoardSwatch, string>();

function once(
  known: WeakMap<BoardSwatch, string>,
  swatch: BoardSwatch,
  make: () => string,
): string {
  let paint = known.get(swatch);
  if (paint === undefined) known.set(swatch, (paint = make()));
  return paint;
}

/** The colour to show a swatch in: its CSS colour laid over white, else its Lab, else the grey of its lightness. */
export function paintOf(swatch: BoardSwatch, asGrey = false): string {
  return asGrey
    ? once(shownGreys, swatch, () => greyOf(swatch.lightness))
    : once(shownPaints, swatch, () => colourOf(swatch));
}

function colourOf({ css, lab, lightness }: BoardSwatch): string {
  if (css !== undefined) {
    try {
      const shown = cssOfLab(labOf(css));
      return shown.outOfGamut ? css : shown.css;
    } catch {
      // No colour of CSS: what was measured is shown instead.
    }
  }
  return lab ? cssOfLab(lab).css : greyOf(lightness);
}

/** A dab of paint; its box is stretched to whatever holds it. */
export function dab(id: string, paint: string): SVGTemplateResult {
  return svg`<path class="paint" d=${outlineOf(id)} fill=${paint}></path>`;
}

/** What is told of a swatch in one word. */
export type Mark = SwatchVerdictKind | 'accent';

const drop = (x: number, y: number): string =>
  `M${x} ${y}c2.5 3.2 3.5 4.7 3.5 6.1a3.5 3.5 0 0 1-7 0c0-1.4 1-2.9 3.5-6.1z`;

/** A drop between (or past) the two edges of its band, on a field of 24 x 24; never told by colour. */
const MARKS: Record<Mark, SVGTemplateResult> = {
  fits: svg`<path d="M3 3.5h18M3 20.5h18"></path><path class="full" d=${drop(12, 7)}></path>`,
  'too-light': svg`<path d="M3 13.5h18M3 20.5h18"></path><path d=${drop(12, 1.5)}></path>`,
  'too-dark': svg`<path d="M3 3.5h18M3 10.5h18"></path><path d=${drop(12, 12.7)}></path>`,
  between: svg`<path d="M3 12h4.5M16.5 12H21"></path><path d=${drop(12, 6.6)}></path><path class="full" d="M8.5 12.7a3.5 3.5 0 0 0 7 0z"></path>`,
  unsure: svg`<path d="M3 3.5h18M3 20.5h18"></path><path class="broken" d=${drop(12, 7)}></path>`,
  accent: svg`<path d="M2 3.5h9M2 20.5h9"></path><path class="full" d=${drop(17, 7)}></path>`,
};

/** The mark that goes with the word of a verdict. */
export function mark(kind: Mark): SVGTemplateResult {
  return MARKS[kind];
}
