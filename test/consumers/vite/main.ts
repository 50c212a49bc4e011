import 'tonewell/define/value-band-viewer';
import type { LimitsChangeEvent } from 'tonewell';

const viewer = document.querySelector('value-band-viewer')!;
viewer.addEventListener('limits-change', (event: LimitsChangeEvent) => {
  const limits: readonly number[] = event.limits;
  document.body.dataset.limits = limits.map((limit) => limit.toFixed(1)).join(' ');
});
