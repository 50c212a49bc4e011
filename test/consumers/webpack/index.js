import 'tonewell/define/value-band-viewer';

document.querySelector('value-band-viewer').addEventListener('limits-change', ({ limits }) => {
  document.body.dataset.limits = limits.map((limit) => limit.toFixed(1)).join(' ');
});
