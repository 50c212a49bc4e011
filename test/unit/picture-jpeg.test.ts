/**
 * Quantisation tables of JPEG files. Outside truth: files that jpeg-js wrote at known qualities (its tables are those of ITU-T T.81, Annex
 * K, scaled as the Independent JPEG Group's library does), and a table typed in from T.81.
 */
import jpeg from 'jpeg-js';
import { describe, expect, it } from 'vitest';
import { jpegTables } from '../../core/index.js';

const fileAt = (quality: number): Uint8Array => {
  const data = new Uint8Array(4 * 32 * 32).map((_, i) => (i * 37) & 255);
  return new Uint8Array(jpeg.encode({ width: 32, height: 32, data }, quality).data);
};

describe('the tables of a JPEG file', () => {
  it.each([5, 10, 20, 35, 49, 50, 51, 60, 75, 85, 92, 95])(
    'written at quality %i say so',
    (quality) => {
      expect(jpegTables(fileAt(quality))!.quality).toBe(quality);
    },
  );

  it('at 50 keep the mean of a block in steps of 16 / 8 codes of luma and 17 / 8 of chroma (tables K.1 and K.2)', () => {
    expect(jpegTables(fileAt(50))).toEqual({ quality: 50, lumaStep: 2, chromaStep: 2.125 });
  });

  it('are read from segments of sixteen bits too, behind others, and stop at the scan', () => {
    // T.81, B.2.4.1: length, then precision and number, then the entries; two bytes each for precision 1.
    const entries = Array.from({ length: 64 }, (_, i) => [1, i === 0 ? 64 : 0]).flat();
    const table = [0xff, 0xdb, 0, 2 + 1 + 128, 0x10, ...entries];
    const comment = [0xff, 0xfe, 0, 4, 1, 2];
    const file = [0xff, 0xd8, ...comment, 0xff, ...table, 0xff, 0xda, 0, 2];
    expect(jpegTables(Uint8Array.from(file))).toMatchObject({ lumaStep: 320 / 8, chromaStep: 0 });
    const late = [0xff, 0xd8, 0xff, 0xda, 0, 2, ...table];
    expect(jpegTables(Uint8Array.from(late))).toBeUndefined();
  });

  it('are not there in other files, in broken ones, and a wrong argument is named', () => {
    expect(jpegTables(new Uint8Array(0))).toBeUndefined();
    expect(jpegTables(Uint8Array.of(0x89, 0x50, 0x4e, 0x47))).toBeUndefined();
    const file = fileAt(80);
    for (let length = 2; length < 170; length += 7)
      expect(() => jpegTables(file.subarray(0, length))).not.toThrow();
    expect(() => jpegTables([0xff, 0xd8] as never)).toThrow(/bytes/);
  });
});
