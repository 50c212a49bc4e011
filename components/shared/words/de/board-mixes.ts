import type { Words } from '../../strings.js';

/** Words of a board about recipes, and about what a bucket lacks; German. */
export const boardMixesWords: Words = {
  'mixes.recipe': 'Mischen: {recipe}',
  'mixes.complete': 'Dieses Fach ergänzen',
  'mixes.close': 'Schließen',
  'mixes.stop': 'Anhalten',
  'mixes.looking': 'Fehlende Neigungen werden gesucht',
  'mixes.at':
    'Mischungen von Tonwert {value, 1} aus Ihren Tuben, die dahin neigen, wohin hier noch keine neigt:',
  'mixes.none': 'Es fehlt nichts: Jede Neigung, die Ihre Tuben haben, ist schon da.',
  'mixes.beyond': 'Ihre Tuben haben bei diesem Tonwert nichts, was zu {lean} neigt.',
  'mixes.lay': 'Hineinlegen',
  'mixes.lay-all': 'Alle {count} hineinlegen',
  'mixes.laid':
    '{count, plural, one {Eine Mischung liegt} other {# Mischungen liegen}} nun in „{band}“, mit {count, plural, one {ihrem Rezept} other {ihren Rezepten}}.',
  'mixes.failed':
    'Die Suche ist stehen geblieben. Versuchen Sie es noch einmal; Ihre Tafel bleibt erhalten.',
  'mixes.no-lasting':
    'Keine der Tuben, die sich vorhersagen lassen, ist lichtecht. Wählen Sie im Mischnapf andere für eine Arbeit, die verkauft wird.',
  'mixes.left-out': 'Weggelassen, weil die Arbeit verkauft wird: {tubes}.',
  'mixes.no-tubes':
    'Keine der bereitgelegten Tuben lässt sich vorhersagen. Wählen Sie im Mischnapf andere.',
};
