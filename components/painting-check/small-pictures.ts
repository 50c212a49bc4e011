import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import { fileOf, putFile, type KeptFile } from '../shared/kept-file.js';

interface Shelf extends DBSchema {
  pictures: { key: string; value: { sha256: string; blob: KeptFile; kept: number } };
}

/** Longer side of a small picture, pixels: 144 CSS pixels on a fine screen. */
const LONG_SIDE = 288;
/** So many are kept; the oldest leave. */
const MOST = 300;
const QUALITY = 0.8;

/**
 * Small pictures of checked paintings, upright, under the digest of the photo that the check names. They stay in this browser
 * (IndexedDB), so that the plan stays small; where storage is closed they last as long as the page.
 */
export class CheckPictures {
  #database?: Promise<IDBPDatabase<Shelf>>;
  readonly #here = new Map<string, Blob>();

  constructor(readonly name = 'tonewell-checks') {}

  #open(): Promise<IDBPDatabase<Shelf>> {
    this.#database ??= openDB<Shelf>(this.name, 1, {
      upgrade: (database) => void database.createObjectStore('pictures', { keyPath: 'sha256' }),
      blocking: (_now, _next, event) => {
        (event.target as IDBDatabase).close();
        this.#database = undefined;
      },
      terminated: () => (this.#database = undefined),
    });
    this.#database.catch(() => (this.#database = undefined));
    return this.#database;
  }

  async keep(sha256: string, picture: CanvasImageSource & { width: number; height: number }) {
    const scale = Math.min(1, LONG_SIDE / Math.max(picture.width, picture.height));
    const canvas = new OffscreenCanvas(
      Math.max(1, Math.round(picture.width * scale)),
      Math.max(1, Math.round(picture.height * scale)),
    );
    const context = canvas.getContext('2d')!;
    context.imageSmoothingQuality = 'high';
    context.drawImage(picture, 0, 0, canvas.width, canvas.height);
    const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: QUALITY });
    this.#here.set(sha256, blob);
    try {
      const database = await this.#open();
      await putFile(blob, (file) =>
        database.put('pictures', { sha256, blob: file, kept: Date.now() }),
      );
      const all = await database.getAll('pictures');
      const old = all.sort((a, b) => b.kept - a.kept).slice(MOST);
      await Promise.all(old.map((each) => database.delete('pictures', each.sha256)));
    } catch {
      // Storage is closed to this page or full: the picture lasts as long as the page.
    }
  }

  async of(sha256: string): Promise<Blob | undefined> {
    const here = this.#here.get(sha256);
    if (here) return here;
    try {
      const found = await (await this.#open()).get('pictures', sha256);
      if (found) this.#here.set(sha256, fileOf(found.blob));
      return this.#here.get(sha256);
    } catch {
      return undefined;
    }
  }
}

/** SHA-256 of a file, 64 lower-case hexadecimal digits; `undefined` where the page is not secure. */
export async function digestOf(blob: Blob): Promise<string | undefined> {
  try {
    const digest = await crypto.subtle.digest('SHA-256', await blob.arrayBuffer());
    return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  } catch {
    return undefined;
  }
}
