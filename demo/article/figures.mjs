/**
 * Writes the figures of the article as pictures, for readers without script: what the elements themselves draw.
 * After a build: `node demo/article/figures.mjs`
 */
import { writeFile } from 'node:fs/promises';
import puppeteer from 'puppeteer-core';
import { chromeArgs, chromePath } from '../../test/browser.mjs';
import { demoServer } from '../serve.mjs';

const server = demoServer();
await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
const browser = await puppeteer.launch({
  executablePath: await chromePath(),
  headless: 'shell',
  args: chromeArgs,
});
try {
  const page = await browser.newPage();
  await page.goto(`http://127.0.0.1:${server.address().port}/demo/article.html`);
  for (const [name, type] of [
    ['greys', 'jpeg'],
    ['bands', 'png'],
    ['paper', 'png'],
  ]) {
    const write = async (figure, type) => {
      const ready = new Promise((resolve) => figure.addEventListener('ready', resolve));
      if (!figure.matches(':state(ready)')) {
        figure.scrollIntoView();
        await ready;
      }
      const reader = new FileReader();
      reader.readAsDataURL(await figure.toBlob({ type: `image/${type}`, quality: 0.86 }));
      await new Promise((resolve) => (reader.onload = resolve));
      return reader.result.split(',')[1];
    };
    const data = await page.$eval(`#figure-${name}`, write, type);
    const file = `${name}.${type === 'jpeg' ? 'jpg' : type}`;
    await writeFile(new URL(file, import.meta.url), Buffer.from(data, 'base64'));
  }
} finally {
  await browser.close();
  server.closeAllConnections();
  server.close();
}
