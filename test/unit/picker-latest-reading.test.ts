/** Reading under a moving hole: one at a time, at most one a frame, and only the latest place. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { LatestReading, type Ask } from '../../components/lightness-picker/latest-reading.js';
import type { Reading } from '../../core/index.js';

/** A reading that the test ends when it likes. */
interface Job {
  ask: Ask;
  resolve: (reading: Reading) => void;
  reject: (thrown: unknown) => void;
}

const at = (x: number): Ask => ({ at: [x, 0.5], holeMm: 12 });
const reading = { lightness: 50 } as Reading;

describe('LatestReading', () => {
  let frames: (() => void)[] = [];
  let jobs: Job[] = [];
  let got: number[] = [];
  let failed: unknown[] = [];
  let latest: LatestReading;

  const frame = async (): Promise<void> => {
    const due = frames;
    frames = [];
    due.forEach((call) => call());
    await Promise.resolve();
  };
  const settle = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

  beforeEach(() => {
    frames = [];
    jobs = [];
    got = [];
    failed = [];
    vi.stubGlobal('requestAnimationFrame', (call: () => void) => frames.push(call));
    vi.stubGlobal('cancelAnimationFrame', (id: number) => (frames[id - 1] = () => undefined));
    latest = new LatestReading(
      (ask) => new Promise((resolve, reject) => jobs.push({ ask, resolve, reject })),
      (_, ask) => got.push(ask.at[0]),
      (thrown) => failed.push(thrown),
    );
  });
  afterEach(() => vi.unstubAllGlobals());

  it('reads once a frame, and of several places only the last', async () => {
    for (const x of [0.1, 0.2, 0.3]) latest.ask(at(x));
    expect(jobs).toHaveLength(0);
    await frame();
    expect(jobs.map(({ ask }) => ask.at[0])).toEqual([0.3]);
  });

  it('lets a slow reading end before the next, so that something is always shown', async () => {
    latest.ask(at(0.1));
    await frame();
    for (const x of [0.2, 0.3, 0.4]) {
      latest.ask(at(x));
      await frame();
    }
    expect(jobs).toHaveLength(1);
    jobs[0].resolve(reading);
    await settle();
    expect(got).toEqual([0.1]);
    expect(latest.pending).toBe(true);
    await frame();
    jobs[1].resolve(reading);
    await settle();
    expect(got).toEqual([0.1, 0.4]);
    expect(latest.pending).toBe(false);
  });

  it('tells nothing of a reading that was dropped, not even its failure', async () => {
    latest.ask(at(0.1));
    await frame();
    latest.drop();
    latest.ask(at(0.9));
    jobs[0].reject(new Error('the picture is gone'));
    await settle();
    expect(failed).toEqual([]);
    await frame();
    jobs[1].resolve(reading);
    await settle();
    expect(got).toEqual([0.9]);
  });

  it('tells a failure, but not that a reading was given up', async () => {
    latest.ask(at(0.1));
    await frame();
    const fault = new Error('no');
    jobs[0].reject(fault);
    await settle();
    latest.ask(at(0.2));
    await frame();
    jobs[1].reject(new DOMException('', 'AbortError'));
    await settle();
    expect(failed).toEqual([fault]);
  });

  it('says when nothing is left to read', async () => {
    await latest.idle();
    latest.ask(at(0.1));
    let idle = false;
    void latest.idle().then(() => (idle = true));
    await frame();
    await settle();
    expect(idle).toBe(false);
    jobs[0].resolve(reading);
    await settle();
    expect(idle).toBe(true);
  });
});
