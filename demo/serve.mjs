/** Serves the demo pages and the built package from this machine alone: `node demo/serve.mjs [port]`. */
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const open = ['demo', 'dist'].map((folder) => join(root, folder) + sep);
const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json',
  '.jpg': 'image/jpeg',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
};

/** Answers with a file below `demo/` or `dist/`, else 404. Extra headers (a page's policy) may be given. */
export function demoServer(headers = {}) {
  return createServer(async (request, response) => {
    const { pathname } = new URL(request.url, 'http://localhost');
    if (pathname === '/') return response.writeHead(302, { location: '/demo/index.html' }).end();
    const wanted = normalize(join(root, decodeURIComponent(pathname)));
    const file = wanted.endsWith(sep) ? join(wanted, 'index.html') : wanted;
    const found =
      open.some((folder) => file.startsWith(folder)) && (await stat(file).catch(() => undefined));
    if (!found || !found.isFile())
      return response.writeHead(404, { 'content-type': 'text/plain' }).end('Not found');
    response.writeHead(200, {
      'content-type': types[extname(file)] ?? 'application/octet-stream',
      'content-length': found.size,
      'cache-control': 'no-cache',
      ...headers,
    });
    if (request.method === 'HEAD') return response.end();
    createReadStream(file).pipe(response);
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const wish = Number(process.argv[2] ?? process.env.PORT ?? 8080);
  const server = demoServer();
  server.on('error', (error) => {
    if (error.code !== 'EADDRINUSE') throw error;
    server.listen(0); // the usual port is taken: any free one will do
  });
  server.on('listening', () =>
    console.log(`The studio is open at http://localhost:${server.address().port}/`),
  );
  server.listen(wish);
}
