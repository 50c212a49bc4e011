/**
 * Runs test files in WebKit (WebKitGTK's MiniBrowser on a screen without glass), driven by WebDriver.
 *
 * The window keeps its size, since its toolbar lets it be no narrower than a tablet; the tests run in a frame at its upper left
 * corner, which is as large as the viewport asked for. The commands of the test runner know Puppeteer's page, so the
 * launcher offers the few members of it that they call.
 */
import { once } from 'node:events';
import { Builder, Button, Capabilities, Key, Origin } from 'selenium-webdriver';
import { end, freePort, listening, start } from './processes.mjs';

const WINDOW = { x: 0, y: 0, width: 1500, height: 1300 };
const SCREEN = '1600x1400x24';
const BUTTONS = { left: Button.LEFT, middle: Button.MIDDLE, right: Button.RIGHT };
/** Names of keys where WebDriver's differ from those of `KeyboardEvent.key`, which the tests use. */
const KEYS = {
  ArrowLeft: Key.ARROW_LEFT,
  ArrowRight: Key.ARROW_RIGHT,
  ArrowUp: Key.ARROW_UP,
  ArrowDown: Key.ARROW_DOWN,
  PageUp: Key.PAGE_UP,
  PageDown: Key.PAGE_DOWN,
  Backspace: Key.BACK_SPACE,
  Space: ' ',
};
/** What WebDriver sends for a key of that name; a single character stands for itself. */
function keyCode(name) {
  const code = KEYS[name] ?? (name.length === 1 ? name : Key[name.toUpperCase()]);
  if (code === undefined) throw new Error(`No key ${name} is known for WebDriver.`);
  return code;
}

export function webkitLauncher(browser) {
  return new WebKitLauncher(browser);
}

class WebKitLauncher {
  name = 'WebKit';
  /** The runner's commands look for a launcher of this type and its `getPage`. */
  type = 'puppeteer';
  concurrency = 1;
  #browser;
  #programs = [];
  #driver;
  #page;
  #session;

  /** @param browser path of MiniBrowser */
  constructor(browser) {
    this.#browser = browser;
  }

  async startSession(id, url) {
    this.#driver ??= await this.#open(url);
    this.#page ??= new FramePage(this.#driver);
    this.#session = id;
    await this.#page.goto(url);
  }

  isActive(id) {
    return this.#session === id;
  }

  getBrowserUrl() {
    return this.#page.url();
  }

  getPage() {
    return this.#page;
  }

  async stopSession() {
    await this.#page.leave();
    this.#session = undefined;
    return {};
  }

  async startDebugSession() {
    throw new Error('WebKit has no window here in which a test could be debugged.');
  }

  async stop() {
    await this.#driver?.quit().catch(() => undefined); // it may be gone already
    for (const program of this.#programs.reverse()) await end(program);
  }

  /** A screen, a driver that draws on it, and a window on an empty page of the tests' own origin. */
  async #open(url) {
    const screen = start('Xvfb', ['-displayfd', '3', '-screen', '0', SCREEN, '-nolisten', 'tcp'], {
      stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
    });
    this.#programs.push(screen);
    const [display] = await once(screen.stdio[3], 'data');
    screen.stdio[3].unref();
    const port = await freePort();
    const env = {
      ...process.env,
      DISPLAY: `:${String(display).trim()}`,
      LIBGL_ALWAYS_SOFTWARE: '1',
    };
    this.#programs.push(start('WebKitWebDriver', [`--port=${port}`], { env, stdio: 'ignore' }));
    await listening(port, 'WebKitWebDriver');
    const driver = await new Builder()
      .usingServer(`http://127.0.0.1:${port}`)
      .withCapabilities(
        new Capabilities({
          browserName: 'MiniBrowser',
          'webkitgtk:browserOptions': { binary: this.#browser, args: ['--automation'] },
        }),
      )
      .build();
    await driver.manage().window().setRect(WINDOW);
    await driver.get(`${new URL(url).origin}/?mode=iframe`); // the runner's empty page
    await driver.executeScript(`
      document.body.style.margin = '0';
      const frame = document.createElement('iframe');
      frame.style.border = '0';
      frame.style.display = 'block';
      document.body.append(frame);
    `);
    return driver;
  }
}

/** As much of Puppeteer's page as the runner's commands use, over a frame. */
class FramePage {
  #driver;
  #held = new Set();
  keyboard = {
    type: (text) => this.#actions((actions) => actions.sendKeys(...text)),
    press: (name) => {
      const key = keyCode(name);
      return this.#actions((actions) => actions.keyDown(key).keyUp(key));
    },
    down: (name) => {
      this.#held.add(name);
      return this.#actions((actions) => actions.keyDown(keyCode(name)));
    },
    up: (name) => {
      this.#held.delete(name);
      return this.#actions((actions) => actions.keyUp(keyCode(name)));
    },
  };
  mouse = {
    move: (x, y) =>
      this.#actions((actions) => actions.move({ x, y, duration: 0, origin: Origin.VIEWPORT })),
    down: ({ button = 'left' } = {}) => this.#actions((actions) => actions.press(BUTTONS[button])),
    up: ({ button = 'left' } = {}) => this.#actions((actions) => actions.release(BUTTONS[button])),
    click: async (x, y, options) => {
      await this.mouse.move(x, y);
      await this.mouse.down(options);
      await this.mouse.up(options);
    },
    reset: async () => {
      await this.#driver.actions().clear();
      await this.mouse.move(0, 0);
    },
  };

  constructor(driver) {
    this.#driver = driver;
  }

  async goto(url) {
    await this.setViewport({ width: 800, height: 600 }); // as the runner does in Chromium
    await this.#inPage((frame, url) => {
      frame.src = url;
      frame.focus();
    }, url);
  }

  /** Ends whatever the page still does, and lets go of keys and buttons. */
  async leave() {
    await this.#driver.actions().clear();
    await this.#inPage((frame) => (frame.src = 'about:blank'));
  }

  /**
   * WebKitGTK asks the desktop for these and WebDriver has no command for them. What a person who prefers dark sees of the kit is
   * what a page sees that is dark itself, since all of it follows `color-scheme`; a page that offers one scheme only keeps it. The
   * rest cannot be had: who asks for it has to ask the engine whether it came to be (`matchMedia`).
   */
  async emulateMediaFeatures(features) {
    const scheme = features.find(({ name }) => name === 'prefers-color-scheme');
    if (scheme) await this.#inPage(preferScheme, scheme.value);
  }

  /** WebKitGTK cannot show a page as it is printed. */
  async emulateMediaType() {}

  url() {
    return this.#inPage((frame) => frame.contentWindow?.location.href);
  }

  setViewport({ width, height }) {
    return this.#inPage(
      async (frame, width, height) => {
        frame.style.width = `${width}px`;
        frame.style.height = `${height}px`;
        await new Promise((drawn) => frame.ownerDocument.defaultView.requestAnimationFrame(drawn));
      },
      width,
      height,
    );
  }

  /** `make` runs in the window and is given the frame first. */
  #inPage(make, ...args) {
    return this.#driver.executeScript(
      `return (${make})(document.querySelector('iframe'), ...arguments);`,
      ...args,
    );
  }

  #actions(add) {
    return add(this.#driver.actions({ async: true })).perform();
  }
}

/** Draws a page that offers both schemes in the preferred one. */
function preferScheme(frame, scheme) {
  const page = frame.contentDocument.documentElement;
  page.dataset.schemes ??= page.style.colorScheme;
  if (/light.*dark|dark.*light/.test(page.dataset.schemes)) page.style.colorScheme = scheme;
}
