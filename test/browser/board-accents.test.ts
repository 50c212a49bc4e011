/** What a card of the board tells of an accent: among its neutrals, on the board, in the photo; figures worked by hand. */
import { expect } from 'chai';
import type { SwatchBucketBoard } from '../../components/swatch-bucket-board/swatch-bucket-board.js';
import { setWords } from '../../components/shared/strings.js';
import { GERMAN } from '../../components/shared/words/de/index.js';
import { accentPicture } from './accent-picture.js';
import {
  accessibilityFaults,
  all,
  BANDS,
  clearPlaces,
  find,
  press,
  settled,
  withBoard,
} from './swatch-bucket-board-helpers.js';

// ASTM D1535: value 5 has Y 19.27, so L* 51.0 (CIE 15); value 8 has Y 57.62, so L* 80.5.
const STONES = [
  { id: 'n1', bucket: 2, lightness: 79.5, lab: [79.5, 2, 4], name: 'chalk' },
  { id: 'n2', bucket: 2, lightness: 81.5, lab: [81.5, -2, 0], name: 'bone' },
];
const POPPY = { id: 'p', bucket: 2, lightness: 51, lab: [51, 56, 33], name: 'poppy', accent: true };
// C*ab = sqrt(900 + 400) = 36; hue atan2(20, 30) = 33.7 degrees, the poppy's atan2(33, 56) = 30.5.
const BRICK = { id: 'b', bucket: 0, lightness: 30, lab: [30, 30, 20], name: 'brick' };

const board = (swatches: object[], attributes = ''): Promise<SwatchBucketBoard> =>
  withBoard({ bands: BANDS, swatches }, attributes);

async function told(element: SwatchBucketBoard, until: RegExp = /./): Promise<string> {
  for (let i = 0; i < 600; i++) {
    const words = all(element, '[data-id=p] [part=accent]')[0]?.textContent ?? '';
    if (until.test(words)) return words;
    await new Promise((resolve) => setTimeout(resolve, 20));
    await settled(element);
  }
  throw new Error(`waited in vain for ${String(until)}`);
}

/** A red spot and a brownish corner of its hue, on grey. */
const picture = (): Promise<Blob> => accentPicture('rgb(153 131 128)');

describe('accents on the board', function () {
  this.timeout(40000);
  afterEach(() => {
    setWords({}, 'de');
    clearPlaces();
  });

  it('tell vividness, the cost in value, and whether other swatches repeat the hue', async () => {
    const element = await board([BRICK, ...STONES, POPPY]);
    const words = await told(element);
    // C*ab = sqrt(56² + 33²) = sqrt(4225) = 65; the mean of the stones is 80.5, 0, 2: sqrt(0 + 4) = 2.
    expect(words).to.contain('Chroma 65 among neutrals of 2.');
    // From value 8 to value 5.
    expect(words).to.contain('makes the spot darker by 3.');
    // Fairchild & Pirrotta 1991: (2.5 - 1.275) (0.116 sin(29.74) + 0.085) 65 = 11.35; L* 62.35 is value 6.13 (ASTM D1535).
    expect(words).to.contain('It looks lighter than it is, by 1.1.');
    expect(words).to.contain('Its hue comes again in brick.');
    // Nothing is said of a photo that is not there.
    expect(words).not.to.contain('photo');
    expect(all(element, '[part=accent]')).to.have.length(1);
    expect(await accessibilityFaults(element)).to.eql([]);
  });

  it('follow the board', async () => {
    const element = await board([BRICK, POPPY]);
    expect(await told(element)).to.match(/^Its bucket has no other colour to compare it with\./);
    element.board = { bands: BANDS, swatches: [...STONES, POPPY] } as never;
    expect(await told(element, /Chroma 65/)).to.contain('Its hue comes again in no other swatch.');
    find(element, '[data-dab=p]').click();
    await settled(element);
    await press(element, '[data-accent]');
    expect(all(element, '[part=accent]')).to.have.length(0);
  });

  it('tell what the photo has, once it is known, and nothing more when it is gone', async () => {
    const element = await board([...STONES, POPPY]);
    expect(await told(element)).not.to.contain('photo');
    const { store } = element;
    store.amend('brush', (plan) => ({
      ...plan,
      paper: { ...plan.paper, widthMm: 320, heightMm: 200 },
      brushes: [{ name: 'flat', tipMm: 4, pressedMm: 16 }],
    }));
    await store.open(await picture(), { keepPlan: true });
    const words = await told(element, /photo/);
    expect(words).to.match(
      /One spot of the photo has it; (one more place hints|\d more places hint)/,
    );
    store.takeUp(store.plan);
    expect(await told(element, /swatch\.$/)).not.to.contain('photo');
  });

  it('say nothing while the verdict is hidden', async () => {
    const element = await board([...STONES, POPPY], 'reveal="never"');
    await new Promise((resolve) => setTimeout(resolve, 500));
    await settled(element);
    expect(all(element, '[data-id=p]')).to.have.length(1);
    expect(all(element, '[part=accent]')).to.have.length(0);
  });

  it('speak German', async () => {
    setWords(GERMAN, 'de');
    const element = await board([BRICK, ...STONES, POPPY], 'lang="de"');
    const words = await told(element, /Buntheit/);
    expect(words).to.contain('Buntheit 65 zwischen Neutralen von 2.');
    expect(words).to.contain('um 3 dunkler');
    expect(words).to.contain('Ihr Farbton kehrt wieder in brick.');
  });
});
