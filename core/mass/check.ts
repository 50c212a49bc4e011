import { expectInteger, expectObject, expectRaster, outOfRange, wrongType } from '../base/check.js';
import type { Masses } from './types.js';

/** Refuses what is not masses: a map, as many labels as pixels, a list of regions. */
export function expectMasses(name: string, value: unknown): asserts value is Masses {
  const masses = expectObject(name, value) as Partial<Masses>;
  expectRaster(`${name}.map`, masses.map, 1);
  const { width, height, bands } = masses.map!;
  expectInteger(`${name}.map.bands`, bands, 1, 255);
  if (!(masses.labels instanceof Int32Array))
    throw wrongType(`${name}.labels`, masses.labels, 'an Int32Array');
  if (masses.labels.length !== width * height)
    throw outOfRange(
      `${name}.labels`,
      masses.labels,
      `${width} x ${height} = ${width * height} labels`,
    );
  if (!Array.isArray(masses.regions))
    throw wrongType(`${name}.regions`, masses.regions, 'an array');
}
