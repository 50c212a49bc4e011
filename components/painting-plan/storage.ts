import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import { parsePlan, photosOf, serialisePlan, type Plan } from '../shared/core.js';
import { fileOf, putFile, type KeptFile } from '../shared/kept-file.js';

/** A plan as it is kept; the text is what `serialisePlan` writes. */
interface KeptPlan {
  key: string;
  text: string;
  /** Grows by one with each save: a save that does not know the latest one is a conflict. */
  revision: number;
  saved: number;
  title?: string;
  /** SHA-256 of each photo. */
  photos?: string[];
  /** The one photo, as the first edition of this store noted it. */
  photo?: string;
  /** Since when the plan is put aside, to be forgotten soon. */
  aside?: number;
}

interface KeptPhoto {
  sha256: string;
  name: string;
  blob: KeptFile;
  /** Since when no plan names it. */
  unused?: number;
}

/** A small picture of a plan; `mark` tells what it was made from. */
interface KeptPicture {
  key: string;
  mark: string;
  blob: KeptFile;
}

interface Shelf extends DBSchema {
  plans: { key: string; value: KeptPlan };
  photos: { key: string; value: KeptPhoto };
  pictures: { key: string; value: KeptPicture };
  latest: { key: string; value: { name: string; key: string } };
}

/** What was found under a key. */
export interface Found {
  plan: Plan;
  /** The leading photo, when it is kept here. */
  photo?: { name: string; blob: Blob };
  revision: number;
  saved: Date;
}

/** A plan as the list shows it. */
export interface Listed {
  key: string;
  title: string;
  saved: Date;
  picture?: Blob;
}

/** How a save ended: kept under the key, or, since another page had saved there, under a key of its own. */
export interface Saved {
  key: string;
  revision: number;
  saved: Date;
  /** True when another page had saved meanwhile and this plan was kept as a copy. */
  forked: boolean;
}

/** After what time a plan that was put aside by a page that ended is forgotten, and a photo without a plan; milliseconds. */
const ASIDE_MS = 3_600_000;
const UNUSED_MS = 24 * 3_600_000;

/** A plan is on the disk, not only in the system's hands, before it is called kept. */
const WRITE = { durability: 'strict' } as const;

/**
 * Keeps plans and their photos in the browser (IndexedDB): nothing leaves the machine. Photos are kept under their
 * SHA-256, once however many plans use them. Every method rejects with the browser's own error when storage is closed to
 * the page, full, broken or of a later edition of this package (`VersionError`).
 */
export class PlanStorage {
  #database?: Promise<IDBPDatabase<Shelf>>;

  constructor(readonly name = 'tonewell') {}

  #open(): Promise<IDBPDatabase<Shelf>> {
    if (!this.#database) {
      const opening = openDB<Shelf>(this.name, 2, {
        upgrade(database, from) {
          if (from < 1) {
            database.createObjectStore('plans', { keyPath: 'key' });
            database.createObjectStore('photos', { keyPath: 'sha256' });
          }
          if (from < 2) {
            database.createObjectStore('pictures', { keyPath: 'key' });
            database.createObjectStore('latest', { keyPath: 'name' });
          }
        },
        blocking: (_now, _next, event) => {
          (event.target as IDBDatabase).close();
          this.#database = undefined;
        },
        terminated: () => (this.#database = undefined),
      });
      this.#database = opening;
      opening.catch(() => (this.#database = undefined));
    }
    return this.#database;
  }

  /**
   * The plan under a key, with its leading photo.
   * @throws PlanError when what is kept cannot be read.
   */
  async load(key: string): Promise<Found | undefined> {
    const database = await this.#open();
    const kept = await database.get('plans', key);
    if (!kept || kept.aside) return undefined;
    const plan = parsePlan(typeof kept.text === 'string' ? kept.text : '');
    const photo = plan.photo && (await this.photo(plan.photo.sha256));
    return { plan, photo, revision: kept.revision, saved: new Date(kept.saved) };
  }

  /** The revision under a key: 0 when there is none. */
  async revision(key: string): Promise<number> {
    return (await (await this.#open()).get('plans', key))?.revision ?? 0;
  }

  /**
   * Keeps a plan. The revision is compared inside the transaction: when another page has saved since `revision`, the plan
   * is kept under a new key instead and nothing of the other page is lost.
   */
  async save(key: string, plan: Plan, revision: number): Promise<Saved> {
    const text = serialisePlan(plan);
    const database = await this.#open();
    const work = database.transaction('plans', 'readwrite', WRITE);
    const kept = await work.store.get(key);
    const forked = (kept?.revision ?? 0) !== revision || Boolean(kept?.aside);
    const target = forked ? await freeKey(key, (name) => work.store.getKey(name)) : key;
    const next: KeptPlan = {
      key: target,
      text,
      revision: forked ? 1 : revision + 1,
      saved: Date.now(),
      title: plan.title,
      photos: photosOf(plan).map(({ sha256 }) => sha256),
    };
    await work.store.put(next);
    await work.done;
    return { key: target, revision: next.revision, saved: new Date(next.saved), forked };
  }

  /** All plans that are kept, the one changed last first. */
  async list(): Promise<Listed[]> {
    const database = await this.#open();
    const [plans, pictures] = await Promise.all([
      database.getAll('plans'),
      database.getAll('pictures'),
    ]);
    const pictureOf = new Map(pictures.map(({ key, blob }) => [key, fileOf(blob)]));
    return plans
      .filter(({ aside }) => !aside)
      .map((kept) => ({
        key: kept.key,
        title: typeof kept.title === 'string' ? kept.title : titleIn(kept.text),
        saved: new Date(Number(kept.saved) || 0),
        picture: pictureOf.get(kept.key),
      }))
      .sort((a, b) => b.saved.getTime() - a.saved.getTime());
  }

  /** A key that is not taken: the name itself, else `name (2)`, `name (3)` … */
  async freeKey(name: string): Promise<string> {
    const database = await this.#open();
    if ((await database.getKey('plans', name)) === undefined) return name;
    return freeKey(name, (key) => database.getKey('plans', key));
  }

  /** Keeps a copy of the plan under `key` (with its small picture) under a key of its own, with another title. */
  async duplicate(key: string, title: (title: string) => string): Promise<string> {
    const found = await this.load(key);
    if (!found) throw new DOMException('The plan is no longer kept.', 'NotFoundError');
    const plan = { ...found.plan, title: title(found.plan.title) };
    const saved = await this.save(await this.freeKey(key), plan, 0);
    const database = await this.#open();
    const picture = await database.get('pictures', key);
    if (picture) await database.put('pictures', { ...picture, key: saved.key });
    return saved.key;
  }

  /** Takes a plan off the list; {@link putBack} returns it, {@link forget} and {@link purge} end it. */
  async putAside(key: string): Promise<void> {
    await this.#mark(key, Date.now());
  }

  async putBack(key: string): Promise<void> {
    await this.#mark(key, undefined);
  }

  async #mark(key: string, aside: number | undefined): Promise<void> {
    const work = (await this.#open()).transaction('plans', 'readwrite', WRITE);
    const kept = await work.store.get(key);
    if (kept) {
      const { aside: _aside, ...rest } = kept;
      await work.store.put(aside === undefined ? rest : { ...rest, aside });
    }
    await work.done;
  }

  /**
   * Forgets what was put aside an hour ago or longer, with photos that no other plan uses, and photos that no
   * plan has named for a day (until then a step of undo may need them).
   */
  async purge(): Promise<void> {
    const database = await this.#open();
    const now = Date.now();
    const plans = await database.getAll('plans');
    for (const { key, aside } of plans)
      if (aside && aside <= now - ASIDE_MS) await this.forget(key);
    const work = database.transaction(['plans', 'photos'], 'readwrite');
    const used = await usedPhotos(work.objectStore('plans'));
    for await (const cursor of work.objectStore('photos')) {
      const { unused, ...photo } = cursor.value;
      if (used.has(photo.sha256)) {
        if (unused) await cursor.update(photo);
      } else if (!unused) await cursor.update({ ...photo, unused: now });
      else if (unused < now - UNUSED_MS) await cursor.delete();
    }
    await work.done;
  }

  /** Forgets the plan under a key, and its photos when no other plan uses them. */
  async forget(key: string): Promise<void> {
    const work = (await this.#open()).transaction(['plans', 'photos', 'pictures'], 'readwrite');
    const plans = work.objectStore('plans');
    const kept = await plans.get(key);
    await plans.delete(key);
    await work.objectStore('pictures').delete(key);
    const used = await usedPhotos(plans);
    for (const sha256 of namedPhotos(kept))
      if (!used.has(sha256)) await work.objectStore('photos').delete(sha256);
    await work.done;
  }

  /** Keeps a photo; returns its SHA-256. Needs a secure page (https or this machine): the digest is the browser's. */
  async keepPhoto(blob: Blob, name: string): Promise<string> {
    const sha256 = await digestOf(blob);
    const database = await this.#open();
    const kept = await database.get('photos', sha256);
    if (!kept || kept.unused)
      await putFile(blob, (file) => database.put('photos', { sha256, name, blob: file }));
    return sha256;
  }

  /** The photo with this SHA-256. */
  async photo(sha256: string): Promise<{ name: string; blob: Blob } | undefined> {
    const kept = await (await this.#open()).get('photos', sha256);
    return kept && { name: kept.name, blob: fileOf(kept.blob) };
  }

  /** What the small picture of a plan was made from. */
  async pictureMark(key: string): Promise<string | undefined> {
    return (await (await this.#open()).get('pictures', key))?.mark;
  }

  async keepPicture(key: string, mark: string, blob: Blob): Promise<void> {
    const database = await this.#open();
    await putFile(blob, (file) => database.put('pictures', { key, mark, blob: file }));
  }

  /** The key of the plan that was last in hand where a page asked for `name`, while that plan is kept. */
  async latest(name: string): Promise<string | undefined> {
    const database = await this.#open();
    const key = (await database.get('latest', name))?.key;
    if (!key) return undefined;
    const kept = await database.get('plans', key);
    return kept && !kept.aside ? key : undefined;
  }

  async noteLatest(name: string, key: string): Promise<void> {
    await (await this.#open()).put('latest', { name, key });
  }

  async close(): Promise<void> {
    const database = await this.#database?.catch(() => undefined);
    this.#database = undefined;
    database?.close();
  }
}

/** SHA-256 of a file, 64 lower-case hexadecimal digits. */
export async function digestOf(blob: Blob): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', await blob.arrayBuffer());
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

function namedPhotos(kept: KeptPlan | undefined): string[] {
  if (Array.isArray(kept?.photos)) return kept.photos;
  return kept?.photo ? [kept.photo] : [];
}

async function usedPhotos(plans: { getAll(): Promise<KeptPlan[]> }): Promise<Set<string>> {
  return new Set((await plans.getAll()).flatMap(namedPhotos));
}

/** The title of a plan whose record does not name it. */
function titleIn(text: unknown): string {
  try {
    const { title } = JSON.parse(String(text)) as { title?: unknown };
    return typeof title === 'string' ? title : '';
  } catch {
    return '';
  }
}

/** The first of `key (2)`, `key (3)` … that is not taken; a number at the end of `key` is counted on. */
async function freeKey(
  key: string,
  taken: (key: string) => Promise<string | undefined>,
): Promise<string> {
  const stem = key.replace(/ \(\d+\)$/, '');
  for (let n = 2; ; n++) {
    const name = `${stem} (${n})`;
    if ((await taken(name)) === undefined) return name;
  }
}
