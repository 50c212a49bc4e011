import { shelfRange, startCore } from 'tonewell/core';

// A job that comes with a part of the worker of its own, from wherever the bundler put it.
const core = await startCore({ modes: ['worker'] });
const tubes = ['cobalt-blue', 'quinacridone-magenta'];
const same =
  JSON.stringify(await core.run('shelf', { tubes })) === JSON.stringify(shelfRange(tubes));
document.body.dataset.late = `${core.mode} ${same}`;
core.dispose();
