/** Counts what crosses between the page and its workers. Loaded before anything that makes a worker. */
export const crossed = { out: 0, in: 0 };

const send = Worker.prototype.postMessage;
Worker.prototype.postMessage = function (...message) {
  crossed.out++;
  return send.apply(this, message);
};

globalThis.Worker = class extends Worker {
  constructor(...of) {
    super(...of);
    this.addEventListener('message', () => crossed.in++);
  }
};

/** The channel as it was, for the bench's own use. */
export const OwnChannel = MessageChannel;

/** Progress comes through a port of its own. A listener alone does not open a port, and a port handed over keeps none. */
globalThis.MessageChannel = class extends MessageChannel {
  constructor() {
    super();
    this.port1.addEventListener('message', () => crossed.in++);
    const { port1 } = this;
    port1.postMessage = (...message) => {
      crossed.out++;
      MessagePort.prototype.postMessage.apply(port1, message);
    };
  }
};
