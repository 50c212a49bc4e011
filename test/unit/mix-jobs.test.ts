import { describe, expect, it } from 'vitest';
import { completeBucket, findMixes, mixFamily, type Lab } from '../../core/index.js';
import { Service } from '../../core/worker/service.js';

const tubes = ['yellow-ochre', 'burnt-sienna', 'ultramarine', 'pyrrole-red', 'phthalo-green'];

describe('jobs about mixes', () => {
  it('need no picture, give what the functions give, and keep the name of an error', async () => {
    const service = new Service();
    const target = { lab: [3, 0, 0] as Lab };
    const mixes = await service.run('1', 'mixes', { target, options: { tubes } });
    if (!mixes.ok) throw new Error(mixes.error.message);
    expect(mixes.value.mixes).toEqual(findMixes(target, { tubes }));
    expect(mixes.value.why[0].code).toBe('mix.too-dark');
    const family = await service.run('2', 'family', { tubes, lightness: 45 });
    expect(family).toEqual({ ok: true, value: mixFamily({ tubes, lightness: 45 }) });
    const bucket = { floor: 40, ceiling: 50, swatches: [] };
    const complete = await service.run('3', 'complete', { bucket, tubes });
    expect(complete).toEqual({ ok: true, value: completeBucket(bucket, tubes) });
    const failed = await service.run('4', 'mixes', { target, options: { tubes: [] } });
    expect(failed).toMatchObject({ ok: false, error: { name: 'RangeError' } });
  });

  it('can be given up', async () => {
    const service = new Service();
    const running = service.run('1', 'family', { tubes, lightness: 45 });
    service.cancel('1');
    expect(await running).toMatchObject({ ok: false, error: { name: 'AbortError' } });
  });
});
