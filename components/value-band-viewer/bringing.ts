/** What a viewer shows of bringing pictures: while it is empty, while one is opened or dragged over it, and when one cannot be had. */
import { html, type TemplateResult } from 'lit';
import { controls } from '../shared/controls.styles.js';
import type { PictureIntake } from '../shared/picture-intake.js';
import type { Words } from '../shared/strings.js';
import type { Say } from '../shared/usual-bands.js';
import { pictureWords } from '../shared/words/picture.js';
import { viewerEmptyWords } from '../shared/words/viewer-empty.js';
import { bringingStyles } from './bringing.styles.js';

export { renderButtons, renderProgress, renderTrouble } from '../shared/picture-hands.js';

export const words: Words = { ...pictureWords, ...viewerEmptyWords };
export const looks = [controls, bringingStyles];

/** What an empty viewer is for, and how to begin. */
export function renderEmpty(
  intake: Pick<PictureIntake, 'over' | 'renderButtons'>,
  say: Say,
): TemplateResult {
  return html`<div class="empty">
    <p>
      <strong>${say(intake.over ? 'empty.drop' : 'empty.title')}</strong>
      <span class="soft">${say('empty.text')}</span>
    </p>
    <div>${intake.renderButtons(say)}</div>
  </div>`;
}

/** What lies over the picture in sight while another one is dragged over it. */
export function renderDropping(say: Say): TemplateResult {
  return html`<div class="dropping">${say('empty.drop')}</div>`;
}
