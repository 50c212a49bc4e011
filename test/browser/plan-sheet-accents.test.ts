/** Accents of the board on the printed plan, in a real browser: told and marked once the board has some, chosen, in German, access. */
import { expect } from 'chai';
import { PlanSheet } from '../../components/plan-sheet/plan-sheet.js';
import { setWords } from '../../components/shared/strings.js';
import { GERMAN } from '../../components/shared/words/de/index.js';
import { clear, faultsOf, frames, inside, place, until } from './access-helpers.js';
import { accentPicture } from './accent-picture.js';

PlanSheet.define();

/** A red spot and a brownish corner of its hue (24.8 10.5 5.5), on grey. */
const picture = (): Promise<Blob> => accentPicture('rgb(77 53 51)');

async function settled(element: PlanSheet): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, 50));
  await until(() => !element.shadowRoot!.querySelector('progress'), 'the work');
  do await element.updateComplete;
  while (element.isUpdatePending);
  await frames();
}

/** @param accent - whether the red swatch is marked as one. */
async function ready(accent: boolean, lang = 'en'): Promise<PlanSheet> {
  const html = `<plan-sheet lang="${lang}"></plan-sheet>`;
  const element = place(html).querySelector('plan-sheet')!;
  await element.updateComplete;
  element.store.change('board', (plan) => ({
    ...plan,
    photoLimits: [39],
    paintLimits: [39],
    paper: { ...plan.paper, widthMm: 320, heightMm: 200 },
    brushes: [{ name: 'flat', tipMm: 4, pressedMm: 16 }],
    board: {
      bands: [
        { name: 'dark', floor: 0, ceiling: 39 },
        { name: 'light', floor: 39, ceiling: 95 },
      ],
      swatches: [
        { id: 'n', bucket: 1, lightness: 70, lab: [70, 3, 4], name: 'stone' },
        { id: 'p', bucket: 1, lightness: 46, lab: [46, 56, 33], name: 'poppy', accent },
      ],
    },
  }));
  element.picture = await picture();
  await until(() => element.pages.length > 0, 'the pages');
  await settled(element);
  return element;
}

const words = (element: PlanSheet): string =>
  [...element.pages[0].matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, each]) => each).join(' ');

describe('accents on the printed plan', function () {
  this.timeout(60000);
  afterEach(() => {
    setWords({}, 'de');
    clear();
  });

  it('are told and marked once a swatch of the board is one', async () => {
    const element = await ready(false);
    expect(words(element)).not.to.contain('1 poppy');
    element.store.change('board-edit', (plan) => ({
      ...plan,
      board: {
        ...plan.board,
        swatches: plan.board.swatches.map((each) =>
          each.id === 'p' ? { ...each, accent: true } : each,
        ),
      },
    }));
    await until(() => words(element).includes('1 poppy'), 'the accent');
    // C*ab: sqrt(56² + 33²) = sqrt(4225) = 65; sqrt(3² + 4²) = 5; L* 46 - 70 = -24.
    expect(words(element)).to.contain('chroma 65 among 5');
    expect(words(element)).to.contain('pure colour for a neutral: 24 L* darker');
    expect(words(element)).to.contain('places of its hue in the photo: 1');
    // The corner is dark, the accent light.
    expect(words(element)).to.match(/come again: [1-3], of its own value: 0/);
    await settled(element);
    expect(await faultsOf(element)).to.eql([]);
  });

  it('stay out of the picture where that is chosen', async () => {
    const element = await ready(true);
    const key = '>it might come again<';
    expect(element.pages[0]).to.contain(key);
    inside<HTMLInputElement>(element, '[data-show=accents]').click();
    await until(() => !element.pages[0].includes(key), 'the page');
    expect(words(element)).to.contain('1 poppy');
  });

  it('speak German', async () => {
    setWords(GERMAN, 'de');
    const element = await ready(true, 'de');
    expect(words(element)).to.contain('Farbakzente 1 poppy');
    expect(words(element)).to.contain('Buntheit 65 zwischen 5');
    expect(words(element)).not.to.contain('chroma');
  });
});
