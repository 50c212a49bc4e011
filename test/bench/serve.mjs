/** A server on this machine for the pages of the bench: made text by its path, else files of the checkout. */
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';

const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
};

export async function serve(root, made) {
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url, 'http://localhost').pathname);
    const type = types[extname(path)] ?? 'application/octet-stream';
    if (made.has(path))
      return response.writeHead(200, { 'content-type': type }).end(made.get(path));
    const file = normalize(join(root, path));
    if (!file.startsWith(root) || !existsSync(file) || !statSync(file).isFile())
      return response.writeHead(404).end();
    response.writeHead(200, { 'content-type': type });
    createReadStream(file).pipe(response);
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    origin: `http://127.0.0.1:${server.address().port}`,
    close: () => new Promise((resolve) => (server.closeAllConnections(), server.close(resolve))),
  };
}
