/** A byte-budgeted store: the entry that was used longest ago is let go first. */
export class ByteCache {
  #entries = new Map<string, { value: unknown; bytes: number; drop?: () => void }>();
  #bytes = 0;

  /** @param budget the most bytes kept; an entry larger than that is kept alone until the next one comes. */
  constructor(readonly budget: number) {}

  get bytes(): number {
    return this.#bytes;
  }

  get<T>(key: string): T | undefined {
    const entry = this.#entries.get(key);
    if (!entry) return undefined;
    this.#entries.delete(key);
    this.#entries.set(key, entry);
    return entry.value as T;
  }

  set(key: string, value: unknown, bytes: number, drop?: () => void): void {
    this.delete(key);
    this.#entries.set(key, { value, bytes, drop });
    this.#bytes += bytes;
    for (const old of this.#entries.keys()) {
      if (this.#bytes <= this.budget || old === key) break;
      this.delete(old);
    }
  }

  delete(key: string): void {
    const entry = this.#entries.get(key);
    if (!entry) return;
    this.#entries.delete(key);
    this.#bytes -= entry.bytes;
    entry.drop?.();
  }

  /** Lets go of every entry whose key starts with `prefix`. */
  deleteAll(prefix: string): void {
    for (const key of [...this.#entries.keys()]) if (key.startsWith(prefix)) this.delete(key);
  }
}
