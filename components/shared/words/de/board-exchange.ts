import type { Words } from '../../strings.js';

/** Words of a board about carrying swatches to other programs and back; German. */
export const boardExchangeWords: Words = {
  'exchange.close': 'Schließen',
  'exchange.out': 'Mitnehmen',
  'exchange.design-tokens': 'Design-Tokens',
  'exchange.design-tokens-about':
    'Für Gestaltungsprogramme, die das Format der W3C-Gemeinschaftsgruppe lesen. Wieder hereingeholt, geht nichts von Ihrer Tafel verloren.',
  'exchange.css': 'CSS-Eigenschaften',
  'exchange.css-about': 'Für Formatvorlagen: je ein Name und eine Farbe.',
  'exchange.svg': 'Zeichnung (SVG)',
  'exchange.svg-about': 'Ein Blatt mit Proben in wahrer Größe, für Zeichenprogramme.',
  'exchange.save': 'Als Datei sichern',
  'exchange.copy': 'Kopieren',
  'exchange.saved': '{name} ist unterwegs zu Ihren Downloads.',
  'exchange.copied': 'Kopiert.',
  'exchange.by-hand':
    'Diese Seite darf für Sie weder kopieren noch sichern. Hier ist der Text: Markieren Sie alles und kopieren Sie es selbst.',
  'exchange.text': 'Der Text zum Kopieren',
  'exchange.value': 'Tonwert {value, 1} (L* {lightness, 1})',
  'exchange.value-about': 'Tonwert {value, 1} (L* {lightness, 1} ± {about, 1})',
  'exchange.wet': 'nass gelesen',
  'exchange.accent': 'Akzent',
  'exchange.recipe': 'Mischen: {recipe}',
  'exchange.in': 'Hereinholen',
  'exchange.in-about':
    'Design-Tokens oder CSS-Eigenschaften wie -\u2060-\u2060sky: #9db7c9. Sie sehen, was kommt, bevor es kommt.',
  'exchange.open': 'Datei wählen',
  'exchange.paste': 'Oder den Text hier einsetzen',
  'exchange.coming':
    '{count, plural, =0 {Es ist nichts Neues darin.} one {Eine Probe kann hereinkommen.} other {# Proben können hereinkommen.}}',
  'exchange.present':
    '{count, plural, one {Eine liegt schon auf der Tafel.} other {# liegen schon auf der Tafel.}}',
  'exchange.more': '{count, plural, one {und noch eine} other {und noch #}}',
  'exchange.left': 'Nicht so, wie es dasteht:',
  'exchange.reading': 'Die Proben werden gelesen.',
  'exchange.stop': 'Anhalten',
  'exchange.lay': 'Hineinlegen',
  'exchange.put-aside': 'Weglegen',
  'exchange.laid':
    '{count, plural, one {Eine Probe ist hereingekommen.} other {# Proben sind hereingekommen.}} Rückgängig nimmt {count, plural, one {sie} other {sie}} wieder weg.',
  'exchange.unreadable':
    'Diese Datei lässt sich nicht öffnen. Wählen Sie sie noch einmal, oder kopieren Sie ihren Text.',

  'swatches.empty':
    'Es sind keine lesbaren Farben darin. Lesbar sind Design-Tokens (JSON) oder CSS wie -\u2060-\u2060sky: #9db7c9.',
  'swatches.not-json-text':
    'Dieses JSON ist nicht vollständig. Geben Sie es im anderen Programm noch einmal aus, oder kopieren Sie alles.',
  'swatches.not-json':
    'Das ist kein JSON, wie es in Dateien steht. Geben Sie es im anderen Programm noch einmal aus.',
  'swatches.not-finite':
    'Eine Zahl darin ist zu groß. Berichtigen Sie sie im anderen Programm und geben Sie die Datei noch einmal aus.',
  'swatches.wrong-type':
    'Das ist keine Datei mit Design-Tokens: Die beginnt mit einer geschweiften Klammer. Wählen Sie eine andere.',
  'swatches.too-large':
    'Das ist mehr, als hier gelesen werden kann. Holen Sie einen Teil davon herein.',
  'swatches.too-deep':
    'Die Gruppen liegen mehr als {limit} Ebenen tief. Geben Sie im anderen Programm weniger Ebenen aus.',
  'swatches.forbidden-key':
    'Ein Name darin ist nicht sicher ({key}). Geben Sie ihm im anderen Programm einen anderen.',
  'swatches.too-many':
    'Eine Tafel fasst {limit} Proben; mit diesen wären es {found}. Holen Sie weniger herein, oder nehmen Sie erst welche von der Tafel.',
  'swatches.no-buckets':
    'Es gibt kein Fach, in das sie gelegt werden könnten. Geben Sie der Tafel erst ihre Bereiche.',
  'swatches.colour-unreadable':
    '{name}: „{found}“ ist keine Farbe, die hier verstanden wird, und bleibt weg. Als #rrggbb geschrieben kann sie kommen.',
  'swatches.space-unknown':
    '{name}: Der Farbraum „{found}“ ist hier nicht bekannt, die Farbe bleibt weg. In sRGB kann sie kommen.',
  'swatches.component-range':
    '{name}: {found} liegt außerhalb von {expected}, die Farbe bleibt weg. Berichtigen Sie sie im anderen Programm.',
  'swatches.reference-missing':
    '{name}: Es verweist auf {found}, das nicht in der Datei steht, und bleibt weg. Holen Sie beides zusammen herein.',
  'swatches.reference-circle':
    '{name}: Es verweist am Ende auf sich selbst und bleibt weg. Geben Sie ihm eine eigene Farbe.',
  'swatches.reference-far':
    '{name}: Es verweist über mehr als {limit} Schritte auf eine andere Farbe und bleibt weg. Verweisen Sie auf die Farbe selbst.',
  'swatches.type-missing':
    '{name}: Nichts sagt, dass es eine Farbe ist, und es bleibt weg. Geben Sie ihm den Typ „color“.',
  'swatches.token-unclear':
    '{name}: Es ist zweierlei zugleich und bleibt weg. Behalten Sie entweder seinen Wert oder das, was darin steht.',
  'swatches.transparent': '{name}: Es ist nichts zu sehen (durchsichtig), darum bleibt es weg.',
  'swatches.again':
    '{name}: Weiter unten hat es für ein anderes Thema eine andere Farbe. Genommen wird die erste.',
  'swatches.own-notes':
    '{name}: Es wurde in einem anderen Programm geändert. Es kommt, wie es jetzt ist, ohne Notizen über seine Farbe.',
  'swatches.more': '{count, plural, one {und noch eines} other {und noch #}}',
};
