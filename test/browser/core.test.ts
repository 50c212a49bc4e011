/** The worker-hosted core: every call ends with a value, an AbortError, or an error with a stable name. */
import { expect } from 'chai';
import { startCore, type Core } from '../../core/worker/client.js';
import type { Pixels } from '../../core/index.js';

/** Grey steps: pixel x of a row has the grey x (mod 256). */
function greys(width: number, height: number): Pixels {
  const data = new Uint8ClampedArray(width * height * 4);
  for (let i = 0; i < width * height; i++)
    data.fill((i % width) % 256, i * 4, i * 4 + 3).fill(255, i * 4 + 3, i * 4 + 4);
  return { width, height, data };
}

async function pngOf(pixels: Pixels): Promise<Blob> {
  const canvas = new OffscreenCanvas(pixels.width, pixels.height);
  canvas
    .getContext('2d')!
    .putImageData(
      new ImageData(new Uint8ClampedArray(pixels.data), pixels.width, pixels.height),
      0,
      0,
    );
  return canvas.convertToBlob({ type: 'image/png' });
}

/** Resolves to what a promise ended with, or fails the test by its own time limit when it hangs. */
const ended = (promise: Promise<unknown>): Promise<{ name: string } | undefined> =>
  promise.then(
    () => undefined,
    (error: Error) => error,
  );

/** Every Worker that is made while `work` runs. */
async function workersOf<T>(
  work: (workers: Worker[]) => Promise<T>,
): Promise<{ value: T; workers: Worker[] }> {
  const Original = globalThis.Worker;
  const workers: Worker[] = [];
  globalThis.Worker = class extends Original {
    constructor(url: string | URL, options?: WorkerOptions) {
      super(url, options);
      workers.push(this);
    }
  };
  try {
    return { value: await work(workers), workers };
  } finally {
    globalThis.Worker = Original;
  }
}

describe('startCore', () => {
  let core: Core | undefined;
  afterEach(() => core?.dispose());

  for (const mode of ['worker', 'page'] as const) {
    describe(`in ${mode} mode`, () => {
      it('opens a file and makes a working copy whose codes follow the definition', async () => {
        core = await startCore({ modes: [mode] });
        expect(core.mode).to.equal(mode);
        const picture = await core.open(await pngOf(greys(256, 4)));
        expect([picture.width, picture.height, picture.format]).to.eql([256, 4, 'png']);
        const { plane, histogram } = await core.run('working', { picture: picture.id });
        expect([plane.width, plane.height]).to.eql([256, 4]);
        // sRGB grey 119 has L* 50.03 (IEC 61966-2-1 and CIE L*): code floor(2.55 * 50.03 + 0.5) = 128
        expect(plane.data[119]).to.equal(128);
        expect(plane.data[0]).to.equal(0);
        expect(plane.data[255]).to.equal(255);
        expect(histogram.reduce((sum, count) => sum + count, 0)).to.equal(1024);
      });

      it('keeps pixels the caller’s own', async () => {
        core = await startCore({ modes: [mode] });
        const pixels = greys(64, 64);
        await core.open(pixels);
        expect(pixels.data.length).to.equal(64 * 64 * 4);
        expect(pixels.data[4]).to.equal(1);
      });

      it('gives up when the signal says so, before and during the work', async () => {
        core = await startCore({ modes: [mode] });
        const picture = await core.open(greys(2000, 2000));
        expect(
          (
            await ended(
              core.run('working', { picture: picture.id }, { signal: AbortSignal.abort() }),
            )
          )?.name,
        ).to.equal('AbortError');
        const abort = new AbortController();
        const running = ended(
          core.run(
            'squint',
            { picture: picture.id, amount: 1, brushPx: 40 },
            { signal: abort.signal },
          ),
        );
        setTimeout(() => abort.abort(), 5);
        expect((await running)?.name).to.equal('AbortError');
        expect((await core.run('tones', { picture: picture.id })).plane.width).to.equal(2000);
      });

      it('supersedes a call with the same key', async () => {
        core = await startCore({ modes: [mode] });
        const picture = await core.open(greys(800, 800));
        const first = ended(
          core.run('squint', { picture: picture.id, amount: 0.5, brushPx: 9 }, { key: 'squint' }),
        );
        const second = core.run(
          'squint',
          { picture: picture.id, amount: 0.7, brushPx: 9 },
          { key: 'squint' },
        );
        expect((await first)?.name).to.equal('AbortError');
        expect((await second).plane.width).to.equal(800);
      });

      it('names what is wrong with a picture', async () => {
        core = await startCore({ modes: [mode] });
        const names = [
          [new Blob([]), 'PictureEmpty'],
          [new Blob(['no picture at all']), 'PictureUnreadable'],
          [(await pngOf(greys(64, 64))).slice(0, 60), 'PictureUnreadable'],
          [new Blob(['\0\0\0\x18ftypheic\0\0\0\0mif1heic']), 'PictureUnsupported'],
          [new Blob([new Uint8Array([0x49, 0x49, 42, 0, 8, 0, 0, 0])]), 'PictureUnsupported'],
          [{ width: 0, height: 5, data: new Uint8ClampedArray(0) }, 'PictureEmpty'],
          [{ width: 2, height: 2, data: new Uint8ClampedArray(3) }, 'RangeError'],
        ] as const;
        for (const [source, name] of names)
          expect((await ended(core.open(source)))?.name).to.equal(name);
        expect((await ended(core.open(null as unknown as Blob)))?.name).to.equal('TypeError');
      });

      it('opens one pixel and a strip of 20000 x 10', async () => {
        core = await startCore({ modes: [mode] });
        const dot = await core.open(greys(1, 1));
        expect((await core.run('working', { picture: dot.id })).plane.data).to.eql(
          new Uint8Array([0]),
        );
        const strip = await core.open(await pngOf(greys(20000, 10)));
        const { plane } = await core.run('working', { picture: strip.id });
        expect([plane.width, plane.height]).to.eql([20000, 10]);
        expect(strip.warnings.map(({ code }) => code)).to.include('picture.thin');
      });

      it('refuses unknown jobs, closed pictures and calls after the end', async () => {
        core = await startCore({ modes: [mode] });
        const picture = await core.open(greys(8, 8));
        expect(
          (await ended(core.run('toString' as 'tones', { picture: picture.id })))?.name,
        ).to.equal('JobUnknown');
        picture.close();
        expect((await ended(core.run('tones', { picture: picture.id })))?.name).to.equal(
          'PictureLost',
        );
        const pending = ended(core.open(greys(1000, 1000)));
        core.dispose();
        expect((await pending)?.name).to.equal('CoreDisposed');
        expect((await ended(core.open(greys(8, 8))))?.name).to.equal('CoreDisposed');
      });

      it('keeps the page responsive and tells how far it is', async () => {
        core = await startCore({ modes: [mode] });
        const picture = await core.open(greys(3000, 2000));
        const told: number[] = [];
        let turns = 0;
        let over = false;
        const beat = (): void => {
          turns++;
          if (!over) setTimeout(beat, 0);
        };
        beat();
        await core.run(
          'squint',
          { picture: picture.id, amount: 1, brushPx: 60, colour: true },
          { onProgress: ({ done }) => told.push(done) },
        );
        over = true;
        expect(turns).to.be.above(3);
        expect(told.length).to.be.above(0);
        for (const done of told) expect(done).to.be.within(0, 1);
      });
    });
  }

  it('reads at full resolution what the working copy averages away', async () => {
    core = await startCore();
    const pixels = greys(400, 400);
    for (let i = 0; i < 400 * 400; i++)
      pixels.data.fill((i + Math.floor(i / 400)) % 2 ? 255 : 0, i * 4, i * 4 + 3);
    const picture = await core.open(pixels, { maxPixels: 100 * 100 });
    const { plane } = await core.run('working', { picture: picture.id });
    expect(plane.width).to.equal(100);
    // Half black, half white in linear light: Y = 50 %, L* = 116 * 0.5^(1/3) - 16 = 76.07 (CIE L*)
    for (const code of plane.data) expect(code).to.equal(Math.floor(2.55 * 76.0693 + 0.5));
    const dot = await core.run('reading', {
      picture: picture.id,
      at: [100.5 / 400, 100.5 / 400],
      radius: 0.1 / 400,
    });
    expect(dot.count).to.equal(1);
    expect(dot.lightness).to.be.closeTo(0, 1e-6);
  });

  it('starts a killed worker again, opens its pictures anew and finishes the job', async () => {
    const { value, workers } = await workersOf(() => startCore({ modes: ['worker'] }));
    core = value;
    const picture = await core.open(await pngOf(greys(256, 256)));
    const running = core.run('squint', { picture: picture.id, amount: 1, brushPx: 40 });
    workers[0].terminate(); // says nothing by itself: only the silence tells
    expect((await running).plane.width).to.equal(256);
    expect((await core.run('tones', { picture: picture.id })).plane.data[119]).to.equal(128);
  });

  it('says CoreLost when the worker dies again at once, and never hangs', async () => {
    const { value, workers } = await workersOf(async (workers) => {
      const started = await startCore({ modes: ['worker'] });
      const picture = await started.open(greys(64, 64));
      workers[0].dispatchEvent(new ErrorEvent('error', { message: 'killed' }));
      await started.run('tones', { picture: picture.id }).catch(() => undefined);
      return started;
    });
    core = value;
    expect(workers.length).to.equal(2);
    const pending = ended(core.open(greys(1500, 1500)));
    workers[1].dispatchEvent(new ErrorEvent('error', { message: 'killed again' }));
    expect((await pending)?.name).to.equal('CoreLost');
    expect((await ended(core.open(greys(8, 8))))?.name).to.equal('CoreLost');
  });

  it('says which ways it tried when none is left', async () => {
    const url = URL.createObjectURL(
      new Blob(['throw new Error("no")'], { type: 'text/javascript' }),
    );
    const error = await ended(startCore({ modes: ['worker'], workerUrl: url, timeout: 3000 }));
    expect(error?.name).to.equal('CoreUnavailable');
    core = await startCore({ workerUrl: url, timeout: 3000 });
    expect(core.mode).to.equal('page');
    expect(core.tried.length).to.equal(2);
  });
});
