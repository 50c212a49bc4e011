import type { Words } from '../strings.js';

/** Words of the tracings that are laid over the picture, and of the masses. */
export const tracingsWords: Words = {
  'tracing.label': 'Tracings over the picture',
  'tracing.masses': 'Masses',
  'tracing.edges': 'Edges',
  'tracing.reserves': 'Reserves',
  'tracing.marks': 'Marks',
  'tracing.strokes': 'Strokes',
  'tracing.hint':
    'Lay over the picture what the brush can state: shapes, edges, what stays paper, small marks, the way of the strokes.',
  'tracing.working': 'Finding the shapes that the {brush} can state … {done, 0} %',
  'tracing.stop': 'Stop',
  'tracing.stopped': 'The masses were not worked out.',
  'tracing.again': 'Try again',
  'tracing.count': '{masses, plural, =1 {One mass} other {# masses}} for the {brush}.',
  'tracing.edges-key': 'Solid line: hard edge. Broken: soft. No line: lost.',
  'tracing.reserves-key': 'Dotted shapes stay paper.',
  'tracing.reserves-none': 'Nothing stays paper.',
  'tracing.marks-key': 'Rings: small lights and darks that the masses leave out.',
  'tracing.marks-none': 'There are no small marks that the masses leave out.',
  'tracing.strokes-key':
    'Lines follow the form. They get heads where you have drawn which way a stroke runs.',
  'tracing.strokes-working': 'Following the form …',
  'tracing.unmet':
    '{changes, plural, =1 {One of your changes no longer fits} other {# of your changes no longer fit}}:',
  'mass.label': 'The mass in hand',
  'mass.hint': 'Press a mass in the picture, or go through them by size.',
  'mass.next': 'Next smaller',
  'mass.previous': 'Next larger',
  'mass.leave': 'Leave it',
  'mass.facts':
    'Mass {place} of {count} by size, in {band}: {area, 1} cm², {share, 1} % of the picture, about {widths, 1} widths of the {brush} across.',
  'mass.facts-in':
    'Mass {place} of {count} by size, in {band}: {area, 2} sq in, {share, 1} % of the picture, about {widths, 1} widths of the {brush} across.',
  'mass.edges': 'Edges: {hard} hard, {soft} soft, {lost} lost.',
  'mass.reserve': 'It stays paper; at its narrowest it is {width} wide.',
  'mass.reserve-mask':
    'It stays paper; at its narrowest it is {width} wide, too narrow to paint around with this brush: mask it.',
};
