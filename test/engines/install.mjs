/**
 * Puts Firefox and WebKit on a machine that lacks them, where that is allowed: as root of a Debian, by its package manager, within a few minutes. Never
 * fails: `npm test` says which engines were there.
 */
import { spawnSync } from 'node:child_process';
import { enginesFound, howToInstall } from './found.mjs';

const missing = () => enginesFound().flatMap((engine) => engine.missing);

/** Whether it was done within so many seconds. A network that does not answer is given up soon; an apt-get that does not end is ended. */
function aptGet(seconds, ...args) {
  const { status, error } = spawnSync(
    'apt-get',
    ['-qq', '-o', 'Acquire::Retries=0', '-o', 'Acquire::http::Timeout=15', ...args],
    {
      stdio: 'ignore',
      timeout: 1000 * seconds,
      killSignal: 'SIGKILL',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    },
  );
  return status === 0 && !error;
}

const packages = missing();
if (packages.length > 0 && process.getuid?.() === 0) {
  const wanted = ['install', '--yes', '--no-install-recommends', ...packages];
  // Loaded first, so that the time limit never breaks off an installation.
  if (aptGet(60, 'update') && aptGet(240, '--download-only', ...wanted)) aptGet(300, ...wanted);
}
for (const engine of enginesFound())
  console.log(
    engine.missing.length > 0
      ? `Left out: ${howToInstall(engine)}`
      : `${engine.title}: ${engine.path}`,
  );
