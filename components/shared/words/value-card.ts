import type { Words } from '../strings.js';

/** Words on the page of a value card. Values are Munsell, 0 to 10. */
export const valueCardWords: Words = {
  'value-card.value': 'Value {value, 1, fixed}',
  'value-card.between': '{darker} below, {lighter} above. L* {lightness, 0}',
  'value-card.heading': 'Value card: {title}',
  'value-card.untitled': 'Value card of this plan',
  'value-card.paint':
    '1. Fill each square with one even grey of the value under it. Mix a true grey: a coloured one looks lighter than it is.',
  'value-card.read':
    '2. Let it dry, photograph the whole strip with bare paper about it, and have it read: it says which greys to paint anew.',
  'value-card.punch':
    '3. Once all are right, cut along the dashed line and punch a hole at each circle (6 mm, as office punches make).',
  'value-card.use':
    '4. At the easel: what shows lighter through the hole than the grey about it belongs above that limit, what shows darker below.',
  'value-card.scale': 'This line is 100 mm long.',
};
