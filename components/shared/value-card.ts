import { munsellValue, valueCardPage, type Plan, type SheetPaper } from './core.js';
import type { Say } from './usual-bands.js';

/** The page of a plan's own value card: a field for the grey of each limit between its bands, by the L* of dry paint. */
export function valueCardOf(plan: Plan, paper: SheetPaper, say: Say): string {
  const { board, paintLimits, title } = plan;
  const nameOf = (band: number): string => board.bands[band]?.name ?? String(band + 1);
  const fields = paintLimits.map((limit, place) => ({
    limit,
    label: say('value-card.value', { value: munsellValue(Math.min(100, Math.max(0, limit))) }),
    note: say('value-card.between', {
      darker: nameOf(place),
      lighter: nameOf(place + 1),
      lightness: limit,
    }),
  }));
  return valueCardPage(fields, {
    paper,
    title: title ? say('value-card.heading', { title }) : say('value-card.untitled'),
    how: ['paint', 'read', 'punch', 'use'].map((step) => say(`value-card.${step}`)),
    scale: say('value-card.scale'),
  });
}
