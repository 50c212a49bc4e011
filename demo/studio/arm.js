/**
 * Arm's length: the tablet stands on the easel and is worked with wet hands. Large type and targets, one panel at a time, the
 * screen kept awake. `data-arm-controls` on an element says which of its controls it keeps meanwhile.
 */
import { Wake } from './wake.js';

const SENTENCES = {
  awake: 'The screen stays awake.',
  asleep: 'The screen may go dark; touch it to go on.',
  missing:
    'This browser cannot keep the screen awake. Lengthen the screen’s own time in the device’s settings.',
  refused:
    'The screen is not kept awake now: the device refuses it, as a rule to spare the battery.',
};

export class ArmsLength extends EventTarget {
  #plan;
  #on = false;
  #controls = new Map();
  #wake = new Wake((state) => {
    if (this.#on) this.dispatchEvent(new CustomEvent('told', { detail: SENTENCES[state] }));
  });

  /** @param {HTMLElement} plan the plan whose elements are brought to arm's length */
  constructor(plan) {
    super();
    this.#plan = plan;
    document.addEventListener('keydown', (event) => {
      // Whoever needs the key for something in hand (a lifted corner, a tool) goes first.
      if (event.key === 'Escape' && this.#on && !event.defaultPrevented) this.leave();
    });
  }

  get on() {
    return this.#on;
  }

  enter() {
    if (this.#on) return;
    this.#on = true;
    document.documentElement.dataset.mode = 'arm';
    this.#plan.bare = true;
    for (const element of this.#plan.querySelectorAll('[data-arm-controls]')) {
      this.#controls.set(element, element.getAttribute('controls'));
      element.setAttribute('controls', element.dataset.armControls);
    }
    void this.#wake.hold();
    this.dispatchEvent(new Event('change'));
  }

  leave() {
    if (!this.#on) return;
    this.#on = false;
    delete document.documentElement.dataset.mode;
    this.#plan.bare = false;
    for (const [element, controls] of this.#controls) element.setAttribute('controls', controls);
    this.#controls.clear();
    void this.#wake.letGo();
    this.dispatchEvent(new Event('change'));
  }
}
