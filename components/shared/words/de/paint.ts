import type { Words } from '../../strings.js';

/** Words for what is known of paints, of mixes and of how far off a prediction may be; German. Values are Munsell, 0 to 10. */
export const paintWords: Words = {
  'transparency.transparent': 'lasierend',
  'transparency.semi-transparent': 'halb lasierend',
  'transparency.semi-opaque': 'halb deckend',
  'transparency.opaque': 'deckend',
  'staining.low': 'lässt sich gut abheben',
  'staining.medium': 'färbt ein wenig',
  'staining.high': 'färbt das Papier',
  'granulation.none': 'liegt gleichmäßig',
  'granulation.slight': 'granuliert ein wenig',
  'granulation.strong': 'granuliert',
  'lasting.I': 'sehr lichtecht',
  'lasting.II': 'lichtecht',
  'lasting.doubtful': 'Lichtechtheit zweifelhaft',
  'lasting.fugitive': 'bleicht im Licht aus',

  'paint.cadmium':
    'Enthält Kadmiumverbindungen. Das Etikett der Tube ({label}) und örtliche Vorschriften gehen vor.',
  'paint.cobalt':
    'Enthält Kobaltverbindungen. Das Etikett der Tube ({label}) und örtliche Vorschriften gehen vor.',
  'paint.manganese':
    'Enthält Manganverbindungen. Das Etikett der Tube ({label}) und örtliche Vorschriften gehen vor.',
  'paint.nickel':
    'Enthält Nickelverbindungen. Das Etikett der Tube ({label}) und örtliche Vorschriften gehen vor.',
  'paint.chromium':
    'Enthält Chromverbindungen. Das Etikett der Tube ({label}) und örtliche Vorschriften gehen vor.',
  'paint.lead':
    'Enthält Blei: von Haut und Essen fernhalten. Das Etikett der Tube ({label}) und örtliche Vorschriften gehen vor.',
  'paint.acid-and-heat':
    'Gibt mit starker Säure oder bei großer Hitze ein giftiges Gas ab (Blausäure). Das Etikett der Tube ({label}) und örtliche Vorschriften gehen vor.',
  'paint.fades': 'Sie bleicht im Licht aus: Was damit gemalt ist, bleibt nicht, wie es ist.',
  'paint.fades-or-darkens': 'Sie bleicht im Licht aus oder dunkelt nach.',
  'paint.rated-apart':
    'Prüfungen der Lichtechtheit gehen auseinander: Manche besteht sie, manche nicht.',
  'paint.blend':
    'Wird als Mischung mehrerer Pigmente verkauft; jeder Hersteller mischt sie auf seine Weise.',
  'paint.stand-in': '{paint} hat keine eigenen Daten: Die von {tube} stehen dafür ein.',
  'paint.no-data': 'Keine Daten: Sie lässt sich nicht vorhersagen. Am nächsten mit Daten: {near}.',
  'paint.lasting-near': 'Am nächsten unter den lichtechten: {tube}.',
  'paint.lasting-same-data':
    'Für beide stehen dieselben Daten, deshalb ist ihr Unterschied nicht bekannt.',
  'paint.lasting-alike': 'Ob schwach oder stark, beide sehen gleich aus.',
  'paint.lasting-lighter': 'Am meisten weichen {wash} Lasuren ab: heller.',
  'paint.lasting-darker': 'Am meisten weichen {wash} Lasuren ab: dunkler.',
  'paint.lasting-purer': 'Am meisten weichen {wash} Lasuren ab: reiner.',
  'paint.lasting-duller': 'Am meisten weichen {wash} Lasuren ab: stumpfer.',
  'paint.lasting-hue': 'Am meisten weichen {wash} Lasuren ab: anderer Farbton.',
  'paint.wash-weak': 'schwache',
  'paint.wash-middle': 'mittlere',
  'paint.wash-strong': 'starke',

  'paint.acrylic-films':
    'Vorhergesagt aus gemessenen Filmen von Acrylfarbe. Ihr Aquarell kann auf Tonwerte von {low, 1, fixed} bis {high, 1, fixed} trocknen: Versuchen Sie es erst auf einem Rest Papier.',
  'paint.across-sets':
    'Ihre Tuben sind an zwei Orten gemessen; ein und dasselbe Pigment ist dort verschieden stark, {low, 1}- bis {high, 1}-mal.',
  'paint.granulates':
    '{paint} setzt sich in das Korn des Papiers: Die Lasur wird gesprenkelt aussehen.',
  'paint.opaque':
    '{paint} deckt: Wie hell eine dünne Lasur trocknet, hängt sehr davon ab, wie sie gelegt wird.',
  'paint.re-wets':
    'Aquarell löst sich wieder: {layers, plural, one {Die getrocknete Schicht} other {Die getrockneten Schichten}} darunter kann in die Lasur übergehen, was nicht vorhergesagt wird.',

  'paint.fit-as-data':
    'Ihre Tube ist so stark wie die Daten, soweit diese Proben es sagen ({low, 2}- bis {high, 2}-mal).',
  'paint.fit-differs':
    'Ihre Tube ist {load, 2}-mal so stark wie die Daten, zwischen {low, 2}- und {high, 2}-mal.',
  'paint.fit-one-reading': 'Eine Probe sagt wenig: Malen Sie noch zwei oder drei, schwächere.',
  'paint.fit-open':
    'Diese Proben lassen die Stärke nach einer Seite offen ({low, 2} bis {high, 2}): Nehmen Sie eine schwächere hinzu.',
  'paint.fit-another-hue':
    'Ihre Tube hat einen anderen Farbton als die Daten (um {deltaE, 1}): Vorhersagen mit ihr bleiben daneben.',

  'paint.puddle-guess':
    'Eine Schätzung der Größenordnung: Papiere und Hände sind verschieden, {low, 0} bis {high, 0} ml.',
  'paint.puddle-more':
    'Etwas mehr als nötig ({needed, 0} ml), damit sich jede Tube mit dem Löffel abmessen lässt.',
  'paint.puddle-touch': 'Auf einmal gemischt wäre der kleinste Teil {spoonfuls, 2} Löffel.',

  'mix.too-dark':
    'Sie müsste dunkler sein, als Ihre Tuben reichen: Bei Tonwert {reached, 1, fixed} ist Schluss.',
  'mix.too-light':
    'Sie müsste heller sein: Ihre Tuben kommen dort auf Tonwert {reached, 1, fixed}.',
  'mix.too-chromatic': 'So rein mischen Ihre Tuben {lean} nicht.',
  'mix.too-neutral': 'Ihre Tuben bleiben dort reiner: Verlangt ist ein graueres {lean}.',
  'mix.hue-missing': 'Ihre Tuben weichen nach {reached} aus, wo {lean} verlangt ist.',

  'grade.close': 'nah dran',
  'grade.near': 'in der Nähe',
  'grade.out-of-reach': 'nicht erreichbar',
  'steadiness.steady': 'verzeiht einen ungenauen Löffel',
  'steadiness.careful': 'will genaue Löffel',
  'steadiness.touchy': 'ändert sich mit jedem Tropfen',
};
