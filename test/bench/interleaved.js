/** The middle of several numbers. */
export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

/**
 * Runs the works in turn, round after round, so that what else the machine does meets all of them alike.
 * @param works by name: a function, timed from call to end (a promise is awaited), or one that returns { ms } measured by itself
 * @param rounds counted rounds; one more goes before for the compiler's sake
 * @returns by name: the median, in milliseconds
 */
export async function interleaved(works, rounds, warmUps = 1) {
  const times = Object.fromEntries(Object.keys(works).map((name) => [name, []]));
  for (let round = -warmUps; round < rounds; round++) {
    for (const [name, work] of Object.entries(works)) {
      const start = performance.now();
      const answer = await work();
      const ms = answer?.ms ?? performance.now() - start;
      if (round >= 0) times[name].push(ms);
    }
  }
  return Object.fromEntries(Object.entries(times).map(([name, each]) => [name, median(each)]));
}

/** Copying so many bytes: the yardstick M. */
export function copying(bytes) {
  const from = new Uint8Array(bytes).fill(3);
  const to = new Uint8Array(bytes);
  return () => to.set(from);
}
