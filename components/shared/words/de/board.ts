import type { Words } from '../../strings.js';
import { leanWords } from './leans.js';

/** Die Probentafel: ihre Fächer, was man tun kann, und was über jede Probe geurteilt wird. Tonwerte nach Munsell, 0 bis 10. */
export const boardWords: Words = {
  'buckets.label': 'Probentafel',
  'buckets.undo': 'Zurücknehmen',
  'buckets.redo': 'Wiederholen',
  'buckets.greys': 'Als Grautöne sehen',
  'buckets.judge': 'Tafel beurteilen',
  'buckets.exchange': 'Mitnehmen, hereinholen',
  'buckets.forgive': 'Beiseitelegen',
  'buckets.unnamed': 'ohne Namen',
  'buckets.sum-none': 'Noch keine Proben.',
  'buckets.sum-judging': 'Die Proben werden beurteilt.',
  'buckets.sum-fine': '{count, plural, one {Die eine Probe passt.} other {Alle # Proben passen.}}',
  'buckets.sum':
    '{faults, plural, =0 {Kein Fehler} one {# Probe liegt falsch} other {# Proben liegen falsch}}, {count} insgesamt{open, plural, =0 {} other {; # offen}}.',
  'buckets.sum-hidden':
    '{count, plural, one {# Probe} other {# Proben}}. Das Urteil wird hier nicht gezeigt.',
  'buckets.sum-submit':
    '{count, plural, one {# Probe} other {# Proben}}. Das Urteil kommt, wenn Sie die Tafel abgeben.',
  'buckets.sum-lack':
    '{count, plural, one {Ein Fach braucht mehr Proben.} other {# Fächer brauchen mehr Proben.}}',

  'lesson.attempt': 'Versuch {attempt}',

  'bucket.range-first': 'trocken, Tonwert {to, 1} und dunkler',
  'bucket.range-last': 'trocken, Tonwert {from, 1} und heller',
  'bucket.range': 'trocken, Tonwert {from, 1} bis {to, 1}',
  'bucket.range-one': 'alle Tonwerte',
  'bucket.range-detail': 'L* {floor, 1} bis {ceiling, 1}',
  'bucket.locked': 'fest',
  'bucket.lack':
    '{missing, plural, one {Hier ist noch eine verlangt.} other {Hier sind noch # verlangt.}}',
  'bucket.lack-lean':
    '{missing, plural, one {Eine, die zu {lean} neigt, fehlt.} other {#, die zu {lean} neigen, fehlen.}}',
  'bucket.lack-neutral': '{missing, plural, one {Eine neutrale fehlt.} other {# neutrale fehlen.}}',
  'bucket.empty-first':
    'Hierher gehören Ihre dunkelsten Mischungen: alles, was auf Tonwert {to, 1} oder dunkler trocknet.',
  'bucket.empty-last':
    'Hierher gehören Ihre hellsten Mischungen: alles, was auf Tonwert {from, 1} oder heller trocknet.',
  'bucket.empty':
    'Hierher gehören Mischungen, die zwischen Tonwert {from, 1} und {to, 1} trocknen.',
  'bucket.empty-how': 'Fügen Sie eine nach ihrer Farbe hinzu, oder ziehen Sie eine herein.',
  'bucket.empty-how-tied':
    'Fügen Sie eine nach ihrer Farbe hinzu, ziehen Sie eine herein, oder senden Sie eine Messung aus dem Bild.',
  'bucket.gap': '{by, 1} auseinander',
  'bucket.gap-none': 'berühren sich',
  'bucket.gap-crossed': 'überschneiden sich um {by, 1}',
  'bucket.gap-label': 'Abstand im Tonwert zwischen „{darker}“ und „{lighter}“: {distance}',
  'bucket.pairs': 'Paare, die sich überschneiden',
  'bucket.pair':
    '„{darker}“ in „{darkerBand}“ ist nicht dunkler als „{lighter}“ in „{lighterBand}“.',
  'bucket.pair-more': '{count, plural, one {und noch ein Paar} other {und noch # Paare}}',

  'band.change': 'Fach ändern',
  'band.name': 'Name des Fachs',
  'band.upto': 'Reicht bis Tonwert',
  'band.split': 'In zwei teilen',
  'band.remove': 'Wegnehmen',
  'band.remove-hint': 'Seine Proben kommen ins Nachbarfach.',
  'band.done': 'Fertig',
  'band.fresh': 'dunklere {name}',
  'band.renamed': 'Das Fach heißt nun „{name}“.',
  'band.moved': '„{name}“ reicht nun bis Tonwert {to, 1}.',
  'band.splitted': '„{name}“ ist in zwei geteilt.',
  'band.removed': '„{name}“ ist weggenommen.',

  'add.open': 'Farbe hinzufügen',
  'add.css': 'Farbe, mit Namen oder Code',
  'add.css-hint': 'tan, #8a6f5c, oklch(0.55 0.03 60)',
  'add.pick': 'Nach Augenmaß wählen',
  'add.name': 'Name (wenn Sie mögen)',
  'add.lay': 'Hineinlegen',
  'add.cancel': 'Abbrechen',
  'add.preview': 'Tonwert {value, 1}',
  'add.unknown':
    '„{css}“ ist keine Farbe, die CSS kennt. Versuchen Sie einen Namen (tan), #8a6f5c oder oklch(0.55 0.03 60).',
  'add.missing': 'Schreiben Sie zuerst eine Farbe, oder wählen Sie eine nach Augenmaß.',
  'add.full': 'Die Tafel ist voll: 1000 Proben. Löschen Sie zuerst eine.',

  'dab.label': '{name}, Tonwert {value, 1}, {verdict}',
  'dab.label-plain': '{name}',
  'dab.hint':
    'Die Leertaste hebt sie auf; dann verschieben die Pfeiltasten sie, die Leertaste legt sie ab, Esc legt sie zurück. Entf löscht sie.',
  'dab.value': 'Tonwert {value, 1}',
  'dab.value-wet': 'Tonwert {value, 1} nass',
  'dab.margin-in': '{by, 1} Spielraum',
  'dab.margin-out': '{by, 1} daneben',
  'dab.detail': 'L* {lightness, 1}; {lean}, Buntheit {chroma, 0}',
  'dab.detail-plain': 'L* {lightness, 1}',
  'dab.within': '; auf {uncertainty, 1} genau bekannt',
  'dab.change': 'Ändern',
  'dab.details': 'Genaueres',
  'dab.name': 'Name',
  'dab.note': 'Notiz',
  'dab.bucket': 'Liegt in',
  'dab.accent': 'Akzent: mit Absicht außerhalb des Tonwerts',
  'dab.wet': 'Noch nass: trocknet heller auf',
  'dab.delete': 'Löschen',
  'dab.done': 'Fertig',
  'dab.lifted':
    '{name} ist aufgehoben. Pfeiltasten verschieben sie, die Leertaste legt sie ab, Esc legt sie zurück.',
  'dab.at': '{band}, Platz {place} von {count}.',
  'dab.laid': '{name} liegt in „{band}“, Platz {place} von {count}.',
  'dab.back': '{name} liegt wieder in „{band}“.',
  'dab.added': '{name} ist in „{band}“ hinzugekommen.',
  'dab.deleted': '{name} ist gelöscht.',
  'dab.undone': 'Zurückgenommen.',
  'dab.redone': 'Wiederholt.',
  'dab.edited': '{name} ist geändert.',

  'verdict.said': 'Urteil: {verdict}.',
  'verdict.fits': 'passt',
  'verdict.too-dark': 'zu dunkel',
  'verdict.too-light': 'zu hell',
  'verdict.between': 'am Rand',
  'verdict.unsure': 'nicht sicher',
  'verdict.accent': 'Akzent',
  'verdict.judging': 'wird beurteilt',

  'swatch.fits': '{margin, plural, =0 {Passt, genau am Rand.} other {Passt, # Spielraum.}}',
  'swatch.not-darker':
    '{by, plural, =0 {Nicht dunkler als} other {Um # heller als}} „{other}“ in „{otherBand}“{count, plural, one {} other {; überschneidet insgesamt # Proben}}. Mischen Sie sie dunkler, oder legen Sie sie um.',
  'swatch.not-lighter':
    '{by, plural, =0 {Nicht heller als} other {Um # dunkler als}} „{other}“ in „{otherBand}“{count, plural, one {} other {; überschneidet insgesamt # Proben}}. Mischen Sie sie heller, oder legen Sie sie um.',
  'swatch.passed':
    '„{other}“ aus „{otherBand}“ überschneidet sie{count, plural, one {} other {, andere ebenso}}; ändern Sie jene, nicht diese.',
  'swatch.above-ceiling':
    '{by, plural, =0 {Eine Spur} other {# im Tonwert}} über {ceiling, 1}, wo „{band}“ endet. Mischen Sie sie dunkler, oder legen Sie sie um.',
  'swatch.below-floor':
    '{by, plural, =0 {Eine Spur} other {# im Tonwert}} unter {floor, 1}, wo „{band}“ beginnt. Mischen Sie sie heller, oder legen Sie sie um.',
  'swatch.between-lighter':
    '{by, plural, =0 {Eine Spur} other {# im Tonwert}} über {ceiling, 1}, wo „{band}“ enden sollte, doch dunkler als „{otherBand}“, das bei {next, 1} beginnt. Das wird man lesen können.',
  'swatch.between-darker':
    '{by, plural, =0 {Eine Spur} other {# im Tonwert}} unter {floor, 1}, wo „{band}“ beginnen sollte, doch heller als „{otherBand}“, das bei {next, 1} endet. Das wird man lesen können.',
  'swatch.unsure-order':
    'Liegt zwischen {low, 1} und {high, 1} und kann daher auf „{other}“ in „{otherBand}“ treffen ({otherLow, 1} bis {otherHigh, 1}). Messen Sie sie trocken, um sicher zu sein.',
  'swatch.unsure-limit':
    'Liegt zwischen {low, 1} und {high, 1} und kann daher jenseits von {limit, 1} liegen, dem Rand von „{band}“. Messen Sie sie trocken, um sicher zu sein.',
  'swatch.wet': 'Nass bei {wet, 1}; trocknet auf etwa {dried, 1}, zwischen {low, 1} und {high, 1}.',
  'swatch.accent-lighter': 'Mit Absicht um {by, 1} heller als „{band}“; zählt nicht zur Ordnung.',
  'swatch.accent-darker': 'Mit Absicht um {by, 1} dunkler als „{band}“; zählt nicht zur Ordnung.',
  'swatch.accent-inside':
    'Ein Akzent, dessen Tonwert ohnehin hierher passt; zählt nicht zur Ordnung.',
  'swatch.bucket-wide':
    'Dieses Fach spannt {spread, 1} im Tonwert, erlaubt sind {allowed, 1}; „{other}“ ist sein anderes Ende.',

  ...leanWords,
  'swatch.lean.neutral': 'neutral',
  'swatch.lean.red': 'neigt zu Rot',
  'swatch.lean.orange': 'neigt zu Orange',
  'swatch.lean.yellow': 'neigt zu Gelb',
  'swatch.lean.yellow-green': 'neigt zu Gelbgrün',
  'swatch.lean.green': 'neigt zu Grün',
  'swatch.lean.blue-green': 'neigt zu Blaugrün',
  'swatch.lean.blue': 'neigt zu Blau',
  'swatch.lean.violet': 'neigt zu Violett',
  'swatch.lean.red-violet': 'neigt zu Rotviolett',

  'validity.lack':
    '„{band}“ braucht {missing, plural, one {noch eine Probe} other {noch # Proben}}.',
  'validity.lack-lean':
    'In „{band}“ {missing, plural, one {fehlt eine Probe, die zu {lean} neigt} other {fehlen # Proben, die zu {lean} neigen}}.',
  'validity.lack-neutral':
    'In „{band}“ {missing, plural, one {fehlt eine neutrale Probe} other {fehlen # neutrale Proben}}.',
  'validity.judging': 'Die Tafel wird noch beurteilt.',
  'validity.fault':
    '„{swatch}“ ist {verdict}{count, plural, =0 {} one {, und noch eine Probe liegt falsch} other {, und noch # liegen falsch}}.',

  BoardError:
    'Diese Tafel ist nicht brauchbar: {fault}{more, plural, =0 {} one { Noch etwas daran ist falsch.} other { Noch # Dinge daran sind falsch.}} Die jetzige Tafel ist, wie sie war.',
  BoardBands:
    'Die Bereiche sind nicht brauchbar: Geben Sie Namen an und dazwischen ansteigende Grenzen von L* 0 bis 100, eine weniger als Namen.',
  BoardColours:
    '{count, plural, one {Eine Probe dieser Seite hat} other {# Proben dieser Seite haben}} keine verständliche Farbe oder kein solches Fach und {count, plural, one {bleibt} other {bleiben}} weg: {names}.',
  BoardLeans:
    'Einige Farbneigungen, die diese Tafel verlangt, sind nicht bekannt und bleiben weg: {names}. Bekannt sind neutral, red, orange, yellow, yellow-green, green, blue-green, blue, violet und red-violet.',
  LessonError:
    'Diese Aufgabe ist nicht brauchbar: {fault}{more, plural, =0 {} one { Noch etwas daran ist falsch.} other { Noch # Dinge daran sind falsch.}} Die Tafel ist wie ohne sie.',
  'board.not-json-text': 'Es ist kein JSON-Text ({found}).',
  'board.missing': '{path} fehlt.',
  'board.unknown-key': '{path} ist nicht bekannt.',
  'board.wrong-type': '{path} sollte {expected} sein, nicht {found}.',
  'board.out-of-range': '{path} ist {found}; es sollte {expected} sein.',
  'board.too-long': '{path} hat {found} Zeichen; erlaubt sind {limit}.',
  'board.too-short': '{path} ist leer.',
  'board.wrong-form': '{path} sollte {expected} sein, nicht {found}.',
  'board.too-many': '{path} hat {found} Teile; erlaubt sind {limit}.',
  'board.too-few': '{path} hat {found} Teile; nötig sind {limit}.',
  'board.not-allowed': '{path} ist {found}; es sollte {expected} sein.',
  'board.not-finite': '{path} ist keine endliche Zahl.',
  'board.not-json': '{path} ist von der Art {found}, die JSON nicht fassen kann.',
  'board.forbidden-key': '{path} enthält den Schlüssel {key}, der nicht erlaubt ist.',
  'board.too-deep': '{path} liegt zu tief.',
  'board.too-large': 'Es ist zu groß.',
  'board.no-bands': 'Es hat keine Bereiche.',
  'board.more': '{count} weitere Dinge sind falsch.',
  'board.ceiling-below-floor':
    '{path} endet (L* {ceiling, 1}) unterhalb seines Beginns (L* {floor, 1}).',
  'board.bands-disorder':
    '{path} ist dunkler als der Bereich davor; Bereiche gehen von dunkel nach hell.',
  'board.no-such-bucket': '{path} ist {found}, doch es gibt {bands} Bereiche, von 0 an gezählt.',
  'board.duplicate-id': '{path} kommt zweimal vor ({id}).',
  'board.other-count': '{path} hat {found} Teile; es braucht einen für jeden der {bands} Bereiche.',
};
