import { CoreError, type Reason } from '../base/reason.js';
import { documentFaults, faultLine, inKeyOrder, pathTo, type FaultList } from '../base/schema.js';
import { readJson } from './json.js';
import { BOARD_SCHEMA } from './schema.js';
import type { Board } from './types.js';

/**
 * The error of a board that cannot be read. `name` is `BoardError`; `faults` lists every fault with its JSONPath
 * (`values.path`); `message` lists them in English for developers.
 *
 * Codes of faults: those of `documentFaults` under `board.…`, and `board.not-json-text`, `board.ceiling-below-floor`,
 * `board.bands-disorder`, `board.no-such-bucket`, `board.duplicate-id`.
 */
export class BoardError extends CoreError {
  readonly faults: Reason[];

  constructor(faults: Reason[]) {
    super('BoardError', `The board cannot be read: ${faults.map(faultLine).join('; ')}`, {
      count: faults.length,
    });
    this.faults = faults;
  }
}

/**
 * Adds what the schema of a board cannot express. `path` is the place of the board in its document; the board may still
 * be of any shape.
 */
export function addBoardFaults(board: unknown, path: string, faults: FaultList): void {
  const { bands, swatches } = (board ?? {}) as { bands?: unknown; swatches?: unknown };
  if (Array.isArray(bands)) {
    let below = { floor: -Infinity, ceiling: -Infinity };
    bands.forEach((band: unknown, i) => {
      const { floor, ceiling } = (band ?? {}) as { floor?: unknown; ceiling?: unknown };
      if (typeof floor !== 'number' || typeof ceiling !== 'number') return;
      const at = pathTo(pathTo(path, 'bands'), i);
      if (ceiling < floor) faults.add('ceiling-below-floor', at, { floor, ceiling });
      if (floor < below.floor || ceiling < below.ceiling)
        faults.add('bands-disorder', at, { floor, ceiling });
      below = { floor, ceiling };
    });
  }
  if (Array.isArray(swatches)) {
    const seen = new Set<string>();
    swatches.forEach((swatch: unknown, i) => {
      const { id, bucket } = (swatch ?? {}) as { id?: unknown; bucket?: unknown };
      const at = pathTo(pathTo(path, 'swatches'), i);
      if (
        Array.isArray(bands) &&
        Number.isInteger(bucket) &&
        (bucket as number) >= bands.length &&
        (bucket as number) <= 8
      ) {
        faults.add('no-such-bucket', pathTo(at, 'bucket'), {
          found: bucket as number,
          bands: bands.length,
        });
      }
      if (typeof id !== 'string') return;
      if (seen.has(id)) faults.add('duplicate-id', pathTo(at, 'id'), { id: id.slice(0, 120) });
      seen.add(id);
    });
  }
}

/**
 * Reads a board from JSON text or from a value of unknown shape.
 *
 * @param value - JSON text of at most 4 000 000 characters, or what `JSON.parse` gave.
 * @returns A board that shares nothing with `value`; keys in the order of {@link BOARD_SCHEMA}.
 * @throws {BoardError} listing every fault. Text is never taken for markup.
 */
export function parseBoard(value: unknown): Board {
  const { parsed, fault } = readJson(value, 'board');
  if (fault) throw new BoardError([fault]);
  const faults = documentFaults(BOARD_SCHEMA, parsed, 'board');
  addBoardFaults(parsed, '$', faults);
  if (!faults.empty) throw new BoardError(faults.list());
  return inKeyOrder(BOARD_SCHEMA, parsed) as Board;
}
