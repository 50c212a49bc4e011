import type { Words } from '../../strings.js';
import { leanWords } from './leans.js';

/** Pausen über dem Bild, die Massen, und wie Lichter ausgespart werden. */
export const tracingsWords: Words = {
  ...leanWords,
  'area.mm': '{area, 1} cm²',
  'area.in': '{area, 2} Quadratzoll',
  'tracing.label': 'Pausen über dem Bild',
  'tracing.masses': 'Massen',
  'tracing.edges': 'Kanten',
  'tracing.reserves': 'Aussparungen',
  'tracing.marks': 'Akzente',
  'tracing.strokes': 'Striche',
  'tracing.passages': 'Farbpartien',
  'tracing.accents': 'Farbakzente',
  'tracing.hint':
    'Legen Sie über das Bild, was der Pinsel sagen kann: Formen, Kanten, was Papier bleibt, kleine Akzente, den Lauf der Striche, Partien anderer Farbe, kleine kräftige Farbflecke.',
  'tracing.working': 'Die Formen für „{brush}“ werden gesucht … {done, 0} %',
  'tracing.stop': 'Anhalten',
  'tracing.stopped': 'Die Massen wurden nicht ermittelt.',
  'tracing.again': 'Noch einmal',
  'tracing.count': '{masses, plural, =1 {Eine Form} other {# Formen}} für „{brush}“.',
  'tracing.edges-key': 'Volle Linie: harte Kante. Unterbrochen: weich. Keine Linie: verloren.',
  'tracing.edges-key-faint':
    'Volle Linie: harte Kante. Unterbrochen: weich. Zarte Linie: verloren.',
  'tracing.bare-left': '{share, 1} % des Papiers bleiben am Ende frei: {area}.',
  'tracing.tint-left': '{share, 1} % enden als blasser Ton: {area}.',
  'tracing.light-bare': '{lights, plural, =1 {ein Licht} other {# Lichter}} frei gelassen',
  'tracing.light-tint': '{lights, plural, =1 {ein Licht} other {# Lichter}} zuerst blass getönt',
  'tracing.light-mask': '{lights, plural, =1 {ein Licht} other {# Lichter}} abgedeckt',
  'tracing.lights': 'Jedes Licht',
  'tracing.marks-key':
    '{marks, plural, =1 {Ein kleiner Akzent} other {# kleine Akzente}}, die die Massen auslassen, nummeriert wie im Arbeitsplan. Dicke Ringe sind Dunkelheiten.',
  'tracing.marks-none': 'Es werden keine kleinen Akzente behalten.',
  'tracing.each-mark': 'Jeder Akzent',
  'tracing.strokes-key':
    'Die Linien folgen der Form. Spitzen bekommen sie, wo Sie gezeichnet haben, wohin ein Strich läuft.',
  'tracing.strokes-working': 'Der Form wird gefolgt …',
  'tracing.passages-key':
    '{passages, plural, =1 {Eine Partie} other {# Partien}} gleicher Farbneigung in {masses, plural, =1 {einer Form} other {# Formen}}; jeder Tupfen ist die Farbe des Fotos an dieser Stelle. Punktiert: verlaufen lassen. Dünne Linie: getrennt halten.',
  'tracing.passages-working': 'Partien anderer Farbe werden gesucht …',
  'tracing.passages-largest': 'Die größten Farbpartien',
  'tracing.passages-of-mass': 'Farbpartien der Masse in der Hand',
  'tracing.accents-key':
    '{accents, plural, =1 {Ein kleiner kräftiger Farbfleck} other {# kleine kräftige Farbflecke}} zwischen Neutralen.',
  'tracing.accents-none': 'Es gibt keine kleinen kräftigen Farbflecke zwischen Neutralen.',
  'tracing.accents-working': 'Kleine kräftige Farbflecke werden gesucht …',
  'tracing.each-accent': 'Jeder Farbakzent',
  'tracing.unmet':
    '{changes, plural, =1 {Eine Ihrer Änderungen passt nicht mehr} other {# Ihrer Änderungen passen nicht mehr}}:',
  'mass.label': 'Die Masse in der Hand',
  'mass.hint': 'Drücken Sie eine Masse im Bild, oder gehen Sie sie nach Größe durch.',
  'mass.next': 'Nächst kleinere',
  'mass.previous': 'Nächst größere',
  'mass.leave': 'Lassen',
  'mass.facts':
    'Masse {place} von {count} nach Größe, in „{band}“: {area}, {share, 1} % des Bildes, etwa {widths, 1} Breiten von „{brush}“.',
  'mass.edges': 'Kanten: {hard} hart, {soft} weich, {lost} verloren.',
  'mass.kept-bare': 'Sie bleibt freies Papier; an der engsten Stelle ist sie {width} breit.',
  'mass.kept-tint': 'Sie wird zuerst blass getönt; an der engsten Stelle ist sie {width} breit.',
  'mass.kept-mask': 'Sie wird abgedeckt; an der engsten Stelle ist sie {width} breit.',
  'mass.kept-narrow': 'Das ist zu schmal, um mit diesem Pinsel herumzumalen.',
  'light.mass': 'Masse {place} nach Größe, {area}',
  'light.mark': 'Akzent {number}, {size} groß',
  'light.proposed': '{light}: {how}.',
  'light.asked': '{light}: {how}, wie von Ihnen bestimmt.',
  'light.bare': 'frei gelassen',
  'light.tint': 'zuerst blass getönt',
  'light.mask': 'abgedeckt',
  'light.paint': 'übermalt',
  'reserve.narrow': 'An der engsten Stelle {width} breit, zu schmal, um herumzumalen.',
  'reserve.narrow-bare':
    'An der engsten Stelle {width} breit, schmaler als der Strich: Es kann zulaufen; ein kleinerer Pinsel hilft.',
  'reserve.tint-lightest': 'Es endet nicht heller als sein Ton.',
  'reserve.tint-below':
    'Schichten über dem Rand des Tons lassen ihn durchscheinen und neigen zu seiner Farbe.',
  'reserve.given-up':
    '{share, 1} % des Bildes sind aufgegeben: Keine Aquarellfarbe bringt das Papier zurück.',
  'reserve.mask-dry-paper':
    'Abdeckmittel kommt nur auf ganz trockenes Papier und erst herunter, wenn die Farbe trocken ist.',
  'reserve.mask-air': 'Abdeckmittel: den Raum lüften und zuerst dem Etikett der Flasche folgen.',
  'reserve.tint-dry-first': 'Ein Ton trocknet, bevor etwas daneben gelegt wird.',
  'reserve.none': 'Es bleibt kein Papier frei.',
  'reserve.outside': 'Das Licht liegt außerhalb des Bildes.',
  'reserve.no-light': 'Diese Form ist kein Licht, das ausgespart werden könnte.',
  'mark.light': 'Licht, {size} groß: {how}.',
  'mark.dark': 'Dunkel, {size} groß: {how}.',
  'mark.last': 'zuletzt gemalt',
  'passage.swatch': '{lean}, {share, 1} % des Bildes; nächste Probe: {swatch}',
  'passage.no-swatch':
    '{lean}, {share, 1} % des Bildes; sein Fach hat noch keine trockene Probe mit einer Farbe',
  'accent.name': 'Farbakzent {number}, {lean}',
  'accent.band': 'Nach seinem Tonwert gehört er zu „{band}“, wie die Masse um ihn.',
  'accent.band-other': 'Nach seinem Tonwert gehört er zu „{band}“; die Masse um ihn ist „{about}“.',
  'accent.vivid': 'Buntheit {chroma, 0} zwischen {surround, 0}.',
  'accent.cost-none': 'Reine Farbe statt des Neutralen kostet keinen Tonwert.',
  'accent.cost-lighter': 'Reine Farbe statt des Neutralen macht ihn {cost, 0} L* heller.',
  'accent.cost-darker': 'Reine Farbe statt des Neutralen macht ihn {cost, 0} L* dunkler.',
  'accent.repeated': 'Seine Farbe kehrt wieder in Farbakzent {accents}.',
  'accent.might':
    'Seine Farbe kehrt nirgends wieder; {places, plural, =1 {eine Stelle deutet} other {# Stellen deuten}} sie an.',
  'accent.alone': 'Seine Farbe kehrt nirgends wieder, und nichts deutet sie an.',
  'accent.on-board': 'Auf der Tafel: {swatch}.',
  'accent.none-planned':
    'Noch ist keine Probe der Tafel als Akzent gekennzeichnet; kennzeichnen Sie eine, dann wird gesagt, ob der Plan sie wiederholt.',
  'accent.planned':
    '{swatches, plural, =1 {Die Probe der Tafel für einen Akzent} other {Die # Proben der Tafel für Akzente}}',
  'accent.in-bucket': 'Nach ihrem Tonwert gehört sie, wo sie liegt: {band}.',
  'accent.out-of-bucket': 'Nach ihrem Tonwert gehört sie zu {band}; sie liegt bei {bucket}.',
  'accent.no-neutrals':
    'Bei ihr liegt keine andere Probe mit einer Farbe, mit der sie sich vergleichen ließe.',
  'accent.seems-lighter':
    'Reine Farbe täuscht: Das Auge hält sie für {by, 0} L* heller, als sie ist.',
  'accent.used':
    '{times, plural, =1 {Das Foto hat ihren Farbton einmal} other {Das Foto hat ihren Farbton #-mal}}: Akzent {accents}.',
  'accent.not-used': 'Kein Akzent des Fotos hat ihren Farbton.',
  'accent.echoed': 'Andere Proben führen ihren Farbton weiter: {swatches}.',
  'accent.places':
    '{places, plural, =1 {An einer Stelle könnte sie wiederkehren} other {An # Stellen könnte sie wiederkehren}}, wo ihr Farbton schon anklingt; im Bild gezeigt.',
  'accent.places-in-band': 'Der Tonwert dort ist ihr eigener.',
  'accent.places-some': 'Nicht überall dort ist der Tonwert ihr eigener.',
  'accent.places-out':
    'Der Tonwert dort ist ein anderer: klein setzen, oder bei jenem Tonwert bleiben.',
  'accent.places-across': 'Eine liegt gegenüber im Bild.',
  'accent.nowhere': 'Keine andere Stelle des Fotos trägt ihren Farbton.',
  'stroke-too-short': 'Der Strich ist zu kurz.',
  'stroke-outside': 'Der Strich liegt außerhalb des Bildes.',
  'stroke-across-the-form':
    'Der Strich kreuzt die Form überall: Die Striche ringsum können nicht folgen.',
};
