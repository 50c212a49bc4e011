/** The painting check in a real browser: corners, findings, refusals, landmarks, kept checks, the picture to hand over, access. */
import { expect } from 'chai';
import {
  emulateMedia,
  resetMouse,
  sendKeys,
  sendMouse,
  setViewport,
} from '@web/test-runner-commands';
import type { PaintingCheck } from '../../components/painting-check/painting-check.js';
import type { CheckKeepEvent } from '../../components/shared/events/check-keep.js';
import type { CheckMadeEvent } from '../../components/shared/events/check-made.js';
import type { DeliveryEvent } from '../../components/shared/events/delivery.js';
import type { KitErrorEvent } from '../../components/shared/events/kit-error.js';
import { setWords } from '../../components/shared/strings.js';
import { GERMAN } from '../../components/shared/words/de/index.js';
import { parsePlan, serialisePlan, type Corners, type Step } from '../../core/index.js';
import { areaOf, clear, faultsOf, inside, targetsOf, until } from './access-helpers.js';
import {
  another,
  bare,
  blurred,
  checked,
  CORNERS,
  grey,
  PAINTED,
  PAPER,
  planPhoto,
  settled,
  SHAPES,
  shot,
  withPainting,
  withPlan,
  type Befall,
} from './painting-check-helpers.js';

const all = (element: Element, selector: string): HTMLElement[] => [
  ...element.shadowRoot!.querySelectorAll<HTMLElement>(selector),
];
const press = async (element: PaintingCheck, selector: string): Promise<void> => {
  inside<HTMLButtonElement>(element, selector).click();
  await settled(element);
};
const textOf = (element: Element, selector: string): string =>
  inside(element, selector).textContent!.replace(/\s+/g, ' ').trim();
const cm2 = (...names: (keyof typeof SHAPES)[]): number =>
  names.reduce((sum, name) => sum + SHAPES[name][2] * SHAPES[name][3], 0) *
  ((PAPER.widthMm * PAPER.heightMm) / 100);
const off = (a: Corners, b: Corners): number =>
  Math.max(...a.map(([x, y], i) => Math.hypot(x - b[i][0], y - b[i][1])));

describe('painting-check', function () {
  this.timeout(60000);
  before(() => {
    document.documentElement.lang = 'en';
    document.documentElement.style.setProperty('color-scheme', 'light dark');
    document.body.style.setProperty('background', 'light-dark(#f5f5f5, #1b1b1b)');
    document.body.style.setProperty('color', 'light-dark(#1c1c1c, #ececec)');
    document.title = 'Painting check';
  });
  beforeEach(() => setViewport({ width: 1200, height: 1000 }));
  afterEach(async () => {
    clear();
    await resetMouse();
  });
  after(() => emulateMedia({ colorScheme: 'light' }));

  describe('before a check', () => {
    it('teaches: first the plan’s photo, then the painting’s, each in its own place', async () => {
      const element = await bare();
      expect(textOf(element, '.empty')).to.contain('Open the photo that you paint from first');
      await element.intake.given(new File([await planPhoto()], 'shapes.png'));
      await settled(element);
      expect(element.store.picture.name).to.equal('shapes.png');
      expect(element.painting.picture.handle).to.equal(undefined);
      expect(textOf(element, '.empty')).to.contain('No photo of the painting yet');
      const photo = element.store.picture.handle;
      await element.intake.given(new File([await shot()], 'painting.png'));
      await settled(element);
      expect(element.painting.picture.name).to.equal('painting.png');
      expect(element.store.picture.handle).to.equal(photo);
    });

    it('says ready once, and an error with its sentence', async () => {
      const element = await withPlan();
      let ready = 0;
      const errors: KitErrorEvent[] = [];
      element.addEventListener('ready', () => ready++);
      element.addEventListener('error', (event) => errors.push(event as unknown as KitErrorEvent));
      element.picture = new Blob(['no picture'], { type: 'image/png' });
      await until(() => errors.length > 0, 'the error');
      expect(errors[0].message).to.match(/^[A-Z].*\.$/);
      element.picture = await shot();
      await until(() => ready > 0, 'ready');
      element.picture = await shot({ dark: 40 });
      await settled(element);
      expect(ready).to.equal(1);
    });

    it('finds the painted part by itself within 1 % of the photo', async () => {
      const element = await withPainting(await shot(), null);
      await until(() => !inside<HTMLButtonElement>(element, '[data-find]').disabled, 'the sheet');
      await until(() => off(element.corners!, CORNERS) < 0.01, 'the corners');
    });

    it('moves corners by keys and by mouse; handles are 44 px', async () => {
      const element = await withPainting(await shot());
      const corner = inside(element, '[data-handle=corner-0]');
      const box = corner.getBoundingClientRect();
      expect(Math.min(box.width, box.height)).to.be.at.least(44);
      corner.focus();
      await sendKeys({ press: 'ArrowRight' });
      await settled(element);
      expect(element.corners![0][0] - CORNERS[0][0]).to.be.closeTo(0.0025, 1e-9);
      await sendKeys({ down: 'Shift' });
      await sendKeys({ press: 'ArrowUp' });
      await sendKeys({ up: 'Shift' });
      await settled(element);
      expect(element.corners![0][1] - CORNERS[0][1]).to.be.closeTo(-0.02, 1e-9);
      expect(element.shadowRoot!.activeElement).to.equal(corner);
      expect(corner.getAttribute('aria-label')).to.match(/^Upper left corner: \d+ % across/);
      expect(element.shadowRoot!.querySelector('.loupe')).to.not.equal(null);
      const before = element.corners![2];
      const stage = inside(element, '[data-stage=photo]').getBoundingClientRect();
      const last = inside(element, '[data-handle=corner-2]').getBoundingClientRect();
      const from: [number, number] = [
        Math.round(last.x + last.width / 2),
        Math.round(last.y + last.height / 2),
      ];
      await sendMouse({ type: 'move', position: from });
      await sendMouse({ type: 'down' });
      await sendMouse({ type: 'move', position: [from[0] - 30, from[1] - 20] });
      await sendMouse({ type: 'up' });
      await settled(element);
      expect(element.corners![2][0]).to.be.closeTo(before[0] - 30 / stage.width, 0.002);
      expect(element.corners![2][1]).to.be.closeTo(before[1] - 20 / stage.height, 0.002);
    });

    it('finds it in the demo’s painting, and holds back what later steps will lay', async () => {
      const element = await withPlan();
      const get = async (name: string) => fetch(`/demo/pictures/${name}`);
      await element.store.open(await (await get('clay-dog-900.jpg')).blob());
      const painted = (await (await get('painted.json')).json()) as {
        paper: { widthMm: number; heightMm: number };
        thresholds: number[];
        targets: number[];
        stages: { file: string; corners: Corners }[];
      };
      element.store.change('demo', ({ paperLimit: _paperLimit, ...plan }) => ({
        ...plan,
        paper: { ...painted.paper, lightness: 95 },
        photoLimits: painted.thresholds.map((code) => code / 2.55),
        paintLimits: painted.thresholds.map((code) => code / 2.55),
        brushes: [{ name: 'round 12', tipMm: 2, pressedMm: 14 }],
        way: 'light-to-dark',
        board: {
          ...plan.board,
          swatches: painted.targets.map((lightness, bucket) => ({
            id: `d-${bucket}`,
            bucket,
            lightness,
          })),
        },
      }));
      element.picture = await (await get('painting-1.jpg')).blob();
      await until(() => element.painting.picture.status === 'ready', 'the painting');
      await until(() => off(element.corners!, painted.stages[0].corners) < 0.01, 'the corners');
      const steps = (): string[] =>
        all(element, '[data-step] option').map((each) => each.textContent!);
      await until(() => steps().some((name) => /Lay “dark”/.test(name)), 'the steps');
      // The first option is for nothing laid, so this is the step before the first darks.
      element.upToStep = steps().findIndex((name) => /Lay “dark”/.test(name)) - 2;
      const report = (await element.check())!;
      await settled(element);
      expect(report.warnings).to.eql([]);
      expect(report.comparison.toCome.length).to.be.greaterThan(0);
      expect(textOf(element, '[data-to-come]')).to.contain('to come with');
      const listed = new Set(all(element, '.finding').map((each) => each.dataset.finding));
      for (const region of report.comparison.toCome)
        expect(listed.has(`mass-${region}`)).to.equal(false);
    });

    it('takes white from a spot that is moved by keys', async () => {
      const element = await withPainting(await shot());
      await press(element, '[data-white=spot]');
      const ring = inside(element, '[data-handle=white]');
      const { white } = element;
      ring.focus();
      await sendKeys({ press: 'ArrowLeft' });
      await settled(element);
      if (white.from !== 'spot' || element.white.from !== 'spot') throw new Error('no spot');
      expect(element.white.at[0] - white.at[0]).to.be.closeTo(-0.0025, 1e-9);
      await element.check();
      expect(element.report!.warnings).to.eql([]);
      expect(element.report!.comparison.agreement).to.be.greaterThan(0.97);
    });
  });

  describe('findings', () => {
    it('of a painting that is its plan: none', async () => {
      const element = await checked(await shot());
      expect(textOf(element, '.head')).to.match(/as planned/);
      expect(all(element, '[data-part=masses] .finding')).to.eql([]);
      expect(textOf(element, '[data-part=reserves]')).to.contain('All whites');
      expect(textOf(element, '[data-part=afar]')).to.contain('It reads as its plan');
    });

    it('names what is too dark and too light, by value and area, with what to do in paint', async () => {
      // Known from how the picture is drawn: the ground 10 L* too dark, the dark 12 L* too light.
      const element = await checked(await shot({ ground: 50, dark: 42 }));
      const findings = all(element, '[data-part=masses] .finding');
      expect(findings).to.have.length(2);
      const [ground, dark] = element.report!.comparison.corrections;
      expect(ground.shift).to.be.closeTo(10, 1);
      expect(dark.shift).to.be.closeTo(-12, 1);
      const told = findings.map((each) => each.textContent!.replace(/\s+/g, ' '));
      expect(told[0]).to.match(/(0\.9|1\.0|1\.1) value steps too dark/);
      expect(told[1]).to.match(/1\.[123] value steps too light/);
      const areas = told.map((text) => Number(/([\d.]+) cm²/.exec(text)![1]));
      const whole = (PAPER.widthMm * PAPER.heightMm) / 100;
      expect(areas[0]).to.be.closeTo(whole - cm2('dark', 'light', 'paper'), 0.03 * whole);
      expect(areas[1]).to.be.closeTo(cm2('dark'), 0.02 * whole);
      expect(findings[1].dataset.act).to.equal('glaze');
      expect(told[1]).to.match(/Spoonfuls: [\d.]+ (ultramarine|burnt sienna)/);
      expect(['lift', 'restart']).to.include(findings[0].dataset.act);
      expect(told[0]).to.match(/lifting brings back \d+ % of the way to paper/);
      await press(element, '[data-figures]');
      expect(textOf(element, '[data-part=masses]')).to.match(/L\* 4[123]\.\d instead of 30\.0/);
    });

    it('a lost white comes before the masses, drawing before all', async () => {
      const element = await checked(await shot({ paper: 70, ground: 52 }));
      expect(all(element, '[data-part]').map((each) => each.dataset.part)).to.eql([
        'drawing',
        'reserves',
        'masses',
        'islands',
        'edges',
        'afar',
      ]);
      const [lost] = all(element, '[data-part=reserves] .finding');
      expect(lost.textContent).to.contain('It was to stay bare paper');
      expect(textOf(element, '.head')).to.contain('A white is lost.');
    });

    it('pressing one shows it in the picture, by mouse and by keyboard', async () => {
      const element = await checked(await shot({ ground: 50, dark: 42 }));
      const place = all(element, '.finding .place')[1];
      place.focus();
      await sendKeys({ press: 'Enter' });
      await settled(element);
      expect(place.getAttribute('aria-pressed')).to.equal('true');
      const strong = inside(element, '.line.strong') as unknown as SVGPathElement;
      const box = strong.getBBox();
      const [x, y, w, h] = SHAPES.dark;
      expect(box.x).to.be.closeTo(x * 480, 12);
      expect(box.y).to.be.closeTo(y * 360, 12);
      expect(box.width).to.be.closeTo(w * 480, 20);
      expect(box.height).to.be.closeTo(h * 360, 20);
      await sendKeys({ press: 'Enter' });
      await settled(element);
      expect(element.shadowRoot!.querySelector('.line.strong')).to.equal(null);
    });

    it('masses of later steps are to come, no faults', async () => {
      const element = await withPainting(await shot({ dark: 95 }));
      const steps = all(element, '[data-step] option').map((each) => each.textContent!);
      const darks = steps.findIndex((name) => /dark/.test(name)) - 1;
      element.store.change('way', (plan) => ({ ...plan, way: 'light-to-dark' }));
      await settled(element);
      await until(
        () => /dark/.test(all(element, '[data-step] option').at(-1)!.textContent!),
        'the order from light to dark',
      );
      expect(darks).to.be.at.least(0);
      const count = all(element, '[data-step] option').length - 1;
      element.upToStep = count - 2;
      await element.check();
      await settled(element);
      expect(element.report!.comparison.toCome).to.have.length(1);
      expect(textOf(element, '[data-to-come]')).to.match(/1 mass is to come .* no fault/);
      expect(all(element, '[data-part=masses] .finding')).to.eql([]);
      expect(element.report!.comparison.corrections.some(({ shift }) => shift < -20)).to.equal(
        false,
      );
    });

    it('the last ticked step is the one that counts', async () => {
      const element = await withPainting(await shot());
      const steps = await element.store.run('order', {
        ...(await import('../../components/shared/masses-in-hand.js')).massesAsked(
          element.store.plan,
        ),
        plan: element.store.plan,
      });
      const [first] = steps.steps;
      element.store.change('steps', (plan) => ({
        ...plan,
        steps: [{ ...(first as Step), done: true }],
      }));
      await until(
        () => inside<HTMLSelectElement>(element, '[data-step]').value === '0',
        'the ticked step',
      );
    });

    it('lifts the corner off the photo and shows bands; stepping back asks anew', async () => {
      const element = await checked(await shot({ light: 70 }));
      const canvas = inside<HTMLCanvasElement>(element, '[data-canvas=findings]');
      const at = (x: number, y: number): number =>
        canvas.getContext('2d')!.getImageData(x * canvas.width, y * canvas.height, 1, 1).data[0];
      await press(element, '[data-look=bands]');
      // A light painted 70 is nearer to the middle band (60) than to the light one (85).
      const [painted] = [at(0.65, 0.25)];
      const lift = inside<HTMLInputElement>(element, '[data-lift]');
      lift.value = '100';
      lift.dispatchEvent(new Event('input'));
      await settled(element);
      const planned = at(0.65, 0.25);
      expect(planned - painted).to.be.greaterThan(40);
      const before = element.report!;
      const core = await element.painting.core();
      const { run } = core;
      const jobs: string[] = [];
      core.run = ((job: string, ...rest: unknown[]) => {
        jobs.push(job);
        return (run as (...all: unknown[]) => unknown).call(core, job, ...rest);
      }) as typeof run;
      const slider = inside<HTMLInputElement>(element, '[data-distance]');
      slider.value = '6';
      slider.dispatchEvent(new Event('input'));
      slider.dispatchEvent(new Event('change'));
      await until(() => element.report !== before && element.report, 'the check from afar');
      core.run = run;
      await settled(element);
      expect(textOf(element, '[data-part=afar]')).to.contain('From 6 m');
      // Only how it reads was asked anew; what was found stays what it was.
      expect(jobs).to.eql(['checkAfar']);
      expect(element.report!.comparison).to.equal(before.comparison);
      expect(element.report!.afar.similarity).to.not.equal(before.afar.similarity);
    });

    it('can be stopped; the one before stays', async () => {
      const element = await checked(await shot());
      const { report } = element;
      const again = element.check();
      await until(() => element.shadowRoot!.querySelector('[data-stop]'), 'the stop');
      await press(element, '[data-stop]');
      expect(await again).to.equal(null);
      expect(element.report).to.equal(report);
      expect(element.shadowRoot!.textContent).to.contain('The check was stopped');
    });

    it('fires check-made when a person asked', async () => {
      const element = await withPainting(await shot());
      const heard: CheckMadeEvent[] = [];
      element.parentElement!.addEventListener('check-made', (event) => heard.push(event));
      await element.check();
      expect(heard).to.eql([]);
      await press(element, '[data-view=photo]');
      await press(element, '[data-check]');
      await until(() => heard.length === 1, 'the event');
      expect(heard[0].report).to.equal(element.report);
    });
  });

  describe('what is amiss', () => {
    it('a mirrored photo: said, refused, mended by mirroring', async () => {
      const element = await checked(await shot({}, true));
      expect(textOf(element, '[data-code="check.mirrored"]')).to.contain('Mirror it here');
      expect(all(element, '.finding')).to.eql([]);
      expect(all(element, '[data-keep]')).to.eql([]);
      await press(element, '[data-back]');
      await press(element, '[data-mirror]');
      await element.check();
      await settled(element);
      expect(element.report!.warnings).to.eql([]);
      await press(element, '[data-view=findings]');
      expect(textOf(element, '.head')).to.contain('as planned');
    });

    it('upside down: two quarter turns', async () => {
      const [tl, tr, br, bl] = CORNERS;
      const element = await checked(await shot(), [br, bl, tl, tr]);
      expect(inside(element, '[data-code="check.upside-down"]')).to.not.equal(null);
      await press(element, '[data-back]');
      await press(element, '[data-turn]');
      await press(element, '[data-turn]');
      expect(off(element.corners!, CORNERS)).to.be.lessThan(1e-9);
    });

    it('another painting: said and refused; kept checks are as they were', async () => {
      const element = await checked(await shot());
      await press(element, '[data-keep]');
      await until(() => element.store.plan.checks?.length === 1, 'the kept check');
      const { checks } = element.store.plan;
      element.picture = await another();
      await until(() => element.report === null, 'the other photo');
      await until(() => element.painting.picture.status === 'ready', 'the other photo');
      element.corners = CORNERS;
      await element.check();
      await settled(element);
      expect(textOf(element, '[data-code="check.other-painting"]')).to.contain(
        'Open the right photo',
      );
      expect(all(element, '[data-keep]')).to.eql([]);
      expect(element.store.plan.checks).to.equal(checks);
      await press(element, '[data-anyway]');
      expect(all(element, '[data-part]').length).to.be.greaterThan(3);
    });

    it('crossed corners: said, and put in order by a button', async () => {
      const [tl, tr, br, bl] = CORNERS;
      const element = await withPainting(await shot(), [tl, br, tr, bl]);
      const errors: Event[] = [];
      element.addEventListener('error', (event) => errors.push(event));
      expect(await element.check()).to.equal(null);
      await settled(element);
      expect(errors).to.have.length(1);
      expect(textOf(element, '[data-fault=CornersUnusable]')).to.contain('they cross');
      await press(element, '[data-order]');
      expect(off(element.corners!, CORNERS)).to.be.lessThan(1e-9);
      expect((await element.check())!.warnings).to.eql([]);
    });

    it('half a sheet: how much lies outside', async () => {
      const [tl, tr, br, bl] = CORNERS;
      const down: Corners = [tl, tr, [br[0], br[1] + 0.5], [bl[0], bl[1] + 0.5]];
      const element = await checked(await shot(), down);
      expect(textOf(element, '[data-code="check.cut-off"]')).to.match(/\d+ % of the painting lies/);
    });
  });

  describe('faults of the photo', () => {
    const { width, height, rim } = PAINTED;
    const lightOf = (share: number): string => {
      // sRGB transfer, IEC 61966-2-1: a share of the light under `multiply` is the transfer of that share.
      const byte = Math.round(255 * (1.055 * share ** (1 / 2.4) - 0.055));
      return `rgb(${byte}, ${byte}, ${byte})`;
    };
    const wordsFor = async (befall: Befall, code: string): Promise<string> => {
      const element = await checked(await shot({}, false, befall));
      return textOf(element, `[data-part=light] [data-code="${code}"]`);
    };

    it('uneven light: bars across rim and painting', async () => {
      const told = await wordsFor((context) => {
        context.globalCompositeOperation = 'multiply';
        context.fillStyle = lightOf(0.8);
        for (let x = -rim; x < width + rim; x += 40)
          context.fillRect(x, -rim, 20, height + 2 * rim);
      }, 'check.white-uneven');
      expect(told).to.match(
        /^The light on the paper differs by \d+ %: .*photograph it by a window/,
      );
    });

    it('a wet place that shines', async () => {
      const told = await wordsFor((context) => {
        const [x, y] = [0.22 * width, 0.4 * height];
        const shine = context.createRadialGradient(x, y, 5, x, y, 60);
        shine.addColorStop(0, 'rgb(255 255 255 / 1)');
        shine.addColorStop(0.6, 'rgb(255 255 255 / 1)');
        shine.addColorStop(1, 'rgb(255 255 255 / 0)');
        context.fillStyle = shine;
        context.fillRect(x - 60, y - 60, 120, 120);
      }, 'check.glare');
      // Discs of radius 36 and more within 60, of the 680 x 510 of the painting without its lights.
      const percent = Number(/^(\d+) % of the darker masses shines/.exec(told)![1]);
      expect(percent).to.be.within(1, 4);
      expect(told).to.contain('Let it dry');
    });

    it('no rim of paper', async () => {
      const told = await wordsFor((context) => {
        context.strokeStyle = grey(25);
        context.lineWidth = rim;
        context.strokeRect(-rim / 2, -rim / 2, width + rim, height + rim);
      }, 'check.no-margin');
      expect(told).to.match(
        /^Only \d+ % of the rim looks like bare paper, .*Choose a spot of bare paper/,
      );
    });

    it('a shadow on the painting: told, and what lies under it is not blamed', async () => {
      const element = await checked(
        await shot({}, false, (context) => {
          const [x, y] = [0.4 * width, 0.45 * height];
          const shade = context.createRadialGradient(x, y, 60, x, y, 190);
          shade.addColorStop(0, lightOf(0.6));
          shade.addColorStop(1, '#fff');
          context.globalCompositeOperation = 'multiply';
          context.fillStyle = shade;
          context.fillRect(x - 190, y - 190, 380, 380);
        }),
      );
      expect(textOf(element, '[data-code="check.shadow-on-painting"]')).to.contain(
        'Move out of the light, then photograph it again',
      );
      expect(element.report!.summary[0].code).to.equal('check.as-planned');
      expect(all(element, '[data-part=masses] [data-finding]')).to.eql([]);
    });

    it('a blurred photo: told, and no edge is called too soft', async () => {
      const element = await checked(await blurred(await shot()));
      expect(textOf(element, '[data-code="check.blur"]')).to.match(
        /^The photo is not sharp: the sharpest edge in it is [\d.]+ mm broad\./,
      );
      expect(textOf(element, '[data-part=edges]')).to.contain('not sharp enough to tell');
    });
  });

  describe('an order of work that cannot be made', () => {
    it('is told, and can be tried again', async () => {
      const element = await withPlan();
      const { run } = element.store;
      element.store.run = ((job: string, ...rest: unknown[]) =>
        job === 'order'
          ? Promise.reject(new Error('out of memory'))
          : (run as (...all: unknown[]) => unknown).call(
              element.store,
              job,
              ...rest,
            )) as typeof run;
      element.corners = CORNERS;
      element.picture = await shot();
      await until(() => element.shadowRoot!.querySelector('[data-steps-fault]'), 'the fault');
      expect(textOf(element, '[data-steps-fault]')).to.contain('could not be made (out of memory)');
      element.store.run = run;
      await press(element, '[data-steps-again]');
      await until(() => element.shadowRoot!.querySelector('[data-step] option'), 'the steps');
      expect(element.shadowRoot!.querySelector('[data-steps-fault]')).to.equal(null);
    });
  });

  describe('landmarks', () => {
    it('are kept with the plan: the next stage begins with them', async () => {
      const element = await checked(await shot());
      await press(element, '[data-view=drawing]');
      await press(element, '[data-add]');
      const name = inside<HTMLInputElement>(element, '[data-mark] input');
      name.value = 'tip of the jug';
      name.dispatchEvent(new Event('change'));
      const [planned, twin] = all(element, '.handle.mark');
      for (const [handle, key] of [
        [planned, 'ArrowLeft'],
        [twin, 'ArrowDown'],
      ] as const) {
        handle.focus();
        await sendKeys({ press: key });
      }
      await settled(element);
      const { landmarks } = parsePlan(serialisePlan(element.store.plan));
      expect(landmarks).to.have.length(1);
      expect(landmarks![0]).to.deep.include({ id: 'mark-1', name: 'tip of the jug' });
      // A quarter of a percent to the left of the middle.
      expect(landmarks![0].at[0]).to.be.closeTo(0.4975, 1e-9);
      element.picture = await shot({ dark: 40 });
      await until(() => element.report === null, 'the next stage');
      await element.check();
      await settled(element);
      await press(element, '[data-view=drawing]');
      expect(inside<HTMLInputElement>(element, '[data-mark] input').value).to.equal(
        'tip of the jug',
      );
      expect(textOf(element, '[data-mark]')).to.contain('Put its twin on the same place');
      element.store.undo();
      expect(element.store.plan.landmarks![0].at[0]).to.be.closeTo(0.5, 1e-9);
    });

    it('tell the displacement in mm on the paper', async () => {
      const element = await checked(await shot());
      await press(element, '[data-view=drawing]');
      await press(element, '[data-add]');
      const [twin] = all(element, '[data-stage=painting] .handle');
      twin.focus();
      // Two large steps of 2 % of a paper of 300 mm are 12 mm, one of 225 mm down is 4.5 mm.
      await sendKeys({ down: 'Shift' });
      await sendKeys({ press: 'ArrowRight' });
      await sendKeys({ press: 'ArrowRight' });
      await sendKeys({ press: 'ArrowDown' });
      await sendKeys({ up: 'Shift' });
      await settled(element);
      const told = textOf(element, '[data-off]');
      const [distance, right, down] = [...told.matchAll(/([\d.]+) mm/g)].map((m) => Number(m[1]));
      expect(right).to.be.closeTo(12, 0.8);
      expect(down).to.be.closeTo(4.5, 0.8);
      expect(distance).to.be.closeTo(Math.hypot(12, 4.5), 0.9);
      expect(told).to.contain('to the right').and.to.contain('down');
      expect(element.shadowRoot!.querySelector('[data-stage=painting] .line')).to.not.equal(null);
      await press(element, '[data-view=findings]');
      expect(textOf(element, '[data-part=drawing]')).to.contain('1 landmark');
    });

    it('are set by pressing on the photo', async () => {
      const element = await checked(await shot());
      await press(element, '[data-view=drawing]');
      const box = inside(element, '[data-stage=planned]').getBoundingClientRect();
      const position: [number, number] = [
        Math.round(box.x + 0.25 * box.width),
        Math.round(box.y + 0.6 * box.height),
      ];
      await sendMouse({ type: 'click', position });
      await settled(element);
      const [mark] = all(element, '[data-stage=planned] .handle');
      const at = mark.getBoundingClientRect();
      expect(at.x + at.width / 2).to.be.closeTo(position[0], 1.5);
      expect(at.y + at.height / 2).to.be.closeTo(position[1], 1.5);
      const remove = all(element, '[data-mark] button')[0];
      remove.click();
      await settled(element);
      expect(all(element, '.handle')).to.eql([]);
    });
  });

  describe('kept checks', () => {
    it('are one step of undo each, valid in the plan, with note and small picture', async () => {
      const element = await checked(await shot({ ground: 50 }));
      const heard: CheckKeepEvent[] = [];
      element.addEventListener('check-keep', (event) => heard.push(event));
      const note = inside<HTMLTextAreaElement>(element, '[data-note]');
      note.value = 'The wash ran under the tape';
      note.dispatchEvent(new Event('input'));
      const before = element.store.plan;
      await press(element, '[data-keep]');
      await until(() => heard.length === 1, 'the event');
      const [kept] = element.store.plan.checks!;
      expect(heard[0].what).to.equal('keep');
      expect(kept.note).to.equal('The wash ran under the tape');
      expect(kept.agreement).to.be.closeTo(element.report!.comparison.agreement, 1e-4);
      expect(kept.photo).to.match(/^[0-9a-f]{64}$/);
      const text = serialisePlan(element.store.plan);
      expect(serialisePlan(parsePlan(text))).to.equal(text);
      expect(text).to.not.contain('data:');
      element.store.undo();
      expect(element.store.plan).to.equal(before);
      element.store.redo();
      await settled(element);
      await press(element, '[data-view=checks]');
      const picture = inside<HTMLCanvasElement>(element, `[data-small="${kept.photo}"]`);
      await until(() => picture.width === 288, 'the small picture');
      expect(textOf(element, '[data-check-id]')).to.contain('kappa');
    });

    it('stand in a row with what became of the agreement; notes are changed, checks forgotten', async () => {
      const element = await checked(await shot({ ground: 76 }));
      await press(element, '[data-keep]');
      await until(() => element.store.plan.checks?.length === 1, 'the first check');
      element.picture = await shot();
      await until(() => element.report === null, 'the next photo');
      await until(() => element.painting.picture.status === 'ready', 'the next photo');
      element.corners = CORNERS;
      await element.check();
      await settled(element);
      await press(element, '[data-keep]');
      await until(() => element.store.plan.checks?.length === 2, 'the second check');
      await press(element, '[data-view=checks]');
      expect(textOf(element, '.lead')).to.match(/Agreement rose from \d+ % to \d+ % over 2 checks/);
      const rows = all(element, '[data-check-id]');
      const field = rows[0].querySelector('textarea')!;
      field.value = 'Too little paint';
      rows[0].querySelector<HTMLButtonElement>('[data-save-note]')!.click();
      await settled(element);
      expect(element.store.plan.checks![0].note).to.equal('Too little paint');
      rows[1].querySelector<HTMLButtonElement>('[data-forget]')!.click();
      await settled(element);
      expect(element.store.plan.checks).to.have.length(1);
      await press(element, '[data-undo]');
      expect(element.store.plan.checks).to.have.length(2);
    });

    it('are shown while there is no photo of the painting yet', async () => {
      const element = await withPlan();
      element.store.change('checks', (plan) => ({
        ...plan,
        checks: [
          {
            id: 'a',
            date: '2026-01-31T12:00:00Z',
            agreement: 0.7,
            kappa: 0.5,
            lostReserves: 1,
          },
        ],
      }));
      element.requestUpdate();
      await until(() => element.shadowRoot!.querySelector('[data-check-id]'), 'the kept check');
      expect(textOf(element, '[data-check-id]')).to.contain('moderate').and.to.contain('1 white');
    });
  });

  describe('the picture to hand over', () => {
    /** Markers of a JPEG up to the scan (ITU T.81 annex B): their names, and the frame's size. */
    function jpegParts(bytes: Uint8Array): { markers: number[]; width: number; height: number } {
      const markers: number[] = [];
      let [width, height] = [0, 0];
      expect([bytes[0], bytes[1]]).to.eql([0xff, 0xd8]);
      for (let at = 2; at < bytes.length;) {
        expect(bytes[at]).to.equal(0xff);
        const marker = bytes[at + 1];
        markers.push(marker);
        if (marker === 0xda) break;
        if (marker === 0xc0 || marker === 0xc2) {
          height = 256 * bytes[at + 5] + bytes[at + 6];
          width = 256 * bytes[at + 7] + bytes[at + 8];
        }
        at += 2 + 256 * bytes[at + 2] + bytes[at + 3];
      }
      return { markers, width, height };
    }

    /** Chunks of a PNG (ISO/IEC 15948). */
    function pngChunks(bytes: Uint8Array): string[] {
      const view = new DataView(bytes.buffer);
      const names: string[] = [];
      for (let at = 8; at < bytes.length; at += 12 + view.getUint32(at))
        names.push(String.fromCharCode(...bytes.subarray(at + 4, at + 8)));
      return names;
    }

    const bytesOf = async (blob: Blob): Promise<Uint8Array> =>
      new Uint8Array(await blob.arrayBuffer());

    it('is a JPEG of pixels alone: no EXIF, no comment, no place', async () => {
      const element = await checked(await shot());
      const file = await element.deliver({ width: 500 });
      expect(file.type).to.equal('image/jpeg');
      const { markers, width, height } = jpegParts(await bytesOf(file));
      // APP1 (Exif, XMP) is E1, APP13 (IPTC) is ED, a comment is FE.
      expect(markers.filter((each) => each > 0xe0 && each <= 0xef && each !== 0xe2)).to.eql([]);
      expect(markers).to.not.include(0xfe);
      expect(width).to.equal(500);
      expect(height).to.be.closeTo((500 * 3) / 4, 1);
    });

    /** What the engine makes of any canvas. */
    const anyPng = async (): Promise<Uint8Array> => {
      const canvas = new OffscreenCanvas(300, 200);
      canvas.getContext('2d')!.fillRect(0, 0, 100, 100);
      return bytesOf(await canvas.convertToBlob({ type: 'image/png' }));
    };

    it('leaves the place of a photo that has one behind', async () => {
      // The painting as JPEG with an APP1 segment of Exif put in after its start.
      const plain = await createImageBitmap(await shot());
      const canvas = new OffscreenCanvas(plain.width, plain.height);
      canvas.getContext('2d')!.drawImage(plain, 0, 0);
      const jpeg = await bytesOf(await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.95 }));
      const exif = new TextEncoder().encode('Exif\0\0MM\0*\0\0\0\b\0\0\0\0\0\0GPSLatitude 48.1');
      const length = exif.length + 2;
      // Of one piece, as files are: of several, Firefox looks at the first alone to tell what it is.
      const tagged = new Blob([
        Uint8Array.from([
          ...jpeg.slice(0, 2),
          ...[0xff, 0xe1, length >> 8, length & 255],
          ...exif,
          ...jpeg.slice(2),
        ]),
      ]);
      const element = await checked(tagged);
      for (const type of ['image/jpeg', 'image/png'] as const) {
        const bytes = await bytesOf(await element.deliver({ width: 300, type }));
        const text = new TextDecoder('latin1').decode(bytes);
        expect(text).to.not.contain('Exif').and.to.not.contain('GPS');
        // Chromium writes IHDR, IDAT and IEND; other engines add how colours are meant, and to every canvas the same.
        if (type === 'image/png')
          expect(new Set(pngChunks(bytes))).to.eql(new Set(pngChunks(await anyPng())));
      }
    });

    it('has the paper’s white and the photo beside it, and bands where asked', async () => {
      const element = await checked(await shot());
      const decoded = async (layout: 'alone' | 'photo' | 'bands') =>
        createImageBitmap(await element.deliver({ width: 400, layout, type: 'image/png' }));
      const [alone, photo, bands] = [
        await decoded('alone'),
        await decoded('photo'),
        await decoded('bands'),
      ];
      expect(alone.width).to.equal(400);
      // Pictures of 400 x 300 with a fortieth of their height between and around them.
      expect([photo.width, photo.height]).to.eql([2 * 400 + 3 * 8, 300 + 2 * 8]);
      expect(bands.width).to.equal(3 * 400 + 4 * 8);
      const canvas = new OffscreenCanvas(400, 300);
      const context = canvas.getContext('2d')!;
      context.drawImage(alone, 0, 0);
      const [x, y, w, h] = SHAPES.paper;
      const [r, g, b] = context.getImageData((x + w / 2) * 400, (y + h / 2) * 300, 1, 1).data;
      // L* 95 is the sRGB byte 241 (CIE 15, IEC 61966-2-1).
      for (const byte of [r, g, b]) expect(byte).to.be.closeTo(241, 3);
    });

    it('fires an event with file, name and what is on it', async () => {
      const element = await checked(await shot());
      const heard: DeliveryEvent[] = [];
      element.addEventListener('delivery', (event) => heard.push(event));
      await press(element, '[data-view=delivery]');
      await press(element, '[data-layout=photo]');
      const name = inside<HTMLInputElement>(element, '[data-name]');
      expect(name.value).to.equal('Shapes - painting');
      name.value = 'For A/B: "you"';
      name.dispatchEvent(new Event('change'));
      await settled(element);
      const clicks: string[] = [];
      const click = HTMLAnchorElement.prototype.click;
      HTMLAnchorElement.prototype.click = function () {
        clicks.push(this.download);
      };
      try {
        await press(element, '[data-deliver]');
        await until(() => heard.length === 1, 'the event');
      } finally {
        HTMLAnchorElement.prototype.click = click;
      }
      expect(clicks).to.eql([heard[0].name]);
      expect(heard[0].name).to.equal('For A B you.jpg');
      expect(heard[0].layout).to.equal('photo');
      expect(heard[0].file.size).to.be.greaterThan(1000);
    });
  });

  describe('access', () => {
    it('has no fault that axe knows, in each part, light and dark', async () => {
      const element = await checked(await shot({ ground: 50, dark: 42, paper: 70 }));
      await press(element, '[data-keep]');
      await until(() => element.store.plan.checks?.length === 1, 'the kept check');
      for (const colorScheme of ['light', 'dark'] as const) {
        await emulateMedia({ colorScheme });
        for (const view of ['photo', 'findings', 'drawing', 'checks', 'delivery']) {
          await press(element, `[data-view=${view}]`);
          if (view === 'drawing' && all(element, '.handle').length === 0)
            await press(element, '[data-add]');
          expect(await faultsOf(element), `${view} ${colorScheme}`).to.eql([]);
        }
      }
      await emulateMedia({ colorScheme: 'light' });
    });

    it('has no fault while empty or refused', async () => {
      expect(await faultsOf(await bare())).to.eql([]);
      clear();
      expect(await faultsOf(await withPlan())).to.eql([]);
      clear();
      expect(await faultsOf(await checked(await shot({}, true)))).to.eql([]);
    });

    it('fits 360 px, in both directions of writing', async () => {
      await setViewport({ width: 360, height: 800 });
      const element = await checked(await shot({ ground: 50, dark: 42 }));
      for (const dir of ['ltr', 'rtl']) {
        element.setAttribute('dir', dir);
        for (const view of ['photo', 'findings', 'drawing', 'checks', 'delivery']) {
          await press(element, `[data-view=${view}]`);
          const root = document.documentElement;
          expect(root.scrollWidth, `${view} ${dir}`).to.be.at.most(root.clientWidth);
          const box = element.getBoundingClientRect();
          for (const each of targetsOf(element)) {
            const area = areaOf(each);
            expect(area.right, `${view} ${each.outerHTML.slice(0, 80)}`).to.be.at.most(
              box.right + 23,
            );
            expect(area.left).to.be.at.least(box.left - 23);
          }
        }
      }
    });

    it('speaks German', async () => {
      setWords(GERMAN, 'de');
      const element = await checked(await shot({ dark: 42 }), undefined, 'lang="de"');
      const text = element.shadowRoot!.textContent!;
      expect(text).to.contain('Tonstufen zu hell').and.to.contain('Lasieren');
      expect(text).to.not.match(/checking\.|check\./);
      setWords({}, 'de');
    });
  });
});
