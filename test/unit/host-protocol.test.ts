/**
 * The protocol between an editor and a panel, over real ports: greeting, requests and answers, limits of both sides, giving up, loss,
 * and messages that nobody promised.
 */
import fc from 'fast-check';
import { PNG } from 'pngjs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import {
  awaitHost,
  BridgeError,
  hostOn,
  joinFrame,
  LIMITS,
  panelOn,
  type HostOffer,
  type HostSession,
  type Layer,
  type OfferedPicture,
  type PanelOptions,
  type PanelSession,
  type SpotReading,
  type Swatches,
} from '../../components/host/index.js';

const ends: (() => void)[] = [];
afterEach(() => {
  vi.useRealTimers();
  for (const end of ends.splice(0)) end();
});

/** Grey pixels, 4 x 2. */
const picture = (): OfferedPicture => ({
  image: { width: 4, height: 2, data: new Uint8Array(32).fill(119).buffer },
  area: { x: 0, y: 0, width: 40, height: 20 },
  name: 'Grey',
  revision: 'r1',
});

const pngBytes = (width: number, height: number): ArrayBuffer =>
  new Uint8Array(PNG.sync.write(new PNG({ width, height }))).buffer;

const SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 2"><path d="M0 0L4 2Z" fill="none"/></svg>';

const pngLayer = (width = 4, height = 2): Layer => ({
  kind: 'masses',
  name: 'Masses',
  form: 'png',
  data: pngBytes(width, height),
  place: { x: 0, y: 0, width: 40, height: 20 },
  size: { widthMm: 200, heightMm: 100 },
  revision: 'r1',
});
const svgLayer = (data = SVG): Layer => ({ ...pngLayer(), kind: 'outlines', form: 'svg', data });

const READING: SpotReading = {
  at: [20, 10],
  diameter: 4,
  lightness: 50,
  value: 5,
  band: 'middle',
  lab: [50, 0, 0],
  css: '#777777',
};
const BOARD: Swatches = {
  bands: [{ name: 'dark', floor: 0, ceiling: 36 }],
  swatches: [{ name: 'slate', band: 0, lightness: 30, css: '#474747', wet: true }],
};

function joined(
  offer: Partial<HostOffer> = {},
  options: Partial<PanelOptions> = {},
): { host: HostSession; panel: PanelSession } {
  const { port1, port2 } = new MessageChannel();
  const host = hostOn(port1 as never, { name: 'Table', picture, ...offer });
  const panel = panelOn(port2 as never, { name: 'Panel', ...options });
  ends.push(() => (host.close(), panel.close()));
  return { host, panel };
}

type Message = Record<string, unknown>;
const listeners = new WeakMap<Message[], Set<() => void>>();

/** A port whose other end is served as a host, spoken to by hand. */
function byHand(offer: Partial<HostOffer> = {}): {
  say(message: unknown): void;
  heard: Message[];
  host: HostSession;
} {
  const { port1, port2 } = new MessageChannel();
  const host = hostOn(port1 as never, { name: 'Table', picture, ...offer });
  const heard: Message[] = [];
  port2.onmessage = ({ data }: { data: Message }) => {
    heard.push(data);
    for (const listen of [...(listeners.get(heard) ?? [])]) listen();
  };
  ends.push(() => (host.close(), port2.close()));
  return { say: (message) => port2.postMessage(message), heard, host };
}

const HELLO = {
  kind: 'hello',
  body: { side: 'panel', versions: [1], name: 'By hand', limits: LIMITS, takes: [] },
};

/** The first of the messages heard, or yet to be heard, that is looked for. */
function heardOf(heard: Message[], looked: (message: Message) => boolean): Promise<Message> {
  return new Promise((resolve) => {
    const waiting = listeners.get(heard) ?? new Set();
    listeners.set(heard, waiting);
    const listen = (): void => {
      const found = heard.findLast(looked);
      if (!found) return;
      waiting.delete(listen);
      resolve(found);
    };
    waiting.add(listen);
    listen();
  });
}

const answerTo = (heard: Message[], id: number): Promise<Message> =>
  heardOf(heard, (each) => each.kind === 'answer' && each.id === id);

const named = (name: string): object => expect.objectContaining({ name });

describe('greeting', () => {
  it('tells each side the name, the limits and what is taken', async () => {
    const { host, panel } = joined(
      { limits: { pixels: 100 }, layers() {}, swatches() {} },
      { limits: { bytes: 1000 } },
    );
    expect(await panel.ready).toEqual({
      version: 1,
      name: 'Table',
      limits: { pixels: 100, bytes: LIMITS.bytes },
      takes: ['layers', 'swatches'],
    });
    expect(await host.ready).toEqual({
      version: 1,
      name: 'Panel',
      limits: { pixels: LIMITS.pixels, bytes: 1000 },
      takes: [],
    });
  });

  it('takes the version that both speak, and ends where there is none', async () => {
    const newer = byHand();
    newer.say({ ...HELLO, body: { ...HELLO.body, versions: [99, 1, 7] } });
    expect((await newer.host.ready).version).toBe(1);

    const strange = byHand();
    strange.say({ ...HELLO, body: { ...HELLO.body, versions: [2, 3] } });
    await expect(strange.host.ready).rejects.toEqual(named('VersionUnknown'));
    expect(await strange.host.closed).toEqual(named('VersionUnknown'));
    const last = await heardOf(strange.heard, ({ kind }) => kind === 'close');
    expect(last.body).toEqual({
      name: 'VersionUnknown',
      message: 'This side speaks version 1, the other 2, 3.',
    });
  });

  it('of two hosts, or without a greeting, comes to nothing', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'setInterval', 'clearTimeout', 'clearInterval'] });
    const { host, say } = byHand();
    say({ ...HELLO, body: { ...HELLO.body, side: 'host' } });
    await new Promise(setImmediate);
    vi.advanceTimersByTime(10_000);
    await expect(host.ready).rejects.toEqual(named('Silent'));
  });

  it('comes before everything else', async () => {
    const { say, heard, host } = byHand();
    say({ kind: 'picture', id: 1, body: { part: 'all' } });
    say(HELLO);
    await host.ready;
    say({ kind: 'picture', id: 2, body: { part: 'all' } });
    await answerTo(heard, 2);
    expect(heard.filter(({ kind }) => kind === 'answer')).toHaveLength(1);
  });
});

describe('requests', () => {
  it('give the picture, its pixels handed over', async () => {
    const given: OfferedPicture[] = [];
    const { panel } = joined({
      picture({ part, panel: { name, limits } }) {
        expect([part, name, limits]).toEqual(['selection', 'Panel', LIMITS]);
        given.push(picture());
        return given[0];
      },
    });
    const got = await panel.picture({ part: 'selection' });
    expect(got).toEqual(picture());
    expect((given[0].image as { data: ArrayBuffer }).data.byteLength).toBe(0);
  });

  it('lay layers, their files handed over', async () => {
    const laid: Layer[][] = [];
    const { panel } = joined({ layers: (layers) => void laid.push(layers) });
    const layers = [pngLayer(), svgLayer()];
    await panel.layers(layers);
    expect(laid).toEqual([[pngLayer(), svgLayer()]]);
    expect((layers[0].data as ArrayBuffer).byteLength).toBe(0);
  });

  it('tell readings, swatches and progress, and the host that its picture changed', async () => {
    const told: unknown[] = [];
    const changed = vi.fn();
    const { host, panel } = joined(
      {
        readings: (readings) => void told.push(readings),
        swatches: (swatches) => void told.push(swatches),
        progress: (progress) => void told.push(progress),
      },
      { changed },
    );
    await panel.readings([READING]);
    panel.progress({ stage: 'masses', done: 0.5 });
    await panel.swatches(BOARD);
    host.changed();
    expect(told).toEqual([[READING], { stage: 'masses', done: 0.5 }, BOARD]);
    await vi.waitFor(() => expect(changed).toHaveBeenCalledOnce());
  });

  it('are refused where the host takes no such thing, on this side and on that', async () => {
    const { panel } = joined();
    await expect(panel.layers([pngLayer()])).rejects.toEqual(named('NotOffered'));
    const { say, heard } = byHand();
    say(HELLO);
    say({ kind: 'readings', id: 1, body: [READING] });
    say({ kind: 'dance', id: 2 });
    expect((await answerTo(heard, 1)).error).toEqual(named('NotOffered'));
    expect((await answerTo(heard, 2)).error).toEqual(named('Unknown'));
  });

  it('tell why the host could not', async () => {
    const { panel } = joined({
      picture() {
        throw new BridgeError('NoPicture', 'Nothing is open.');
      },
      layers() {
        throw new RangeError('The page is full.');
      },
    });
    await expect(panel.picture({ part: 'all' })).rejects.toEqual(named('NoPicture'));
    const failed = panel.layers([pngLayer()]);
    await expect(failed).rejects.toEqual(named('Failed'));
    await expect(failed).rejects.toThrow('The page is full.');
  });

  it('are sixteen at once at most', async () => {
    let open!: () => void;
    const gate = new Promise<void>((resolve) => (open = resolve));
    const { say, heard, host } = byHand({ readings: () => gate });
    say(HELLO);
    await host.ready;
    for (let id = 1; id <= 17; id++) say({ kind: 'readings', id, body: [READING] });
    expect((await answerTo(heard, 17)).error).toEqual(named('Busy'));
    open();
    expect((await answerTo(heard, 16)).error).toBeUndefined();
  });
});

describe('giving up', () => {
  it('ends a request at once and tells the host', async () => {
    const signals: AbortSignal[] = [];
    const { panel } = joined({
      layers: (_layers, { signal }) => (signals.push(signal), new Promise(() => undefined)),
    });
    const giving = new AbortController();
    const laying = panel.layers([pngLayer()], { signal: giving.signal });
    laying.catch(() => undefined);
    await vi.waitFor(() => expect(signals).toHaveLength(1));
    giving.abort();
    await expect(laying).rejects.toEqual(named('AbortError'));
    await vi.waitFor(() => expect(signals[0].aborted).toBe(true));
    await expect(panel.layers([pngLayer()], { signal: giving.signal })).rejects.toEqual(
      named('AbortError'),
    );
    expect(signals).toHaveLength(1);
  });

  it('comes by itself when the time is over', async () => {
    const { panel } = joined({ picture: () => new Promise<OfferedPicture>(() => undefined) });
    await expect(panel.picture({ part: 'all' }, { timeout: 20 })).rejects.toEqual(
      named('TimeoutError'),
    );
  });

  it('an answer that comes too late does nothing', async () => {
    let answer!: (found: OfferedPicture) => void;
    const late = new Promise<OfferedPicture>((resolve) => (answer = resolve));
    const pictures = [late, Promise.resolve(picture())];
    const { panel } = joined({ picture: () => pictures.shift()! });
    await expect(panel.picture({ part: 'all' }, { timeout: 20 })).rejects.toThrow('20 ms');
    answer({ ...picture(), name: 'Late' });
    expect((await panel.picture({ part: 'all' })).name).toBe('Grey');
  });
});

describe('the end', () => {
  it('by one side rejects what is under way, and what comes after', async () => {
    const { host, panel } = joined({ picture: () => new Promise<OfferedPicture>(() => undefined) });
    await panel.ready;
    const asked = panel.picture({ part: 'all' });
    asked.catch(() => undefined);
    host.close();
    await expect(asked).rejects.toEqual(named('Closed'));
    expect(await panel.closed).toEqual(named('Closed'));
    await expect(panel.picture({ part: 'all' })).rejects.toEqual(named('Closed'));
    panel.progress({ stage: 'late', done: 1 });
  });

  it('before the greeting leaves nothing waiting', async () => {
    const { port1 } = new MessageChannel();
    const panel = panelOn(port1 as never, { name: 'Panel' });
    const asked = panel.picture({ part: 'all' });
    asked.catch(() => undefined);
    panel.close();
    await expect(asked).rejects.toEqual(named('Closed'));
    await expect(panel.ready).rejects.toEqual(named('Closed'));
  });

  it('a side that lives is kept; one that falls silent is lost', async () => {
    vi.useFakeTimers({
      toFake: ['setTimeout', 'setInterval', 'clearTimeout', 'clearInterval', 'Date'],
    });
    const look = async (): Promise<void> => {
      vi.advanceTimersByTime(5_000);
      for (let i = 0; i < 4; i++) await new Promise(setImmediate);
    };
    const { host } = joined();
    await host.ready;
    const lost = vi.fn();
    void host.closed.then(lost);
    for (let i = 0; i < 20; i++) await look();
    expect(lost).not.toHaveBeenCalled();

    const silent = byHand();
    silent.say(HELLO);
    await silent.host.ready;
    for (let i = 0; i < 7; i++) await look();
    expect(await silent.host.closed).toEqual(named('Silent'));
    expect(silent.heard.filter(({ kind }) => kind === 'ping').length).toBeGreaterThan(3);
  });

  it('the time that this page slept does not count', async () => {
    vi.useFakeTimers({
      toFake: ['setTimeout', 'setInterval', 'clearTimeout', 'clearInterval', 'Date'],
    });
    const { say, host } = byHand();
    say(HELLO);
    await host.ready;
    const lost = vi.fn();
    void host.closed.then(lost);
    for (let i = 0; i < 12; i++) {
      vi.setSystemTime(Date.now() + 3_600_000); // an hour between two looks
      vi.advanceTimersByTime(5_000);
      await new Promise(setImmediate);
    }
    expect(lost).not.toHaveBeenCalled();
  });
});

describe('limits', () => {
  it('of the panel are kept by the host', async () => {
    const { panel } = joined({}, { limits: { pixels: 7 } });
    const asked = panel.picture({ part: 'all' });
    await expect(asked).rejects.toEqual(named('TooLarge'));
    await expect(asked).rejects.toThrow('picture.image has 8 pixels, at most 7 are taken');
  });

  it('of the host are kept by the panel, before anything is handed over', async () => {
    const { panel } = joined({ limits: { pixels: 8, bytes: 400 }, layers() {} });
    await panel.layers([pngLayer(4, 2)]);
    const broad = pngLayer(3, 3);
    await expect(panel.layers([broad])).rejects.toThrow('9 pixels, at most 8');
    expect((broad.data as ArrayBuffer).byteLength).toBeGreaterThan(0);
    const long = svgLayer(SVG.replace('M0 0', `M0 0${'L1 1'.repeat(100)}`));
    await expect(panel.layers([long])).rejects.toEqual(named('TooLarge'));
    const each = svgLayer(SVG.replace('M0 0', `M0 0${'L1 1'.repeat(40)}`));
    await panel.layers([each]);
    await expect(panel.layers([each, each]), 'all of one message together').rejects.toEqual(
      named('TooLarge'),
    );
  });

  it('hold for whoever does not keep them', async () => {
    const layers = vi.fn();
    const { say, heard } = byHand({ limits: { pixels: 8, bytes: 400 }, layers });
    say(HELLO);
    say({ kind: 'layers', id: 1, body: [pngLayer(3, 3)] });
    expect((await answerTo(heard, 1)).error).toEqual(named('TooLarge'));
    // The head of the file counts, whatever else the message says.
    say({ kind: 'layers', id: 2, body: [{ ...pngLayer(9, 9), width: 1, height: 1 }] });
    expect((await answerTo(heard, 2)).error).toEqual(named('TooLarge'));
    expect(layers).not.toHaveBeenCalled();

    const { port1, port2 } = new MessageChannel();
    const panel = panelOn(port1 as never, { name: 'Panel', limits: { pixels: 7 } });
    ends.push(() => (panel.close(), port2.close()));
    port2.onmessage = ({ data }: { data: { kind: string; id: number } }) => {
      if (data.kind === 'picture')
        port2.postMessage({ kind: 'answer', id: data.id, body: picture() });
    };
    port2.postMessage({ ...HELLO, body: { ...HELLO.body, side: 'host' } });
    await expect(panel.picture({ part: 'all' })).rejects.toEqual(named('TooLarge'));
  });
});

describe('messages that nobody promised', () => {
  const good = {
    layers: [pngLayer(), svgLayer()] as unknown,
    readings: [READING] as unknown,
    swatches: BOARD as unknown,
    picture: { part: 'all' } as unknown,
  };
  const kinds = Object.keys(good) as (keyof typeof good)[];

  it('do no harm: the connection goes on', async () => {
    const taken = vi.fn();
    const { say, heard, host } = byHand({ layers: taken, readings: taken, swatches: taken });
    say(HELLO);
    await host.ready;
    const anything = fc.anything({ withBigInt: true, withDate: true, withTypedArray: true });
    const message = fc.oneof(
      anything,
      fc.record({
        kind: fc.oneof(fc.constantFrom(...kinds, 'hello', 'cancel', 'answer', 'ping'), anything),
        id: fc.oneof(fc.integer({ min: 100 }), anything),
        body: anything,
        error: anything,
      }),
    );
    await fc.assert(
      fc.asyncProperty(message, async (each) => {
        try {
          say(each);
        } catch {
          return; // what cannot be cloned never arrives
        }
      }),
      { numRuns: 1000 },
    );
    const last = 1234.5; // no number of the messages above
    say({ kind: 'picture', id: last, body: { part: 'all' } });
    expect((await answerTo(heard, last)).body).toEqual(picture());
    expect(taken).not.toHaveBeenCalled();
  });

  /** Every place inside a value, as paths. */
  function placesIn(value: unknown, path: (string | number)[] = []): (string | number)[][] {
    if (typeof value !== 'object' || value === null || value instanceof ArrayBuffer) return [path];
    return [
      path,
      ...Object.entries(value).flatMap(([key, part]) => placesIn(part, [...path, key])),
    ];
  }
  const withAt = (value: unknown, path: (string | number)[], put: unknown): unknown => {
    if (path.length === 0) return put;
    const copy = (
      Array.isArray(value) ? [...(value as unknown[])] : { ...(value as object) }
    ) as Record<string | number, unknown>;
    copy[path[0]] = withAt(copy[path[0]], path.slice(1), put);
    return copy;
  };

  it.each(['layers', 'readings', 'swatches'] as const)(
    '%s with one part put wrong are answered with an error, or were still of the form',
    async (kind) => {
      const taken: unknown[] = [];
      const { say, heard, host } = byHand({ [kind]: (value: unknown) => void taken.push(value) });
      say(HELLO);
      await host.ready;
      const wrong = fc.oneof(
        fc.constantFrom(null, NaN, Infinity, -1, 1e300, '', 'url(x)', [], {}, true),
        fc.string({ minLength: 300, maxLength: 400 }),
        fc.constant(Array.from({ length: 5000 }, () => 0)),
      );
      let id = 0;
      const places = placesIn(good[kind]);
      await fc.assert(
        fc.asyncProperty(fc.constantFrom(...places), wrong, async (path, put) => {
          const before = taken.length;
          say({ kind, id: ++id, body: withAt(good[kind], path, put) });
          const { error } = await answerTo(heard, id);
          if (error) {
            expect(['Malformed', 'TooLarge']).toContain((error as Error).name);
            expect(taken).toHaveLength(before);
          } else {
            // What was taken differs from what is good in that one place at most.
            const [last] = taken.slice(-1);
            expect(withAt(last, path, 0)).toEqual(withAt(good[kind], path, 0));
          }
        }),
        { numRuns: 300 },
      );
    },
  );

  it('bring nothing along but what was promised, and nothing of a prototype', async () => {
    const taken: Layer[][] = [];
    const { say, heard, host } = byHand({ layers: (layers) => void taken.push(layers) });
    say(HELLO);
    await host.ready;
    const crafted = JSON.parse(
      `{"kind":"outlines","name":"x","form":"svg","place":{"x":0,"y":0,"width":1,"height":1},
        "more":1,"__proto__":{"size":{"widthMm":1,"heightMm":1},"polluted":true},
        "constructor":{"prototype":{"polluted":true}}}`,
    ) as object;
    say({ kind: 'layers', id: 1, body: [{ ...crafted, data: SVG }] });
    await answerTo(heard, 1);
    expect(Object.keys(taken[0][0]).sort()).toEqual(['data', 'form', 'kind', 'name', 'place']);
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
    // A kind that every object inherits is no request.
    for (const [i, kind] of ['constructor', '__proto__', 'toString'].entries())
      say({ kind, id: 10 + i, body: {} });
    expect((await answerTo(heard, 12)).error).toEqual(named('Unknown'));
    expect((await answerTo(heard, 10)).error).toEqual(named('Unknown'));
  });

  it('a list of millions is refused by its length', async () => {
    const { say, heard, host } = byHand({ readings() {} });
    say(HELLO);
    await host.ready;
    say({ kind: 'readings', id: 1, body: new Array(5_000_000) });
    expect((await answerTo(heard, 1)).error).toEqual({
      name: 'Malformed',
      message: 'readings: expected a list of 1 to 1000',
    });
  });

  it('a request without a number is no request', async () => {
    const taken = vi.fn();
    const { say, heard, host } = byHand({ layers: taken });
    say(HELLO);
    await host.ready;
    say({ kind: 'layers', body: [svgLayer()] });
    say({ kind: 'picture', id: 1, body: { part: 'all' } });
    await answerTo(heard, 1);
    expect(taken).not.toHaveBeenCalled();
  });

  it('an answer that is no picture rejects', async () => {
    for (const body of [
      undefined,
      { ...picture(), image: 'pixels' },
      { ...picture(), image: { width: 4, height: 3, data: new ArrayBuffer(32) } },
      { ...picture(), area: { x: 0, y: 0, width: 0, height: 1 } },
      { ...picture(), selection: { bounds: picture().area, rings: [[0, 0, 1, 1, 2]] } },
      { ...picture(), selection: { bounds: picture().area, rings: [new Array(20_002).fill(0)] } },
    ]) {
      const { port1, port2 } = new MessageChannel();
      const panel = panelOn(port1 as never, { name: 'Panel' });
      port2.onmessage = ({ data }: { data: { kind: string; id: number } }) => {
        if (data.kind === 'picture') port2.postMessage({ kind: 'answer', id: data.id, body });
      };
      port2.postMessage({ ...HELLO, body: { ...HELLO.body, side: 'host' } });
      await expect(panel.picture({ part: 'all' })).rejects.toEqual(named('Malformed'));
      panel.close();
      port2.close();
    }
  });
});

describe('SVG of layers', () => {
  const outcome = async (data: string): Promise<string> => {
    const { panel } = joined({ layers() {} });
    return panel.layers([svgLayer(data)]).then(
      () => 'taken',
      (thrown: Error) => thrown.name,
    );
  };
  const open = '<svg xmlns="http://www.w3.org/2000/svg">';

  it.each([
    SVG,
    `<?xml version="1.0" encoding="UTF-8"?>\n${SVG}\n`,
    `${open}<title>Sea &amp; sky &#39;1&#39;</title><g id="band-0" fill="none"><path d="M0 0L1 1Z"/></g></svg>`,
    `${open}<rect x="1" y="1" width="2" height="2" fill="#fff"/><circle cx="1" cy="1" r="1"/></svg>`,
  ])('takes %s', async (data) => {
    expect(await outcome(data)).toBe('taken');
  });

  it.each([
    ['', ''],
    ['a text', 'shapes'],
    ['no svg', '<path d="M0 0"/>'],
    ['two', SVG + SVG],
    ['words after it', `${SVG}words`],
    ['never ended', '<svg xmlns="http://www.w3.org/2000/svg"><g>'],
    ['ended twice', `${SVG}</svg>`],
    ['crossed', `${open}<g><path d="M0 0"></g></path></svg>`],
    ['script', `${open}<script>alert(1)</script></svg>`],
    ['script in capitals', `${open}<SCRIPT>alert(1)</SCRIPT></svg>`],
    ['style', `${open}<style>*{background:red}</style></svg>`],
    ['a style attribute', `${open}<path style="fill:red" d="M0 0"/></svg>`],
    ['an event', `${open}<path onclick="alert(1)" d="M0 0"/></svg>`],
    ['an event of the root', '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"></svg>'],
    ['other markup', `${open}<foreignObject></foreignObject></svg>`],
    ['a picture', `${open}<image href="x.png"/></svg>`],
    ['a link', `${open}<a href="javascript:alert(1)"><path d="M0 0"/></a></svg>`],
    ['a copy of something', `${open}<use href="#x"/></svg>`],
    ['what moves', `${open}<animate attributeName="d"/></svg>`],
    ['a paint from elsewhere', `${open}<path fill="url(http://a.example/#x)" d="M0 0"/></svg>`],
    ['the same, disguised', `${open}<path fill="&#117;rl(#x)" d="M0 0"/></svg>`],
    ['a document type', `<!DOCTYPE svg [<!ENTITY a "b">]>${SVG}`],
    ['an entity of its own', `${open}<title>&bomb;</title></svg>`],
    ['a remark', `${open}<!-- x --></svg>`],
    ['plain text kept as it is', `${open}<title><![CDATA[x]]></title></svg>`],
    ['an instruction', `${open}<?xml-stylesheet href="x"?></svg>`],
    ['another namespace', '<svg xmlns="http://www.w3.org/1999/xhtml"></svg>'],
    ['a name with a colon', `${open}<path xlink:href="x" d="M0 0"/></svg>`],
    ['no quotation marks', `${open}<path d=M0/></svg>`],
    ['too deep', open + '<g>'.repeat(40) + '</g>'.repeat(40) + '</svg>'],
  ])('refuses %s', async (_what, data) => {
    expect(await outcome(data)).toBe('Malformed');
  });

  it('never takes what reaches out, however it is put together', async () => {
    const piece = fc.constantFrom(
      ...[
        open,
        '</svg>',
        '<g>',
        '</g>',
        '<path d="M0 0"/>',
        '<script>',
        '</script>',
        '<',
        '>',
        '"',
      ],
      ...[
        ' onload="x"',
        '<path',
        '/>',
        ' href="x"',
        ' fill="url(#a)"',
        '<!--',
        '-->',
        '&#60;',
        'x',
      ],
    );
    const texts = fc.array(piece, { maxLength: 12 }).map((parts) => open + parts.join(''));
    const { panel } = joined({ layers() {} });
    await fc.assert(
      fc.asyncProperty(texts, async (data) => {
        const taken = await panel.layers([svgLayer(data)]).then(
          () => true,
          () => false,
        );
        if (taken) expect(data).not.toMatch(/<script|<!--|<[^>]*(\son\w+=|href=|url\()/);
      }),
      { numRuns: 1000 },
    );
  });

  it('is looked through in no more time than its length allows', async () => {
    const long = `${open}<path ${' '.repeat(200_000)}d=</svg>`;
    const started = performance.now();
    expect(await outcome(long)).toBe('Malformed');
    const many = `${open}<path ${'d="" '.repeat(100_000)}x</svg>`;
    expect(await outcome(many)).toBe('Malformed');
    expect(performance.now() - started).toBeLessThan(3000);
  });
});

describe('origins', () => {
  it.each([
    '*',
    'null',
    '',
    '/',
    'example.com',
    'https://a.example/',
    'https://a.example/x',
    'data:',
  ])('%s is not one', (origin) => {
    const offer = { origin, name: 'Table', picture };
    expect(() => joinFrame({} as HTMLIFrameElement, offer)).toThrow(TypeError);
    const wanted = { origins: [origin], name: 'Panel', joined() {} };
    expect(() => awaitHost(wanted)).toThrow(TypeError);
  });

  it('at least one has to be named', () => {
    expect(() => awaitHost({ origins: [], name: 'Panel', joined() {} })).toThrow(TypeError);
  });
});
