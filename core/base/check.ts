/** Guards for the public functions: each message names the argument, the value and what was expected. */

const shown = (value: unknown): string => {
  if (typeof value === 'string')
    return JSON.stringify(value.length > 40 ? value.slice(0, 40) + '…' : value);
  if (ArrayBuffer.isView(value))
    return `${value.constructor.name}(${(value as Uint8Array).length})`;
  if (Array.isArray(value))
    return value.length > 8 ? `array of ${value.length}` : `[${value.map(shown).join(', ')}]`;
  if (value !== null && typeof value === 'object') return `an object`;
  return String(value);
};

export function wrongType(name: string, value: unknown, expected: string): TypeError {
  return new TypeError(`${name} is ${shown(value)}; expected ${expected}`);
}

export function outOfRange(name: string, value: unknown, expected: string): RangeError {
  return new RangeError(`${name} is ${shown(value)}; expected ${expected}`);
}

/** A finite number within `low..high` (inclusive). */
export function expectNumber(
  name: string,
  value: unknown,
  low = -Infinity,
  high = Infinity,
): number {
  if (typeof value !== 'number') throw wrongType(name, value, 'a number');
  if (!Number.isFinite(value) || value < low || value > high) {
    const range = low === -Infinity && high === Infinity ? '' : ` from ${low} to ${high}`;
    throw outOfRange(name, value, `a finite number${range}`);
  }
  return value;
}

/** A whole number within `low..high` (inclusive). */
export function expectInteger(name: string, value: unknown, low: number, high: number): number {
  if (typeof value !== 'number') throw wrongType(name, value, 'a whole number');
  if (!Number.isInteger(value) || value < low || value > high)
    throw outOfRange(name, value, `a whole number from ${low} to ${high}`);
  return value;
}

/** An object (not null, not an array). */
export function expectObject(name: string, value: unknown): Record<string, unknown> {
  if (value === null || typeof value !== 'object' || Array.isArray(value))
    throw wrongType(name, value, 'an object');
  return value as Record<string, unknown>;
}

/** Width and height of a raster: whole, at least 1, at most 2^28 pixels together; `data` holds `channels` bytes for each. */
export function expectRaster(name: string, value: unknown, channels: number): void {
  const raster = expectObject(name, value) as { width?: unknown; height?: unknown; data?: unknown };
  const width = expectInteger(`${name}.width`, raster.width, 1, 2 ** 28);
  const height = expectInteger(`${name}.height`, raster.height, 1, 2 ** 28);
  if (width * height > 2 ** 28)
    throw outOfRange(name, `${width} x ${height}`, 'at most 268435456 pixels');
  const { data } = raster;
  if (!(data instanceof Uint8Array) && !(data instanceof Uint8ClampedArray))
    throw wrongType(`${name}.data`, data, 'a Uint8Array or Uint8ClampedArray');
  if (data.length !== width * height * channels) {
    throw outOfRange(
      `${name}.data`,
      data,
      `${width} x ${height} x ${channels} = ${width * height * channels} bytes`,
    );
  }
}
