import { html, type TemplateResult } from 'lit';
import { icon } from '../shared/icons.js';
import { ENOUGH, hueToTrain, type HueError } from './training.js';

export interface TrainingView {
  errors: readonly HueError[];
  say: (key: string, values?: Record<string, string | number>) => string;
  /** A value with one decimal, in the reader's way of writing. */
  figure: (value: number) => string;
  disabled: boolean;
  startAnew: () => void;
}

/** What the guesses tell, in a sentence and in a table by hue. */
export function trainingTable({
  errors,
  say,
  figure,
  disabled,
  startAnew,
}: TrainingView): TemplateResult {
  const average = (mean: number): string => {
    const error = figure(Math.abs(mean));
    if (Math.abs(mean) < 0.05) return say('picker.training-close');
    return say(mean > 0 ? 'picker.training-light' : 'picker.training-dark', { error });
  };
  return html`<section class="training" part="training" aria-labelledby="training-title">
    <h3 id="training-title">${say('picker.training')}</h3>
    <p>${lesson(errors, say, figure)}</p>
    <table>
      <thead>
        <tr>
          <th scope="col">${say('picker.training-hue')}</th>
          <th scope="col">${say('picker.training-error')}</th>
          <th scope="col" class="number">${say('picker.training-count')}</th>
        </tr>
      </thead>
      <tbody>
        ${errors.map(
          ({ lean, mean, count }) =>
            html`<tr>
              <th scope="row">${say(`hue.${lean}`)}</th>
              <td>${average(mean)}</td>
              <td class="number">${count}</td>
            </tr>`,
        )}
      </tbody>
    </table>
    <button type="button" class="quiet" ?disabled=${disabled} @click=${startAnew}>
      ${icon('undo')}<span>${say('picker.training-anew')}</span>
    </button>
  </section>`;
}

/** The one sentence that the guesses come to. */
function lesson(
  errors: readonly HueError[],
  say: TrainingView['say'],
  figure: TrainingView['figure'],
): string {
  const worst = hueToTrain(errors);
  if (worst) {
    const key = worst.mean > 0 ? 'picker.training-take-light' : 'picker.training-take-dark';
    return say(key, {
      hue: say(`hue.${worst.lean}`),
      error: figure(Math.abs(worst.mean)),
      count: worst.count,
    });
  }
  return say(
    errors.some(({ count }) => count >= ENOUGH) ? 'picker.training-fine' : 'picker.training-few',
  );
}
