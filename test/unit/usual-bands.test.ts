/** Names of bands that are added: a painter tells bands apart by them alone, so no two may be equal. */
import { describe, expect, it } from 'vitest';
import { freeName } from '../../components/shared/usual-bands.js';

describe('the name of a band that is added', () => {
  const bands = (...names: string[]): { name: string }[] => names.map((name) => ({ name }));

  it('is the one that is meant while nobody has it', () => {
    expect(freeName('darker dark', bands('dark', 'middle', 'light'))).toBe('darker dark');
  });

  it('has a number behind it where it is taken, the first that is free', () => {
    expect(freeName('darker dark', bands('darker dark', 'dark'))).toBe('darker dark 2');
    expect(freeName('darker dark', bands('darker dark 2', 'darker dark', 'dark'))).toBe(
      'darker dark 3',
    );
  });
});
