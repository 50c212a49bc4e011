/** Counts what crosses between the page and its workers. Loaded before anything that makes a worker. */
export const crossed = { calls: 0, answers: 0, progress: 0 };

const send = Worker.prototype.postMessage;
Worker.prototype.postMessage = function (...message) {
  // Once a second a busy worker is asked whether it lives; that is no call.
  if (message[0]?.path?.[0] !== 'ping') crossed.calls++;
  return send.apply(this, message);
};

globalThis.Worker = class extends Worker {
  constructor(...of) {
    super(...of);
    this.addEventListener('message', () => crossed.answers++);
  }
};

/** The channel as it was, for the bench's own use. */
export const OwnChannel = MessageChannel;

/** Progress comes through a port of its own. A listener alone does not open a port, and a port handed over keeps none. */
globalThis.MessageChannel = class extends MessageChannel {
  constructor() {
    super();
    this.port1.addEventListener('message', () => crossed.progress++);
  }
};
