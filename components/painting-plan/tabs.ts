/** What one page tells the others of this site: it has kept a plan. */
export interface TabNews {
  key: string;
  revision: number;
}

/** Tells the other pages of this site that a plan was kept, and hears them. Nothing leaves the browser. */
export class Tabs {
  #hear: (news: TabNews) => void;
  #channel?: BroadcastChannel;

  constructor(hear: (news: TabNews) => void) {
    this.#hear = hear;
  }

  open(): void {
    if (this.#channel || typeof BroadcastChannel === 'undefined') return;
    this.#channel = new BroadcastChannel('tonewell plans');
    this.#channel.onmessage = ({ data }: MessageEvent<unknown>) => {
      const { key, revision } = (data ?? {}) as Partial<TabNews>;
      if (typeof key === 'string' && typeof revision === 'number') this.#hear({ key, revision });
    };
  }

  close(): void {
    this.#channel?.close();
    this.#channel = undefined;
  }

  say(news: TabNews): void {
    this.#channel?.postMessage(news);
  }
}
