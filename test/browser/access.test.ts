/** Access: every state of every element by axe, target sizes, contrast of what is not text, who speaks, languages. */
import { expect } from 'chai';
import { emulateMedia, setViewport } from '@web/test-runner-commands';
import { setWords } from '../../components/shared/strings.js';
import { GERMAN } from '../../components/shared/words/de/index.js';
import {
  areaOf,
  button,
  clear,
  contrast,
  faultsOf,
  frames,
  inside,
  STATES,
  targetsOf,
  token,
} from './access-helpers.js';

describe('access', () => {
  before(async () => {
    await setViewport({ width: 1000, height: 900 });
    document.documentElement.style.setProperty('color-scheme', 'light dark');
    document.body.style.setProperty('background', 'light-dark(#f5f5f5, #1b1b1b)');
    document.body.style.setProperty('color', 'light-dark(#1c1c1c, #ececec)');
    document.documentElement.lang = 'en';
    document.title = 'Access';
  });
  afterEach(clear);
  after(() => emulateMedia({ colorScheme: 'light' }));

  for (const { name, reach } of STATES) {
    it(`${name}: nothing that axe finds, in light and dark; targets of 24 px or more`, async function () {
      this.timeout(40000);
      await emulateMedia({ colorScheme: 'light' });
      const element = await reach();
      expect(await faultsOf(element)).to.eql([]);
      await emulateMedia({ colorScheme: 'dark' });
      await frames();
      expect((await faultsOf(element)).map((fault) => `dark: ${fault}`)).to.eql([]);
      // WCAG 2.2, 2.5.8.
      const small = targetsOf(element).flatMap((target) => {
        const { width, height } = areaOf(target);
        return width < 24 || height < 24
          ? [`${width} x ${height}: ${target.outerHTML.slice(0, 120)}`]
          : [];
      });
      expect(small).to.eql([]);
      // One voice: nothing inside speaks by itself but faults.
      const speaking = [
        ...element.shadowRoot!.querySelectorAll('[aria-live], [role=status], [role=log], output'),
      ].filter((each) => each.getAttribute('aria-live') !== 'off');
      expect(speaking.map(({ outerHTML }) => outerHTML.slice(0, 120))).to.eql([]);
    });
  }

  describe('contrast of what is not text (WCAG 2.2, 1.4.11: 3 to 1)', () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      it(`edges of controls, focus rings, pegs: ${colorScheme}`, async function () {
        this.timeout(40000);
        await emulateMedia({ colorScheme });
        const { reach } = STATES.find(({ name }) => name === 'value-band-viewer: bands')!;
        const element = await reach();
        await frames();
        const of = (name: string): string => token(element, name);
        const pairs: [string, string][] = [
          ['--_edge', '--_sheet'],
          ['--_edge', '--_paper'],
          // The focus ring is of ink and stands on any ground.
          ['--_ink', '--_sheet'],
          ['--_ink', '--_paper'],
          ['--_ink', '--_surround'],
          ['--_ink', '--_press'],
        ];
        for (const [mark, ground] of pairs)
          expect(contrast(of(mark), of(ground)), `${mark} on ${ground}`).to.be.at.least(3);
        // 1.4.3: lesser text, 4.5 to 1.
        for (const ground of ['--_sheet', '--_paper'])
          expect(contrast(of('--_ink-soft'), of(ground)), ground).to.be.at.least(4.5);
        const knob = getComputedStyle(inside(element, '.knob'));
        expect(contrast(knob.borderTopColor, of('--_paper')), 'peg').to.be.at.least(3);
        expect(contrast(knob.color, knob.backgroundColor), 'peg figure').to.be.at.least(4.5);
        const pin = getComputedStyle(inside(element, '.pin'));
        const halo = getComputedStyle(inside(element, '.halo'));
        expect(contrast(pin.stroke, halo.stroke), 'pin').to.be.at.least(3);
        inside(element, '.peg').focus();
        const ring = getComputedStyle(inside(element, '.grip'));
        expect(ring.touchAction).to.equal('none');
      });

      // WCAG 2.2, 1.4.3; axe does not look at these. Chromium alone is known to tell the style of a ::placeholder.
      it(`examples in empty fields, 4.5 to 1: ${colorScheme}`, async function () {
        this.timeout(40000);
        await emulateMedia({ colorScheme });
        const { reach } = STATES.find(({ name }) => name === 'painting-plan: brief')!;
        const element = await reach();
        await frames();
        const fields = [...element.shadowRoot!.querySelectorAll('[placeholder]')];
        expect(fields).to.have.lengthOf.above(1);
        for (const field of fields) {
          const { color, opacity } = getComputedStyle(field, '::placeholder');
          expect(opacity, field.outerHTML).to.equal('1');
          for (const ground of ['--_sheet', '--_paper'])
            expect(contrast(color, token(element, ground)), field.outerHTML).to.be.at.least(4.5);
        }
      });
    }
  });

  describe('one voice', () => {
    it('is one region of the page, and a sentence is spoken once', async function () {
      this.timeout(40000);
      const { reach } = STATES.find(({ name }) => name === 'lightness-picker: a reading')!;
      const element = await reach();
      button(element, 'Keep').click();
      await new Promise((resolve) => setTimeout(resolve, 300));
      const regions = [...document.querySelectorAll('[aria-live], [role=status]')];
      expect(regions).to.have.length(1);
      expect(regions[0].textContent).to.match(/^Kept: value/);
      const spoken: string[] = [];
      new MutationObserver(() => spoken.push(regions[0].textContent!)).observe(regions[0], {
        childList: true,
        characterData: true,
        subtree: true,
      });
      button(element, 'Send to the board').click();
      await new Promise((resolve) => setTimeout(resolve, 400));
      expect(spoken).to.have.length(1);
      expect(spoken[0]).to.match(/^Now on the board/);
    });
  });

  describe('languages and units', () => {
    afterEach(() => {
      setWords({}, 'de');
      document.documentElement.lang = 'en';
    });

    it('are chosen by the nearest lang, and change with it', async function () {
      this.timeout(40000);
      setWords(GERMAN, 'de');
      const { reach } = STATES.find(({ name }) => name === 'lightness-picker: a reading')!;
      const element = await reach();
      expect(inside(element, '.keep').textContent!.trim()).to.equal('Keep');
      element.closest('main')!.lang = 'de';
      await frames(3);
      await element.updateComplete;
      expect(inside(element, '.keep').textContent!.trim()).to.equal('Merken');
      expect(inside(element, '.value').textContent!.trim()).to.match(/^\d+,\d$/);
      element.closest('main')!.lang = 'en-US';
      await frames(3);
      await element.updateComplete;
      expect(inside(element, 'label[for=size]').textContent).to.equal('Hole on the paper, in');
      element.closest('main')!.setAttribute('units', 'mm');
      await frames(3);
      await element.updateComplete;
      expect(inside(element, 'label[for=size]').textContent).to.equal('Hole on the paper, mm');
      element.chooseUnit('in');
      await element.updateComplete;
      expect(inside(element, 'label[for=size]').textContent).to.equal('Hole on the paper, in');
    });

    it('of English name the bands of a new plan in every element', async function () {
      this.timeout(40000);
      for (const tag of ['value-band-viewer', 'lightness-picker', 'swatch-bucket-board']) {
        const { reach } = STATES.find(({ name }) => name === `${tag}: empty`)!;
        const { bands } = (await reach()).store.plan.board;
        expect(
          bands.map(({ name }) => name),
          tag,
        ).to.eql(['dark', 'middle', 'light']);
      }
    });

    it('name the bands of a new plan', async function () {
      this.timeout(40000);
      setWords(GERMAN, 'de');
      document.documentElement.lang = 'de';
      const { reach } = STATES.find(({ name }) => name === 'value-band-viewer: empty')!;
      const element = await reach();
      expect(element.store.plan.board.bands.map(({ name }) => name)).to.eql([
        'Tiefen',
        'Mitteltöne',
        'Lichter',
      ]);
    });
  });
});
