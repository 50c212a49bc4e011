import type { Words } from '../../strings.js';

/** Werkzeuge des Betrachters: Ausschnitt, Modell, Grenzen zur Wahl, unsichere Stellen, und was das Foto hergibt. */
export const toolsWords: Words = {
  'unit.px': 'px',
  'unit.mm-long': 'Millimeter',
  'unit.in-long': 'Zoll',
  'tool.percent': '{percent, 1} %',

  'tool.crop': 'Ausschnitt',
  'tool.crop.lead':
    'Wählen Sie den Teil des Fotos, der gemalt wird. Er behält das Seitenverhältnis Ihres Papiers.',
  'tool.crop.part': 'Teil des Fotos',
  'tool.crop.photo': 'In Pixeln des Fotos, das {width} x {height} hat.',
  'tool.crop.left': 'Vom linken Rand',
  'tool.crop.top': 'Vom oberen Rand',
  'tool.crop.width': 'Breite',
  'tool.crop.height': 'Höhe',
  'tool.crop.largest': 'Größter passender Teil',
  'tool.crop.whole': 'Ganzes Foto',
  'tool.crop.scale': 'Ein Millimeter Papier zeigt {pixels, 1} Pixel des Fotos.',
  'tool.crop.scale-in': 'Ein Zoll Papier zeigt {pixels, 0} Pixel des Fotos.',
  'tool.crop.unlike':
    'Das Foto hat nicht das Seitenverhältnis des Papiers: In der Breite des Papiers wäre es {height} {unit} hoch, das Papier ist {paper} {unit} hoch. Nehmen Sie einen Teil davon, oder drehen oder wechseln Sie das Papier.',
  'tool.crop.keys':
    'Ziehen Sie den Rahmen oder seine Ecken. Auf der Tastatur, wenn das Bild den Fokus hat: Pfeile verschieben ihn, + und − ändern die Größe, mit der Umschalttaste in größeren Schritten; die Tabulatortaste erreicht die Ecken.',
  'tool.crop.size': '{width} mal {height} Pixel',
  'tool.crop.said': 'Der Teil misst {width} mal {height} Pixel, {x} von links und {y} von oben.',
  'tool.crop.whole-said': 'Das ganze Foto wird verwendet.',
  'tool.crop.refused': 'Geben Sie eine Zahl von {least} bis {most} ein.',
  'tool.crop.grip-nw': 'Linke obere Ecke',
  'tool.crop.grip-ne': 'Rechte obere Ecke',
  'tool.crop.grip-se': 'Rechte untere Ecke',
  'tool.crop.grip-sw': 'Linke untere Ecke',

  'tool.paper': 'Papier, die bemalte Fläche',
  'tool.paper.sheet': 'Bogen',
  'tool.paper.width': 'Breite',
  'tool.paper.height': 'Höhe',
  'tool.paper.turn': 'Papier drehen',
  'tool.paper.unit': 'Längen in',
  'tool.paper.said': 'Das Papier misst {width} mal {height} {unit}.',
  'tool.paper.refused': 'Geben Sie Breite und Höhe von {least} bis {most} {unit} ein.',
  'sheet.own': 'Eigenes Maß',
  'sheet.eighth': 'Achtelbogen · 11 x 7½ Zoll',
  'sheet.quarter': 'Viertelbogen · 15 x 11 Zoll',
  'sheet.half': 'Halber Bogen · 22 x 15 Zoll',
  'sheet.full': 'Ganzer Bogen · 30 x 22 Zoll',
  'sheet.block-10-7': 'Block · 10 x 7 Zoll',
  'sheet.block-12-9': 'Block · 12 x 9 Zoll',
  'sheet.block-14-10': 'Block · 14 x 10 Zoll',
  'sheet.block-16-12': 'Block · 16 x 12 Zoll',
  'sheet.block-20-14': 'Block · 20 x 14 Zoll',
  'sheet.block-24-18': 'Block · 24 x 18 Zoll',
  'sheet.a5': 'A5 · 210 x 148 mm',
  'sheet.a4': 'A4 · 297 x 210 mm',
  'sheet.a3': 'A3 · 420 x 297 mm',
  'sheet.a2': 'A2 · 594 x 420 mm',
  'sheet.source.iso': 'Maß nach ISO 216. Geben Sie weniger an, wenn Sie einen Rand lassen.',
  'sheet.source.trade':
    'Ein übliches Maß; Hersteller weichen um einige Millimeter ab. Geben Sie weniger an, wenn Sie einen Rand lassen.',
  'sheet.source.memory':
    'Ein übliches Blockmaß, aus dem Gedächtnis: Messen Sie Ihren Block. Geben Sie weniger an, wenn Sie einen Rand lassen.',
  'sheet.source.own': 'Messen Sie die Fläche, die Sie bemalen, ohne den Rand.',

  'tool.sitter': 'Modell',
  'tool.sitter.lead':
    'Ziehen Sie eine lockere Linie um Ihr Motiv. Grenzen, Anteile und was das Foto hergibt gelten dann für das Innere; der Hintergrund redet nicht mit.',
  'tool.sitter.none':
    'Noch ist nichts umrandet: Alle Zahlen gelten für den ganzen Teil, der gemalt wird.',
  'tool.sitter.holds': 'Die Umrandung umfasst {percent, 0} % des Fotos.',
  'tool.sitter.outside':
    'Die Umrandung liegt außerhalb des Teils, der gemalt wird; die Zahlen gelten daher für diesen ganzen Teil. Verschieben oder entfernen Sie sie.',
  'tool.sitter.small':
    'Diese Linie umschließt zu wenig. Ziehen Sie einmal um das ganze Motiv herum.',
  'tool.sitter.oval': 'Oval hinlegen',
  'tool.sitter.oval-again': 'Noch einmal mit einem Oval beginnen',
  'tool.sitter.remove': 'Umrandung entfernen',
  'tool.sitter.removed': 'Die Umrandung ist entfernt.',
  'tool.sitter.width': 'Breite der Umrandung',
  'tool.sitter.height': 'Höhe der Umrandung',
  'tool.sitter.said': 'Die Umrandung umfasst nun {percent, 0} % des Fotos.',
  'tool.sitter.keys':
    'Neu gezogen ersetzt die Linie die alte. Auf der Tastatur, wenn das Bild den Fokus hat: Die Eingabetaste legt ein Oval hin, Pfeile verschieben es, + und − ändern die Größe, mit der Umschalttaste in größeren Schritten, Entf entfernt es.',

  'tool.distrusted': 'Unsichere Stellen',
  'tool.distrusted.lead':
    'Markieren Sie, wo das Foto einen Tonwert falsch zeigt: ein ausgefressenes Licht, einen zugelaufenen Schatten, einen Reflex. Geben Sie den Tonwert an, den Sie dort kennen oder wollen; Messungen, Grenzen und Anteile gehen dann von Ihrem aus.',
  'tool.distrusted.none':
    'Noch ist nichts markiert. Tippen Sie auf eine Stelle des Fotos, oder drücken Sie dort und ziehen Sie nach außen, um die Größe zu bestimmen.',
  'tool.distrusted.keys':
    'Ziehen Sie eine Marke, um sie zu verschieben. Auf der Tastatur, wenn das Bild den Fokus hat: Pfeile bewegen ein Kreuz, die Eingabetaste markiert die Stelle, + und − ändern die Größe, Entf entfernt die gewählte Marke; mit der Umschalttaste in größeren Schritten.',
  'tool.distrusted.row': 'Marke {number}: Tonwert {value, 1}',
  'tool.distrusted.row-note': 'Marke {number}: Tonwert {value, 1}, {note}',
  'tool.distrusted.remove': 'Entfernen',
  'tool.distrusted.remove-long': 'Entfernen: Marke {number}',
  'tool.distrusted.removed': 'Marke {number} ist entfernt.',
  'tool.distrusted.value': 'Ihr Tonwert, 0 Schwarz bis 10 Weiß',
  'tool.distrusted.value-said': 'Dort gilt nun Tonwert {value, 2}.',
  'tool.distrusted.value-refused': 'Geben Sie einen Tonwert von 0 bis 10 ein.',
  'tool.distrusted.size': 'Größe, an der längeren Seite des Fotos',
  'tool.distrusted.size-said': 'Die Marke ist {percent, 1} % der längeren Seite des Fotos breit.',
  'tool.distrusted.note': 'Notiz',
  'tool.distrusted.measured': 'Das Foto selbst sagt dort Tonwert {value, 1}.',
  'tool.distrusted.place': '{across, 0} % von links, {down, 0} % von oben',
  'tool.distrusted.full': 'Mehr Marken sind nicht möglich. Entfernen Sie zuerst eine.',

  'tool.proposals': 'Arten zu teilen',
  'tool.proposals.lead':
    'Dasselbe Foto, anders geteilt. Wählen Sie eine Art und verschieben Sie dann die Grenzen nach Belieben.',
  'tool.proposals.group': 'Grenzen zur Wahl',
  'tool.proposals.none': 'Öffnen Sie zuerst ein Foto; dann stehen hier kleine Bilder zur Wahl.',
  'tool.proposals.optimum': 'Wie das Foto fällt',
  'tool.proposals.mostly-middles': 'Vor allem Mitteltöne',
  'tool.proposals.mostly-darks': 'Vor allem Tiefen',
  'tool.proposals.mostly-lights': 'Vor allem Lichter',
  'tool.proposals.share': '{name} {percent, 0} %',
  'tool.proposals.between': ', ',
  'tool.proposals.paper': 'blankes Papier',
  'tool.proposals.said': 'Grenzen gesetzt, {name}: {shares}.',
  'tool.proposals.own':
    'Die Grenzen stammen von Ihnen; eine Wahl hier ersetzt sie, und Zurücknehmen bringt sie wieder.',
  'tool.proposals.note':
    '„Wie das Foto fällt“ hält jeden Bereich so einheitlich wie möglich. Wenig Licht, mehr Tiefen, vor allem Mitteltöne ist der übliche Plan.',
  'tool.proposals.sitter': 'Anteile und Grenzen gelten für das Innere der Umrandung.',
  'tool.proposals.key':
    'Das Foto hat einen {key} Grundton mit {contrast} Kontrast: Die Hälfte davon ist heller als Tonwert {middle, 1}, und alles bis auf das dunkelste und das hellste Zwanzigstel liegt zwischen {low, 1} und {high, 1}.',
  'tool.key.low': 'dunklen',
  'tool.key.middle': 'mittleren',
  'tool.key.high': 'hellen',
  'tool.contrast.close': 'geringem',
  'tool.contrast.moderate': 'mäßigem',
  'tool.contrast.strong': 'starkem',

  'tool.range': 'Was Farbe erreicht',
  'tool.range.lead':
    'Ein Foto ist dunkler als Farbe und heller als Papier. Wählen Sie, wo der Unterschied verloren geht: in den Tiefen, in den Lichtern oder überall ein wenig.',
  'tool.range.none':
    'Öffnen Sie zuerst ein Foto; dann stehen hier seine Tonwerte neben denen, die Farbe erreicht.',
  'tool.range.hold': 'Was bleibt, wie es ist',
  'tool.range.darks': 'Tiefen halten',
  'tool.range.share': 'Verlust teilen',
  'tool.range.lights': 'Lichter halten',
  'tool.range.to-darks': '{percent, 0} % des Wegs zu gehaltenen Tiefen',
  'tool.range.to-lights': '{percent, 0} % des Wegs zu gehaltenen Lichtern',
  'tool.range.photo': 'Foto',
  'tool.range.paint': 'Farbe',
  'tool.range.compressed':
    'Die Tonwerte zwischen {from, 1} und {to, 1} des Fotos rücken zusammen: Was dort {steps, 1} umfasst, umfasst in Farbe {left, 1}.',
  'tool.range.whole':
    'Farbe erreicht jeden Tonwert dieses Fotos: Jeder bleibt, wo er ist, und es gibt nichts zu teilen.',
  'tool.range.kept':
    'Das Foto geht etwas über Farbe hinaus, doch nirgends geht mehr als ein Fünftel der Unterschiede verloren.',
  'tool.range.figure': '{value, 1, fixed}',
  'tool.range.limits': 'Grenzen zwischen den Stufen',
  'tool.range.between': '{dark} zu {light}',
  'tool.range.bare': 'blankes Papier',
  'tool.range.limit': 'im Foto {photo, 1, fixed}, in Farbe {paint, 1, fixed}',
  'tool.range.darkest': 'Ihre dunkelste Farbe',
  'tool.range.value': 'Tonwert, 0 schwarz bis 10 weiß',
  'tool.range.lightness': 'Helligkeit L*',
  'tool.range.usual': 'Zurück zu L* {usual, 0}',
  'tool.range.source':
    'Gemessene Volltöne dunkler Farben liegen bei etwa L* 24 bis 30; Ihre können abweichen: Geben Sie die dunkelste ein, die Sie legen können, trocken gemessen.',
  'tool.range.paper': 'Ihr Papier hat L* {lightness, 0}, Tonwert {value, 1}.',
  'tool.range.refused': 'Geben Sie eine Zahl von {least, 1} bis {most, 1} ein.',
  'range.compressed':
    'Zwischen L* {from, 0} und {to, 0} rücken die Tonwerte des Fotos in Farbe zusammen: {loss, 0} L* gehen dort verloren.',

  'tool.report': 'Was das Foto hergibt',
  'tool.report.lead':
    'Worauf bei diesem Foto in der Größe Ihres Papiers Verlass ist und worauf nicht.',
  'tool.report.brush': 'Ihr Pinsel',
  'tool.report.brush-which': 'Pinsel',
  'tool.report.brush-unnamed': 'Pinsel {number}',
  'tool.report.brush-width': 'Breite des aufgedrückten Strichs',
  'tool.report.brush-refused': 'Geben Sie eine Breite von {least} bis {most} {unit} ein.',
  'tool.report.brush-add': 'Pinsel hinzufügen',
  'tool.report.brush-new': 'Rundpinsel',
  'tool.report.no-brush':
    'Ihr Plan hat noch keinen Pinsel; angenommen wird ein Strich von {width}.',
  'tool.report.paper':
    'Drücken Sie ihn auf einem Papierrest auf und messen Sie den Strich. Das Papier ist {width} breit; ändern lässt es sich unter „Ausschnitt“.',
  'tool.report.no-photo': 'Öffnen Sie zuerst ein Foto; dann steht hier, was es hergibt.',
  'tool.report.waiting': 'Das Foto wird noch geöffnet.',
  'tool.report.running': 'Das Foto wird durchgesehen, {percent, 0} % fertig',
  'tool.report.stop': 'Abbrechen',
  'tool.report.stopped': 'Abgebrochen, bevor das Foto durchgesehen war.',
  'tool.report.again': 'Noch einmal durchsehen',
  'tool.report.failed': 'Das Foto ließ sich nicht durchsehen.',
  'tool.report.said':
    'Das Foto ist durchgesehen: {count, plural, one {# Befund} other {# Befunde}}.',
  'tool.report.where-whole': 'Am ganzen Foto.',
  'tool.report.where-crop': 'An dem Teil, der gemalt wird.',
  'tool.report.where-sitter': 'In der Umrandung des Modells.',

  'photo.topic.darks': 'Tiefen',
  'photo.topic.lights': 'Lichter',
  'photo.topic.range': 'Umfang',
  'photo.topic.cast': 'Lichtfarbe',
  'photo.topic.sharpness': 'Schärfe',
  'photo.topic.brush': 'Pinsel',
  'photo.darks-clipped':
    'Die Tiefen sind auf {percent, 1} % des Bildes zugelaufen: Darin ist nichts zu sehen; malen Sie sie als eine Form, oder bitten Sie um ein helleres Foto.',
  'photo.darks-kept':
    'Die Tiefen halten: Was Sie in den Schatten sehen, war wirklich da, und Sie dürfen danach zeichnen.',
  'photo.lights-clipped':
    'Die Lichter oder die kräftigsten Farben sind auf {percent, 1} % des Bildes ausgefressen: Dort ist die Form verloren; lassen Sie solche Lichter als Papier stehen, setzen Sie einen eigenen Tonwert, oder bitten Sie um ein dunkleres Foto.',
  'photo.lights-kept':
    'Die Lichter halten: Wie sich die Form darin wendet, lässt sich lesen und malen.',
  'photo.range-narrow':
    'Die Tonwerte reichen nur von {low, 1} bis {high, 1} von 10: Das Foto ist flauer, als Ihre Farbe sein kann; entscheiden Sie selbst, wie weit Tiefen und Lichter auseinanderliegen.',
  'photo.range-full':
    'Die Tonwerte reichen von {low, 1} bis {high, 1} von 10: Tiefen und Lichter genug für einen ganzen Plan.',
  'photo.cast':
    'Das Licht neigt zu {lean}: Weißes Papier sähe darin nach {lean} aus; nehmen Sie Farben als das, was sie nebeneinander sind, nicht, wie sie dastehen.',
  'photo.cast-none':
    'Das Licht ist fast neutral: Farben lassen sich weitgehend so nehmen, wie sie dastehen.',
  'photo.cast-unsure':
    'Die Farbe des Lichts ist von der des Motivs nicht zu trennen ({whole} insgesamt, {lights} in den Lichtern): Suchen Sie etwas, das sicher weiß oder grau ist, ehe Sie einer Farbe trauen.',
  'photo.soft':
    'Das Foto ist unscharf: Selbst seine schärfsten Kanten sind {widthPx, 0} Pixel breit; entscheiden Sie selbst, welche Kanten hart sind, und malen Sie die Unschärfe nicht ab.',
  'photo.sharp':
    'Das Foto ist scharf: Wo eine Kante darin weich ist, wendet sich die Form, oder sie lag außerhalb der Schärfe.',
  'photo.sharpness-unsure':
    'Es gibt zu wenige klare Kanten, um zu sagen, wie scharf das Foto ist: Nehmen Sie seine weichen Kanten mit Vorsicht.',
  'photo.brush-coarse':
    'Ein Strich dieses Pinsels deckt nur {fullPx, 1} Pixel des Fotos: Es kann nicht alles zeigen, was der Pinsel sagen könnte; malen Sie kleiner, nehmen Sie einen größeren Pinsel, oder bitten Sie um ein größeres Foto.',
  'photo.brush-fine':
    'Ein Strich dieses Pinsels deckt {fullPx, 0} Pixel des Fotos: Es zeigt mehr, als der Pinsel sagen kann; lassen Sie weg, was kleiner ist.',

  'photo.lean.neutral': 'neutral',
  'photo.lean.red': 'Rot',
  'photo.lean.orange': 'Orange',
  'photo.lean.yellow': 'Gelb',
  'photo.lean.yellow-green': 'Gelbgrün',
  'photo.lean.green': 'Grün',
  'photo.lean.blue-green': 'Blaugrün',
  'photo.lean.blue': 'Blau',
  'photo.lean.violet': 'Violett',
  'photo.lean.red-violet': 'Rotviolett',
};
