/** Text at 200 %, right-to-left pages, forced colours and less motion: nothing is cut off, nothing reaches out of the page. */
import { expect } from 'chai';
import { executeServerCommand, setViewport } from '@web/test-runner-commands';
import { button, clear, frames, inside, STATES } from './access-helpers.js';

const TEXTS =
  'button, label, legend, summary, p, h2, h3, h4, dt, dd, th, td, output, .button, .knob';
const WIDTHS = [1280, 360];

/** Text that does not fit its box, and whatever makes the page wider than its window. */
function cutOff(element: Element): string[] {
  const faults: string[] = [];
  const { scrollWidth, clientWidth } = document.documentElement;
  if (scrollWidth > clientWidth) {
    const wide = [...element.shadowRoot!.querySelectorAll('*')]
      .filter((each) => each.getBoundingClientRect().right > clientWidth + 1)
      .map((each) => `${each.localName}.${each.getAttribute('class') ?? ''}`);
    faults.push(
      `the page is ${scrollWidth} wide in ${clientWidth}: ${wide.slice(0, 6).join(', ')}`,
    );
  }
  for (const each of element.shadowRoot!.querySelectorAll<HTMLElement>(TEXTS)) {
    if (!each.checkVisibility() || each.classList.contains('away')) continue;
    const {
      scrollWidth: wide,
      clientWidth: width,
      scrollHeight: high,
      clientHeight: height,
    } = each;
    const inline = getComputedStyle(each).display === 'inline';
    if (!inline && wide > width + 1)
      faults.push(
        `${wide} in ${width}: ${each.outerHTML.replace(/<!--.*?-->/g, '').slice(0, 110)}`,
      );
    else if (
      each.matches('button, .button, .knob') &&
      !each.matches('.puddle') &&
      high > height + 1
    )
      faults.push(
        `${high} high in ${height}: ${each.outerHTML.replace(/<!--.*?-->/g, '').slice(0, 110)}`,
      );
  }
  return faults;
}

const prefer = (features: Record<string, string>): Promise<unknown> =>
  executeServerCommand('media-features', features);

describe('access: text', () => {
  before(() => (document.body.style.margin = '8px'));
  afterEach(() => {
    clear();
    document.documentElement.style.removeProperty('font-size');
    document.documentElement.removeAttribute('dir');
  });
  after(async () => {
    await setViewport({ width: 1000, height: 800 });
    await prefer({ 'forced-colors': 'none', 'prefers-reduced-motion': 'no-preference' });
  });

  for (const { name, reach } of STATES) {
    it(`${name}: fits at 200 % and from right to left`, async function () {
      this.timeout(40000);
      const element = await reach();
      const faults: string[] = [];
      for (const width of WIDTHS)
        for (const [how, size, dir] of [
          ['200 %', '200%', 'ltr'],
          ['rtl', '100%', 'rtl'],
        ]) {
          await setViewport({ width, height: 900 });
          document.documentElement.style.fontSize = size;
          document.documentElement.dir = dir;
          await frames(4);
          faults.push(...cutOff(element).map((fault) => `${width} px, ${how}: ${fault}`));
        }
      expect(faults).to.eql([]);
    });
  }

  it('from right to left: the corner is the left one, and arrow keys lift it inwards', async function () {
    this.timeout(40000);
    document.documentElement.dir = 'rtl';
    const { reach } = STATES.find(({ name }) => name === 'value-band-viewer: bands')!;
    const element = await reach();
    const grip = inside(element, '.grip');
    const stage = inside(element, '.stage').getBoundingClientRect();
    const middle = (): number => {
      const box = inside(element, '.grip').getBoundingClientRect();
      return box.x + box.width / 2;
    };
    expect(middle()).to.be.below(stage.x + stage.width / 4);
    const before = middle();
    grip.focus();
    for (const key of ['ArrowRight', 'ArrowUp', 'ArrowRight', 'ArrowUp'])
      grip.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    await element.updateComplete;
    expect(middle()).to.be.above(before + 8);
    // A peg's value rises with ArrowUp, whichever way the page reads.
    const peg = inside(element, '.peg');
    const value = Number(peg.getAttribute('aria-valuenow'));
    peg.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowDown', bubbles: true }));
    await element.updateComplete;
    expect(Number(inside(element, '.peg').getAttribute('aria-valuenow'))).to.be.below(value);
    // The ladder lies at the other side of its names.
    const knob = inside(element, '.knob').getBoundingClientRect();
    expect(knob.x).to.be.below(inside(element, '.puddle').getBoundingClientRect().x);
  });

  it('forced colours keep what is pressed, pegs and swatches apart; less motion is obeyed', async function () {
    this.timeout(40000);
    await prefer({ 'forced-colors': 'active', 'prefers-reduced-motion': 'reduce' });
    // WebKit has no forced colours and takes motion from the desktop: nothing of it can be seen there.
    const [forced, calm] = ['(forced-colors: active)', '(prefers-reduced-motion: reduce)'].map(
      (query) => matchMedia(query).matches,
    );
    const isWebKit = !CSS.supports('forced-color-adjust', 'none');
    expect([forced, calm], 'what was asked for').to.eql([!isWebKit, !isWebKit]);
    const { reach } = STATES.find(({ name }) => name === 'value-band-viewer: bands')!;
    const element = await reach();
    const pressed = getComputedStyle(button(element, 'Bands'));
    const other = getComputedStyle(button(element, 'Greys'));
    expect(pressed.backgroundColor).not.to.equal(other.backgroundColor);
    expect(getComputedStyle(inside(element, '.knob')).borderTopStyle).to.equal('solid');
    if (isWebKit)
      return console.log('Not tested here: forced colours and less motion cannot be asked for.');
    // Greys are the matter itself: they stay.
    expect(getComputedStyle(inside(element, '.puddle svg')).forcedColorAdjust).to.equal('none');
    for (const each of element.shadowRoot!.querySelectorAll('*')) {
      const { animationDuration, transitionDuration } = getComputedStyle(each);
      for (const time of `${animationDuration}, ${transitionDuration}`.split(', '))
        expect(parseFloat(time), each.localName).to.be.below(0.02);
    }
  });
});
