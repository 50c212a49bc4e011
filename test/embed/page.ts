/** What the tests of the demo pages share: the server, axe, and waiting. */
import { readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { Frame, Page } from 'puppeteer-core';
import { demoServer } from '../../demo/serve.mjs';
import { root } from './site.js';

export interface DemoSite {
  readonly origin: string;
  close(): void;
}

export async function startDemo(): Promise<DemoSite> {
  const server: Server = demoServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    close() {
      server.closeAllConnections();
      server.close();
    },
  };
}

/** Notes every origin that a page asks, and every fault that it logs. */
export function watch(page: Page): { asked: Set<string>; faults: string[] } {
  const asked = new Set<string>();
  const faults: string[] = [];
  page.on('request', (request) => asked.add(new URL(request.url()).origin));
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  return { asked, faults };
}

/** The origins that are neither the page's own nor made in the page. */
export function strangers(asked: Iterable<string>, own: string): string[] {
  return [...asked].filter((origin) => origin !== own && !/^(blob|data|null)/.test(origin));
}

export async function until<T>(
  what: string,
  ask: () => Promise<T | undefined | false | null>,
  seconds = 15,
): Promise<T> {
  for (let i = 0; i < 10 * seconds; i++) {
    const answer = await ask();
    if (answer) return answer;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`waited in vain for ${what}`);
}

const axe = readFileSync(join(root, 'node_modules/axe-core/axe.min.js'), 'utf8');

interface AxeFinding {
  id: string;
  nodes: { html: string; failureSummary?: string }[];
}

/** What axe finds on the page as it is (WCAG 2.0 to 2.2, A and AA, and best practices); empty when all is well. */
export async function axeFindings(page: Page | Frame): Promise<string[]> {
  await page.evaluate(axe);
  const violations = (await page.evaluate(
    `axe.run(document).then(({ violations }) => violations.map(({ id, nodes }) => ({ id, nodes })))`,
  )) as AxeFinding[];
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary ?? ''}`),
  );
}

/** How far the page can be scrolled sideways, CSS pixels. */
export function sideways(page: Page): Promise<number> {
  return page.evaluate(
    () => document.scrollingElement!.scrollWidth - document.scrollingElement!.clientWidth,
  );
}
