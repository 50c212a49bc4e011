import 'tonewell/define/value-band-viewer';
import { shelfRange, startCore } from 'tonewell/core';
import type { LimitsChangeEvent } from 'tonewell';

const viewer = document.querySelector('value-band-viewer')!;
viewer.addEventListener('limits-change', (event: LimitsChangeEvent) => {
  const limits: readonly number[] = event.limits;
  document.body.dataset.limits = limits.map((limit) => limit.toFixed(1)).join(' ');
});

// A job that comes with a part of the worker of its own, from wherever the bundler put it.
const core = await startCore({ modes: ['worker'] });
const tubes = ['cobalt-blue', 'quinacridone-magenta'];
const same =
  JSON.stringify(await core.run('shelf', { tubes })) === JSON.stringify(shelfRange(tubes));
document.body.dataset.late = `${core.mode} ${same}`;
core.dispose();
