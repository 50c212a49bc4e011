/** Helper programs of a run: started with a handle, ended with it, also when the run is broken off. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { connect, createServer } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';

const running = new Set();
const endAll = () => running.forEach((child) => child.kill());
process.on('exit', endAll);
for (const signal of ['SIGINT', 'SIGTERM'])
  process.once(signal, () => {
    endAll();
    process.kill(process.pid, signal);
  });

/** Starts a program; the run does not wait for its end. */
export function start(command, args, options) {
  const child = spawn(command, args, options);
  running.add(child);
  child.once('close', () => running.delete(child));
  child.once('error', () => running.delete(child));
  child.unref();
  return child;
}

/** Ends a program that `start` returned and waits until it is gone. */
export async function end(child) {
  if (!running.has(child)) return;
  child.ref();
  const gone = once(child, 'close');
  child.kill();
  await gone;
}

/** A port that nobody listens on. */
export async function freePort() {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address();
  server.close();
  await once(server, 'close');
  return port;
}

/** Resolves once somebody listens on the port; rejects after ten seconds. */
export async function listening(port, who) {
  for (const until = Date.now() + 10_000; Date.now() < until; await wait(100)) {
    const socket = connect(port, '127.0.0.1');
    const answered = await once(socket, 'connect').then(
      () => true,
      () => false,
    );
    socket.destroy();
    if (answered) return;
  }
  throw new Error(`${who} did not listen on port ${port} within ten seconds.`);
}
