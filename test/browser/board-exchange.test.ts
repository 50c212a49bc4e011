/** Swatches of a board as files for other programs, and back: by hand, by keys, by script; colours by the browser's own CSS. */
import { expect } from 'chai';
import type { SwatchBucketBoard } from '../../components/swatch-bucket-board/swatch-bucket-board.js';
import { sendKeys, setViewport } from '@web/test-runner-commands';
import {
  customPropertiesOf,
  designTokensOf,
  swatchesFromCss,
  swatchesFromTokens,
  swatchesSvg,
  labOf,
  type Board,
} from '../../core/index.js';
import {
  accessibilityFaults,
  all,
  BANDS,
  clearPlaces,
  find,
  heard,
  ORDERED,
  press,
  settled,
  shown,
  text,
  type,
  withBoard,
} from './swatch-bucket-board-helpers.js';

const VIVID: Board = {
  bands: BANDS,
  swatches: [
    { id: 'v', bucket: 1, lightness: 60, name: 'vivid “ü”', lab: [60, 80, 70], note: 'a */ b' },
    { id: 'w', bucket: 0, lightness: 24, name: '9 below', css: 'rgb(60 50 45)', wet: true },
    { id: 'x', bucket: 2, lightness: 80, name: 'Мел', css: '#cfc8bb' },
    { id: 'y', bucket: 2, lightness: 82, name: 'Мел', css: 'oklch(0.85 0.05 200)' },
  ],
};

/** The sRGB bytes that the browser paints for a colour. */
function painted(css: string): number[] {
  const canvas = new OffscreenCanvas(1, 1);
  const context = canvas.getContext('2d', { colorSpace: 'srgb' })!;
  context.fillStyle = '#fff';
  context.fillRect(0, 0, 1, 1);
  context.fillStyle = css;
  context.fillRect(0, 0, 1, 1);
  return [...context.getImageData(0, 0, 1, 1).data.slice(0, 3)];
}

/** The swatch forms of the panel. */
async function opened(data: unknown = ORDERED, attributes = '') {
  const board = await withBoard(data, attributes);
  await press(board, '[data-exchange]');
  await waitFor(() => board.shadowRoot!.querySelector('.exchange'));
  await settled(board);
  return board;
}

async function waitFor(seen: () => unknown): Promise<void> {
  for (let i = 0; i < 200 && !seen(); i++) await new Promise((done) => setTimeout(done, 20));
  expect(Boolean(seen())).to.equal(true);
}

describe('swatches out and in', () => {
  beforeEach(async () => setViewport({ width: 1200, height: 1000 }));
  afterEach(() => clearPlaces());

  describe('by the browser’s own CSS', () => {
    it('custom properties are understood, one a swatch, with the colours of the tokens', () => {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(customPropertiesOf(VIVID));
      expect(sheet.cssRules.length).to.equal(1);
      const { style } = sheet.cssRules[0] as CSSStyleRule;
      const names = [...style];
      expect(names).to.eql(['--dark-9-below', '--middle-vivid-u', '--light-мел', '--light-мел-2']);
      document.adoptedStyleSheets.push(sheet);
      const probe = document.createElement('i');
      document.body.append(probe);
      for (const name of names) {
        const written = getComputedStyle(document.documentElement).getPropertyValue(name).trim();
        expect(written).to.equal(style.getPropertyValue(name).trim());
        expect(CSS.supports('color', written)).to.equal(true);
        probe.style.setProperty('color', '#010203');
        probe.style.setProperty('color', `var(${name})`);
        expect(getComputedStyle(probe).color).not.to.equal('rgb(1, 2, 3)');
      }
      probe.remove();
      document.adoptedStyleSheets.pop();
    });

    it('what is read of a style sheet is what the browser reads', () => {
      const css = `:root { --a: #7A5C3E; --b: var(--a); --c: hsl(210deg 40% 45%); --d: rgb(var(--e) 80 90 / 1);
        --e: 120; --f: var(--none, lab(60 20 -30)); --g: color(display-p3 0.4 0.5 0.3); --h: oklch(60% 0.1 120);
        --size: 12px; --i: rebeccapurple; --\\e9 t\\e9: hwb(30 20% 30%) }`;
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(css);
      document.adoptedStyleSheets.push(sheet);
      const probe = document.createElement('i');
      document.body.append(probe);
      const { swatches } = swatchesFromCss(css);
      expect(swatches.map(({ name }) => name)).to.eql([...'abcdfghi', 'été']);
      for (const { name, lab } of swatches) {
        probe.style.setProperty('color', `var(--${name})`);
        const seen = painted(getComputedStyle(probe).color);
        const [L, a, b] = labOf(`rgb(${seen.join(' ')})`);
        // The browser rounds to bytes: half a step is at most 0.4 of L* and some more of a* and b* in the darks.
        expect(Math.hypot(L - lab![0], a - lab![1], b - lab![2]), name).to.be.below(1);
      }
      probe.remove();
      document.adoptedStyleSheets.pop();
    });

    it('tokens in every space are the colours the browser paints', () => {
      // Inside sRGB, so that the browser need not draw them in.
      const values: [string, number[], string][] = [
        ['srgb', [0.5, 0.4, 0.3], 'color(srgb 0.5 0.4 0.3)'],
        ['srgb-linear', [0.2, 0.15, 0.1], 'color(srgb-linear 0.2 0.15 0.1)'],
        ['hsl', [30, 25, 40], 'hsl(30 25% 40%)'],
        ['hwb', [30, 30, 50], 'hwb(30 30% 50%)'],
        ['lab', [45, 10, 15], 'lab(45 10 15)'],
        ['lch', [45, 18, 60], 'lch(45 18 60)'],
        ['oklab', [0.55, 0.02, 0.04], 'oklab(0.55 0.02 0.04)'],
        ['oklch', [0.55, 0.05, 70], 'oklch(0.55 0.05 70)'],
        ['display-p3', [0.5, 0.4, 0.3], 'color(display-p3 0.5 0.4 0.3)'],
        ['a98-rgb', [0.5, 0.4, 0.3], 'color(a98-rgb 0.5 0.4 0.3)'],
        ['prophoto-rgb', [0.4, 0.35, 0.3], 'color(prophoto-rgb 0.4 0.35 0.3)'],
        ['rec2020', [0.45, 0.4, 0.3], 'color(rec2020 0.45 0.4 0.3)'],
        ['xyz-d65', [0.16, 0.15, 0.1], 'color(xyz-d65 0.16 0.15 0.1)'],
        ['xyz-d50', [0.16, 0.15, 0.08], 'color(xyz-d50 0.16 0.15 0.08)'],
      ];
      for (const [colorSpace, components, css] of values) {
        const token = { $type: 'color', $value: { colorSpace, components } };
        const [L, a, b] = swatchesFromTokens({ token }).swatches[0].lab!;
        const seen = labOf(`rgb(${painted(css).join(' ')})`);
        expect(Math.hypot(L - seen[0], a - seen[1], b - seen[2]), colorSpace).to.be.below(1);
      }
    });

    it('the drawing is as large as it says: 96 px an inch', async () => {
      const image = new Image();
      image.src = `data:image/svg+xml,${encodeURIComponent(swatchesSvg(VIVID, { title: 'A & B' }))}`;
      await image.decode();
      document.body.append(image);
      const { width, height } = image.getBoundingClientRect();
      const [, mmWide, mmHigh] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(swatchesSvg(VIVID))!;
      expect(width).to.be.closeTo((Number(mmWide) * 96) / 25.4, 0.51);
      expect(height).to.be.closeTo((Number(mmHigh) * 96) / 25.4, 0.51);
      image.remove();
    });
  });

  describe('out', () => {
    it('opens on demand, has names for everything, and closes by Escape to where it was opened', async () => {
      const board = await opened();
      expect((board.shadowRoot!.activeElement as HTMLInputElement).value).to.equal('design-tokens');
      expect(await accessibilityFaults(board)).to.eql([]);
      await sendKeys({ press: 'Escape' });
      await settled(board);
      expect(all(board, '.exchange')).to.have.length(0);
      expect(board.shadowRoot!.activeElement).to.equal(find(board, 'button[data-exchange]'));
    });

    it('copies what was chosen by keys', async () => {
      const board = await opened();
      let copied = '';
      Object.defineProperty(navigator.clipboard, 'writeText', {
        configurable: true,
        value: (words: string) => ((copied = words), Promise.resolve()),
      });
      await sendKeys({ press: 'ArrowDown' });
      await settled(board);
      find(board, '[data-copy]').focus();
      await sendKeys({ press: 'Enter' });
      await waitFor(() => copied !== '');
      await settled(board);
      Reflect.deleteProperty(navigator.clipboard, 'writeText');
      expect(copied).to.contain(':root {');
      expect(copied.match(/^ {2}--/gm)).to.have.length(5);
      expect(text(board, 'fieldset [role=status]')).to.equal('Copied.');
    });

    it('shows the text where the page may not copy', async () => {
      const board = await opened();
      Object.defineProperty(navigator.clipboard, 'writeText', {
        configurable: true,
        value: () => Promise.reject(new DOMException('no', 'NotAllowedError')),
      });
      await press(board, '[data-copy]');
      await waitFor(() => all(board, 'textarea[readonly]').length > 0);
      Reflect.deleteProperty(navigator.clipboard, 'writeText');
      const shownText = find<HTMLTextAreaElement>(board, 'textarea[readonly]').value;
      expect(swatchesFromTokens(shownText).swatches).to.have.length(5);
      expect(await accessibilityFaults(board)).to.eql([]);
    });

    it('gives files by script, each with its type and name', async () => {
      const board = await withBoard(ORDERED, 'lesson="Rain / study"');
      const tokens = await board.swatchesAs('design-tokens');
      expect([tokens.name, tokens.type]).to.eql([
        'Rain study.tokens.json',
        'application/design-tokens+json',
      ]);
      expect((await board.swatchesAs('css')).type).to.equal('text/css');
      expect((await board.swatchesAs('svg')).type).to.equal('image/svg+xml');
      const read = swatchesFromTokens(await tokens.text());
      expect(read.swatches.map(({ id }) => id)).to.eql(['a', 'b', 'c', 'd', 'e']);
      expect(await tokens.text()).to.contain('L* 20');
    });

    it('is not offered while the verdict is hidden', async () => {
      const board = await withBoard(ORDERED, 'reveal="never"');
      expect(all(board, '[data-exchange]')).to.have.length(0);
    });
  });

  describe('in', () => {
    const css = '--ink: #222; --sky: #9db7c9; --odd: color-mix(in srgb, red, blue)';

    it('shows first what would come, lays it in on demand, and one undo takes it back', async () => {
      const board = await opened();
      const before = board.board;
      const changes = heard(board, 'board-change');
      await type(board, find<HTMLTextAreaElement>(board, '[data-paste]'), css);
      expect(board.board).to.eql(before);
      expect(text(board, '.arriving p')).to.equal('2 swatches are ready to come in.');
      expect(all(board, '.chips li > span > span:first-child').map((e) => e.textContent)).to.eql([
        'ink',
        'sky',
      ]);
      expect(text(board, '.arriving .fault')).to.contain('--odd: “color-mix(in srgb, red, blue)”');
      expect(await accessibilityFaults(board)).to.eql([]);
      find(board, '[data-lay]').focus();
      await sendKeys({ press: 'Enter' });
      await settled(board);
      expect(shown(board)).to.equal('abswatch-6|cd|eswatch-7');
      expect(changes.map(({ what }) => what)).to.eql(['add']);
      expect(board.shadowRoot!.activeElement).to.equal(find(board, '[data-paste]'));
      expect(all(board, '.arriving')).to.have.length(0);
      await press(board, '[data-undo]');
      expect(board.board).to.eql(before);
    });

    it('brings its own file back whole, and nothing twice', async () => {
      const full: Board = { ...VIVID, swatches: VIVID.swatches };
      const file = JSON.stringify(designTokensOf(full));
      const board = await opened({ bands: BANDS, swatches: [] });
      await type(board, find<HTMLTextAreaElement>(board, '[data-paste]'), file);
      await press(board, '[data-lay]');
      expect(board.board).to.eql(full);
      await type(board, find<HTMLTextAreaElement>(board, '[data-paste]'), file);
      expect(text(board, '.arriving p')).to.equal('Nothing new in it. 4 are on the board already.');
      expect(all(board, '[data-lay]')).to.have.length(0);
    });

    it('takes a file', async () => {
      const board = await opened();
      const field = find<HTMLInputElement>(board, '[data-file]');
      const files = new DataTransfer();
      files.items.add(new File([JSON.stringify(designTokensOf(VIVID))], 'a.tokens.json'));
      field.files = files.files;
      field.dispatchEvent(new Event('change'));
      await waitFor(() => all(board, '.arriving').length > 0);
      expect(text(board, '.arriving p')).to.equal('4 swatches are ready to come in.');
    });

    it('tells what is wrong and what to do; the board in hand stays', async () => {
      const board = await opened();
      const before = board.board;
      const paste = find<HTMLTextAreaElement>(board, '[data-paste]');
      await type(board, paste, '{"a": ');
      expect(text(board, '[role=alert]')).to.contain('This JSON is not whole.');
      await type(board, paste, 'body { margin: 0 }');
      expect(text(board, '[role=alert]')).to.contain('There are no colours in it');
      expect(await accessibilityFaults(board)).to.eql([]);
      await type(board, paste, '');
      expect(all(board, '[role=alert]')).to.have.length(0);
      expect(board.board).to.eql(before);
    });

    it('by script resolves with how many came, in one step, without an event', async () => {
      const board = await withBoard(ORDERED);
      const before = board.board;
      const changes = heard(board, 'board-change');
      expect(await board.bringSwatches(css)).to.equal(2);
      expect(board.board.swatches).to.have.length(7);
      board.store.undo();
      await settled(board);
      expect(board.board).to.eql(before);
      expect(changes).to.have.length(0);
      const refused = await board.bringSwatches('nothing').then(
        () => undefined,
        (fault: Error) => fault,
      );
      expect(refused?.name).to.equal('SwatchesError');
      expect(board.board).to.eql(before);
    });

    describe('a long file', () => {
      /** A style sheet of 3 MB: many lengths and, behind them all, one colour. */
      const long = `${Array.from({ length: 90_000 }, (_, i) => `--size-${i}: ${i}px calc(1px);`).join('\n')} --ink: #222`;

      /** A text pasted as by hand: the browser asks first. Whether it still goes into the field. */
      function pasted(board: SwatchBucketBoard, data: string): boolean {
        const asked = { data, inputType: 'insertFromPaste', bubbles: true, cancelable: true };
        return find(board, '[data-paste]').dispatchEvent(new InputEvent('beforeinput', asked));
      }

      it('is read between the frames, told after a while, and shows what would come', async () => {
        const board = await opened();
        expect(pasted(board, '--sky: #9db7c9')).to.equal(true);
        let frames = 0;
        let running = true;
        const count = (): void => {
          frames++;
          if (running) requestAnimationFrame(count);
        };
        count();
        expect(pasted(board, long)).to.equal(false);
        await waitFor(() => all(board, '.arriving progress').length > 0);
        expect(text(board, '.arriving p')).to.equal('The swatches are being read.');
        expect(await accessibilityFaults(board)).to.eql([]);
        await waitFor(() => all(board, '[data-lay]').length > 0);
        running = false;
        expect(frames).to.be.above(10);
        expect(text(board, '.arriving p')).to.equal('One swatch is ready to come in.');
        expect(find<HTMLTextAreaElement>(board, '[data-paste]').value).to.equal('');
      });

      it('can be given up by hand; what was put on the board meanwhile stays', async () => {
        const board = await opened();
        pasted(board, long);
        await waitFor(() => all(board, '[data-stop]').length > 0);
        find(board, '[data-dab="a"]').focus();
        await sendKeys({ press: 'Delete' });
        await press(board, '[data-stop]');
        expect(all(board, '.arriving')).to.have.length(0);
        expect(board.shadowRoot!.activeElement).to.equal(find(board, '[data-paste]'));
        await new Promise((done) => setTimeout(done, 300));
        expect(all(board, '.arriving, .exchange [role=alert]')).to.have.length(0);
        expect(shown(board)).to.equal('b|cd|e');
      });

      it('gives way to the next one', async () => {
        const board = await opened();
        pasted(board, long);
        await type(board, find<HTMLTextAreaElement>(board, '[data-paste]'), '--sky: #9db7c9');
        await new Promise((done) => setTimeout(done, 300));
        expect(text(board, '.chips')).to.contain('sky');
      });

      it('can be given up by script; the board stays as it is', async () => {
        const board = await withBoard(ORDERED);
        const before = board.board;
        const stop = new AbortController();
        const coming = board.bringSwatches(long, { signal: stop.signal });
        setTimeout(() => stop.abort(), 50);
        const fault = await coming.then(
          () => undefined,
          (thrown: Error) => thrown,
        );
        expect(fault?.name).to.equal('AbortError');
        expect(board.board).to.eql(before);
      });

      it('lies beside what was put on the board while it was read', async () => {
        const board = await withBoard(ORDERED);
        const coming = board.bringSwatches(`${long.slice(0, 300_000)}; --ink: #222`);
        await new Promise((done) => setTimeout(done, 20));
        find(board, '[data-dab="a"]').focus();
        await sendKeys({ press: 'Delete' });
        expect(await coming).to.equal(1);
        await settled(board);
        expect(shown(board)).to.equal('bswatch-5|cd|e');
      });
    });

    it('speaks German', async () => {
      const { GERMAN } = await import('../../components/shared/words/de/index.js');
      const { setWords } = await import('../../components/shared/strings.js');
      setWords(GERMAN, 'de');
      const board = await opened(ORDERED, 'lang="de"');
      await type(board, find<HTMLTextAreaElement>(board, '[data-paste]'), css);
      expect(text(board, '.arriving p')).to.equal('2 Proben können hereinkommen.');
      setWords({}, 'de');
    });
  });
});
