import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import { parsePlan, serialisePlan, type Plan } from '../shared/core.js';

/** A plan as it is kept; the text is what `serialisePlan` writes. */
interface KeptPlan {
  key: string;
  text: string;
  /** Grows by one with each save: a save that does not know the latest one is a conflict. */
  revision: number;
  saved: number;
  photo?: string;
}

interface KeptPhoto {
  sha256: string;
  name: string;
  blob: Blob;
}

interface Shelf extends DBSchema {
  plans: { key: string; value: KeptPlan };
  photos: { key: string; value: KeptPhoto };
}

/** What was found under a key. */
export interface Found {
  plan: Plan;
  photo?: { name: string; blob: Blob };
  revision: number;
  saved: Date;
}

/** How a save ended: kept under the key, or, since another page had saved there, under a key of its own. */
export interface Saved {
  key: string;
  revision: number;
  saved: Date;
  /** True when another page had saved meanwhile and this plan was kept as a copy. */
  forked: boolean;
}

/**
 * Keeps plans and their photos in the browser (IndexedDB): nothing leaves the machine. Photos are kept under their
 * SHA-256, once however many plans use them.
 */
export class PlanStorage {
  #database?: Promise<IDBPDatabase<Shelf>>;

  constructor(readonly name = 'tonewell') {}

  #open(): Promise<IDBPDatabase<Shelf>> {
    if (!this.#database) {
      this.#database = openDB<Shelf>(this.name, 1, {
        upgrade(database) {
          database.createObjectStore('plans', { keyPath: 'key' });
          database.createObjectStore('photos', { keyPath: 'sha256' });
        },
        blocking: (_now, _next, event) => (event.target as IDBDatabase).close(),
        terminated: () => (this.#database = undefined),
      });
      this.#database.catch(() => (this.#database = undefined));
    }
    return this.#database;
  }

  /**
   * The plan under a key, with its photo.
   * @throws PlanError when what is kept cannot be read; the browser's own error when storage is closed to the page.
   */
  async load(key: string): Promise<Found | undefined> {
    const database = await this.#open();
    const kept = await database.get('plans', key);
    if (!kept) return undefined;
    const plan = parsePlan(kept.text);
    const photo = kept.photo ? await database.get('photos', kept.photo) : undefined;
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
    const work = database.transaction(['plans', 'photos'], 'readwrite');
    const plans = work.objectStore('plans');
    const kept = await plans.get(key);
    const forked = (kept?.revision ?? 0) !== revision;
    const target = forked ? await freeKey(key, (name) => plans.getKey(name)) : key;
    const next: KeptPlan = {
      key: target,
      text,
      revision: forked ? 1 : revision + 1,
      saved: Date.now(),
      photo: plan.photo?.sha256,
    };
    await plans.put(next);
    const old = forked ? undefined : kept?.photo;
    if (old && old !== next.photo && !(await plans.getAll()).some(({ photo }) => photo === old)) {
      await work.objectStore('photos').delete(old);
    }
    await work.done;
    return { key: target, revision: next.revision, saved: new Date(next.saved), forked };
  }

  /** Keeps a photo; returns its SHA-256. Needs a secure page (https or this machine): the digest is the browser's. */
  async keepPhoto(blob: Blob, name: string): Promise<string> {
    const digest = await crypto.subtle.digest('SHA-256', await blob.arrayBuffer());
    const sha256 = [...new Uint8Array(digest)]
      .map((byte) => byte.toString(16).padStart(2, '0'))
      .join('');
    const database = await this.#open();
    if (!(await database.getKey('photos', sha256)))
      await database.put('photos', { sha256, name, blob });
    return sha256;
  }

  /** Forgets the plan under a key, and its photo when no other plan uses it. */
  async forget(key: string): Promise<void> {
    const work = (await this.#open()).transaction(['plans', 'photos'], 'readwrite');
    const plans = work.objectStore('plans');
    const kept = await plans.get(key);
    await plans.delete(key);
    if (kept?.photo && !(await plans.getAll()).some(({ photo }) => photo === kept.photo))
      await work.objectStore('photos').delete(kept.photo);
    await work.done;
  }

  async close(): Promise<void> {
    const database = await this.#database?.catch(() => undefined);
    this.#database = undefined;
    database?.close();
  }
}

/** The first of `key (2)`, `key (3)` … that is not taken. */
async function freeKey(
  key: string,
  taken: (key: string) => Promise<string | undefined>,
): Promise<string> {
  for (let n = 2; ; n++) {
    const name = `${key} (${n})`;
    if ((await taken(name)) === undefined) return name;
  }
}
