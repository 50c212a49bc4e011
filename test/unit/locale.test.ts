/** Language tags (BCP 47) as `Intl` takes them; some systems tell their own locale names instead. */
import { describe, expect, it } from 'vitest';
import { soundTag } from '../../components/shared/locale.js';

describe('soundTag', () => {
  it('gives tags in canonical form', () => {
    expect(soundTag('de-de')).toBe('de-DE');
    expect(soundTag('en')).toBe('en');
  });

  it('leaves off what a system adds to its locale', () => {
    expect(soundTag('en-US@posix')).toBe('en-US');
    expect(() => new Intl.NumberFormat(soundTag('de-DE@euro'))).not.toThrow();
  });

  it('takes no malformed tag', () => {
    for (const tag of ['', undefined, '@posix', 'not a tag', '42'])
      expect(soundTag(tag)).toBeUndefined();
  });
});
