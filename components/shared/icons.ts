import { svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { drawn, FIRST } from './first-icons.js';

/** Stroke drawings on a field of 20 x 20, always shown beside a word. */
const drawings = {
  ...FIRST,
  plus: svg`<path d="M10 4v12M4 10h12"/>`,
  minus: svg`<path d="M4 10h12"/>`,
  bin: svg`<path d="M4 5.500h12M8 5.500V4h4v1.500M5.500 5.500l.8 11h7.400l.8-11"/>`,
  crop: svg`<path d="M6 3v11h11M3 6h11v11"/>`,
  loop: svg`<path d="M10 4c4 0 7 1.700 7 4.500S14 13 10 13c-3.500 0-7-1.300-7-4.300S6 4 10 4zM7.500 12.500 6 17"/>`,
  spot: svg`<circle cx="10" cy="10" r="6.500"/><path d="M10 7v3.500M10 13v.01"/>`,
  hole: svg`<rect x="3" y="3" width="14" height="14"/><circle cx="10" cy="10" r="3"/>`,
  corner: svg`<path d="M4 4h12v6l-6 6H4zM16 10h-6v6"/>`,
  eye: svg`<path d="M2.500 10S5.500 5 10 5s7.500 5 7.500 5-3 5-7.500 5-7.500-5-7.500-5z"/><circle cx="10" cy="10" r="2"/>`,
  reach: svg`<path d="M4.500 3v14M15.500 6v8M4.500 3l11 3M4.500 10h11M4.500 17l11-3"/>`,
  steps: svg`<path d="M3 16.500h4v-4h4v-4h4v-4h2"/>`,
  check: svg`<path d="m4 10.500 4 4 8-9"/>`,
  send: svg`<path d="M3 10h13M11.500 5.500 16 10l-4.500 4.500"/>`,
  lock: svg`<path d="M5 9h10v7.500H5zM7 9V6.500a3 3 0 0 1 6 0V9"/>`,
  more: svg`<path d="M5 10v.01M10 10v.01M15 10v.01"/>`,
  move: svg`<path d="M10 3v14M3 10h14M8 5l2-2 2 2M8 15l2 2 2-2M5 8l-2 2 2 2M15 8l2 2-2 2"/>`,
  tracing: svg`<path d="M3 3h10v10H3zM7 13v4h10V7h-4M5.500 10c1-3 3.500-4 5-4"/>`,
  shapes: svg`<path d="M3 7c2-4 6-4 7-1s4 1 7 3v8H3zM3 12c4-2 6 2 9 0s3-2 5-2"/>`,
  brush: svg`<path d="M16.500 3.500 10 10.500M8.500 10l2 2M4 16.500c3 0 5-.5 6.500-4.500l-2-2C6 11 5.500 14 4 16.500z"/>`,
  cut: svg`<path d="M3 15c3-1 4-4 7-5s4-4 7-5M4 4l3 3M13 13l3 3"/>`,
  star: svg`<path d="M10 3v14M4 6.500l12 7M16 6.500l-12 7"/>`,
  drop: svg`<path d="M10 3c3.300 4 5 6.200 5 8.600a5 5 0 0 1-10 0C5 9.200 6.700 7 10 3z"/>`,
  fan: svg`<path d="M10 16 3.500 8.500M10 16 6.800 5.500M10 16V4.500M10 16l3.200-10.500M10 16l6.500-7.500"/>`,
} satisfies Record<string, SVGTemplateResult>;

export type IconName = keyof typeof drawings;

/** A drawing for the eye only: the word beside it is what is read out. */
export function icon(name: IconName): TemplateResult {
  return drawn(drawings[name]);
}
