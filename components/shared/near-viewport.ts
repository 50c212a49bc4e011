import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Tells once when an element comes near the viewport; at once where the platform cannot watch. */
export class NearViewport implements ReactiveController {
  /** Whether it has been near. */
  near = false;
  #watch?: IntersectionObserver;

  constructor(
    private readonly host: ReactiveControllerHost & Element,
    private readonly came: () => void,
    private readonly margin = '240px',
  ) {
    host.addController(this);
  }

  hostConnected(): void {
    if (this.near) return;
    if (typeof IntersectionObserver === 'undefined') return this.#tell();
    this.#watch = new IntersectionObserver(
      (entries) => {
        if (entries.some(({ isIntersecting }) => isIntersecting)) this.#tell();
      },
      { rootMargin: this.margin },
    );
    this.#watch.observe(this.host);
  }

  hostDisconnected(): void {
    this.#watch?.disconnect();
  }

  #tell(): void {
    this.near = true;
    this.#watch?.disconnect();
    this.came();
  }
}
