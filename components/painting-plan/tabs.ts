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
    if (this.#channel) return;
    try {
      this.#channel = new BroadcastChannel('tonewell plans');
    } catch {
      return; // A browser without one, or a page that may not have it: a conflict is then told with the next save.
    }
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
