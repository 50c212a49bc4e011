/** The board in a real browser: laying in, moving by pointer and keys, verdicts, undo, data, bands, access. */
import { expect } from 'chai';
import {
  resetMouse,
  sendKeys,
  sendMouse,
  setViewport,
  emulateMedia,
} from '@web/test-runner-commands';
import { converter } from 'culori';
import { PlanStore } from '../../components/shared/plan-store.js';
import { newPlan } from '../../core/index.js';
import {
  accessibilityFaults,
  all,
  BANDS,
  clearPlaces,
  FAULTY,
  find,
  heard,
  ORDERED,
  placed,
  press,
  settled,
  shown,
  text,
  type,
  verdictOf,
  withBoard,
} from './swatch-bucket-board-helpers.js';

const toLab = converter('lab65');

const middleOf = (element: Element): [number, number] => {
  const { left, top, width, height } = element.getBoundingClientRect();
  return [Math.round(left + width / 2), Math.round(top + height / 2)];
};

async function control(key: string, shift = false): Promise<void> {
  await sendKeys({ down: 'Control' });
  if (shift) await sendKeys({ down: 'Shift' });
  await sendKeys({ press: key });
  if (shift) await sendKeys({ up: 'Shift' });
  await sendKeys({ up: 'Control' });
}

describe('swatch-bucket-board', () => {
  beforeEach(async () => setViewport({ width: 1200, height: 1000 }));
  afterEach(async () => {
    clearPlaces();
    await resetMouse();
    document.documentElement.removeAttribute('dir');
  });

  describe('laying in', () => {
    it('an empty board teaches: each bucket says what goes into it', async () => {
      const board = await placed('<swatch-bucket-board></swatch-bucket-board>');
      expect(all(board, '.band').map(({ textContent }) => textContent)).to.eql([
        'dark',
        'middle',
        'light',
      ]);
      expect(all(board, '.empty')).to.have.length(3);
      // Limits 36 and 66 are values 3.5 and 6.5 (ASTM D1535).
      expect(text(board, '.empty')).to.contain('value 3.5 or darker');
      expect(all(board, '.empty')[1].textContent).to.contain('between value 3.5 and 6.5');
    });

    it('a colour of any CSS form goes into its bucket, with L* as culori has it; one event, one step of undo', async () => {
      const board = await placed('<swatch-bucket-board></swatch-bucket-board>');
      const changes = heard(board, 'board-change');
      await press(board, '[data-add="1"]');
      expect(board.shadowRoot!.activeElement).to.equal(find(board, '[data-first]'));
      await type(board, find(board, '[data-first]'), 'oklch(0.55 0.03 60)');
      find<HTMLFormElement>(board, 'form').requestSubmit();
      await settled(board);
      const [swatch] = board.board.swatches;
      expect(swatch).to.include({ bucket: 1, css: 'oklch(0.55 0.03 60)', from: 'typed' });
      expect(swatch.lightness).to.be.closeTo(toLab('oklch(0.55 0.03 60)')!.l, 0.01);
      expect(changes).to.have.length(1);
      expect(changes[0].what).to.equal('add');
      expect(changes[0].swatch).to.equal(swatch.id);
      expect(changes[0].board.swatches).to.have.length(1);
      expect(changes[0].verdict.swatches[0].verdict).to.equal('fits');
      expect(changes[0].composed && changes[0].bubbles).to.equal(true);
      await press(board, '[data-undo]');
      expect(board.board.swatches).to.have.length(0);
    });

    it('an unknown colour is told in a sentence by the field; nothing is laid in', async () => {
      const board = await placed('<swatch-bucket-board></swatch-bucket-board>');
      const changes = heard(board, 'board-change');
      await press(board, '[data-add="0"]');
      await type(board, find(board, '[data-first]'), 'greyish mud');
      find<HTMLFormElement>(board, 'form').requestSubmit();
      await settled(board);
      expect(text(board, '.fault')).to.contain('“greyish mud” is no colour that CSS knows');
      expect(find(board, '[data-first]').getAttribute('aria-invalid')).to.equal('true');
      expect(board.board.swatches).to.have.length(0);
      expect(changes).to.have.length(0);
      find<HTMLInputElement>(board, '[data-first]').value = '';
      await type(board, find(board, '[data-first]'), '');
      find<HTMLFormElement>(board, 'form').requestSubmit();
      await settled(board);
      expect(text(board, '.fault')).to.contain('Write a colour first');
    });

    it('the native colour field writes into the text field', async () => {
      const board = await placed('<swatch-bucket-board></swatch-bucket-board>');
      await press(board, '[data-add="0"]');
      await type(board, find(board, 'input[type="color"]'), '#304050');
      expect(find<HTMLInputElement>(board, '[data-first]').value).to.equal('#304050');
    });
  });

  describe('the verdict', () => {
    it('is told in words for each swatch, with which two cross and the gap between buckets', async () => {
      const board = await withBoard(FAULTY);
      expect(['a', 'b', 'c', 'd', 'e'].map((id) => verdictOf(board, id))).to.eql([
        'fits',
        'too-light',
        'fits',
        'fits',
        'fits',
      ]);
      expect(text(board, '[data-id="b"] .verdict')).to.equal('too light');
      expect(text(board, '[data-id="b"] .why')).to.contain('“stone”, which lies in middle');
      expect(text(board, '[data-id="c"] .why')).to.contain('“slate” from dark crosses it');
      expect(text(board, '.pairs')).to.contain(
        '“slate” in dark is not darker than “stone” in middle.',
      );
      // L* 58 and 50 are values 5.69 and 4.90 (ASTM D1535 table: 5.5 = 56.06, 6 = 61.05; 4.5 = 45.89, 5 = 51.00): crossing by 0.8.
      expect(text(board, '.gap')).to.contain('crossing by 0.8');
      expect(text(board, '.sum')).to.equal('1 swatch is out of place among 5.');
      expect(all(board, '.pairs li svg path.paint')).to.have.length(2);
    });

    it('values are Munsell, L* on demand', async () => {
      const board = await withBoard({
        bands: BANDS,
        swatches: [{ id: 'a', bucket: 1, lightness: 51.003745 }],
      });
      expect(text(board, '[data-id="a"] .figures')).to.equal('value 5'); // ASTM D1535: value 5 is L* 51.003745
      await press(board, '[data-id="a"] .tool');
      expect(text(board, '.details')).to.contain('L* 51');
    });

    it('an accent says so and is no fault', async () => {
      const board = await withBoard(FAULTY);
      await press(board, '[data-id="b"] .tool');
      find<HTMLInputElement>(board, '[data-accent]').click();
      await settled(board);
      expect(text(board, '[data-id="b"] .verdict')).to.equal('accent');
      expect(text(board, '[data-id="b"] .why')).to.contain('on purpose');
      expect(text(board, '.sum')).to.equal('All 5 swatches belong.');
      expect(board.board.swatches[1].accent).to.equal(true);
    });

    it('a wet swatch tells what it dries to', async () => {
      const board = await withBoard(ORDERED);
      await press(board, '[data-id="c"] .tool');
      find<HTMLInputElement>(board, '[data-wet]').click();
      await settled(board);
      expect(text(board, '[data-id="c"] .why')).to.contain('Wet at 4.9; dries to about');
    });

    it('a ladder of greys stands beside each bucket, with a touch of each swatch; as greys, a swatch is the grey of its L*', async () => {
      const board = await withBoard({
        bands: BANDS,
        swatches: [{ id: 'a', bucket: 1, lightness: toLab('#8a6f5c')!.l, css: '#8a6f5c' }],
      });
      expect(all(board, '.ladder')).to.have.length(3);
      expect(all(board, '[data-bucket="1"] .touch ellipse')).to.have.length(1);
      const rungs = all(board, '[data-bucket="1"] .ladder .paint').map((each) =>
        toLab(each.getAttribute('fill')!)!,
      );
      for (const { l, a, b } of rungs) {
        expect(Math.hypot(a, b)).to.be.below(0.5);
        expect(l).to.be.within(36, 66);
      }
      expect(rungs.map(({ l }) => l)).to.eql(rungs.map(({ l }) => l).sort((p, q) => q - p));
      const paint = (): string => find(board, '[data-id="a"] .paint').getAttribute('fill')!;
      expect(paint()).to.equal('#8a6f5c');
      await press(board, '[data-greys]');
      const grey = toLab(paint())!;
      expect(Math.hypot(grey.a, grey.b)).to.be.below(0.5);
      expect(grey.l).to.be.closeTo(toLab('#8a6f5c')!.l, 0.3);
    });

    it('reveal="never" shows no verdict and no values, and judges all the same', async () => {
      const board = await withBoard(FAULTY, 'reveal="never"');
      expect(all(board, '.verdict, .why, .figures, .pairs, .touch, .gap svg')).to.have.length(0);
      expect(text(board, '.sum')).to.equal('5 swatches. The verdict is not shown here.');
      expect(verdictOf(board, 'b')).to.equal('too-light');
      board.judge();
      await settled(board);
      expect(all(board, '.verdict')).to.have.length(0);
    });
  });

  describe('moving', () => {
    it('a mouse drags a swatch into another bucket: one event, one step of undo', async () => {
      const board = await withBoard(ORDERED);
      const changes = heard(board, 'board-change');
      const [x, y] = middleOf(find(board, '[data-dab="b"]'));
      const [tx] = middleOf(find(board, '[data-bucket="1"]'));
      const [, cy] = middleOf(find(board, '[data-id="c"]'));
      await sendMouse({ type: 'move', position: [x, y] });
      await sendMouse({ type: 'down' });
      await sendMouse({ type: 'move', position: [x + 20, y] });
      await sendMouse({ type: 'move', position: [tx, cy + 10] });
      await settled(board);
      expect(find(board, '.ghost').textContent).to.contain('value');
      expect(all(board, '.here')).to.have.length(1);
      expect(changes).to.have.length(0);
      await sendMouse({ type: 'up' });
      await settled(board);
      expect(shown(board)).to.equal('a|cbd|e');
      expect(all(board, '.ghost')).to.have.length(0);
      expect(all(board, 'form')).to.have.length(0);
      expect(changes.map(({ what, swatch }) => [what, swatch])).to.eql([['move', 'b']]);
      expect(text(board, '[data-id="b"] .verdict')).to.equal('at the edge');
      await press(board, '[data-undo]');
      expect(shown(board)).to.equal('ab|cd|e');
      expect(changes.at(-1)!.what).to.equal('undo');
      await press(board, '[data-redo]');
      expect(shown(board)).to.equal('a|cbd|e');
      expect(changes.at(-1)!.what).to.equal('redo');
      expect(find<HTMLButtonElement>(board, '[data-redo]').disabled).to.equal(true);
    });

    it('a mouse drags inside a bucket; Escape and letting go outside leave it', async () => {
      const board = await withBoard(ORDERED);
      const drag = async (to: [number, number]): Promise<void> => {
        await sendMouse({ type: 'move', position: middleOf(find(board, '[data-dab="a"]')) });
        await sendMouse({ type: 'down' });
        await sendMouse({ type: 'move', position: to });
        await settled(board);
      };
      const [bx, by] = middleOf(find(board, '[data-id="b"]'));
      await drag([bx, by + 10]);
      await sendKeys({ press: 'Escape' });
      await sendMouse({ type: 'up' });
      await settled(board);
      expect(shown(board)).to.equal('ab|cd|e');
      await drag([5, 5]);
      await sendMouse({ type: 'up' });
      await settled(board);
      expect(shown(board)).to.equal('ab|cd|e');
      await drag([bx, by + 10]);
      await sendMouse({ type: 'up' });
      await settled(board);
      expect(shown(board)).to.equal('ba|cd|e');
    });

    it('a finger that rests picks up; one that moves at once scrolls and takes nothing', async () => {
      const board = await withBoard(ORDERED);
      const dabOf = (id: string): HTMLElement => find(board, `[data-dab="${id}"]`);
      const finger = (
        kind: string,
        [clientX, clientY]: [number, number],
        target = dabOf('a'),
      ): boolean =>
        target.dispatchEvent(
          new PointerEvent(kind, {
            pointerId: 7,
            pointerType: 'touch',
            isPrimary: true,
            button: 0,
            buttons: 1,
            clientX,
            clientY,
            bubbles: true,
            composed: true,
            cancelable: true,
          }),
        );
      const start = middleOf(dabOf('a'));
      const target = middleOf(find(board, '[data-bucket="2"]'));
      finger('pointerdown', start);
      finger('pointermove', [start[0], start[1] + 30]);
      await new Promise((resolve) => setTimeout(resolve, 450));
      expect(all(board, '.ghost')).to.have.length(0);
      finger('pointerup', target);
      finger('pointerdown', start);
      await new Promise((resolve) => setTimeout(resolve, 450));
      await settled(board);
      expect(all(board, '.ghost')).to.have.length(1);
      const touchmove = new Event('touchmove', { bubbles: true, cancelable: true });
      expect(dabOf('a').dispatchEvent(touchmove)).to.equal(false); // the page does not scroll meanwhile
      finger('pointermove', target);
      finger('pointerup', target);
      await settled(board);
      expect(shown(board)).to.equal('b|cd|ea');
    });

    it('keys pick up, move through buckets and places, lay down: one step of undo, the focus stays', async () => {
      const board = await withBoard(ORDERED);
      const changes = heard(board, 'board-change');
      find(board, '[data-dab="b"]').focus();
      await sendKeys({ press: 'Space' });
      await settled(board);
      expect(find(board, '[data-dab="b"]').getAttribute('aria-pressed')).to.equal('true');
      await sendKeys({ press: 'ArrowRight' });
      await settled(board);
      expect(shown(board)).to.equal('a|cbd|e');
      await sendKeys({ press: 'ArrowUp' });
      await settled(board);
      expect(shown(board)).to.equal('a|bcd|e');
      await sendKeys({ press: 'End' });
      await settled(board);
      expect(shown(board)).to.equal('a|cdb|e');
      expect(changes).to.have.length(0);
      expect(board.board.swatches[1].bucket).to.equal(0);
      await sendKeys({ press: 'Enter' });
      await settled(board);
      expect(changes.map(({ what }) => what)).to.eql(['move']);
      expect(shown(board)).to.equal('a|cdb|e');
      expect((board.shadowRoot!.activeElement as HTMLElement).dataset.dab).to.equal('b');
      await control('z');
      await settled(board);
      expect(shown(board)).to.equal('ab|cd|e');
      await control('z', true);
      await settled(board);
      expect(shown(board)).to.equal('a|cdb|e');
    });

    it('Escape puts a picked-up swatch back, and so does leaving it', async () => {
      const board = await withBoard(ORDERED);
      const changes = heard(board, 'board-change');
      for (const leave of ['Escape', 'Tab']) {
        find(board, '[data-dab="a"]').focus();
        await sendKeys({ press: 'Space' });
        await sendKeys({ press: 'ArrowRight' });
        await settled(board);
        expect(shown(board), leave).to.equal('b|acd|e');
        await sendKeys({ press: leave });
        await settled(board);
        await settled(board);
        expect(shown(board), leave).to.equal('ab|cd|e');
      }
      expect(changes).to.have.length(0);
    });

    it('in a right-to-left page the dark bucket lies right, and the arrows follow', async () => {
      document.documentElement.dir = 'rtl';
      const board = await withBoard(ORDERED);
      const [dark, , light] = all(board, '[data-bucket]').map(
        (each) => each.getBoundingClientRect().left,
      );
      expect(dark).to.be.above(light);
      find(board, '[data-dab="a"]').focus();
      await sendKeys({ press: 'Space' });
      await sendKeys({ press: 'ArrowLeft' });
      await sendKeys({ press: 'Space' });
      await settled(board);
      expect(shown(board)).to.equal('b|acd|e');
    });

    it('the list of buckets moves it too', async () => {
      const board = await withBoard(ORDERED);
      await press(board, '[data-id="a"] .tool');
      await type(board, find(board, '[data-move]'), '2', 'change');
      expect(shown(board)).to.equal('b|cd|ea');
      expect((board.shadowRoot!.activeElement as HTMLElement).matches('[data-move]')).to.equal(
        true,
      );
    });

    it('arrows walk from dab to dab; Delete deletes, undo brings back, the focus goes on', async () => {
      const board = await withBoard(ORDERED);
      find(board, '[data-dab="a"]').focus();
      await sendKeys({ press: 'ArrowRight' });
      expect((board.shadowRoot!.activeElement as HTMLElement).dataset.dab).to.equal('c');
      await sendKeys({ press: 'ArrowDown' });
      await sendKeys({ press: 'Delete' });
      await settled(board);
      expect(shown(board)).to.equal('ab|c|e');
      expect((board.shadowRoot!.activeElement as HTMLElement).dataset.dab).to.equal('c');
      await control('z');
      await settled(board);
      expect(shown(board)).to.equal('ab|cd|e');
    });

    it('readonly and disabled boards cannot be changed', async () => {
      for (const attribute of ['readonly', 'disabled']) {
        const board = await withBoard(FAULTY, attribute);
        expect(all(board, 'button.dab, .add, [data-undo]'), attribute).to.have.length(0);
        expect(text(board, '[data-id="b"] .verdict')).to.equal('too light');
        clearPlaces();
      }
    });
  });

  it('screen readers hear where a swatch lies and what is judged', async () => {
    const board = await withBoard(ORDERED);
    find(board, '[data-dab="b"]').focus();
    await sendKeys({ press: 'Space' });
    await sendKeys({ press: 'ArrowRight' });
    await sendKeys({ press: 'ArrowRight' });
    await sendKeys({ press: 'Space' });
    await new Promise((resolve) => setTimeout(resolve, 250));
    const heardWords = document.querySelector('body > [role="status"]')!.textContent;
    // By hand: slate (30) in light stands below moss (60), and farther past its limit (66) than any other: too dark.
    expect(heardWords).to.contain('slate lies in light, place 2 of 2. Verdict: too dark.');
    expect(heardWords).to.contain('1 swatch is out of place among 5.');
  });

  it('renders no style attribute, which strict policies forbid', async () => {
    const board = await withBoard(FAULTY);
    await press(board, '[data-id="b"] .tool');
    expect(all(board, '[style]')).to.have.length(0);
  });

  it('name and note are kept and shown', async () => {
    const board = await withBoard(ORDERED);
    await press(board, '[data-id="a"] .tool');
    await type(board, find(board, '.small-form input[type="text"]'), 'India ink <b>', 'change');
    await type(board, find(board, 'textarea'), 'two layers', 'change');
    expect(board.board.swatches[0]).to.include({ name: 'India ink <b>', note: 'two layers' });
    expect(text(board, '[data-id="a"] .name')).to.equal('India ink <b>');
    expect(text(board, '[data-id="a"] .note')).to.equal('two layers');
    expect(all(board, 'b b, .name b')).to.have.length(0);
  });

  describe('bands', () => {
    it('are renamed, moved, split and taken away; swatches follow', async () => {
      const board = await withBoard(ORDERED);
      await press(board, '[data-band="1"]');
      await type(board, find(board, '[data-first]'), 'half tone', 'change');
      expect(board.board.bands[1].name).to.equal('half tone');
      await type(board, find(board, '[data-limit]'), '7', 'change');
      // ASTM D1535: value 7 is L* 70.860848.
      expect(board.board.bands[1].ceiling).to.be.closeTo(70.86, 0.01);
      expect(board.board.bands[2].floor).to.be.closeTo(70.86, 0.01);
      const changes = heard(board, 'board-change');
      const button = (word: string): HTMLElement =>
        all(board, '[part="band-form"] button').find(({ textContent }) =>
          textContent!.includes(word),
        )!;
      button('Split in two').click();
      await settled(board);
      expect(board.board.bands.map(({ name }) => name)).to.eql([
        'dark',
        'darker half tone',
        'half tone',
        'light',
      ]);
      expect(shown(board)).to.equal('ab|c|d|e'); // 50 and 60 about the middle of 36 and 70.86
      button('Take away').click();
      await settled(board);
      expect(shown(board)).to.equal('ab|cd|e');
      expect(changes.map(({ what }) => what)).to.eql(['band', 'band']);
    });

    it('are named by attributes', async () => {
      const board = await placed(
        '<swatch-bucket-board bands="deep, half light, bright" limits="30 70"></swatch-bucket-board>',
      );
      expect(board.board.bands.map(({ name, floor, ceiling }) => [name, floor, ceiling])).to.eql([
        ['deep', 0, 30],
        ['half light', 30, 70],
        ['bright', 70, 95],
      ]);
      board.setAttribute('bands', 'low high');
      board.setAttribute('limits', '44');
      await settled(board);
      expect(board.board.bands.map(({ name }) => name)).to.eql(['low', 'high']);
    });

    it('attributes that make no bands are told; the usual ones stand in', async () => {
      const errors = heard(document, 'error');
      const board = await placed(
        '<swatch-bucket-board bands="a b c" limits="66 36"></swatch-bucket-board>',
      );
      expect(text(board, '.trouble')).to.contain('The bands cannot be used');
      expect(errors).to.have.length(1);
      expect(board.board.bands).to.have.length(3);
    });

    it('a teacher’s lock takes the ways to change bands away, and leaves swatches free', async () => {
      const board = await withBoard(ORDERED, 'locked');
      expect(all(board, '.title .tool')).to.have.length(0);
      expect(all(board, '.fixed')).to.have.length(3);
      expect(all(board, '.add')).to.have.length(3);
      const one = await withBoard({
        ...ORDERED,
        bands: BANDS.map((band, i) => (i === 0 ? { ...band, locked: true } : band)),
      });
      expect(all(one, '.title .tool')).to.have.length(2);
      await press(one, '[data-band="1"]');
      expect(all(one, '[data-limit]'), 'its limit to the free band').to.have.length(1);
    });

    it('tolerance is the spread that a bucket may have', async () => {
      const board = await withBoard(ORDERED, 'tolerance="5"');
      expect(text(board, '[data-id="a"] .why')).to.contain('“slate” is its other end');
      expect(JSON.parse(board.value).board.bands[0].spread).to.equal(5);
    });
  });

  describe('data', () => {
    it('malformed JSON: a sentence, an error event, the board untouched', async () => {
      const board = await withBoard(ORDERED);
      const errors = heard(board, 'error');
      const changes = heard(board, 'board-change');
      const before = board.board;
      for (const bad of [
        '{"bands": [',
        '[]',
        '{"bands":[{"name":"x","floor":50,"ceiling":20}],"swatches":[]}',
        '{"bands":[],"swatches":[{"id":"a","bucket":0,"lightness":"dark"}]}',
      ]) {
        board.board = bad;
        await settled(board);
        expect(board.board, bad).to.eql(before);
        expect(text(board, '.trouble'), bad)
          .to.contain('This board cannot be used')
          .and.to.contain('stays as it was');
        expect(errors.at(-1)!.message).to.equal(find(board, '.trouble span').textContent);
        expect(errors.at(-1)!.reason.code).to.equal('BoardError');
      }
      board.setAttribute('board', 'not json');
      await settled(board);
      expect(errors).to.have.length(5);
      expect(board.board).to.eql(before);
      expect(changes).to.have.length(0);
      await press(board, '.trouble button');
      expect(all(board, '.trouble')).to.have.length(0);
    });

    it('by attribute, by script, by data elements; ready comes once', async () => {
      const ready = heard(document, 'ready');
      const byAttribute = await placed(
        `<swatch-bucket-board board='${JSON.stringify(ORDERED)}'></swatch-bucket-board>`,
      );
      expect(shown(byAttribute)).to.equal('ab|cd|e');
      expect(ready).to.have.length(1);
      const byScript = await placed(
        `<swatch-bucket-board><script type="application/json">${JSON.stringify(FAULTY)}</script></swatch-bucket-board>`,
      );
      expect(shown(byScript)).to.equal('ab|cd|e');
      const byContent = await placed(
        '<swatch-bucket-board><data value="#333" data-bucket="dark">soot</data><p><data value="tan" data-bucket="2" data-accent>sand</data></p><data value="mud">mud</data></swatch-bucket-board>',
      );
      const { swatches } = byContent.board;
      expect(swatches.map(({ name, bucket, accent }) => [name, bucket, accent])).to.eql([
        ['soot', 0, undefined],
        ['sand', 2, true],
      ]);
      expect(swatches[1].lightness).to.be.closeTo(toLab('tan')!.l, 0.01);
      expect(text(byContent, '.trouble')).to.contain('mud');
      expect(find<HTMLButtonElement>(byContent, '[data-undo]').disabled).to.equal(true);
    });

    it('a board set before it is placed is taken up', async () => {
      const board = document.createElement('swatch-bucket-board');
      board.board = ORDERED;
      expect(board.board.swatches).to.have.length(5);
      const host = await placed('<swatch-bucket-board></swatch-bucket-board>');
      host.replaceWith(board);
      await settled(board);
      expect(shown(board)).to.equal('ab|cd|e');
    });

    it('on a shared plan: swatches that others send appear, and its own changes are the plan’s', async () => {
      const store = new PlanStore(newPlan());
      const board = await placed('<swatch-bucket-board></swatch-bucket-board>');
      const errors = heard(board, 'error');
      board.plan = store;
      store.change('send', (plan) => ({
        ...plan,
        board: {
          ...plan.board,
          swatches: [{ id: 'r', bucket: 2, lightness: 80, from: 'reading' }],
        },
      }));
      await settled(board);
      expect(shown(board)).to.contain('r');
      find(board, '[data-dab="r"]').focus();
      await sendKeys({ press: 'Delete' });
      expect(store.plan.board.swatches).to.have.length(0);
      store.undo();
      await settled(board);
      expect(shown(board)).to.contain('r');
      expect(errors).to.have.length(0);
    });

    it('moved on its page, it keeps what a person did', async () => {
      const board = await placed(
        '<swatch-bucket-board><data value="#333" data-bucket="0">soot</data></swatch-bucket-board>',
      );
      find(board, '.dab').focus();
      await sendKeys({ press: 'Delete' });
      await settled(board);
      const corner = document.createElement('div');
      board.before(corner);
      corner.append(board);
      await settled(board);
      expect(shown(board)).to.equal('||');
      expect(find<HTMLButtonElement>(board, '[data-undo]').disabled).to.equal(false);
    });

    it('taken up by a plan without swatches it lays its own in; a plan with swatches keeps its own', async () => {
      const empty = new PlanStore(newPlan());
      const full = new PlanStore(newPlan({ board: ORDERED }));
      const markup =
        '<swatch-bucket-board><data value="#333" data-bucket="0">soot</data></swatch-bucket-board>';
      const one = await placed(markup);
      one.plan = empty;
      await settled(one);
      expect(empty.plan.board.swatches.map(({ name }) => name)).to.eql(['soot']);
      const two = await placed(markup);
      two.plan = full;
      await settled(two);
      expect(full.plan.board.swatches).to.have.length(5);
      expect(shown(two)).to.equal('ab|cd|e');
    });

    it('what the page does fires no board-change', async () => {
      const board = await withBoard(ORDERED);
      const changes = heard(board, 'board-change');
      board.board = FAULTY;
      board.greys = true;
      board.locked = true;
      await settled(board);
      expect(changes).to.have.length(0);
    });
  });

  describe('looks', () => {
    it('stands side by side when wide, one under the other at 360 px, never wider than the page', async () => {
      const board = await withBoard(FAULTY);
      const tops = (): number[] =>
        all(board, '.bucket').map((each) => Math.round(each.getBoundingClientRect().top));
      expect(new Set(tops()).size).to.equal(1);
      await setViewport({ width: 360, height: 800 });
      await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
      expect(new Set(tops()).size).to.equal(3);
      expect(document.documentElement.scrollWidth).to.be.at.most(360);
    });

    for (const scheme of ['light', 'dark'] as const) {
      it(`is accessible empty, full, at fault and with its forms open (${scheme})`, async () => {
        await emulateMedia({ colorScheme: scheme });
        const empty = await placed('<swatch-bucket-board></swatch-bucket-board>');
        expect(await accessibilityFaults(empty)).to.eql([]);
        await press(empty, '[data-add="0"]');
        await type(empty, find(empty, '[data-first]'), 'mud');
        find<HTMLFormElement>(empty, 'form').requestSubmit();
        await settled(empty);
        expect(await accessibilityFaults(empty)).to.eql([]);
        for (const data of [ORDERED, FAULTY]) {
          const board = await withBoard(data, 'required="3"');
          expect(await accessibilityFaults(board)).to.eql([]);
          await press(board, '[data-id="b"] .tool');
          expect(await accessibilityFaults(board)).to.eql([]);
          await press(board, '.title .tool');
          board.board = 'broken';
          await settled(board);
          expect(await accessibilityFaults(board)).to.eql([]);
          clearPlaces();
        }
        await emulateMedia({ colorScheme: 'light' });
      });
    }
  });
});
