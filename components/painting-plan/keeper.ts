import { reason, type Plan, type Reason } from '../shared/core.js';
import { walledOff } from '../shared/files.js';
import type { PlanStore } from '../shared/plan-store.js';
import { laterStorage } from './later-storage.js';
import type { Found, Listed } from './storage.js';
import { Tabs, type TabNews } from './tabs.js';
import { smallPicture, pictureMark } from './thumbnail.js';

/** How long after a change the plan is kept; while changes go on it is kept at least each second. In milliseconds. */
const SAVE_AFTER_MS = 400;
const SAVE_WITHIN_MS = 800;

/** What the keeper tells its element. */
export interface KeeperHost {
  readonly store: PlanStore;
  /** Something that is shown changed: key, saved, busy, trouble, newer. */
  keeperChanged(): void;
  /** The plan was kept. */
  planKept(saved: Date, key: string): void;
}

/**
 * Keeps the plan in hand in the browser: soon after each change, never over what another page kept meanwhile. Whatever
 * goes wrong is told by `trouble`; the plan in hand stays usable.
 */
export class PlanKeeper {
  readonly storage = laterStorage();
  /** When the plan in hand was last kept. */
  saved?: Date;
  /** Whether changes wait to be kept. */
  busy = false;
  trouble?: Reason;
  /** Whether the browser keeps nothing at all for this page: the plan lives in hand only. */
  closed = false;
  /** Whether another page has kept a newer state of the plan in hand. */
  newer = false;
  /** Whether the browser promised to keep what is stored; `undefined` until it was asked. */
  lasting?: boolean;

  #host: KeeperHost;
  /** The name that the page asked for. */
  #origin = '';
  #key = '';
  #revision = 0;
  #timer?: ReturnType<typeof setTimeout>;
  #dirtySince = 0;
  #saving?: Promise<void>;
  #tabs: Tabs;
  #mark = '';
  #asked = false;

  constructor(host: KeeperHost) {
    this.#host = host;
    this.#tabs = new Tabs((news) => this.#onNews(news));
  }

  /** The key that the plan in hand is kept under; empty: nothing is kept. */
  get key(): string {
    return this.#key;
  }

  connect(): void {
    this.#tabs.open();
  }

  disconnect(): void {
    this.#tabs.close();
  }

  /**
   * Goes over to the name that the page gives: the plan that was last in hand under it, if there is one. Until that is
   * known nothing is kept under the new name. `swap` puts what was found into the store.
   */
  async begin(name: string, swap: (found?: Found) => void): Promise<void> {
    if (!(await this.#settled())) return;
    const { key, found, revision, trouble } = await this.#look(name);
    if (!(await this.#settled())) return;
    this.#origin = name;
    this.#took(key, { revision, saved: found?.saved }, () => swap(found));
    if (trouble) this.#failed(trouble);
    if (key) void this.storage.purge().catch(() => undefined);
  }

  /** What is kept under a name. What cannot be read stays as it is: by its revision -1 a plan is kept beside it. */
  async #look(
    name: string,
  ): Promise<{ key: string; found?: Found; revision: number; trouble?: Reason }> {
    let key = name;
    if (!name) return { key, revision: 0 };
    try {
      key = (await this.storage.latest(name)) ?? name;
      const found = await this.storage.load(key);
      return { key, found, revision: found?.revision ?? (await this.storage.revision(key)) };
    } catch (thrown) {
      return { key, revision: -1, trouble: await troubleOf(thrown) };
    }
  }

  /**
   * Takes up the plan under a key: `swap` puts it into the store at the very moment when its key becomes the one that is
   * saved to. Keeps the plan in hand first; `false` when that fails (see `trouble`). Rejects when the other one cannot be read.
   */
  async take(key: string, swap: (found: Found) => void): Promise<boolean> {
    if (!(await this.#settled())) return false;
    const found = await this.storage.load(key);
    if (!found) throw new DOMException('The plan is no longer kept.', 'NotFoundError');
    if (!(await this.#settled())) return false; // changed while the other one was read
    this.#took(key, found, () => swap(found));
    await this.#noteLatest();
    return true;
  }

  /** Puts a plan under a key of its own and takes it up, as {@link take} does. */
  async begun(plan: Plan, swap: () => void): Promise<boolean> {
    if (!(await this.#settled())) return false;
    const key = await this.storage.freeKey(this.#origin);
    const saved = await this.storage.save(key, plan, 0);
    if (!(await this.#settled())) return false;
    this.#took(saved.key, saved, swap);
    await this.#noteLatest();
    return true;
  }

  /** Whether plans are kept at all: they have a name, and the browser lets the page keep something. */
  get keeps(): boolean {
    return this.#key !== '' && !this.closed;
  }

  /**
   * Goes over to another plan where nothing is kept: the one in hand is not waited for. Should the browser keep something after all, the
   * plan gets a key of its own.
   */
  begunUnkept(swap: () => void): void {
    this.#took(this.#key, { revision: -1 }, swap);
  }

  /** Takes up the state of the plan in hand that another page kept; what was not kept yet here is let go. */
  takeNewer(swap: (found: Found) => void): Promise<boolean> {
    clearTimeout(this.#timer);
    this.#dirtySince = 0;
    return this.take(this.#key, swap);
  }

  /** Keeps the plan in hand as a copy beside the one that another page changed. */
  async keepCopy(): Promise<void> {
    this.#revision = -1;
    this.touch();
    await this.save();
  }

  /** A change to keep. */
  touch(): void {
    if (!this.#key) return;
    const now = Date.now();
    this.#dirtySince ||= now;
    this.busy = true;
    clearTimeout(this.#timer);
    const wait = Math.max(0, Math.min(SAVE_AFTER_MS, this.#dirtySince + SAVE_WITHIN_MS - now));
    this.#timer = setTimeout(() => void this.save(), wait);
  }

  get dirty(): boolean {
    return this.#dirtySince > 0;
  }

  /** Keeps the plan now, if it changed; resolves once it is kept or could not be. */
  async save(): Promise<void> {
    clearTimeout(this.#timer);
    while (this.#saving) await this.#saving;
    if (!this.#key || !this.dirty) return;
    this.#saving = this.#keep();
    await this.#saving;
  }

  async keepPhoto(blob: Blob, name: string): Promise<string | undefined> {
    if (!this.#key) return undefined;
    if (!globalThis.crypto?.subtle) {
      // That the plan itself is not kept is told already, and weighs more.
      if (!this.trouble?.code.startsWith('plan.storage'))
        this.#failed(reason('plan.photo-not-kept'));
      return undefined;
    }
    try {
      return await this.storage.keepPhoto(blob, name);
    } catch (thrown) {
      this.#failed(await troubleOf(thrown));
      return undefined;
    }
  }

  /** Makes the small picture of the plan in hand again when its photo or crop is another one. */
  async keepPicture(): Promise<void> {
    const { store } = this.#host;
    const key = this.#key;
    const mark = pictureMark(store);
    if (!key || !mark || !this.saved || this.#mark === `${key} ${mark}`) return;
    this.#mark = `${key} ${mark}`;
    try {
      if ((await this.storage.pictureMark(key)) === mark) return;
      const blob = await smallPicture(store);
      if (blob && key === this.#key) await this.storage.keepPicture(key, mark, blob);
    } catch {
      this.#mark = ''; // The list does without; the next save tries again.
    }
  }

  /** All plans kept on this device. */
  list(): Promise<Listed[]> {
    return this.storage.list();
  }

  /** Learns whether the browser has promised to keep what is stored, without asking for it. */
  async lookLasting(): Promise<void> {
    try {
      this.lasting = await navigator.storage.persisted();
    } catch {
      // A browser that does not tell.
    }
  }

  /** Asks the browser, once, to keep what is stored until the person deletes it. */
  async askToLast(): Promise<void> {
    if (this.#asked || !this.#key) return;
    this.#asked = true;
    this.lasting = false;
    try {
      const { storage } = navigator;
      this.lasting = (await storage.persisted()) || (await storage.persist());
    } catch {
      // A browser that makes no such promise: the list says so.
    }
    this.#host.keeperChanged();
  }

  forgive(): void {
    this.trouble = undefined;
    this.newer = false;
    this.#host.keeperChanged();
  }

  /** Tells what went wrong with a plan that is not the one in hand. */
  async tell(thrown: unknown): Promise<void> {
    const trouble = await troubleOf(thrown);
    if ((thrown as Error)?.name === 'NotFoundError') trouble.code = 'plan.shelf-gone';
    else trouble.code = trouble.code.replace(/^plan\.(unreadable|newer-edition)$/, 'plan.shelf-$1');
    this.#failed(trouble);
  }

  say(trouble: Reason): void {
    this.#failed(trouble);
  }

  #failed(trouble: Reason): void {
    this.#note(trouble);
    this.#host.keeperChanged();
  }

  #note(trouble: Reason): void {
    this.trouble = trouble;
    this.closed ||= ['plan.storage-closed', 'plan.storage-walled'].includes(trouble.code);
  }

  /** Keeps the plan in hand now; tells whether it is kept. */
  async kept(): Promise<boolean> {
    return (await this.#settled()) && this.keeps;
  }

  /** Whether all changes of the plan in hand are kept. */
  async #settled(): Promise<boolean> {
    await this.save();
    return !this.dirty;
  }

  #took(
    key: string,
    { revision, saved }: { revision: number; saved?: Date },
    swap: () => void,
  ): void {
    this.#key = key;
    this.#revision = revision;
    this.saved = saved;
    swap();
    clearTimeout(this.#timer);
    this.#dirtySince = 0;
    this.busy = false;
    this.newer = false;
    this.trouble = undefined;
    this.#host.keeperChanged();
  }

  async #keep(): Promise<void> {
    this.#dirtySince = 0;
    const { plan } = this.#host.store;
    const asked = this.#key;
    try {
      const beside = this.#revision < 0;
      const { key, revision, saved, forked } = await this.storage.save(asked, plan, this.#revision);
      this.#key = key;
      this.#revision = revision;
      this.saved = saved;
      this.closed = false;
      this.newer = false;
      if (forked && !beside) this.trouble = reason('plan.forked');
      else if (this.trouble?.code.startsWith('plan.storage')) this.trouble = undefined;
      if (forked) await this.#noteLatest();
      this.#tabs.say({ key, revision });
      this.#host.planKept(saved, key);
    } catch (thrown) {
      this.#dirtySince ||= Date.now();
      this.saved = undefined;
      this.#note(await troubleOf(thrown));
    } finally {
      this.#saving = undefined;
      this.busy = false;
      this.#host.keeperChanged();
    }
  }

  async #noteLatest(): Promise<void> {
    try {
      await this.storage.noteLatest(this.#origin, this.#key);
      // A page that remembers this key and begins with it gets this very plan.
      if (this.#key !== this.#origin) await this.storage.noteLatest(this.#key, this.#key);
    } catch {
      // On return the plan that the page names is taken up.
    }
  }

  #onNews({ key, revision }: TabNews): void {
    if (key !== this.#key || revision <= this.#revision || this.#revision < 0) return;
    this.newer = true;
    this.#host.keeperChanged();
  }
}

/** What the browser's error means to the person, with the room that is used where the browser tells. */
async function troubleOf(thrown: unknown): Promise<Reason> {
  const { name, faults } = (thrown ?? {}) as { name?: string; faults?: Reason[] };
  if (name === 'PlanError') {
    const newer = faults?.some(({ code }) => code === 'plan.schema-newer');
    return reason(newer ? 'plan.newer-edition' : 'plan.unreadable');
  }
  if (name === 'VersionError') return reason('plan.storage-newer');
  if (name === 'QuotaExceededError') {
    const room = await roomOnDevice();
    return room ? reason('plan.storage-full-of', { ...room }) : reason('plan.storage-full');
  }
  const broken = ['UnknownError', 'DataError', 'NotFoundError', 'InvalidStateError'];
  if (broken.includes(name ?? '')) return reason('plan.storage-broken');
  return reason(walledOff() ? 'plan.storage-walled' : 'plan.storage-closed');
}

/** MB that this site uses and may use on the device, as the browser estimates; `undefined` where it does not tell. */
export async function roomOnDevice(): Promise<{ used: number; room: number } | undefined> {
  try {
    const { usage, quota } = await navigator.storage.estimate();
    if (usage === undefined || quota === undefined) return undefined;
    return { used: usage / 1e6, room: quota / 1e6 };
  } catch {
    return undefined;
  }
}
