import type { Words } from '../../strings.js';

/** Pausen über dem Bild, und die Massen. */
export const tracingsWords: Words = {
  'tracing.label': 'Pausen über dem Bild',
  'tracing.masses': 'Massen',
  'tracing.edges': 'Kanten',
  'tracing.reserves': 'Aussparungen',
  'tracing.marks': 'Akzente',
  'tracing.strokes': 'Striche',
  'tracing.hint':
    'Legen Sie über das Bild, was der Pinsel sagen kann: Formen, Kanten, was Papier bleibt, kleine Akzente, den Lauf der Striche.',
  'tracing.working': 'Die Formen für „{brush}“ werden gesucht … {done, 0} %',
  'tracing.stop': 'Anhalten',
  'tracing.stopped': 'Die Massen wurden nicht ermittelt.',
  'tracing.again': 'Noch einmal',
  'tracing.count': '{masses, plural, =1 {Eine Masse} other {# Massen}} für „{brush}“.',
  'tracing.edges-key': 'Volle Linie: harte Kante. Unterbrochen: weich. Keine Linie: verloren.',
  'tracing.reserves-key': 'Gepunktete Formen bleiben Papier.',
  'tracing.reserves-none': 'Nichts bleibt Papier.',
  'tracing.marks-key': 'Ringe: kleine Lichter und Dunkelheiten, die die Massen auslassen.',
  'tracing.marks-none': 'Es gibt keine kleinen Akzente, die die Massen auslassen.',
  'tracing.strokes-key':
    'Die Linien folgen der Form. Spitzen bekommen sie, wo Sie gezeichnet haben, wohin ein Strich läuft.',
  'tracing.strokes-working': 'Der Form wird gefolgt …',
  'tracing.unmet':
    '{changes, plural, =1 {Eine Ihrer Änderungen passt nicht mehr} other {# Ihrer Änderungen passen nicht mehr}}:',
  'mass.label': 'Die Masse in der Hand',
  'mass.hint': 'Drücken Sie eine Masse im Bild, oder gehen Sie sie nach Größe durch.',
  'mass.next': 'Nächst kleinere',
  'mass.previous': 'Nächst größere',
  'mass.leave': 'Lassen',
  'mass.facts':
    'Masse {place} von {count} nach Größe, in „{band}“: {area, 1} cm², {share, 1} % des Bildes, etwa {widths, 1} Breiten von „{brush}“.',
  'mass.facts-in':
    'Masse {place} von {count} nach Größe, in „{band}“: {area, 2} Quadratzoll, {share, 1} % des Bildes, etwa {widths, 1} Breiten von „{brush}“.',
  'mass.edges': 'Kanten: {hard} hart, {soft} weich, {lost} verloren.',
  'mass.reserve': 'Sie bleibt Papier; an der engsten Stelle ist sie {width} breit.',
  'mass.reserve-mask':
    'Sie bleibt Papier; an der engsten Stelle ist sie {width} breit, zu schmal, um mit diesem Pinsel herumzumalen: abdecken.',
};
