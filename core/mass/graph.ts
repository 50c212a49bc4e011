import type { Kernel } from '../base/kernel.js';

/** Parts of a picture, what they hold, and the borders between them; parts are merged until each can be stated. */

/** A heap of numbers with keys, smallest first. */
export class Heap {
  #keys: number[] = [];
  #items: number[] = [];

  get size(): number {
    return this.#keys.length;
  }

  /** The smallest key. */
  get least(): number {
    return this.#keys.length > 0 ? this.#keys[0] : Infinity;
  }

  push(key: number, item: number): void {
    const keys = this.#keys;
    const items = this.#items;
    let at = keys.length;
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (keys[up] <= key) break;
      keys[at] = keys[up];
      items[at] = items[up];
      at = up;
    }
    keys[at] = key;
    items[at] = item;
  }

  /** Takes the item of the smallest key. */
  pop(): number {
    const keys = this.#keys;
    const items = this.#items;
    const top = items[0];
    const key = keys.pop()!;
    const item = items.pop()!;
    const size = keys.length;
    if (size > 0) {
      let at = 0;
      for (;;) {
        let down = 2 * at + 1;
        if (down >= size) break;
        if (down + 1 < size && keys[down + 1] < keys[down]) down++;
        if (keys[down] >= key) break;
        keys[at] = keys[down];
        items[at] = items[down];
        at = down;
      }
      keys[at] = key;
      items[at] = item;
    }
    return top;
  }
}

/** Borders between parts while they are counted: pairs of parts and what their border costs. */
export class BorderTable {
  #slots: Int32Array;
  #mask: number;
  count = 0;
  a = new Int32Array(1024);
  b = new Int32Array(1024);
  cost = new Float64Array(1024);

  constructor() {
    this.#slots = new Int32Array(4096).fill(-1);
    this.#mask = 4095;
  }

  add(one: number, other: number, cost: number): void {
    const a = one < other ? one : other;
    const b = one < other ? other : one;
    let slot = (Math.imul(a, 0x9e3779b1) ^ Math.imul(b, 0x85ebca6b)) >>> 0;
    slot = (slot ^ (slot >>> 15)) & this.#mask;
    for (;;) {
      const entry = this.#slots[slot];
      if (entry < 0) break;
      if (this.a[entry] === a && this.b[entry] === b) {
        this.cost[entry] += cost;
        return;
      }
      slot = (slot + 1) & this.#mask;
    }
    if (this.count === this.a.length) this.#widen();
    const entry = this.count++;
    this.a[entry] = a;
    this.b[entry] = b;
    this.cost[entry] = cost;
    this.#slots[slot] = entry;
    if (2 * this.count > this.#mask) this.#rehash();
  }

  #widen(): void {
    const length = 2 * this.a.length;
    const a = new Int32Array(length);
    const b = new Int32Array(length);
    const cost = new Float64Array(length);
    a.set(this.a);
    b.set(this.b);
    cost.set(this.cost);
    this.a = a;
    this.b = b;
    this.cost = cost;
  }

  #rehash(): void {
    this.#mask = 4 * (this.#mask + 1) - 1;
    const slots = new Int32Array(this.#mask + 1).fill(-1);
    for (let entry = 0; entry < this.count; entry++) {
      let slot =
        (Math.imul(this.a[entry], 0x9e3779b1) ^ Math.imul(this.b[entry], 0x85ebca6b)) >>> 0;
      slot = (slot ^ (slot >>> 15)) & this.#mask;
      while (slots[slot] >= 0) slot = (slot + 1) & this.#mask;
      slots[slot] = entry;
    }
    this.#slots = slots;
  }
}

/** What each part holds, before any is merged. */
export interface Parts {
  count: number;
  /** Pixels. */
  area: Float64Array;
  /** Sum of codes over those pixels. */
  sum: Float64Array;
  /** Pixels of it that lie in the focus. */
  fine: Float64Array;
}

/** The parts and their borders as a graph that shrinks. Merged parts are found under one of their numbers. */
export class PartGraph {
  readonly #parent: Int32Array;
  readonly area: Float64Array;
  readonly sum: Float64Array;
  readonly fine: Float64Array;
  readonly band: Uint8Array;
  /** Squared distance from one of a part's pixels to the nearest pixel of another: as far as is known, at least that. */
  readonly room: Float64Array;
  readonly #limits: readonly number[];

  // Borders of a part as a list of half edges.
  readonly #head: Int32Array;
  readonly #tail: Int32Array;
  readonly #next: Int32Array;
  readonly #to: Int32Array;
  readonly #cost: Float64Array;
  readonly #seen: Int32Array;

  /** The neighbours that {@link look} found, and what their borders cost. */
  near: number[] = [];
  nearCost: number[] = [];

  /**
   * @param limits codes between the bands: a part whose mean code is at least `t + 0.5` is above t
   */
  constructor(parts: Parts, borders: BorderTable, limits: readonly number[]) {
    const { count } = parts;
    this.#parent = Int32Array.from({ length: count }, (_, i) => i);
    this.area = parts.area;
    this.sum = parts.sum;
    this.fine = parts.fine;
    this.#limits = limits;
    this.band = new Uint8Array(count);
    this.room = new Float64Array(count);
    this.#head = new Int32Array(count).fill(-1);
    this.#tail = new Int32Array(count).fill(-1);
    this.#seen = new Int32Array(count).fill(-1);
    const halves = 2 * borders.count;
    this.#next = new Int32Array(halves).fill(-1);
    this.#to = new Int32Array(halves);
    this.#cost = new Float64Array(halves);
    for (let i = 0; i < count; i++) this.band[i] = this.#bandOf(i);
    for (let e = 0; e < borders.count; e++) {
      this.#hang(borders.a[e], 2 * e, borders.b[e], borders.cost[e]);
      this.#hang(borders.b[e], 2 * e + 1, borders.a[e], borders.cost[e]);
    }
  }

  #hang(part: number, half: number, to: number, cost: number): void {
    this.#to[half] = to;
    this.#cost[half] = cost;
    this.#next[half] = this.#head[part];
    if (this.#head[part] < 0) this.#tail[part] = half;
    this.#head[part] = half;
  }

  #bandOf(part: number): number {
    const mean = this.sum[part] / this.area[part];
    let band = 0;
    while (band < this.#limits.length && mean >= this.#limits[band] + 0.5) band++;
    return band;
  }

  /** The number under which a part is found now. */
  find(part: number): number {
    const parent = this.#parent;
    while (parent[part] !== part) {
      parent[part] = parent[parent[part]];
      part = parent[part];
    }
    return part;
  }

  isRoot(part: number): boolean {
    return this.#parent[part] === part;
  }

  /** Fills {@link near}: each neighbour once. The list of half edges shrinks to the same on the way. */
  look(part: number): void {
    const near: number[] = [];
    const nearCost: number[] = [];
    const seen = this.#seen;
    let last = -1;
    let half = this.#head[part];
    while (half >= 0) {
      const after = this.#next[half];
      const to = this.find(this.#to[half]);
      if (to !== part) {
        if (seen[to] < 0) {
          seen[to] = near.length;
          near.push(to);
          nearCost.push(this.#cost[half]);
          this.#to[half] = to;
          if (last < 0) this.#head[part] = half;
          else this.#next[last] = half;
          last = half;
        } else nearCost[seen[to]] += this.#cost[half];
      }
      half = after;
    }
    if (last < 0) this.#head[part] = this.#tail[part] = -1;
    else {
      this.#next[last] = -1;
      this.#tail[part] = last;
    }
    half = this.#head[part];
    for (let i = 0; i < near.length; i++, half = this.#next[half]) {
      this.#cost[half] = nearCost[i];
      seen[near[i]] = -1;
    }
    this.near = near;
    this.nearCost = nearCost;
  }

  /**
   * The rise of `sum |L* - mean| + border cost` when two parts become one. For parts flat in themselves it is exact: two means
   * M1, M2 of n1 and n2 pixels move to the common mean, `2 n1 n2 / (n1 + n2) |M1 - M2|`; else it is the most it can be.
   */
  rise(a: number, b: number, cost: number): number {
    const n = this.area[a];
    const m = this.area[b];
    const apart = Math.abs(this.sum[a] / n - this.sum[b] / m) / 2.55;
    return ((2 * n * m) / (n + m)) * apart - cost;
  }

  /** Least rise among a part's neighbours; `with` is -1 for a part without any. Leaves {@link near} filled. */
  best(part: number): { with: number; rise: number } {
    this.look(part);
    let found = -1;
    let least = Infinity;
    for (let i = 0; i < this.near.length; i++) {
      const rise = this.rise(part, this.near[i], this.nearCost[i]);
      if (rise < least || (rise === least && this.near[i] < found)) {
        least = rise;
        found = this.near[i];
      }
    }
    return { with: found, rise: least };
  }

  #unite(a: number, b: number): number {
    const root = this.area[a] >= this.area[b] ? a : b;
    const gone = root === a ? b : a;
    this.#parent[gone] = root;
    this.area[root] += this.area[gone];
    this.sum[root] += this.sum[gone];
    this.fine[root] += this.fine[gone];
    this.room[root] = Math.max(this.room[root], this.room[gone]);
    if (this.#head[gone] >= 0) {
      if (this.#head[root] < 0) this.#head[root] = this.#head[gone];
      else this.#next[this.#tail[root]] = this.#head[gone];
      this.#tail[root] = this.#tail[gone];
    }
    return root;
  }

  /** Merges two parts into the band of their common mean; neighbours of that band come with them. Returns the new root. */
  merge(a: number, b: number): number {
    const larger = this.area[a] >= this.area[b] ? a : b;
    const smaller = larger === a ? b : a;
    const bandBefore = this.band[larger];
    this.look(smaller);
    let around = this.near;
    let root = this.#unite(a, b);
    this.band[root] = this.#bandOf(root);
    if (this.band[root] !== bandBefore) {
      this.look(root);
      around = this.near;
    }
    // All of one band, so the mean stays in it, and what they touch is of other bands.
    for (const part of around) {
      const other = this.find(part);
      if (other !== root && this.band[other] === this.band[root]) {
        const band = this.band[root];
        root = this.#unite(root, other);
        this.band[root] = band;
      }
    }
    return root;
  }

  /** Merges all neighbours of equal band. */
  *joinEqual(): Kernel<void> {
    for (let part = 0; part < this.#parent.length; part++) {
      if (part % 4096 === 4095) yield part / this.#parent.length;
      if (!this.isRoot(part)) continue;
      for (let root = part; ;) {
        this.look(root);
        const { near } = this;
        let joined = false;
        for (const one of near) {
          const other = this.find(one);
          if (other === root || this.band[other] !== this.band[root]) continue;
          const band = this.band[root];
          root = this.#unite(root, other);
          this.band[root] = band;
          joined = true;
        }
        if (!joined) break;
      }
    }
  }

  /** Merges, by least rise, every part that `fails` until none does or one part is left. */
  *settle(fails: (part: number) => boolean): Kernel<void> {
    const heap = new Heap();
    for (let part = 0; part < this.#parent.length; part++)
      if (this.isRoot(part) && fails(part)) heap.push(this.best(part).rise, part);
    yield 0;
    const all = heap.size;
    for (let turn = 1; heap.size > 0; turn++) {
      if (turn % 1024 === 0) yield Math.max(0, 1 - heap.size / all);
      const key = heap.least;
      const part = heap.pop();
      if (!this.isRoot(part) || !fails(part)) continue;
      const found = this.best(part);
      if (found.with < 0) continue;
      if (found.rise > key && found.rise > heap.least) {
        heap.push(found.rise, part);
        continue;
      }
      const root = this.merge(part, found.with);
      if (fails(root)) heap.push(this.best(root).rise, root);
    }
  }

  /**
   * Merges each part that `fails` once, by least rise; what comes of it is left alone. For conditions that a merge may change in
   * a way the graph does not know.
   */
  settleOnce(fails: (part: number) => boolean): void {
    const heap = new Heap();
    for (let part = 0; part < this.#parent.length; part++)
      if (this.isRoot(part) && fails(part)) heap.push(this.best(part).rise, part);
    const touched = new Uint8Array(this.#parent.length);
    while (heap.size > 0) {
      const part = heap.pop();
      if (!this.isRoot(part) || touched[part] !== 0 || !fails(part)) continue;
      const found = this.best(part);
      if (found.with >= 0) touched[this.merge(part, found.with)] = 1;
    }
  }

  /** Merges, by least rise, neighbours whose border costs more than it spares. */
  *economise(): Kernel<void> {
    const heap = new Heap();
    const offer = (part: number) => {
      const found = this.best(part);
      if (found.with >= 0 && found.rise < 0) heap.push(found.rise, part);
    };
    for (let part = 0; part < this.#parent.length; part++) if (this.isRoot(part)) offer(part);
    for (let turn = 1; heap.size > 0; turn++) {
      if (turn % 256 === 0) yield 0.5;
      const key = heap.least;
      const part = heap.pop();
      if (!this.isRoot(part)) continue;
      const found = this.best(part);
      if (found.with < 0 || found.rise >= 0) continue;
      if (found.rise > key && found.rise > heap.least) {
        heap.push(found.rise, part);
        continue;
      }
      const root = this.merge(part, found.with);
      this.look(root);
      const around = this.near;
      offer(root);
      for (const other of around) offer(other);
    }
  }

  /** Numbers the roots 0.. in the order of their parts; -1 for the others. */
  numbered(): { of: Int32Array; roots: number[] } {
    const of = new Int32Array(this.#parent.length);
    const roots: number[] = [];
    const numbers = new Int32Array(this.#parent.length).fill(-1);
    for (let part = 0; part < of.length; part++) {
      const root = this.find(part);
      if (numbers[root] < 0) {
        numbers[root] = roots.length;
        roots.push(root);
      }
      of[part] = numbers[root];
    }
    return { of, roots };
  }
}
