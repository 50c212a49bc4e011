/**
 * The plan as one file. Outside truth: fflate's own writer and reader of ZIP files (general-purpose library), Node's digest,
 * the check value of CRC-32 (catalogue of parametrised CRC algorithms: CRC-32/ISO-HDLC, check 0xcbf43926).
 */
import { createHash } from 'node:crypto';
import { strFromU8, strToU8, unzipSync, zipSync, type Zippable } from 'fflate';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import {
  fileNameOf,
  planAsJson,
  planAsZip,
  PlanFileError,
  readPlanFile,
  type PhotoFile,
} from '../../components/painting-plan/plan-file.js';
import { crcOf, partsOf, readPart, zipped } from '../../components/painting-plan/zip.js';
import { newPlan, parsePlan, serialisePlan, type Plan } from '../../core/index.js';

const sha = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A PNG file of one grey; a text chunk with a place lies in it when asked for. */
function png(grey: number, place = false): Uint8Array {
  const picture = new PNG({ width: 4, height: 3 });
  picture.data.fill(grey);
  const bytes = PNG.sync.write(picture);
  if (!place) return new Uint8Array(bytes);
  const type = strToU8('tEXt');
  const data = strToU8('Comment\0taken at 47.5 N 9.7 E');
  const head = new DataView(new ArrayBuffer(4));
  head.setUint32(0, data.length);
  // The chunk's own CRC is left at zero: readers that look at text chunks may refuse it, ours must drop it anyway.
  const chunk = [...new Uint8Array(head.buffer), ...type, ...data, 0, 0, 0, 0];
  return new Uint8Array([...bytes.subarray(0, 33), ...chunk, ...bytes.subarray(33)]);
}

function withPhoto(bytes: Uint8Array, name = 'sitter.png'): { plan: Plan; photo: PhotoFile } {
  const sha256 = sha(bytes);
  const plan = newPlan({ title: 'Clay dog', photo: { sha256, name, width: 4, height: 3 } });
  const blob = new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'image/png' });
  return { plan, photo: { sha256, name, blob } };
}

const fileOf = (parts: Zippable): Blob => new Blob([zipSync(parts) as Uint8Array<ArrayBuffer>]);

async function faultsOf(file: Blob): Promise<string[]> {
  const thrown = await readPlanFile(file).then(
    () => undefined,
    (error: unknown) => error,
  );
  expect(thrown).toBeInstanceOf(PlanFileError);
  return (thrown as PlanFileError).faults.map(({ code }) => code);
}

describe('ZIP parts', () => {
  it('counts CRC-32 as the catalogue does', async () => {
    expect(await crcOf(new Blob(['123456789']))).toBe(0xcbf43926);
  });

  it('is read by another reader, and reads what another writer wrote', async () => {
    const noise = Uint8Array.from({ length: 700_000 }, (_, i) => (i * i * 31) >> 5);
    const ours = await zipped([
      { name: 'plan.json', blob: new Blob(['{"a": 1}'.repeat(9000)]), squeeze: true },
      { name: 'photos/a.bin', blob: new Blob([noise]) },
    ]);
    const read = unzipSync(new Uint8Array(await ours.arrayBuffer()));
    expect(strFromU8(read['plan.json'])).toBe('{"a": 1}'.repeat(9000));
    expect(sha(read['photos/a.bin'])).toBe(sha(noise));

    const theirs = fileOf({ 'a.txt': [noise, { level: 9 }], 'b.txt': [noise, { level: 0 }] });
    for (const part of await partsOf(theirs, 10)) {
      const bytes = new Uint8Array(await (await readPart(theirs, part, 1e6)).arrayBuffer());
      expect(sha(bytes)).toBe(sha(noise));
    }
  });

  it('stops inflating at the limit, whatever the file says of its size', async () => {
    const bomb = zipSync({ 'plan.json': [new Uint8Array(50_000_000), { level: 9 }] });
    // The size in the central directory is made to lie: 1000 bytes.
    const view = new DataView(bomb.buffer);
    const directory = view.getUint32(bomb.length - 22 + 16, true);
    view.setUint32(directory + 24, 1000, true);
    const file = new Blob([bomb as Uint8Array<ArrayBuffer>]);
    const [part] = await partsOf(file, 10);
    expect(part.size).toBe(1000);
    await expect(readPart(file, part, 16_000_000)).rejects.toMatchObject({ fault: 'too-large' });
  });
});

describe('a plan file', () => {
  it('without photos is the JSON of the plan, and comes back the same', async () => {
    const plan = newPlan({ title: 'Clay dog', notes: 'ürgh — “quoted”' });
    const file = planAsJson(plan);
    expect(await file.text()).toBe(serialisePlan(plan));
    expect((await readPlanFile(file)).plan).toEqual(plan);
  });

  it('with photos holds plan.json and each photo under its digest', async () => {
    const { plan, photo } = withPhoto(png(90));
    const file = await planAsZip(plan, [photo]);
    const parts = unzipSync(new Uint8Array(await file.arrayBuffer()));
    const inside = parsePlan(strFromU8(parts['plan.json']));
    const name = `photos/${inside.photo!.sha256}.png`;
    expect(Object.keys(parts).sort()).toEqual([name, 'plan.json'].sort());
    expect(sha(parts[name])).toBe(inside.photo!.sha256);
    expect(PNG.sync.read(Buffer.from(parts[name])).data[0]).toBe(90);
    const back = await readPlanFile(file);
    expect(back.plan).toEqual(inside);
    expect(back.photos.map(({ sha256 }) => sha256)).toEqual([inside.photo!.sha256]);
  });

  it('lets no place leave with a photo', async () => {
    const { plan, photo } = withPhoto(png(90, true));
    expect(Buffer.from(await photo.blob.arrayBuffer()).includes('47.5 N')).toBe(true);
    const file = await planAsZip(plan, [photo]);
    expect(Buffer.from(await file.arrayBuffer()).includes('47.5 N')).toBe(false);
    const [inside] = (await readPlanFile(file)).photos;
    expect(inside.sha256).not.toBe(photo.sha256);
  });

  it('is named after the title, with nothing that a file system refuses', () => {
    expect(fileNameOf('Clay dog', 'json')).toBe('Clay dog.json');
    expect(fileNameOf('../../a\\b:c*?"<img>|\u202egpj', 'json')).toBe('a b c img gpj.json');
    expect(fileNameOf('...', 'json')).toBe('plan.json');
    expect(fileNameOf('x'.repeat(500), 'tonewell.zip')).toHaveLength(80 + '.tonewell.zip'.length);
  });
});

describe('a hostile plan file', () => {
  const good = (): Plan => newPlan({ title: 'good' });

  it('keeps markup in titles as text', async () => {
    const title = '<img src=x onerror=alert(1)>';
    expect((await readPlanFile(planAsJson(newPlan({ title })))).plan.title).toBe(title);
  });

  it('is refused for keys that reach the machinery of objects', async () => {
    const text = serialisePlan(good()).replace('{', '{"__proto__": {"polluted": true},');
    expect(await faultsOf(new Blob([text]))).toContain('plan.forbidden-key');
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  it('is refused for texts of ten million characters', async () => {
    const text = JSON.stringify({ ...good(), title: 'x'.repeat(10_000_000) });
    expect(await faultsOf(new Blob([text]))).toEqual(['plan.too-large']);
    expect(await faultsOf(new Blob([text, text]))).toEqual(['plan-file.too-large']);
  });

  it('is refused with a word about its edition when it comes from a later one', async () => {
    const text = JSON.stringify({ ...good(), schema: 99 });
    expect(await faultsOf(new Blob([text]))).toEqual(['plan.schema-newer']);
  });

  it('lists every fault', async () => {
    const text = JSON.stringify({ ...good(), title: 7, notes: 8, paper: {} });
    const faults = await faultsOf(new Blob([text]));
    expect(faults.length).toBeGreaterThanOrEqual(5);
  });

  it('is refused when it is something else, cut short or empty', async () => {
    expect(await faultsOf(new Blob([]))).toEqual(['plan-file.not-a-plan']);
    expect(await faultsOf(new Blob([png(3) as Uint8Array<ArrayBuffer>]))).toEqual([
      'plan-file.not-a-plan',
    ]);
    expect(await faultsOf(new Blob(['{"schema": 1']))).toEqual(['plan.not-json-text']);
    const { plan, photo } = withPhoto(png(90));
    const whole = await planAsZip(plan, [photo]);
    expect(await faultsOf(whole.slice(0, whole.size - 30))).toEqual(['plan-file.damaged']);
    expect(await faultsOf(fileOf({ 'other.txt': strToU8('x') }))).toEqual(['plan-file.no-plan']);
  });

  it('is refused for a bomb, by the size it states and by what it inflates to', async () => {
    const big = fileOf({ 'plan.json': [new Uint8Array(20_000_000), { level: 9 }] });
    expect(big.size).toBeLessThan(100_000);
    expect(await faultsOf(big)).toEqual(['plan-file.too-large']);
  });

  it('is refused for more parts than a plan file has', async () => {
    const parts: Zippable = { 'plan.json': strToU8(serialisePlan(good())) };
    for (let i = 0; i < 150; i++) parts[`photos/${i}.png`] = new Uint8Array(1);
    expect(await faultsOf(fileOf(parts))).toEqual(['plan-file.too-many-parts']);
  });

  it('is refused when a photo is not the one that the plan names', async () => {
    const { plan, photo } = withPhoto(png(90));
    const file = fileOf({
      'plan.json': strToU8(serialisePlan(plan)),
      [`photos/${photo.sha256}.png`]: png(91),
    });
    expect(await faultsOf(file)).toEqual(['plan-file.photo-altered']);
  });

  it('takes only photos that the plan names, and never a path', async () => {
    const { plan, photo } = withPhoto(png(90));
    const stray = png(5);
    const file = fileOf({
      'plan.json': strToU8(serialisePlan(plan)),
      [`photos/${photo.sha256}.png`]: png(90),
      [`photos/${sha(stray)}.png`]: stray,
      '../../outside.txt': strToU8('x'),
    });
    const { photos } = await readPlanFile(file);
    expect(photos.map(({ sha256 }) => sha256)).toEqual([photo.sha256]);
  });

  it('is refused when a deflated part is damaged', async () => {
    const zip = zipSync({ 'plan.json': strToU8(serialisePlan(good())) });
    zip.fill(0xff, 45, 120);
    expect(await faultsOf(new Blob([zip as Uint8Array<ArrayBuffer>]))).toEqual([
      'plan-file.damaged',
    ]);
  });
});
