/**
 * Keeps the screen awake while wanted. The browser lets go whenever the page is hidden, so the lock is asked for again when
 * the page comes back.
 */
export class Wake {
  #lock;
  #wanted = false;
  #told;

  /** @param {(state: 'awake' | 'asleep' | 'missing' | 'refused') => void} told hears of every change */
  constructor(told) {
    this.#told = told;
    document.addEventListener('visibilitychange', () => {
      if (this.#wanted && document.visibilityState === 'visible') void this.#ask();
    });
  }

  async hold() {
    this.#wanted = true;
    await this.#ask();
  }

  async letGo() {
    this.#wanted = false;
    const lock = this.#lock;
    this.#lock = undefined;
    await lock?.release();
  }

  async #ask() {
    if (!navigator.wakeLock) return this.#told('missing');
    if (this.#lock && !this.#lock.released) return;
    try {
      const lock = await navigator.wakeLock.request('screen');
      if (!this.#wanted) return void (await lock.release());
      this.#lock = lock;
      lock.addEventListener('release', () => this.#told('asleep'));
      this.#told('awake');
    } catch {
      if (this.#wanted) this.#told('refused');
    }
  }
}
