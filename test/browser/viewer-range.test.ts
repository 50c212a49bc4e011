/** The tool that shows what paint reaches: one control, two ladders, limits in paint, the darkest paint. */
import 'axe-core';
import type * as Axe from 'axe-core';
import { expect } from 'chai';
import { newPlan, type Plan } from '../../core/index.js';
import { PlanStore } from '../../components/shared/plan-store.js';
import { ToolsHost } from './viewer-tools-host.js';

/** Loaded as a plain script, axe puts itself on the window. */
const { axe } = window as unknown as { axe: typeof Axe };

/** A picture of upright stripes of these greys, each as wide. */
async function stripes(greys: readonly number[]): Promise<Blob> {
  const canvas = new OffscreenCanvas(60 * greys.length, 120);
  const context = canvas.getContext('2d')!;
  greys.forEach((grey, i) => {
    context.fillStyle = `rgb(${grey} ${grey} ${grey})`;
    context.fillRect(60 * i, 0, 60, 120);
  });
  return canvas.convertToBlob({ type: 'image/png' });
}

async function until(holds: () => unknown, what: string): Promise<void> {
  for (let i = 0; i < 400; i++) {
    if (holds()) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`waited in vain for ${what}`);
}

/** A host with the tool in hand; black to white in six steps, or other greys; none for no photo. */
async function hostWith(
  greys: readonly number[] = [0, 51, 102, 153, 204, 255],
  partial: Partial<Plan> = {},
): Promise<ToolsHost> {
  const frame = document.createElement('div');
  frame.className = 'frame';
  frame.style.inlineSize = '600px';
  const host = new ToolsHost();
  host.plan = new PlanStore(newPlan({ photoLimits: [36, 66], ...partial }));
  frame.append(host);
  document.body.append(frame);
  if (greys.length > 0) {
    await host.store.open(await stripes(greys), { keepPlan: true });
    await until(() => host.store.picture.exact, 'the working copy');
  }
  host.takeUp('range');
  await host.updateComplete;
  await host.updateComplete;
  return host;
}

const panel = (host: ToolsHost): HTMLElement => host.renderRoot.querySelector('.panel')!;
const textOf = (host: ToolsHost): string => panel(host).textContent!.replace(/\s+/g, ' ');
const slider = (host: ToolsHost): HTMLInputElement =>
  panel(host).querySelector('input[type="range"]')!;
const found = (host: ToolsHost): string => panel(host).querySelector('.tool-found')!.textContent!;

/** Moves the slider as a drag does: `input` on the way, `change` at its end. */
async function drag(host: ToolsHost, ...values: number[]): Promise<void> {
  const input = slider(host);
  input.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));
  for (const value of values) {
    input.value = String(value);
    input.dispatchEvent(new Event('input', { bubbles: true }));
    await host.updateComplete;
  }
  input.dispatchEvent(new Event('change', { bubbles: true }));
  await host.updateComplete;
}

async function enter(host: ToolsHost, index: number, value: string): Promise<void> {
  const input = panel(host).querySelectorAll<HTMLInputElement>('input[type="number"]')[index];
  input.value = value;
  input.dispatchEvent(new Event('change', { bubbles: true }));
  await host.updateComplete;
}

/** Heights at which the lines of the in-between values begin (photo) and end (paint), light to dark. */
function lines(host: ToolsHost): { photo: number[]; paint: number[] } {
  const ends = [...panel(host).querySelectorAll('.tool-reach > path:not(.tool-reach-line)')].map(
    (path) => /^M\S+ (\S+)L\S+ (\S+)$/.exec(path.getAttribute('d')!)!.slice(1).map(Number),
  );
  return { photo: ends.map(([y]) => y), paint: ends.map(([, y]) => y) };
}

describe('what paint can reach', () => {
  afterEach(() => document.querySelectorAll('.frame').forEach((frame) => frame.remove()));

  it('says what to do without a photo', async () => {
    const host = await hostWith([]);
    expect(textOf(host)).to.include('Open a photo first');
    expect(slider(host)).to.equal(null);
  });

  it('shares the loss at first: every difference is left in the same measure', async () => {
    const host = await hostWith();
    // Black to white is brought into L* 25 to 95: 0.7 of every difference is left (25 + 0.7 x 36, 25 + 0.7 x 66).
    expect(host.store.plan.range).to.include({ holding: 0 });
    const [dark, light] = host.store.plan.paintLimits;
    expect(dark).to.be.closeTo(50.2, 0.01);
    expect(light).to.be.closeTo(71.2, 0.01);
    expect(slider(host).getAttribute('aria-valuetext')).to.equal('Share the loss');
    // By the same polynomial L* 25 is value 2.5 and L* 95 value 9.5: of ten steps seven are left.
    expect(found(host)).to.match(/between 0 and 10 of the photo come closer together/);
    expect(found(host)).to.match(/spans 10 there spans 7 in paint/);
    // By the polynomial of ASTM D1535 L* 36 is value 3.5 and L* 50.2 value 4.9, to a tenth.
    expect(textOf(host)).to.include('in the photo 3.5, in paint 4.9');
  });

  it('holds the darks or the lights by one slider; a drag is one step of undo', async () => {
    const host = await hostWith();
    const before = host.store.plan;
    const evenly = lines(host);
    await drag(host, -20, -60, -100);
    expect(host.store.plan.range!.holding).to.equal(-1);
    expect(slider(host).getAttribute('aria-valuetext')).to.equal('Hold the darks');
    expect(host.store.plan.photoLimits).to.eql(before.photoLimits);
    // From black on, which lies at the darkest paint, the darks keep their whole distance: the limit lies higher.
    const darks = host.store.plan.paintLimits;
    expect(darks[0]).to.be.greaterThan(before.paintLimits[0]);
    expect(host.said.at(-1)).to.equal(found(host));
    // The lines of the lights run together.
    const held = lines(host);
    expect(held.photo).to.eql(evenly.photo);
    const gap = (ends: number[], i: number): number => Math.abs(ends.at(i)! - ends.at(i - 1)!);
    expect(gap(held.paint, -2)).to.be.lessThan(gap(evenly.paint, -2));
    expect(gap(held.paint, 2)).to.be.greaterThan(gap(evenly.paint, 2));
    expect(host.store.undoLabel).to.equal('range');
    host.store.undo();
    await host.updateComplete;
    expect(host.store.plan).to.equal(before);
    expect(slider(host).value).to.equal('0');
    expect(host.store.canUndo).to.equal(false);

    await drag(host, 100);
    expect(host.store.plan.range!.holding).to.equal(1);
    expect(host.store.plan.paintLimits[0]).to.be.lessThan(before.paintLimits[0]);
    await drag(host, 50);
    expect(slider(host).getAttribute('aria-valuetext')).to.equal(
      '50 % of the way to holding the lights',
    );
    host.store.undo();
    expect(host.store.plan.range!.holding).to.equal(1);
  });

  it('says so when paint reaches all of the photo, and has nothing to choose then', async () => {
    // L* 43 to 84 (CIE L* of sRGB greys 102 and 209), inside 25 to 95.
    const host = await hostWith([102, 150, 209]);
    expect(found(host)).to.include('Paint reaches every value of this photo');
    expect(slider(host).disabled).to.equal(true);
    expect(host.store.plan.paintLimits).to.eql(host.store.plan.photoLimits);
    const { photo, paint } = lines(host);
    expect(paint).to.eql(photo);
  });

  it('takes the darkest paint as a value or as L*, refuses what is outside, and goes back', async () => {
    const host = await hostWith();
    await enter(host, 1, '30');
    expect(host.store.plan.range!.darkest).to.equal(30);
    // 30 + 0.65 x 36.
    expect(host.store.plan.paintLimits[0]).to.be.closeTo(53.4, 0.01);
    // Value 2 by the polynomial of ASTM D1535 has Y 3.048, which is L* 20.24 (CIE 15): worked out by hand.
    await enter(host, 0, '2');
    expect(host.store.plan.range!.darkest).to.be.closeTo(20.24, 0.02);
    const { plan } = host.store;
    await enter(host, 1, '80');
    expect(host.store.plan).to.equal(plan);
    expect(panel(host).querySelector('[role="alert"]')!.textContent).to.include('from 0 to 60');
    [...panel(host).querySelectorAll('button')].at(-1)!.click();
    await host.updateComplete;
    expect(host.store.plan.range!.darkest).to.equal(undefined);
    expect(host.store.plan.paintLimits[0]).to.be.closeTo(50.2, 0.01);
    expect(panel(host).querySelector('[role="alert"]')).to.equal(null);
  });

  it('is reached and read without the picture: label, words, no faults that axe finds', async () => {
    for (const greys of [[], [102, 150, 209], [0, 128, 255]]) {
      const host = await hostWith(greys, { paperLimit: 90 });
      expect(textOf(host)).to.not.match(/\b(tool|range)\.[a-z]|[{}]|undefined|NaN/);
      const { violations } = await axe.run(host, { rules: { region: { enabled: false } } });
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).to.eql([]);
      if (greys.length === 0) continue;
      expect(slider(host).labels![0].textContent).to.equal('What stays as it is');
      expect(textOf(host)).to.include('bare paper');
    }
  });
});
