import type { Loop, Spot } from '../shared/core.js';
import type { Bench } from './bench.js';
import { columnAt, withDab, withDabs } from './dabs-state.js';
import { boxOf, grown, loopBetween, middleOf, movedBy, partedBy, type Line } from './geometry.js';
import type { Doing } from './sheet-view.js';

/** How long moves by keys wait for the next one before the place is read, ms. */
const PAUSE = 350;
/** A dab shown smaller than this is brought nearer before it is parted, CSS pixels. */
const SMALL = 72;

interface Moving {
  id: string;
  loops: readonly Loop[];
}

/** Where dabs lie: moved, grown, drawn, joined, parted and dropped by the painter, and read anew there. */
export class DabShaping {
  doing: Doing = 'pick';
  line?: Line;
  /** A loop while it is being drawn. */
  drawing?: Loop;
  readonly #bench: Bench;
  #moving?: Moving;
  #timer?: ReturnType<typeof setTimeout>;

  constructor(bench: Bench) {
    this.#bench = bench;
  }

  shownLoops({ id, loops }: { id: string; loops: readonly Loop[] }): readonly Loop[] {
    return this.#moving?.id === id ? this.#moving.loops : loops;
  }

  /** Lets go of what is under way. */
  halt(): void {
    clearTimeout(this.#timer);
  }

  /** Nothing is being moved any longer. */
  still(): void {
    this.#moving = undefined;
  }

  do(what: Doing): void {
    this.endDoing();
    this.doing = what;
    if (what === 'part') {
      this.#lineThrough();
      this.#comeNearer();
    }
    this.#bench.focusNext =
      what === 'add' ? '[data-middle]' : what === 'part' ? '[data-end="0"]' : '';
    this.#bench.update();
  }

  /** Shows a dab that is too small to work on larger. */
  #comeNearer(): void {
    const dab = this.#bench.dab(this.#bench.picked);
    const stage = this.#bench.host.shadowRoot?.querySelector<HTMLElement>('.stage');
    if (!dab || !stage) return;
    const { width, height } = boxOf(dab.loops);
    const shown = Math.min(width * stage.clientWidth, height * stage.clientHeight);
    if (shown < SMALL || this.#bench.nearer) this.#bench.setNearer(true);
  }

  endDoing(): void {
    this.doing = 'pick';
    this.line = undefined;
    this.drawing = undefined;
  }

  placeDab(id: string, loops: readonly Loop[], settled: boolean): void {
    this.#moving = { id, loops };
    clearTimeout(this.#timer);
    this.#bench.update();
    if (settled) this.#readMoved();
  }

  stepDab(id: string, by: Spot): void {
    const dab = this.#bench.dab(id);
    if (!dab) return;
    this.#moving = { id, loops: movedBy(this.shownLoops(dab), by) };
    this.#readSoon();
  }

  growDab(id: string, by: number): void {
    const dab = this.#bench.dab(id);
    if (!dab) return;
    this.#moving = { id, loops: grown(this.shownLoops(dab), by) };
    this.#readSoon();
  }

  #readSoon(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#readMoved(), PAUSE);
    this.#bench.update();
  }

  /** Puts a dab that is being moved back. */
  revert(): void {
    clearTimeout(this.#timer);
    this.#moving = undefined;
    this.#bench.stillCorners();
    this.drawing = undefined;
    this.#bench.update();
  }

  #readMoved(): void {
    const moving = this.#moving;
    if (!moving) return;
    const { id, loops } = moving;
    this.#bench.later(async (light) => {
      const read = await this.#bench.readPlace(loops, light);
      if (!this.#bench.dab(id)) return;
      this.#bench.act('move', (state) => withDab(state, id, { ...read, loops, hand: true }));
      this.#bench.speak(this.#bench.told(id));
    });
  }

  draw(loop: Loop | undefined, settled: boolean): void {
    this.drawing = loop;
    this.#bench.update();
    if (!settled || !loop) return;
    const { width, height } = boxOf([loop]);
    if (Math.min(width, height) < 0.006) {
      this.drawing = undefined;
      return;
    }
    this.#add(loop);
  }

  layInMiddle(): void {
    const { dabs = [] } = this.#bench.state ?? {};
    const sides = dabs.map(({ loops }) => boxOf(loops));
    const typical = (key: 'width' | 'height', usual: number): number => {
      const sorted = sides.map((box) => box[key]).sort((a, b) => a - b);
      return sorted[Math.floor(sorted.length / 2)] ?? usual;
    };
    const [w, h] = [typical('width', 0.08), typical('height', 0.08 * this.#bench.aspect)];
    this.#add(loopBetween([0.5 - w / 2, 0.5 - h / 2], [0.5 + w / 2, 0.5 + h / 2]));
  }

  #add(loop: Loop): void {
    this.endDoing();
    this.#bench.later(async (light) => {
      const read = await this.#bench.readPlace([loop], light);
      const id = this.#bench.newId();
      this.#bench.act('add', (state) => {
        const column = columnAt(state.dabs, middleOf([loop]));
        const dab = { id, loops: [loop], column, ...read, hand: true, name: '' };
        return withDabs(state, [...state.dabs, dab]);
      });
      this.#bench.pick(id, true);
      this.#bench.speak(this.#bench.told(id));
    });
  }

  drop(id: string): void {
    const dab = this.#bench.dab(id);
    if (!dab) return;
    const number = this.#bench.numberOf(id);
    this.#bench.act(
      'drop',
      (state) => ({
        ...withDabs(
          state,
          state.dabs.filter((each) => each !== dab),
        ),
        gone: dab.hand ? state.gone : [...state.gone, middleOf(dab.loops)],
      }),
      this.#bench.say('reader.dropped', { number }),
    );
    this.#bench.focusNext = '[data-undo]';
  }

  join(id: string, other: string): void {
    const [one, two] = [this.#bench.dab(id), this.#bench.dab(other)];
    if (!one || !two || one === two) return;
    const loops = [...one.loops, ...two.loops];
    const number = this.#bench.numberOf(other);
    this.#bench.later(async (light) => {
      const read = await this.#bench.readPlace(loops, light);
      this.#bench.act('join', (state) =>
        withDabs(
          state,
          state.dabs
            .filter((dab) => dab.id !== other)
            .map((dab) => (dab.id === id ? { ...dab, ...read, loops, hand: true } : dab)),
        ),
      );
      this.#bench.speak(`${this.#bench.say('reader.joined', { number })} ${this.#bench.told(id)}`);
    });
  }

  #lineThrough(): void {
    const dab = this.#bench.dab(this.#bench.picked);
    if (!dab) return;
    const { x, y, width, height } = boxOf(dab.loops);
    this.line =
      width * this.#bench.aspect >= height
        ? [
            [x + width / 2, y - 0.4 * height],
            [x + width / 2, y + 1.4 * height],
          ]
        : [
            [x - 0.4 * width, y + height / 2],
            [x + 1.4 * width, y + height / 2],
          ];
  }

  setLine(line: Line): void {
    this.line = line;
    this.#bench.update();
  }

  turnLine(): void {
    const dab = this.#bench.dab(this.#bench.picked);
    if (!dab || !this.line) return;
    const { x, y, width, height } = boxOf(dab.loops);
    const [[x0, y0], [x1, y1]] = this.line;
    const upright = Math.abs(x1 - x0) * this.#bench.aspect < Math.abs(y1 - y0);
    this.setLine(
      upright
        ? [
            [x - 0.4 * width, y + height / 2],
            [x + 1.4 * width, y + height / 2],
          ]
        : [
            [x + width / 2, y - 0.4 * height],
            [x + width / 2, y + 1.4 * height],
          ],
    );
  }

  part(id: string): void {
    const dab = this.#bench.dab(id);
    const parts = dab && this.line && partedBy(dab.loops, this.line);
    if (!dab || !parts) {
      this.#bench.fault = this.#bench.say('reader.line-misses');
      this.#bench.speak(this.#bench.fault);
      return this.#bench.update();
    }
    this.endDoing();
    this.#bench.later(async (light) => {
      const [one, two] = [
        await this.#bench.readPlace(parts[0], light),
        await this.#bench.readPlace(parts[1], light),
      ];
      const other = this.#bench.newId();
      this.#bench.act('part', (state) =>
        withDabs(
          state,
          state.dabs.flatMap((each) =>
            each.id === id
              ? [
                  { ...each, ...one, loops: parts[0], hand: true },
                  { ...each, ...two, id: other, loops: parts[1], hand: true, same: undefined },
                ]
              : [each],
          ),
        ),
      );
      this.#bench.focusNext = '[data-box]';
      this.#bench.speak(`${this.#bench.told(id)} ${this.#bench.told(other)}`);
    });
  }
}
