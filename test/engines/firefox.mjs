/** Runs test files in Firefox, driven over WebDriver BiDi by Puppeteer. */
import { chromeLauncher } from '@web/test-runner-chrome';
import puppeteer from 'puppeteer-core';

export function firefoxLauncher(executablePath) {
  return chromeLauncher({
    puppeteer,
    launchOptions: {
      browser: 'firefox',
      executablePath,
      headless: true,
      args: ['--remote-allow-system-access'], // a preference of the person is a setting of the browser's own window
    },
    createPage: async ({ context }) => {
      const page = await context.newPage();
      const { press } = page.keyboard;
      page.keyboard.press = (key, ...more) =>
        press.call(page.keyboard, key === 'Space' ? ' ' : key, ...more); // Puppeteer knows codes over CDP only
      const prefer = await preferences(page.browser());
      page.emulateMediaFeatures = (features) =>
        prefer(Object.fromEntries(features.map(({ name, value }) => [name, value])));
      page.emulateMediaType = (medium) => prefer({ medium });
      return page;
    },
  });
}

/** BiDi has no command for media features, so they are set where Firefox's own tools set them: on each tab's browsing context. */
async function preferences(browser) {
  const { result } = await browser.connection.send('browsingContext.getTree', {
    'moz:scope': 'chrome',
  });
  const target = { context: result.contexts[0].context };
  return async (wanted) => {
    const { result: answer } = await browser.connection.send('script.evaluate', {
      expression: `(${setInWindow})(${JSON.stringify(wanted)})`,
      target,
      awaitPromise: true,
    });
    if (answer.type === 'exception') throw new Error(answer.exceptionDetails.text);
  };
}

/* global gBrowser, Services -- of Firefox's window, in which this runs */
function setInWindow(wanted) {
  for (const { browsingContext } of gBrowser.browsers) {
    if ('prefers-color-scheme' in wanted)
      browsingContext.prefersColorSchemeOverride = wanted['prefers-color-scheme'];
    if ('forced-colors' in wanted) browsingContext.forcedColorsOverride = wanted['forced-colors'];
    if ('medium' in wanted) browsingContext.mediumOverride = wanted.medium ?? '';
  }
  if ('prefers-reduced-motion' in wanted)
    Services.prefs.setIntPref(
      'ui.prefersReducedMotion',
      Number(wanted['prefers-reduced-motion'] === 'reduce'),
    );
}
