/**
 * A command for tests in a browser: `executeServerCommand('media-features', { 'forced-colors': 'active' })`. The runner's own `emulateMedia` knows colour scheme
 * and motion only. What an engine cannot do is left undone: a test asks `matchMedia` what came of it.
 */
export function mediaFeatures() {
  return {
    name: 'media-features',
    async executeCommand({ command, payload, session }) {
      if (command !== 'media-features') return undefined;
      const page = session.browser.getPage(session.id);
      const features = Object.entries(payload).map(([name, value]) => ({ name, value }));
      if (session.browser.name === 'Chrome') await overProtocol(page, features);
      else await page.emulateMediaFeatures(features);
      return true;
    },
  };
}

const sessions = new WeakMap();

/** Puppeteer refuses features that it does not know, the protocol does not. They last as long as the session that asked for them. */
async function overProtocol(page, features) {
  if (!sessions.has(page)) sessions.set(page, await page.createCDPSession());
  await sessions.get(page).send('Emulation.setEmulatedMedia', { features });
}
