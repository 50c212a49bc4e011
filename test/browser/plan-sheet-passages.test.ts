/** Passages on the printed plan and in the order of work, in a real browser: chosen, drawn, told, not kept with the plan. */
import { expect } from 'chai';
import { PlanSheet } from '../../components/plan-sheet/plan-sheet.js';
import { setWords } from '../../components/shared/strings.js';
import { GERMAN } from '../../components/shared/words/de/index.js';
import { clear, faultsOf, frames, inside, place, until } from './access-helpers.js';

PlanSheet.define();

/** Two halves of one value, green and red (CIE L* 47.2 and 46.5, culori 4.0.2), below a light sky. */
async function picture(): Promise<Blob> {
  const canvas = new OffscreenCanvas(240, 180);
  const context = canvas.getContext('2d')!;
  for (const [colour, x, y, width, height] of [
    ['rgb(220 220 210)', 0, 0, 240, 60],
    ['rgb(60 126 60)', 0, 60, 120, 120],
    ['rgb(200 58 58)', 120, 60, 120, 120],
  ] as const) {
    context.fillStyle = colour;
    context.fillRect(x, y, width, height);
  }
  return canvas.convertToBlob({ type: 'image/png' });
}

async function settled(element: PlanSheet): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, 50));
  await until(() => !element.shadowRoot!.querySelector('progress'), 'the work');
  do await element.updateComplete;
  while (element.isUpdatePending);
  await frames();
}

async function ready(): Promise<PlanSheet> {
  const element = place('<plan-sheet></plan-sheet>').querySelector('plan-sheet')!;
  await element.updateComplete;
  element.store.change('board', (plan) => ({
    ...plan,
    photoLimits: [60],
    paintLimits: [60],
    brushes: [{ name: 'round 4', tipMm: 0.5, pressedMm: 12 }],
    board: {
      bands: [
        { name: 'dark', floor: 0, ceiling: 60 },
        { name: 'light', floor: 60, ceiling: 95 },
      ],
      swatches: [
        {
          id: 'g',
          bucket: 0,
          lightness: 45,
          lab: [45, -35, 30],
          recipe: { parts: [{ tube: 'phthalo-green', parts: 1 }], strength: 0.5 },
        },
        {
          id: 'r',
          bucket: 0,
          lightness: 45,
          lab: [45, 50, 30],
          recipe: { parts: [{ tube: 'cadmium-red', parts: 1 }], strength: 0.5 },
        },
      ],
    },
  }));
  element.picture = await picture();
  await until(() => element.pages.length > 0, 'the pages');
  await settled(element);
  return element;
}

const choose = async (element: PlanSheet, wanted: boolean): Promise<void> => {
  const box = inside<HTMLInputElement>(element, '[data-passages]');
  if (box.checked !== wanted) box.click();
  await settled(element);
};
const words = (element: PlanSheet): string =>
  [...element.pages[0].matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, each]) => each).join(' ');
const steps = (element: PlanSheet): string =>
  inside(element, '[part="steps"]').textContent!.replace(/\s+/g, ' ');

describe('passages on the printed plan', function () {
  this.timeout(60000);
  afterEach(() => {
    setWords({}, 'de');
    clear();
  });

  it('are left out until they are chosen, drawn and told from then on', async () => {
    const element = await ready();
    expect(element.passages).to.equal(false);
    expect(words(element)).to.not.match(/\b1a\b/);
    expect(element.steps.some(({ passages }) => passages)).to.equal(false);
    expect(words(element)).to.contain('1 phthalo green + 3 water');
    expect(words(element)).to.contain('cadmium red: Contains compounds of cadmium');

    await choose(element, true);
    expect(element.hasAttribute('passages')).to.equal(true);
    expect(words(element))
      .to.match(/\b1a\b/)
      .and.to.match(/\b2b\b/);
    expect(words(element)).to.match(/= 1 phthalo green \+ 3 water · \d+ cm²/);
    expect(steps(element)).to.contain('passages 1a, 2b');
    expect(steps(element)).to.match(/[ab]: 1 phthalo green, 3 water/);
    expect(await faultsOf(element)).to.deep.equal([]);

    await choose(element, false);
    expect(words(element)).to.not.match(/\b1a\b/);
  });

  it('are found anew, not kept with the plan', async () => {
    const element = await ready();
    await choose(element, true);
    const step = element.steps.find(({ passages }) => passages)!;
    const tick = inside<HTMLInputElement>(element, `[data-step="${step.id}"] input`);
    tick.click();
    await settled(element);
    const kept = element.store.plan.steps.find(({ id }) => id === step.id)!;
    expect(kept.done).to.equal(true);
    expect(kept).to.not.have.property('passages');
    expect(element.steps.find(({ id }) => id === step.id)!.passages).to.have.length(2);
  });

  it('speak German', async () => {
    setWords(GERMAN, 'de');
    const element = await ready();
    element.lang = 'de';
    await choose(element, true);
    expect(words(element)).to.contain('Partie und ihre Mischung');
    expect(words(element)).to.match(/= 1 Phthalogrün \+ 3 Wasser/);
    expect(steps(element)).to.contain('Partien 1a, 2b');
  });
});
