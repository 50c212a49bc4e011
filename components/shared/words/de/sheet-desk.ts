import type { Words } from '../../strings.js';
import { leanWords } from './leans.js';

/** Words of the sheet reader's desk: reading, putting right, sending, drying, one tube, value card, memory; German. Values are Munsell, 0 to 10. */
export const sheetDeskWords: Words = {
  ...leanWords,
  'reader.sheet': 'Probenblatt',
  'reader.picture':
    '{count, plural, =0 {Foto des Blatts, keine Proben} one {Foto des Blatts, # Probe} other {Foto des Blatts, # Proben}}',
  'reader.reading': 'Das Blatt wird gelesen',
  'reader.read':
    '{count, plural, =0 {Es wurden keine Proben gefunden.} one {Eine Probe wurde gefunden.} other {# Proben wurden gefunden.}}',
  'reader.stopped': 'Angehalten. Was vorher gelesen war, bleibt.',
  'reader.read-again': 'Das Blatt lesen',
  'reader.read-failed':
    'Das Blatt konnte nicht gelesen werden. Tafel und frühere Proben sind, wie sie waren. Versuchen Sie es noch einmal, oder öffnen Sie das Foto neu.',
  'reader.dab-failed':
    'Diese Stelle konnte nicht gelesen werden: Sie liegt außerhalb des Fotos. Schieben Sie sie zurück.',
  'reader.no-light':
    'Es ist zu wenig blankes Papier zu sehen, um danach zu lesen. Setzen Sie die Ecken so, dass blankes Papier dazwischen liegt, oder fotografieren Sie das Blatt neu.',
  'reader.undo': 'Zurücknehmen',
  'reader.redo': 'Wiederholen',
  'reader.undone': 'Zurückgenommen.',
  'reader.redone': 'Wiederholt.',
  'reader.undo-plan': 'Zurücknehmen',
  'reader.add': 'Probe hinzufügen',
  'reader.add-hint': 'Ziehen Sie im Foto einen Rahmen um die Probe.',
  'reader.add-middle': 'Einen in die Mitte legen',
  'reader.nearer': 'Näher',
  'reader.corners-reset': 'Ecken wie gefunden',
  'reader.corners-crossed':
    'Die Ecken sind vertauscht oder eingedrückt. Ziehen Sie jede an ihre eigene Ecke des Blatts.',
  'reader.top-left': 'Ecke oben links',
  'reader.top-right': 'Ecke oben rechts',
  'reader.bottom-right': 'Ecke unten rechts',
  'reader.bottom-left': 'Ecke unten links',
  'reader.corner':
    '{corner} des Blatts, {x} Prozent von links, {y} Prozent von oben. Die Pfeiltasten verschieben sie, mit der Umschalttaste weiter.',
  'reader.box':
    'Probe {number}, Tonwert {value}. Die Pfeiltasten verschieben sie, Plus und Minus ändern ihre Größe.',
  'reader.size': 'Größe von Probe {number}',
  'reader.line-end':
    'Ende {number} der Linie, {x} Prozent von links, {y} Prozent von oben. Die Pfeiltasten verschieben es.',
  'reader.keys':
    'Ziehen Sie eine Ecke oder eine Probe, oder verschieben Sie sie mit den Pfeiltasten (Umschalttaste: weiter). Plus und Minus ändern die Größe einer Probe, Bild auf und Bild ab gehen zur nächsten, Entf lässt sie weg.',
  'reader.warnings': 'Was dem Foto fehlt',
  'reader.limits': 'Was ein Foto von Papier nicht sagen kann',

  'reader.dabs': '{count, plural, =0 {Keine Proben} one {# Probe} other {# Proben}}',
  'reader.sheet-is': 'Das Blatt war',
  'reader.sheet-wet': 'Das Blatt gilt als {wet}.',
  'reader.wet-dry': 'trocken',
  'reader.wet-damp': 'fast trocken',
  'reader.wet-satin': 'seidenmatt',
  'reader.wet-shining': 'glänzend nass',
  'reader.wet-mixed': 'trocken und nass',
  'reader.column': 'Spalte {column}',
  'reader.column-of': 'Spalte {column}, {count, plural, one {# Probe} other {# Proben}}',
  'reader.column-new': 'Neue Spalte',
  'reader.value': 'Tonwert {value}',
  'reader.with-recipe': 'Rezept notiert',
  'reader.sure': 'auf ein Zehntel sicher',
  'reader.fair': 'auf ein Viertel sicher',
  'reader.rough': 'nur ungefähr',
  'reader.even': 'gleichmäßig',
  'reader.lively': 'lebhaft',
  'reader.blotchy': 'fleckig',
  'reader.told-sure': 'Das Foto sagt ihren Tonwert sicher.',
  'reader.told-fair':
    'Ihr Tonwert kann um ein Viertel abweichen: Gleichmäßigeres Licht sagt ihn genauer.',
  'reader.told-rough':
    'Ihr Tonwert ist nur ungefähr bekannt: Fotografieren Sie das Blatt in mehr und gleichmäßigerem Licht.',
  'reader.told-even': 'Die Lasur liegt gleichmäßig.',
  'reader.told-lively': 'Die Lasur schwankt ein wenig in sich, wie es granulierende Farbe tut.',
  'reader.told-blotchy':
    'Die Lasur schwankt stark in sich: Der Tonwert ist der ihres größeren Teils.',
  'reader.dab': 'Probe {number}',
  'reader.dab-said': 'Probe {number}: Tonwert {value}.',
  'reader.within': 'auf {by} genau',
  'reader.facts': 'L* {lightness} ± {uncertainty}, a* {a}, b* {b}; schwankt um {spread} L*.',
  'reader.leans': 'Farbneigung: {lean}.',
  'reader.close': 'Schließen',
  'reader.name': 'Name',
  'reader.in': 'Gehört zu',
  'reader.in-column': 'Liegt nun in Spalte {column}.',
  'reader.dab-is': 'Diese Probe war',
  'reader.join': 'Vereinen mit …',
  'reader.join-label': 'Probe {number} mit einer anderen vereinen',
  'reader.join-with': 'Probe {number}, Tonwert {value}',
  'reader.joined': 'Mit Probe {number} vereint.',
  'reader.part': 'In zwei teilen',
  'reader.part-here': 'Entlang der Linie teilen',
  'reader.part-hint':
    'Legen Sie die Linie dahin, wo die eine Probe endet und die andere beginnt: Ziehen Sie an ihren Enden.',
  'reader.line-turn': 'Linie drehen',
  'reader.line-misses': 'Die Linie geht an der Probe vorbei. Legen Sie sie darüber.',
  'reader.leave': 'Lassen',
  'reader.drop': 'Weglassen',
  'reader.dropped': 'Probe {number} ist weggelassen.',

  'reader.recipe': 'Gemischt aus',
  'reader.recipe-none': 'nicht notiert',
  'reader.recipe-type': 'Die Teile eintippen …',
  'reader.recipe-keep': 'Dieses Rezept notieren',
  'reader.tube-choose': 'Tube wählen',
  'reader.tube-any': 'beliebige Tube',
  'reader.tubes-own': 'Auf der Ablage',
  'reader.tubes-all': 'Alle Tuben',
  'reader.tube-of': 'Farbtube {number}',
  'reader.tube-more': 'Noch eine Tube',
  'reader.parts': 'Teile',
  'reader.parts-wrong':
    'Wählen Sie in jeder Zeile eine Tube, mit Teilen größer als 0, etwa 2 oder 0,5.',
  'reader.strength': 'Mit Wasser verdünnt',
  'reader.let-down': '{times, plural, =1 {stärkste Lasur} other {auf die #-fache Menge}}',

  'reader.panels': 'Wozu die Proben dienen',
  'reader.panel-board': 'Auf die Tafel',
  'reader.panel-drying': 'Nass und trocken',
  'reader.panel-tube': 'Eine Tube',
  'reader.panel-card': 'Tonwertkarte',
  'reader.panel-memory': 'Gemerkte Proben',

  'reader.board-title': 'Auf die Tafel',
  'reader.board-none':
    'Es gibt noch keine Proben. Fügen Sie eine hinzu, oder fotografieren Sie das Blatt neu.',
  'reader.board-hint':
    'Jede Spalte kommt in das Fach, in das ihr Tonwert fällt; wählen Sie ein anderes, wo Sie ein anderes meinten. Alle Proben werden mit dem heutigen Tag gemerkt.',
  'reader.only-remember': 'in kein Fach, nur merken',
  'reader.send':
    '{count, plural, =0 {Die Proben merken} one {# Probe auf die Tafel} other {# Proben auf die Tafel}}',
  'reader.send-again':
    '{count, plural, =0 {Die Proben neu merken} one {# Probe neu auf die Tafel} other {# Proben neu auf die Tafel}}',
  'reader.send-again-hint':
    'Dieses Blatt wurde schon übernommen: Seine Proben werden ersetzt, keine liegt doppelt.',
  'reader.sent':
    '{count, plural, =0 {} one {Eine Probe liegt auf der Tafel. } other {# Proben liegen auf der Tafel. }}{dabs, plural, one {Eine Probe ist gemerkt.} other {# Proben sind gemerkt.}}',
  'reader.board-full':
    'Die Tafel hat keinen Platz für so viele Proben. Löschen Sie dort einige, oder übernehmen Sie weniger Spalten.',

  'reader.drying-title': 'Nass und trocken',
  'reader.drying-hint':
    'Lesen Sie ein Blatt zweimal, nass und trocken: Aus den Paaren ergibt sich, wie Ihre eigene Farbe trocknet. Dieses Blatt gilt als {wet}; stellen Sie es oben um, wenn es anders war.',
  'reader.drying-none':
    'Noch ist kein früheres Blatt gemerkt. Fotografieren Sie das Blatt nass, sagen Sie oben, wie nass es war, und übernehmen Sie es; fotografieren Sie es dann trocken, und ordnen Sie es hier zu.',
  'reader.pair-sheet': 'Dasselbe Blatt, früher gelesen',
  'reader.pair-no-sheet': 'keines',
  'reader.earlier-sheet': '{date}, {wet}, {count, plural, one {# Probe} other {# Proben}}',
  'reader.earlier-dab': '{number}: Tonwert {value}, {wet}',
  'reader.pair-of': 'Dieselbe wie Probe {number}',
  'reader.pair-none': 'kein Gegenstück',
  'reader.paired':
    '{count, plural, one {Eine Probe ist zugeordnet.} other {# Proben sind zugeordnet.}}',
  'reader.unpaired': 'Keine Probe ist zugeordnet.',
  'reader.dries':
    'Von {wet} an trocknet Ihre Farbe {by, 1} L* heller auf, aus {count, plural, one {# Paar} other {# Paaren}}.',
  'reader.dries-darker':
    'Von {wet} an trocknet Ihre Farbe {by, 1} L* dunkler auf, aus {count, plural, one {# Paar} other {# Paaren}}. Das tut Farbe kaum: Spiegelte das nasse Blatt?',
  'reader.drying-rule': 'Vorhersagen richten sich danach, auf {within, 1} L* genau.',
  'reader.drying-once':
    'Vorhersagen richten sich danach, sobald eine dieser Proben ein zweites Mal nass und trocken gelesen ist.',
  'reader.drying-send': 'Übernehmen Sie das Blatt, damit seine Paare gemerkt sind.',

  'reader.tube-title': 'Eine Tube, von voll bis blass',
  'reader.tube-hint':
    'Malen Sie eine Tube allein: so dick, wie Sie je malen, dann mit Wasser immer auf die Hälfte verdünnt. Trockene Proben sagen, wie stark Ihre eigene Tube ist.',
  'reader.tube-dabs': 'Aus einer Tube sind',
  'reader.tube-dabs-all': 'Alle Proben des Blatts',
  'reader.tube': 'Farbtube',
  'reader.times-of': 'Wie weit Probe {number} verdünnt war',
  'reader.times-reset': 'Wieder alle Proben',
  'reader.leave-out': 'auslassen',
  'reader.fit': 'Wie stark ist sie?',
  'reader.fit-gain': 'Die Vorhersage dieser Proben lag um {before, 1} daneben, nun um {after, 1}.',
  'reader.fit-keep': 'Diese Stärke nehmen',
  'reader.fit-kept': '{tube} wird nun nach Ihren eigenen Proben vorhergesagt.',
  'reader.fit-failed': 'Die Stärke ließ sich nicht errechnen. Versuchen Sie es noch einmal.',
  'reader.load': 'Jetzt genommen: das {load, 2}-Fache der Daten.',
  'reader.tube-missing': 'Wählen Sie die Tube, aus der diese Proben sind.',
  'reader.tube-no-dabs': 'Es ist keine Probe übrig: Wählen Sie eine Spalte, die welche hat.',
  'reader.tube-wet':
    'Einige dieser Proben waren nass. Die Stärke lässt sich nur an trockenen Proben ablesen.',

  'reader.card-title': 'Ihre eigene Tonwertkarte',
  'reader.card-hint':
    'Malen Sie auf einem Streifen nebeneinander ein Grau für jede Grenze zwischen zwei Stufen. Stimmt jedes für diesen Plan, wird mit einem Loch in jedem eine Karte daraus, die keinen Bildschirm braucht.',
  'reader.card-certified': 'Auf diesen Streifen ist für diesen Plan Verlass.',
  'reader.card-repaint':
    '{count, plural, one {Ein Grau ist neu zu malen.} other {# Graus sind neu zu malen.}}',
  'reader.card-unsure':
    'Das Foto sagt es nicht sicher genug: Fotografieren Sie den Streifen noch einmal.',
  'reader.card-wet': 'Lassen Sie den Streifen trocknen, dann fotografieren Sie ihn noch einmal.',
  'reader.card-limit': 'Darunter {darker}, darüber {lighter}: Tonwert {value}',
  'reader.card-holes-title': 'Die Löcher',
  'reader.card-holes':
    'Stanzen Sie in die Mitte jedes Graus ein Loch von etwa 6 mm, mit einem Locher oder einer Ahle, so dass ringsum mindestens 5 mm Grau stehen bleiben. Schreiben Sie den Namen des Plans und die Grenze auf die Rückseite.',
  'reader.card-use':
    'Halten Sie die Karte in das Licht, in dem das Bild steht, und kneifen Sie die Augen zu. Was durch ein Loch heller wirkt als das Grau darum, gehört über diese Grenze, was dunkler wirkt, darunter.',
  'reader.card-page-title': 'Der Streifen zum Drucken',
  'reader.card-page-hint':
    'Drucken Sie ihn mit 100 % auf Ihr Malpapier, oder pausen Sie ihn durch. Malen Sie die Graus, lassen Sie sie trocknen, fotografieren Sie den Streifen und öffnen Sie das Foto hier.',
  'reader.card-page-print': 'Streifen drucken',
  'reader.card-page-save': 'Speichern (SVG)',
  'reader.card-page-file': 'tonwertkarte',
  'reader.card-page-saved': '{name} wurde Ihren Downloads übergeben.',
  'reader.doubtful': 'ansehen',
  'card.fits': 'Tonwert {lightness, 1}: Es kann für die Grenze stehen.',
  'card.too-dark':
    'Tonwert {lightness, 1}, um {by, 1} L* zu dunkel. Malen Sie es mit mehr Wasser neu, oder heben Sie Farbe ab.',
  'card.too-light':
    'Tonwert {lightness, 1}, um {by, 1} L* zu hell. Lasieren Sie noch einmal darüber, oder malen Sie es mit weniger Wasser neu.',
  'card.unsure':
    'Tonwert {lightness, 1}, aber nur auf {uncertainty, 1} L* genau. Fotografieren Sie den Streifen noch einmal in gleichmäßigem Licht.',
  'card.missing':
    'Kein Grau des Streifens ist für diese Grenze. Malen Sie eines mit Tonwert {limit, 1}.',
  'card.coloured':
    'Es ist farbig (Buntheit {chroma, 0}): Das Auge hält es für heller. Mischen Sie ein graueres Grau.',
  'card.blotchy': 'Es ist fleckig ({spread, 1} L*). Legen Sie es gleichmäßig, in einem Zug.',
  'card.extra':
    '{count, plural, one {Ein Grau gehört} other {# Graus gehören}} zu keiner Grenze; die Karte geht auch ohne.',
  'card.order':
    'Die Graus gehen auf dem Streifen nicht von dunkel nach hell. Das geht, führt aber in die Irre.',

  'reader.memory-title': 'Gemerkte Proben',
  'reader.memory-none':
    'Noch ist nichts gemerkt. Jede übernommene Probe bleibt hier mit ihrem Rezept und ihrem Tag.',
  'reader.memory-text': 'Wörter',
  'reader.memory-band': 'Stufe',
  'reader.memory-any': 'jede Stufe',
  'reader.memory-from': 'Tonwert von',
  'reader.memory-to': 'bis',
  'reader.memory-found':
    '{count, plural, =0 {Keine Probe passt.} one {Eine Probe von {all}.} other {# Proben von {all}.}}',
  'reader.memory-more': '{count, plural, one {# weitere} other {# weitere}}',
  'reader.forget': 'Vergessen',
  'reader.forget-of': 'Die Probe mit Tonwert {value}, {date}, vergessen',
  'reader.forgotten': 'Die Probe ist vergessen.',
  'reader.habits': 'Ihre Gewohnheiten',
  'reader.habits-none':
    'Noch keine. Ab vier trockenen Proben mit Rezept lässt sich sagen, wie Ihre Mischungen von dem abweichen, was gemeint war.',
  'reader.range-darks': 'dunklen Töne',
  'reader.range-middles': 'mittleren Töne',
  'reader.range-lights': 'hellen Töne',
  'reader.proven': 'Bewährte Mischungen',
  'reader.proven-for': 'Für die Stufe',
  'reader.proven-none': 'Noch keine: Notieren Sie Rezepte, bevor Sie trockene Proben übernehmen.',
  'reader.proven-times':
    '{times, plural, one {Einmal gemalt, {date}.} other {#-mal gemalt, zuletzt {date}.}}',
  'reader.proven-scatter': 'Fiel auf {scatter, 1} gleich aus.',
  'habit.lighter': 'Ihre {range} geraten {by, 1} L* heller als gemeint ({count} Proben).',
  'habit.darker': 'Ihre {range} geraten {by, 1} L* dunkler als gemeint ({count} Proben).',
  'habit.tube-weaker':
    'Mischungen vor allem aus {tube} geraten {by, 1} L* heller als vorhergesagt ({count} Proben): Nehmen Sie weniger Wasser, oder passen Sie die Tube an.',
  'habit.tube-stronger':
    'Mischungen vor allem aus {tube} geraten {by, 1} L* dunkler als vorhergesagt ({count} Proben): Nehmen Sie mehr Wasser, oder passen Sie die Tube an.',
  'habit.duller':
    'Ihre Farben geraten stumpfer als gemeint, um {by, 1} an Buntheit ({count} Proben).',
  'habit.more-colourful':
    'Ihre Farben geraten reiner als gemeint, um {by, 1} an Buntheit ({count} Proben).',
  'habit.dries-lighter': 'Von {wet} an trocknet Ihre Farbe {by, 1} L* heller auf ({count} Paare).',
  'habit.dries-darker': 'Von {wet} an trocknet Ihre Farbe {by, 1} L* dunkler auf ({count} Paare).',

  'sheet.not-found':
    'Kein Blatt hebt sich von dem ab, was darum liegt, also wurde das ganze Foto gelesen. Ziehen Sie die vier Ecken an das Blatt, oder legen Sie es auf etwas Dunkleres und fotografieren Sie neu.',
  'sheet.cut-off':
    '{sides, plural, one {Eine Seite oder Ecke des Blatts liegt} other {# Seiten oder Ecken des Blatts liegen}} außerhalb des Fotos. Was darin ist, wurde gelesen; fotografieren Sie das ganze Blatt, wenn eine Probe fehlt.',
  'sheet.mirrored':
    'Die Ecken gehen falsch herum: Das Foto ist gespiegelt, oder zwei Ecken sind vertauscht. Die Tonwerte gelten; für die Spalten drehen Sie das Foto, oder ziehen Sie die Ecken an ihren Ort.',
  'sheet.small':
    'Das Blatt ist nur {pixels} Pixel breit. Gehen Sie näher heran, oder nehmen Sie das Foto in voller Größe.',
  'sheet.no-paper':
    'Zu wenig blankes Papier ist zu sehen ({share, 0} Prozent), um das Licht zu kennen; es wurde nichts gelesen. Ziehen Sie die Ecken bis auf das blanke Papier, oder lassen Sie zwischen den Proben Papier frei.',
  'sheet.dark':
    'Das Foto ist dunkel (Papier mit Tonwert {lightness, 1}), Rauschen verwischt die Tonwerte. Fotografieren Sie näher am Fenster oder mit längerer Belichtung.',
  'sheet.noise':
    'Das Foto ist körnig, oder das Licht streift das Korn des Papiers ({spread, 1} L*). Fotografieren Sie in mehr Licht von weiter oben.',
  'sheet.coloured-paper':
    'Papier oder Licht neigt zu: {lean} (Buntheit {chroma, 0}). Es wurde für das Licht gehalten. Ist das Papier selbst getönt, trauen Sie den Tonwerten, nicht den Farben.',
  'sheet.uneven':
    'Das Licht ist ungleichmäßiger, als sich folgen lässt (um {residual, 1} L*). Gehen Sie von Lampen weg, lassen Sie keinen Schatten auf das Blatt fallen, fotografieren Sie neu.',
  'sheet.falls-off':
    'Ein Ende des Blatts hat nur {share, 0} Prozent des Lichts am anderen. Legen Sie das Blatt längs zum Fenster, oder gehen Sie weiter davon weg.',
  'sheet.shadow':
    'Auf {share, 0} Prozent des Blatts liegt ein Schatten{dabs, plural, =0 {} one {; eine Probe darin wurde ausgelassen} other {; # Proben darin wurden ausgelassen}}. Treten Sie zur Seite und fotografieren Sie neu.',
  'sheet.glare':
    'Das Blatt spiegelt auf {share, 0} Prozent seiner Fläche{dabs, plural, =0 {} one {; eine Probe dort wurde ausgelassen} other {; # Proben dort wurden ausgelassen}}. Kein Blitz; kippen Sie das Blatt, bis der Glanz weg ist.',
  'sheet.wet-glare':
    '{count, plural, one {Eine Probe hat} other {# Proben haben}} glänzende Stellen; diese wurden ausgelassen. Nasse Farbe: Kippen Sie das Blatt vom Fenster weg.',
  'sheet.clipping':
    'Das Papier ist auf {share, 0} Prozent überbelichtet, blasse Proben sind dort nicht zu erkennen. Belichten Sie auf das Papier: Tippen Sie es auf dem Bildschirm an, und fotografieren Sie neu.',
  'sheet.dark-clipping':
    '{count, plural, one {Eine Probe ist} other {# Proben sind}} im Foto so dunkel, dass darin nichts zu lesen ist. Geben Sie mehr Licht.',
  'sheet.blur':
    'Das Foto ist unscharf. Tippen Sie das Blatt auf dem Bildschirm an, halten Sie still oder stützen Sie die Ellbogen auf, und fotografieren Sie neu.',
  'sheet.compressed':
    'Die Datei wurde mit geringer Güte gespeichert ({quality, 0} von 100), ihre Töne liegen in groben Stufen: Tonwerte sind weniger sicher, und Farben leiden zuerst. Öffnen Sie das Foto, wie die Kamera es schrieb, nicht eines, das ein Nachrichtendienst verschickt hat.',
  'sheet.maybe-shadow':
    '{count, plural, one {Eine Form hat} other {# Formen haben}} die Farbe des Papiers mit weniger Licht: vielleicht ein Schatten. Nehmen Sie sie aus der Liste, wenn es einer ist; lassen Sie sie, wenn es graue Farbe ist.',
  'sheet.at-edge':
    '{count, plural, one {Eine gemalte Form} other {# gemalte Formen}} am Rand des Blatts {count, plural, one {wurde} other {wurden}} ausgelassen: Klebeband, Tisch oder eine abgeschnittene Probe. Ist es eine Probe, fügen Sie sie von Hand hinzu.',
  'sheet.no-dabs':
    'Nichts sieht wie eine Probe aus. Proben müssen daumenbreit sein und sich vom Papier abheben; fügen Sie eine von Hand hinzu, oder prüfen Sie die Ecken.',

  'sheet.no-rim':
    'Kein Rand des Papiers ist zu sehen, darum wurde das ganze Foto als Blatt gelesen. Liegt es auf einem Tisch, der so hell ist wie das Papier, ziehen Sie die vier Ecken auf das Blatt.',
  'sheet.paper-assumed':
    'Das Papier gilt als neutral und mit Tonwert {lightness, 1}, wie Ihr Plan sagt. Wäre es dunkler oder getönt, so wäre es auch jede Probe.',
  'sheet.brighteners':
    'Aufheller in Papier und Farbe, die im Tageslicht leuchten, werden als Teil der Farbe gesehen.',
  'sheet.camera-tone':
    'Der Kontrast der Kamera gilt als der übliche (sRGB). Ein Telefon, das die Tiefen hebt oder senkt, verschiebt sie.',
  'sheet.camera-colour':
    'Eine Kamera sieht drei Farben unter einem Licht: Tonwerte sind sicherer als Farbtöne, kräftige Farben am unsichersten.',
  'sheet.as-paper':
    'Eine Probe, die sich vom Papier um weniger als {contrast, 1} L* abhebt, ist davon nicht zu unterscheiden.',
  'sheet.empty-place':
    'In Spalte {column} ist ein Platz frei (der {place}. von oben): blankes Papier oder eine Probe so hell wie das Papier.',

  'dab.gamut':
    'Die Farbe ist kräftiger, als eine Fotodatei sie halten kann: Ton und Kraft sind nur die nächsten, der Tonwert ist weniger sicher.',
  'dab.maybe-shadow':
    'Vielleicht ein Schatten: die Farbe des Papiers mit weniger Licht. Nehmen Sie ihn heraus, wenn es einer ist.',
};
