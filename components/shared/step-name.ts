import type { Plan, WorkStep } from './core.js';
import type { Say } from './usual-bands.js';

/** What a step of the order of work is called. */
export function stepName(step: WorkStep, plan: Plan, say: Say): string {
  const { kind, role, band } = step;
  const name = band === undefined ? '' : (plan.board.bands[band]?.name ?? String(band + 1));
  const text = typeof step.text === 'string' && step.text !== '' ? step.text : step.id;
  const direct = kind === 'lay' && role && plan.way !== 'light-to-dark';
  return say(direct ? `work.lay-${role}` : `work.${kind}`, { band: name, text });
}
