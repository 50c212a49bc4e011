/** What was done, to be undone and done again by Control and Z, with Shift the other way. */
export class Steps {
  #done = [];
  #undone = [];

  constructor() {
    addEventListener('keydown', (event) => {
      if (!event.ctrlKey || event.key.toLowerCase() !== 'z') return;
      event.preventDefault();
      if (event.shiftKey) this.redo();
      else this.undo();
    });
  }

  /** @param {{ does(): void, undoes(): void }} step */
  take(step) {
    step.does();
    this.#done.push(step);
    this.#undone = [];
  }

  undo() {
    const step = this.#done.pop();
    if (!step) return;
    step.undoes();
    this.#undone.push(step);
  }

  redo() {
    const step = this.#undone.pop();
    if (!step) return;
    step.does();
    this.#done.push(step);
  }
}
