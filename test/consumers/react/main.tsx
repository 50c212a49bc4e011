import { useState } from 'react';
import { createRoot } from 'react-dom/client';
import 'tonewell/define/value-band-viewer';
import type { LimitsChangeEvent } from 'tonewell';

function Figure({ src }: { src: string }) {
  const [limits, setLimits] = useState<readonly number[]>([]);
  document.body.dataset.limits = limits.map((limit) => limit.toFixed(1)).join(' ');
  return (
    <value-band-viewer
      src={src}
      loading="eager"
      alt="A clay dog"
      onlimits-change={(event: LimitsChangeEvent) => setLimits(event.limits)}
    />
  );
}

createRoot(document.getElementById('root')!).render(<Figure src="/photo.jpg" />);
