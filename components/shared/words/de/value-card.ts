import type { Words } from '../../strings.js';

/** Die Seite der Tonwertkarte. */
export const valueCardWords: Words = {
  'value-card.value': 'Tonwert {value, 1, fixed}',
  'value-card.between': '{darker} darunter, {lighter} darüber. L* {lightness, 0}',
  'value-card.heading': 'Tonwertkarte: {title}',
  'value-card.untitled': 'Tonwertkarte dieses Plans',
  'value-card.paint':
    '1. Füllen Sie jedes Quadrat mit einem gleichmäßigen Grau des Tonwerts, der darunter steht. Mischen Sie ein echtes Grau: ein farbiges sieht heller aus, als es ist.',
  'value-card.read':
    '2. Lassen Sie es trocknen, fotografieren Sie den ganzen Streifen mit blankem Papier ringsum und lassen Sie ihn lesen: dann steht da, welche Graus neu zu malen sind.',
  'value-card.punch':
    '3. Stimmen alle, schneiden Sie an der gestrichelten Linie und lochen Sie an jedem Kreis (6 mm, wie ein Bürolocher).',
  'value-card.use':
    '4. An der Staffelei: Was durch das Loch heller scheint als das Grau darum, gehört über diese Grenze, was dunkler scheint, darunter.',
  'value-card.scale': 'Diese Linie ist 100 mm lang.',
};
