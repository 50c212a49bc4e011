import type { Words } from '../../strings.js';

/** Partien mit ihren Proben, und die Partien eines Bildes dagegen. */
export const passagesWorkWords: Words = {
  'passages.no-swatch':
    '{passages, plural, one {# Partie hat} other {# Partien haben}} noch keine Probe: Ihr Bereich hat noch keine Farbe.',
  'passages.swatch-far':
    'Partie {passage} neigt anders als jede Probe ihres Bereichs; am nächsten liegt {swatch}.',
  'passages.swatch-unused': 'Keine Partie braucht {swatch}.',
  'passages.one-mix':
    'Die Partien {first} und {second} sollen getrennt bleiben, doch beide werden mit {swatch} gemalt: für eine davon eine andere Neigung mischen.',
  'check.passage-lean':
    'Partie {passage} hat einen anderen Farbton als ihre Probe: nach dem Trocknen dünn mit dem Ton der Probe lasieren.',
  'check.passage-greyer':
    'Partie {passage} ist grauer als ihre Probe: nach dem Trocknen mit der reineren ihrer Farben lasieren.',
  'check.passage-purer':
    'Partie {passage} ist reiner als ihre Probe: Eine dünne Lasur der Gegenfarbe nimmt sie zurück.',
  'check.passage-vanished':
    'Partie {first} ist in Partie {second} verschwunden: mit ihrer eigenen Mischung lasieren, oder abheben und neu legen.',
};
