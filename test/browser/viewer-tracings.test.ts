/** Tracings over the picture and masses as a state of it, on a picture whose shapes are known. */
import { resetMouse, sendKeys, sendMouse, setViewport } from '@web/test-runner-commands';
import { expect } from 'chai';
import type { Lab } from '../../core/base/types.js';
import { massesAsked, MassesInHand } from '../../components/shared/masses-in-hand.js';
import {
  button,
  clear,
  coloured,
  faultsOf,
  flooded,
  frames,
  massesOf,
  onScreen,
  painted,
  shown,
  textOf,
  until,
  type Shown,
} from './viewer-masses-helpers.js';

const told = ({ root }: Shown): string => textOf(root.querySelector('[part="tracings"]'));
const card = ({ root }: Shown): string => textOf(root.querySelector('.mass-card'));
/** Which tracings are drawn, by what only they draw. */
const drawn = ({ root }: Shown): string[] =>
  Object.entries({
    masses: '.trace-mass',
    edges: '.trace-edge',
    reserves: '.trace-reserve',
    marks: '.trace-mark',
    strokes: '.trace-stroke',
  })
    .filter(([, selector]) => root.querySelector(`.traced ${selector}`))
    .map(([name]) => name);

/** Whether masses are painted: the white dot in the dark is gone. */
const inMasses = (page: Shown): boolean => {
  const { greys, width } = painted(page);
  return greys[40 * width + 40] === greys[40 * width + 20];
};

async function open(page: Shown): Promise<void> {
  button(page.root, /^Tracings$/).click();
  await until(() => page.root.querySelector('[part="tracings"]'), 'the panel');
  await page.viewer.updateComplete;
}

describe('tracings', () => {
  before(async () => {
    document.documentElement.lang = 'en';
    await setViewport({ width: 1000, height: 900 });
  });
  afterEach(async () => {
    await resetMouse();
    clear();
    document.documentElement.lang = 'en';
  });

  it('shows exactly those that the attribute names, in any mix', async () => {
    const page = await shown({ controls: 'views', tracings: 'edges' });
    await massesOf(page.store);
    for (const names of [
      'edges',
      'masses',
      'masses reserves marks',
      'strokes',
      'reserves strokes',
      'nothing of the kind',
      '',
    ]) {
      page.viewer.setAttribute('tracings', names);
      const wanted = names
        .split(' ')
        .filter((name) => /^(masses|edges|reserves|marks|strokes)$/.test(name));
      if (wanted.includes('strokes'))
        await until(() => page.root.querySelector('.trace-stroke'), 'strokes');
      await until(
        () => drawn(page).join() === wanted.join(),
        `only ${names}, not ${drawn(page).join()}`,
      );
    }
  });

  it('works in a viewer that shows a bar of its own and none of the controls', async () => {
    const page = await shown({ controls: 'views', tracings: 'masses' });
    await massesOf(page.store);
    await until(() => page.root.querySelector('.trace-mass'), 'masses');
    expect(page.root.querySelector('[part="tracings"]')).to.equal(null);
    expect([...page.root.querySelectorAll('[part="views"] button')].map(textOf)).to.eql([
      'Photo',
      'Greys',
      'Bands',
      'Masses',
    ]);
  });

  it('paints each mass in the one flat tone of its band', async () => {
    const page = await shown({ controls: 'views', view: 'masses' });
    const { masses } = await massesOf(page.store);
    await until(() => inMasses(page), 'flat tones');
    const { greys, width } = painted(page);
    expect(width).to.equal(masses.map.width);
    const toneOf = new Map<number, Set<number>>();
    greys.forEach((grey, i) => {
      const band = masses.regions[masses.labels[i]].band;
      if (!toneOf.has(band)) toneOf.set(band, new Set());
      toneOf.get(band)!.add(grey);
    });
    expect([...toneOf.values()].every((tones) => tones.size === 1)).to.equal(true);
    // Dark, middle, light and paper white, from the left to the right: as the picture was drawn.
    const [dark, middle, light, paper] = [
      [30, 100],
      [120, 60],
      [165, 80],
      [200, 45],
    ].map(([x, y]) => greys[y * width + x]);
    expect(dark < middle && middle < light && light < paper).to.equal(true);
    expect(paper).to.equal(255);
    // The small dots are no masses.
    expect(greys[40 * width + 40]).to.equal(dark);
    expect(greys[120 * width + 120]).to.equal(middle);
    expect(page.root.querySelector('canvas.top')!.getAttribute('aria-label')).to.match(/masses/i);
  });

  it('tells of the mass that is pressed its band, its area and its size in brushes', async () => {
    const page = await shown({ controls: 'views tracings', view: 'masses', tracings: 'masses' });
    await massesOf(page.store);
    await open(page);
    await until(() => inMasses(page), 'flat tones');
    for (const [x, y, band] of [
      [30, 100, 'dark'],
      [120, 60, 'middle'],
      [200, 45, 'bare paper'],
    ] as const) {
      const pixels = flooded(painted(page), x, y);
      await sendMouse({ type: 'click', position: onScreen(page, x, y) });
      const text = await until(() => /^Mass \d/.test(card(page)) && card(page), 'the facts');
      expect(text).to.contain(`in ${band}`);
      // A pixel is a square millimetre; the brush's stroke is 12 mm wide.
      expect(text).to.contain(`${(pixels / 100).toFixed(1)} cm²`);
      expect(text).to.contain(`${((100 * pixels) / (240 * 160)).toFixed(1)} %`);
      expect(text).to.contain(
        `${((2 * Math.sqrt(pixels / Math.PI)) / 12).toFixed(1)} widths of the round`,
      );
      button(page.root, /^Leave it$/).click();
      await until(() => card(page).startsWith('Press a mass'), 'letting go');
    }
    // What was drawn 80 mm wide is 128 cm² large: the count is not far from what the picture holds.
    expect(flooded(painted(page), 30, 100)).to.be.closeTo(12_800, 400);
  });

  it('goes through the masses by keys, largest first, and says what each is', async () => {
    const page = await shown({ controls: 'views tracings', tracings: 'masses' });
    const { masses } = await massesOf(page.store);
    await open(page);
    button(page.root, /^Next smaller$/).focus();
    const areas: number[] = [];
    for (let i = 0; i < masses.regions.length; i++) {
      await sendKeys({ press: 'Enter' });
      await until(
        () => card(page).startsWith(`Mass ${i + 1} of ${masses.regions.length}`),
        'the next',
      );
      areas.push(Number(/([\d.]+) cm²/.exec(card(page))![1]));
    }
    expect(areas).to.eql([...areas].sort((a, b) => b - a));
    expect(areas.reduce((sum, area) => sum + area, 0)).to.be.closeTo(384, 0.5);
    await sendKeys({ press: 'Enter' });
    await until(() => card(page).startsWith('Mass 1 of'), 'the first again');
    expect(page.root.querySelectorAll('.trace-picked').length).to.equal(1);
  });

  it('a stopped piece of work says so and can be begun again', async () => {
    const page = await shown({ controls: 'views tracings' });
    await open(page);
    const masses = MassesInHand.of(page.store);
    masses.addEventListener('masses', () => masses.stop(), { once: true });
    button(page.root, /^Edges$/).click();
    await until(() => told(page).includes('not worked out'), 'the word');
    expect(await faultsOf(page)).to.eql([]);
    button(page.root, /^Try again$/).click();
    await until(() => page.root.querySelector('.trace-edge'), 'edges');
    expect(told(page)).not.to.contain('not worked out');
  });

  it('keeps the last masses in sight until those of a moved limit come', async () => {
    const page = await shown({ controls: 'views ladder', tracings: 'masses' });
    await massesOf(page.store);
    await until(() => page.root.querySelector('.trace-mass'), 'masses');
    const before = page.root.querySelector('.trace-mass')!.getAttribute('d');
    let gone = false;
    const watch = new MutationObserver(() => {
      gone ||= page.root.querySelector('.trace-mass') === null;
    });
    watch.observe(page.root, { childList: true, subtree: true });
    page.store.change('limits', (now) => ({ ...now, photoLimits: [30, 60] }));
    page.store.change('limits', (now) => ({ ...now, photoLimits: [45, 60] }));
    await massesOf(page.store);
    await until(
      () => page.root.querySelector('.trace-mass')!.getAttribute('d') !== before,
      'new ones',
    );
    watch.disconnect();
    expect(gone).to.equal(false);
  });

  it('draws soft edges broken, and tells how they are read', async () => {
    const page = await shown({ controls: 'views tracings', tracings: 'edges' });
    const { edges, masses } = await massesOf(page.store);
    await open(page);
    const between = (a: number, b: number): string =>
      edges.find(
        ({ regions }) => regions.includes(masses.labels[a]) && regions.includes(masses.labels[b]),
      )!.kind;
    // 20 mm from dark to middle, a step from middle to light.
    expect(between(100 * 240 + 30, 100 * 240 + 120)).to.equal('soft');
    expect(between(80 * 240 + 120, 80 * 240 + 168)).to.equal('hard');
    const soft = await until(() => page.root.querySelector('path.trace-soft'), 'the soft one');
    expect(getComputedStyle(soft).strokeDasharray).to.not.equal('none');
    expect(told(page)).to.contain('Broken: soft');
  });

  it('tells how each light is kept: by pattern, word and share of the paper', async () => {
    const page = await shown({ controls: 'views tracings', tracings: 'reserves' });
    const { advice, masses } = await massesOf(page.store);
    await open(page);
    await until(() => page.root.querySelector('.trace-bare'), 'the disc');
    // The disc is painted around; strip and dot are narrower than the stroke.
    expect(page.root.querySelectorAll('path.trace-bare').length).to.equal(1);
    expect(page.root.querySelectorAll('path.trace-mask').length).to.equal(1);
    expect(page.root.querySelectorAll('circle.trace-mask').length).to.equal(1);
    expect(page.root.querySelector('.trace-tint')).to.equal(null);
    expect(told(page)).to.contain('one light left bare').and.to.contain('2 lights masked');
    // Disc 20 mm, strip 50 x 10, dot 4 mm in radius, counted by geometry.
    const bare = Math.PI * 400 + 500 + Math.PI * 16;
    const [, share, area] = /([\d.]+) % of the paper is bare at the end: ([\d.]+) cm²/.exec(
      told(page),
    )!;
    expect(Number(share)).to.be.closeTo((100 * bare) / (240 * 160), 0.4);
    expect(Number(area)).to.be.closeTo(bare / 100, 1.5);
    expect(told(page)).to.contain('bone dry paper').and.to.contain('follow the label');
    expect(page.root.querySelectorAll('.traced-list li').length).to.equal(advice.lights.length);
    const disc = masses.labels[45 * 240 + 200];
    const at = [200 / 240, 45 / 160] as [number, number];
    page.store.change('shapes', (now) => ({
      ...now,
      overrules: [{ kind: 'reserve', at, method: 'paint' }],
    }));
    const given = await massesOf(page.store);
    expect(given.advice.lights.find(({ region }) => region === disc)?.method).to.equal('paint');
    await until(() => page.root.querySelector('.trace-bare') === null, 'the disc to be gone');
    expect(told(page)).to.contain('given up');
    expect(await faultsOf(page)).to.eql([]);
  });

  it('numbers the marks that are kept as the order of work does, with their size', async () => {
    const page = await shown({ controls: 'views tracings', tracings: 'marks' });
    await massesOf(page.store);
    await open(page);
    await until(() => page.root.querySelectorAll('.trace-mark').length === 2, 'both marks');
    const numbers = (): string[] => [...page.root.querySelectorAll('.trace-number')].map(textOf);
    expect(numbers()).to.eql(['1', '2']);
    const items = (): string[] => [...page.root.querySelectorAll('.traced-list li')].map(textOf);
    const light = items().findIndex((each) => each.startsWith('Light'));
    // 8 mm across, as it was drawn.
    expect(items()[light]).to.match(/^Light, (7\.\d|8|8\.\d) mm across: masked\.$/);
    expect(items()[1 - light]).to.match(/^Dark, (7\.\d|8|8\.\d) mm across: painted last\.$/);
    page.store.change('shapes', (now) => ({
      ...now,
      overrules: [{ kind: 'mark', at: [40 / 240, 40 / 160] as [number, number], keep: false }],
    }));
    await massesOf(page.store);
    await until(
      () => page.root.querySelectorAll('.trace-mark').length === 1,
      'the dropped one to be gone',
    );
    expect(numbers()).to.eql(['1']);
    const { marks } = await page.store.run('order', {
      ...massesAsked(page.store.plan),
      plan: page.store.plan,
    });
    expect(marks.map(({ number, light: isLight }) => [number, isLight])).to.eql([[1, false]]);
  });

  it('parts of another lean: dabs of the photo, the nearest swatches, and how they meet', async () => {
    const swatch = (id: string, a: number): object => ({
      id,
      name: id,
      bucket: 1,
      lightness: 52,
      lab: [52, a, 10],
    });
    const page = await shown(
      { controls: 'views tracings', tracings: 'passages' },
      { paperLimit: undefined },
      { picture: coloured },
    );
    page.store.change('board', (now) => ({
      ...now,
      board: {
        ...now.board,
        swatches: [swatch('moss', -20), swatch('brick', 20)] as typeof now.board.swatches,
      },
    }));
    await massesOf(page.store);
    await open(page);
    await until(() => page.root.querySelector('.trace-apart')?.getAttribute('d'), 'the border');
    // Green above red: one border across the middle, at y = 80.
    const ys = page.root
      .querySelector('.trace-apart')!
      .getAttribute('d')!
      .match(/[ML][\d.]+ [\d.]+/g)!
      .map((each) => Number(each.split(' ')[1]));
    expect(ys.every((y) => Math.abs(y - 80) < 4)).to.equal(true);
    expect(page.root.querySelector('.trace-run')!.getAttribute('d')).to.equal('');
    const items = [...page.root.querySelectorAll('.traced-list li')].map(textOf);
    expect(
      items.some((each) =>
        /^green.*nearest swatch: moss$|^yellow-green.*nearest swatch: moss$/.test(each),
      ),
      items.join('; '),
    ).to.equal(true);
    expect(
      items.some((each) => /^(red|orange).*nearest swatch: brick$/.test(each)),
      items.join('; '),
    ).to.equal(true);
    expect(
      items.some((each) => /^neutral.*no dry swatch/.test(each)),
      items.join('; '),
    ).to.equal(true);
    expect(await faultsOf(page)).to.eql([]);
  });

  it('small spots of strong colour: their band, vividness and cost in value', async () => {
    const page = await shown(
      { controls: 'views tracings', tracings: 'accents' },
      { paperLimit: undefined },
      { picture: coloured },
    );
    await massesOf(page.store);
    await open(page);
    await until(() => page.root.querySelector('.trace-accent'), 'the accent');
    expect(page.root.querySelectorAll('.trace-accent').length).to.equal(1);
    const item = page.root.querySelector('.traced-list li')!;
    // L* 45 in a light of 77: a middle by its own value, 32 darker; chroma sqrt(62² + 40²) = 74 among greys.
    expect(textOf(item)).to.contain('it belongs to middle; the mass about it is light');
    const [, chroma, surround] = /Chroma (\d+) among (\d+)/.exec(textOf(item))!;
    expect(Number(chroma)).to.be.closeTo(74, 3);
    expect(Number(surround)).to.be.lessThan(4);
    const [, cost] = /makes it (\d+) L\* darker/.exec(textOf(item))!;
    expect(Number(cost)).to.be.closeTo(32, 2);
    page.root.querySelector('details')!.open = true;
    await page.viewer.updateComplete;
    button(item, /^Accent 1, red$/).click();
    await until(() => page.root.querySelector('.trace-chosen'), 'the accent in hand');
    // The red half of the middle hints at it.
    await until(() => page.root.querySelector('.trace-hint'), 'where it might be repeated');
    expect(await faultsOf(page)).to.eql([]);
  });

  it('the board’s swatches for accents: what they cost, whether the plan repeats them, and where it might', async () => {
    const page = await shown(
      { controls: 'views tracings', tracings: 'accents' },
      { paperLimit: undefined },
      { picture: coloured },
    );
    await massesOf(page.store);
    await open(page);
    await until(() => page.root.querySelector('.trace-accent'), 'the accent');
    expect(textOf(page.root.querySelector('.tracings'))).to.contain(
      'None of the board’s swatches is marked as an accent yet',
    );
    const swatch = (name: string, bucket: number, lab: Lab, accent = false) => ({
      ...{ id: name, name, bucket, lightness: lab[0], lab },
      ...(accent ? { accent } : {}),
    });
    page.store.change('swatches', (now) => ({
      ...now,
      board: {
        ...now.board,
        swatches: [
          swatch('ribbon', 1, [45, 62, 40], true),
          swatch('grey', 1, [50, 0, 0]),
          // Of the ribbon's hue, 32.8 degrees, within one degree.
          swatch('berry', 0, [25, 40, 25]),
          swatch('sky', 1, [50, -5, -45], true),
        ],
      },
    }));
    const planned = (): Element[] => [...page.root.querySelectorAll('details[open] li')];
    await until(() => planned().length === 2, 'both accents');
    const [ribbon, sky] = planned().map(textOf);
    // Against the bucket's one grey of L* 50: chroma sqrt(62² + 40²) = 73.8, 5 L* darker.
    expect(ribbon).to.contain('Chroma 74 among 0.');
    expect(ribbon).to.contain('makes it 5 L* darker');
    expect(ribbon).to.contain('The photo has its hue once: accent 1.');
    expect(ribbon).to.contain('Other swatches carry its hue on: berry.');
    expect(ribbon).to.contain('It might come again at');
    expect(sky).to.contain('None of the photo’s accents has its hue.');
    expect(sky).to.contain('No other place of the photo carries its hue.');
    expect(textOf(page.root.querySelector('.traced-list li'))).to.contain('On the board: ribbon.');
    button(planned()[0], /^ribbon$/).click();
    await until(() => page.root.querySelector('.trace-hint'), 'where it might come again');
    // What is in hand can be read, too.
    expect(await faultsOf(page)).to.eql([]);
  });

  it('is at one with axe in each state, at 360 pixels, and in forced colours’ own marks', async () => {
    const page = await shown({ controls: 'views tracings' }, {}, { width: 328 });
    await open(page);
    expect(await faultsOf(page), 'nothing chosen').to.eql([]);
    for (const name of ['Masses', 'Edges', 'Reserves', 'Marks', 'Strokes'])
      button(page.root, new RegExp(`^${name}$`)).click();
    await massesOf(page.store);
    await until(() => page.root.querySelector('.trace-stroke'), 'all of them');
    await page.viewer.updateComplete;
    expect(await faultsOf(page), 'all chosen').to.eql([]);
    await setViewport({ width: 360, height: 800 });
    await frames();
    const main = page.viewer.getBoundingClientRect();
    for (const each of page.root.querySelectorAll('.tracings button, .tracings p')) {
      const { left, right } = each.getBoundingClientRect();
      expect(left >= main.left - 1 && right <= main.right + 1, textOf(each)).to.equal(true);
    }
    await setViewport({ width: 1000, height: 900 });
  });
});
