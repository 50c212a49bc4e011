import { qualityLines } from './mass-quality.mjs';

const longest = (tasks) => Math.max(0, ...tasks);

/**
 * What is measured, and the goals. A row gives lines: the work, our time, M, what it stands beside and its time, the goal in
 * words, and the number held against the goal's limit.
 */
export const rows = {
  async plane({ kernel }) {
    const { times } = await kernel('plane');
    const { ours, M, opencv, culori } = times;
    const work = 'RGBA to lightness codes, 12 MP';
    return [
      { work, ours, M, goal: '<= 5 x M', value: ours / M, limit: 5 },
      {
        work,
        ours,
        beside: 'OpenCV.js, to Lab',
        its: opencv,
        goal: '<= 0.25 x its',
        value: ours / opencv,
        limit: 0.25,
      },
      { work, ours, beside: 'culori, pixel by pixel (scaled)', its: culori },
    ];
  },

  async histogram({ kernel }) {
    const { times } = await kernel('histogram');
    return [
      {
        work: 'histogram, 12 MP',
        ours: times.ours,
        M: times.M,
        beside: 'OpenCV.js, calcHist',
        its: times.opencv,
        goal: 'none: native code is not measured here',
      },
    ];
  },

  async otsu({ kernel }) {
    const { times } = await kernel('otsu');
    return [2, 3, 4, 5, 6, 7].map((k) => ({
      work: `limits of ${k} bands, exact`,
      ours: times[k],
      ...(k === 3 ? { beside: 'every pair tried (same limits)', its: times.exhaustive } : {}),
      goal: '< 0.5 ms',
      value: times[k],
      limit: 0.5,
    }));
  },

  async bands({ kernel }) {
    const { times } = await kernel('bands');
    return [
      {
        work: 'plane to bands, 12 MP',
        ours: times.ours,
        M: times.M,
        ...(times.opencv === undefined ? {} : { beside: 'OpenCV.js, LUT', its: times.opencv }),
        goal: 'a frame, 16.7 ms',
        value: times.ours,
        limit: 16.7,
      },
    ];
  },

  async recolour({ page }) {
    const { times } = await page((tab) => tab.evaluate('bench.recolour()'));
    return [
      {
        work: 'bands onto a canvas, 4 MP, in the page',
        ours: times.ours,
        M: times.M,
        beside: 'the pass over the plane alone',
        its: times.pass,
        goal: 'a frame, 16.7 ms',
        value: times.ours,
        limit: 16.7,
      },
    ];
  },

  async reduce({ kernel }) {
    const { times } = await kernel('reduce');
    const { ours, M, opencv, pica, picaUsual } = times;
    const work = 'area mean 24 to 2 MP and lightness';
    return [
      {
        work,
        ours,
        M,
        beside: 'pica, box',
        its: pica,
        goal: '<= 0.5 x its',
        value: ours / pica,
        limit: 0.5,
      },
      { work, ours, beside: 'pica, its usual filter', its: picaUsual },
      { work, ours, beside: 'OpenCV.js, INTER_AREA, no lightness', its: opencv },
    ];
  },

  async components({ kernel }) {
    const { times } = await kernel('components');
    return [
      {
        work: 'components of a 5-band map, 12 MP',
        ours: times.ours,
        M: times.M,
        beside: 'OpenCV.js, a mask a band (same counts)',
        its: times.opencv,
        goal: '<= 0.2 x its',
        value: times.ours / times.opencv,
        limit: 0.2,
      },
    ];
  },

  async masses({ kernel }) {
    const { times } = await kernel('masses');
    const work = 'masses of 5 bands, 4 MP';
    return [
      { work, ours: times.ours, M: times.M, goal: '<= 350 ms', value: times.ours, limit: 350 },
      {
        work,
        ours: times.ours,
        beside: 'OpenCV.js, bilateral 33 (once)',
        its: times.bilateral,
        goal: '<= 0.06 x its',
        value: times.ours / times.bilateral,
        limit: 0.06,
      },
      {
        work: '  other limits, by the kept tree',
        ours: times.limits,
        goal: '<= 150 ms',
        value: times.limits,
        limit: 150,
      },
      ...(await qualityLines()),
    ];
  },

  async squint({ kernel }) {
    const { times } = await kernel('squint');
    const { ours, M, median, bilateral } = times;
    const work = 'squint (median, guided filter), 2 MP';
    return [
      {
        work,
        ours,
        M,
        beside: 'OpenCV.js, median 33',
        its: median,
        goal: '<= 0.35 x its',
        value: ours / median,
        limit: 0.35,
      },
      { work, ours, beside: 'OpenCV.js, bilateral 33 (once)', its: bilateral },
    ];
  },

  async structure({ kernel }) {
    const { times, off, count } = await kernel('structure');
    const { tensor, field, fine, M, opencv, opencvFine } = times;
    return [
      {
        work: 'structure tensor, all octaves, scale 32, 2 MP',
        ours: tensor,
        M,
        beside: 'OpenCV.js, Sobel products, Gaussian of 16',
        its: opencv,
        goal: '<= 0.15 x its',
        value: tensor / opencv,
        limit: 0.15,
      },
      {
        work: '  the same and directions at every pixel',
        ours: field,
        beside: 'OpenCV.js, without directions',
        its: opencv,
      },
      {
        work: '  scale 8',
        ours: fine,
        beside: 'OpenCV.js, Gaussian of 4',
        its: opencvFine,
        goal: '<= 0.15 x its',
        value: fine / opencvFine,
        limit: 0.15,
      },
      {
        work:
          count > 0
            ? `  ${off.toFixed(1)} degrees apart at ${count} coherent places`
            : '  no coherent places to compare',
      },
    ];
  },

  async distance({ kernel }) {
    const { times } = await kernel('distance');
    return [
      {
        work: 'exact distance transform, 4 MP',
        ours: times.ours,
        M: times.M,
        beside: 'OpenCV.js, DIST_MASK_PRECISE',
        its: times.opencv,
        goal: '<= 1 x its',
        value: times.ours / times.opencv,
        limit: 1,
      },
    ];
  },

  async outlines({ kernel }) {
    const { times, regions } = await kernel('outlines');
    return [
      {
        work: `outlines of ${regions} masses, shared borders, 4 MP`,
        ours: times.ours,
        M: times.M,
        beside: 'OpenCV.js, contours and approxPolyDP, borders twice',
        its: times.opencv,
        goal: 'none: its borders are cut twice and do not meet',
      },
      { work: '  their edges', ours: times.edges },
      { work: '  their reserves', ours: times.reserves },
    ];
  },

  async mixes({ kernel }) {
    const { times } = await kernel('mixes');
    const worst = (work, ms, limit) => ({
      work,
      ours: ms,
      goal: `< ${limit} ms`,
      value: ms,
      limit,
    });
    return [
      worst('a million recipes of 3 tubes, 36 bands, CIEDE2000', times.evaluations, 1000),
      worst('mixes of 3 of 12 tubes, slowest of five colours', times.of12, 100),
      worst('  a colour far out of reach', times.far12, 100),
      worst('mixes of 3 of 24 tubes, slowest of five colours', times.of24, 500),
      worst('  a colour far out of reach', times.far24, 500),
    ];
  },

  async sheet({ kernel }) {
    const { times } = await kernel('sheet');
    return [
      {
        work: 'test sheet read, 12 MP, 30 dabs',
        ours: times.ours,
        M: times.M,
        beside: 'OpenCV.js, to Lab alone',
        its: times.opencv,
        goal: '1.5 s',
        value: times.ours,
        limit: 1500,
      },
    ];
  },

  async first({ page }) {
    const { times, put, exact, size, fileBytes } = await page((tab) =>
      tab.evaluate('bench.first(7)'),
    );
    const megabytes = (fileBytes / 1e6).toFixed(1);
    return [
      {
        work: `photo file (12 MP, ${megabytes} MB) to first bands`,
        ours: times.ours,
        M: times.M,
        beside: 'createImageBitmap alone',
        its: times.alone,
        goal: '<= 1.5 x its',
        value: times.ours / times.alone,
        limit: 1.5,
      },
      { work: `  of it, until they are drawn (${size.width} x ${size.height})`, ours: put },
      {
        work: '  the exact ones',
        ours: exact,
        beside: 'createImageBitmap alone',
        its: times.alone,
      },
    ];
  },

  async check({ kernel }) {
    const { times } = await kernel('check');
    return [
      {
        work: 'a check of the painting, 12 MP photo',
        ours: times.ours,
        M: times.M,
        goal: '< 2 s',
        value: times.ours,
        limit: 2000,
      },
      {
        work: '  a painting upright, 12 to 4 MP, linear light, all read',
        ours: times.rectify,
        M: times.M,
        beside: 'OpenCV.js, warpPerspective, linear (bytes, four pixels each)',
        its: times.opencv,
      },
    ];
  },

  async main({ page }) {
    return page(async (tab) => {
      const openings = [];
      for (let i = 0; i < 3; i++) openings.push(await tab.evaluate('bench.open24()'));
      // Of three openings the middle one: what else the machine does can make any task long.
      const [, { ms, exact, tasks, messages }] = openings.sort(
        (a, b) => longest(a.tasks) - longest(b.tasks),
      );
      const { x, y } = await tab.evaluate('bench.peg()');
      await tab.mouse.move(x, y);
      await tab.mouse.down();
      for (let step = 1; step <= 12; step++) await tab.mouse.move(x, y + 3 * step);
      await tab.mouse.up();
      const drag = await tab.evaluate('bench.dragged()');
      if (!drag.moved || drag.paints === 0) throw new Error('The peg was not moved');
      return [
        { work: 'photo file (24 MP) to first bands', ours: ms },
        { work: '  the exact ones', ours: exact },
        {
          work: `  main thread, ${tasks.length} long tasks (middle of 3)`,
          ours: longest(tasks),
          goal: 'none above 50 ms',
          value: longest(tasks),
          limit: 50,
        },
        {
          work: `  ${messages.calls} calls to the worker, ${messages.progress} words of progress`,
          goal: '<= 2 calls',
          value: messages.calls,
          limit: 2,
        },
        {
          work: `peg drag at 4 MP, ${drag.paints} paints: ${drag.tasks.length} long tasks`,
          ours: longest(drag.tasks),
          goal: 'none above 50 ms',
          value: longest(drag.tasks),
          limit: 50,
        },
        {
          work: `  ${drag.messages.calls} calls to the worker`,
          goal: 'none',
          value: drag.messages.calls + drag.messages.answers + drag.messages.progress,
          limit: 0,
        },
      ];
    });
  },
};
