import type { Words } from '../../strings.js';

export const checkDeskWords: Words = {
  'checking.views': 'Teile der Prüfung',
  'checking.view-photo': 'Foto',
  'checking.view-findings': 'Befund',
  'checking.view-drawing': 'Zeichnung',
  'checking.view-checks': 'Bisherige Prüfungen',
  'checking.view-delivery': 'Übergeben',
  'checking.another': 'Ein anderes Foto vom Bild',

  'checking.photo-hint':
    'Legen Sie die vier Ecken auf die Ecken der bemalten Fläche, nicht des Blatts. Ziehen Sie sie, oder nehmen Sie die Pfeiltasten (Umschalt: weiter).',
  'checking.photo-alt': 'Das Foto vom Bild mit seinen vier Ecken',
  'checking.corner-0': 'Ecke oben links',
  'checking.corner-1': 'Ecke oben rechts',
  'checking.corner-2': 'Ecke unten rechts',
  'checking.corner-3': 'Ecke unten links',
  'checking.white-spot': 'Weiß des Papiers',
  'checking.placed': '{name}: {x} % von links, {y} % von oben',
  'checking.finding': 'Das Blatt wird gesucht …',
  'checking.found':
    'Das Blatt ist gefunden; sehen Sie nach, ob die Ecken auf der bemalten Fläche sitzen.',
  'checking.not-found': 'Das Blatt war von selbst nicht zu finden: legen Sie die Ecken an.',
  'checking.find': 'Blatt suchen',
  'checking.turn': 'Um ein Viertel drehen',
  'checking.mirror': 'Spiegeln',
  'checking.order-corners': 'Ecken ordnen',
  'checking.white': 'Weiß kommt von',
  'checking.white-margin': 'dem Papierrand',
  'checking.white-from-spot': 'einer Stelle, die ich wähle',
  'checking.white-none': 'nirgends',
  'checking.white-hint-margin':
    'Das Licht wird auf dem blanken Papier rings um die Ecken gemessen.',
  'checking.white-hint-spot': 'Legen Sie den Ring auf blankes Papier, das im selben Licht liegt.',
  'checking.white-hint-none':
    'Die Farben bleiben, wie die Kamera sie hatte: Tonwerte können um mehr als eine Stufe daneben liegen.',
  'checking.step': 'Fertig bis',
  'checking.step-before': 'Noch nichts gelegt: nur die Zeichnung',
  'checking.step-of': '{number}. {step}',
  'checking.step-wait': 'Die Reihenfolge wird erstellt …',
  'checking.step-failed':
    'Die Reihenfolge ließ sich nicht erstellen ({message}), darum ist kein Schritt zu wählen.',
  'checking.step-hint': 'Massen späterer Schritte kommen noch: sie sind keine Fehler.',
  'checking.check': 'Bild prüfen',
  'checking.check-again': 'Neu prüfen',
  'checking.stale': 'Ecken, Weiß, Schritt oder Plan haben sich seit dieser Prüfung geändert.',
  'checking.working': 'Prüfung: {stage} …',
  'checking.stage-masses': 'Massen des Plans',
  'checking.stage-rectify': 'Bild gerade richten',
  'checking.stage-white': 'Licht vom Papier nehmen',
  'checking.stage-align': 'Plan darauf legen',
  'checking.stage-compare': 'Massen vergleichen',
  'checking.stage-islands': 'Toninseln suchen',
  'checking.stage-passages': 'Neigungen ansehen',
  'checking.stage-edges': 'Kanten ansehen',
  'checking.stage-shadow': 'Schatten darauf suchen',
  'checking.stage-step-back': 'zurücktreten',
  'checking.stage-advice': 'Lasuren suchen',
  'checking.stage-sheet': 'Blatt suchen',
  'checking.stage': 'öffnen',
  'checking.stop': 'Anhalten',
  'checking.stopped': 'Die Prüfung wurde angehalten. Frühere Prüfungen sind, wie sie waren.',
  'checking.fault':
    'Die Prüfung ist gescheitert ({message}). Frühere Prüfungen sind, wie sie waren.',
  'checking.ready': 'Die Prüfung ist fertig. {summary}',
  'checking.first': 'Legen Sie die Ecken an, dann prüfen Sie.',

  'checking.refused': 'Aus dieser Prüfung wurde kein Befund.',
  'checking.refused-kept': 'Frühere Prüfungen sind, wie sie waren.',
  'checking.show-anyway': 'Befund trotzdem zeigen',

  'checking.picture-alt': 'Das Bild gerade gerichtet, mit Umrissen dessen, was daneben liegt',
  'checking.look': 'Zeigen',
  'checking.look-colour': 'Bild',
  'checking.look-bands': 'Seine Tonstufen',
  'checking.lift': 'Ecke anheben',
  'checking.lift-colour': 'Darunter liegt das Foto.',
  'checking.lift-bands': 'Darunter liegen die Tonstufen des Plans.',
  'checking.lift-of': '{percent} % angehoben',
  'checking.tracing': 'Pause dessen, was daneben liegt',
  'checking.step-back': 'Zurücktreten',
  'checking.distance': 'Abstand',
  'checking.metres': '{metres, 1} m',
  'checking.feet': '{feet, 0} Fuß',
  'checking.afar': 'Aus {distance}: {reads}',

  'checking.part-drawing': 'Zeichnung',
  'checking.part-reserves': 'Ausgespartes',
  'checking.part-masses': 'Massen',
  'checking.part-islands': 'Toninseln',
  'checking.part-passages': 'Neigungen der Farbpartien',
  'checking.part-edges': 'Kanten',
  'checking.part-afar': 'Aus einigen Schritten',
  'checking.part-light': 'Zum Foto',
  'checking.drawing-none': 'Nicht angesehen: setzen Sie Merkpunkte auf Foto und Bild.',
  'checking.drawing-set': 'Merkpunkte setzen',
  'checking.drawing-sum':
    '{count, plural, one {# Merkpunkt} other {# Merkpunkte}}: höchstens {far} daneben, im Ganzen {spread}.',
  'checking.drawing-few':
    '{count, plural, one {# Merkpunkt} other {# Merkpunkte}}: höchstens {far} daneben.',
  'checking.drawing-whole':
    'Die ganze Zeichnung: {shift} verschoben, um {turn, 1}° gedreht, {scale, 1} % der geplanten Größe.',
  'checking.drawing-hint':
    'Drücken Sie auf eine Stelle im Foto: ein Auge, eine Spitze, eine Ecke. Legen Sie dann ihren Zwilling auf dieselbe Stelle im Bild. Gemessen wird von den Ecken, die Sie gesetzt haben.',
  'checking.drawing-photo': 'Im Foto',
  'checking.drawing-painting': 'Im Bild',
  'checking.drawing-add': 'Merkpunkt setzen',
  'checking.drawing-remove': '{name} entfernen',
  'checking.drawing-name': 'Name',
  'checking.drawing-landmark': 'Merkpunkt {number}',
  'checking.drawing-open':
    'Legen Sie seinen Zwilling auf dieselbe Stelle im Bild; drücken Sie ihn, wenn er richtig liegt.',
  'checking.drawing-off': '{distance} daneben: {sideways}, {upright}',
  'checking.drawing-within': 'Innerhalb der Zeichnung: {within}.',
  'checking.drawing-right': '{length} nach rechts',
  'checking.drawing-left': '{length} nach links',
  'checking.drawing-down': '{length} nach unten',
  'checking.drawing-up': '{length} nach oben',
  'checking.drawing-too-late':
    'Liegen Lasuren darauf, lässt sich eine Linie kaum noch verschieben: berichtigen Sie in den Massen, die noch kommen.',
  'checking.reserves-kept': 'Alles Weiß, das da sein soll, ist da.',
  'checking.reserves-none': 'Der Plan spart bisher kein Weiß aus.',
  'checking.masses-none': 'Keine fertige Masse liegt um eine sichtbare Stufe daneben.',
  'checking.masses-hint':
    'Was am meisten ausmacht, kommt zuerst. Drücken Sie darauf, um zu sehen, wo es ist.',
  'checking.masses-more': '{count, plural, one {# weitere Masse} other {# weitere Massen}}',
  'checking.to-come':
    '{count, plural, one {# Masse kommt mit einem späteren Schritt: kein Fehler.} other {# Massen kommen mit späteren Schritten: keine Fehler.}} Im Bild punktiert.',
  'checking.leave-count':
    '{count, plural, one {# Masse liegt weniger daneben, als man sieht: lassen Sie sie.} other {# Massen liegen weniger daneben, als man sieht: lassen Sie sie.}}',
  'checking.shaded-count':
    '{count, plural, one {# Masse sieht nur unter dem Schatten zu dunkel aus: lassen Sie sie, und fotografieren Sie noch einmal.} other {# Massen sehen nur unter dem Schatten zu dunkel aus: lassen Sie sie, und fotografieren Sie noch einmal.}}',
  'checking.islands-none': 'Keine: die Tonwerte halten zusammen.',
  'checking.edges-none': 'Wie geplant, wo beide Seiten liegen.',
  'checking.edges-blurred': 'Das Foto ist nicht scharf genug, um zu sagen, ob Kanten weich sind.',
  'checking.edges-more': '{count, plural, one {# weitere Kante} other {# weitere Kanten}}',
  'checking.bare': 'blankes Papier',
  'checking.where': '{band}, {place}',
  'checking.place-0-0': 'oben links',
  'checking.place-1-0': 'oben',
  'checking.place-2-0': 'oben rechts',
  'checking.place-0-1': 'links',
  'checking.place-1-1': 'in der Mitte',
  'checking.place-2-1': 'rechts',
  'checking.place-0-2': 'unten links',
  'checking.place-1-2': 'unten',
  'checking.place-2-2': 'unten rechts',
  'checking.too-light': '{steps, 1, fixed} Tonstufen zu hell',
  'checking.too-dark': '{steps, 1, fixed} Tonstufen zu dunkel',
  'checking.a-little-light': 'eine Spur zu hell',
  'checking.a-little-dark': 'eine Spur zu dunkel',
  'checking.area-mm': '{area, 1} cm²',
  'checking.area-in': '{area, 1} Quadratzoll',
  'checking.planned-painted': 'geplant Tonwert {planned, 1, fixed}, gemalt {painted, 1, fixed}',
  'checking.lstar': 'L* {painted, 1, fixed} statt {planned, 1, fixed}: {shift, 1, sign} fehlen',
  'checking.figures': 'Zahlen in L*',
  'checking.do-leave': 'Lassen',
  'checking.do-glaze': 'Lasieren',
  'checking.do-lift': 'Abheben',
  'checking.do-reset-accent': 'Akzent neu setzen',
  'checking.do-restart': 'Neu beginnen',
  'checking.do-soften': 'Weicher machen',
  'checking.do-firm': 'Fester machen',
  'checking.do-passage-lean': 'Neigung drehen',
  'checking.do-passage-greyer': 'Reiner',
  'checking.do-passage-purer': 'Grauer',
  'checking.do-passage-vanished': 'Trennen',
  'checking.do-glaze-now': 'Jetzt eine einende Lasur',
  'checking.do-glaze-later': 'Später eine einende Lasur',
  'checking.do-glaze-none': 'Abheben: keine Lasur hellt auf',
  'checking.mix': 'Löffel: {recipe}',
  'checking.shown': '{what} ist im Bild gezeigt.',
  'checking.between': '{one} und {other}',
  'checking.passage-vanished':
    'Partie {passage} unterscheidet sich nicht mehr von der daneben, von der sie getrennt bleiben soll: lasieren Sie eine der beiden dünn mit ihrer eigenen Mischung.',
  'checking.edge-long': '{length} lang',
  'checking.soften-how':
    'Feuchten Sie die trockene Grenze mit einem feuchten Pinsel an und tupfen Sie; Farbe, die färbt, gibt wenig her.',
  'checking.firm-how': 'Legen Sie die dunklere Seite noch einmal bis an eine trockene Grenze.',

  'checking.keep': 'Diese Prüfung behalten',
  'checking.keep-note': 'Was schiefging, und warum',
  'checking.keep-hint':
    'Eine Zeile für Sie selbst: zu wenig Farbe im Pinsel, eine Lasur berührt, ehe sie trocken war …',
  'checking.kept': 'Die Prüfung steht im Plan.',
  'checking.kept-already': 'Diese Prüfung steht im Plan.',
  'checking.checks-none':
    'Noch keine Prüfung behalten. Behalten Sie eine nach jeder Lasur: dann ist in einer Reihe zu sehen, was schiefgeht, und warum.',
  'checking.checks-hint':
    'Von der ersten Lasur bis zur letzten. Die kleinen Bilder bleiben in diesem Browser; der Plan hält Zahlen und Notizen.',
  'checking.trend-up': 'Die Übereinstimmung stieg von {first} % auf {last} % in {count} Prüfungen.',
  'checking.trend-down':
    'Die Übereinstimmung fiel von {first} % auf {last} % in {count} Prüfungen.',
  'checking.trend-even': 'Die Übereinstimmung blieb bei {last} % in {count} Prüfungen.',
  'checking.row-agreement': '{agreement} % im geplanten Tonwert',
  'checking.row-kappa': 'Übereinstimmung über den Zufall hinaus: {words} (Kappa {kappa, 2})',
  'checking.kappa-poor': 'keine',
  'checking.kappa-slight': 'kaum',
  'checking.kappa-fair': 'mäßig',
  'checking.kappa-moderate': 'mittel',
  'checking.kappa-substantial': 'beachtlich',
  'checking.kappa-perfect': 'fast vollkommen',
  'checking.row-reserves': '{count, plural, one {# Weiß verloren} other {# Weiß verloren}}',
  'checking.row-islands': '{count, plural, one {# Insel} other {# Inseln}}',
  'checking.row-step': 'Nach Schritt {number}',
  'checking.row-whole': 'Das ganze Bild',
  'checking.row-picture': 'Das Bild bei dieser Prüfung',
  'checking.row-save': 'Notiz speichern',
  'checking.row-remove': 'Prüfung vergessen',
  'checking.row-removed': 'Die Prüfung ist vergessen; Rückgängig holt sie zurück.',
  'checking.row-noted': 'Die Notiz ist gespeichert.',
  'checking.undo': 'Rückgängig',
  'checking.redo': 'Wiederholen',

  'checking.delivery-hint':
    'Das fertige Bild, gerade gerichtet und im Weiß seines Papiers, als eine neue Bilddatei. Von den Angaben des Fotos geht nichts mit: kein Ort, keine Kamera.',
  'checking.delivery-with': 'Was darauf ist',
  'checking.delivery-alone': 'Das Bild allein',
  'checking.delivery-photo': 'Neben dem Foto',
  'checking.delivery-bands': 'Neben Foto und Tonstufen',
  'checking.delivery-size': 'Breite des Bildes',
  'checking.delivery-pixels': '{pixels} Bildpunkte',
  'checking.delivery-finest': 'So fein wie das Foto',
  'checking.delivery-type': 'Art der Datei',
  'checking.delivery-name': 'Dateiname',
  'checking.delivery-save': 'Bild speichern',
  'checking.delivery-working': 'Das Bild wird erstellt …',
  'checking.delivery-saved': '{name} wurde an Ihre Downloads übergeben.',
  'checking.delivery-alt': 'Wie das Bild aussehen wird',
  'checking.delivery-file': 'Bild',
  'checking.delivery-untitled': 'Aquarell',

  'check.as-planned':
    '{agreement} % dessen, was fertig ist, liegt im geplanten Tonwert: wie geplant.',
  'check.differs':
    '{agreement} % dessen, was fertig ist, liegt im geplanten Tonwert; {masses, plural, one {# Masse liegt} other {# Massen liegen}} um eine sichtbare Stufe daneben.',
  'check.far-off':
    'Nur {agreement} % dessen, was fertig ist, liegt im geplanten Tonwert; {masses, plural, one {# Masse liegt} other {# Massen liegen}} um eine sichtbare Stufe daneben.',
  'check.nothing-yet': 'Noch soll nichts gelegt sein: sehen Sie die Zeichnung an.',
  'check.lost-reserves':
    '{count, plural, one {Ein Weiß ist verloren.} other {# Weiß sind verloren.}}',
  'check.islands':
    '{count, plural, one {Eine Toninsel steht} other {# Toninseln stehen}} nicht im Plan. Eine einende Lasur: jetzt über {now}, später über {later}.',
  'check.reads': 'Es liest sich wie sein Plan ({similarity} % gleich).',
  'check.reads-nearly': 'Es liest sich fast wie sein Plan ({similarity} % gleich).',
  'check.reads-not': 'Es liest sich noch nicht wie sein Plan ({similarity} % gleich).',
  'check.mirrored':
    'Das Bild liegt seitenverkehrt: gespiegelt passt es zum Plan ({mirrored} %), so, wie es ist, nicht ({straight} %). Entweder ist das Foto gespiegelt (Kameras, die Sie ansehen, tun das), oder die Ecken laufen falsch herum. Spiegeln Sie es hier und prüfen Sie noch einmal.',
  'check.upside-down':
    'Das Bild liegt auf dem Kopf: gedreht passt es zum Plan ({turned} %), so, wie es ist, nicht ({straight} %). Drehen Sie es zweimal und prüfen Sie noch einmal.',
  'check.other-painting':
    'Das sieht nicht aus wie das Bild zu diesem Plan ({correlation} % gleich). Öffnen Sie das richtige Foto, oder sehen Sie nach, ob die Ecken auf der bemalten Fläche sitzen.',
  'check.too-early':
    'Es soll noch so wenig liegen, dass nicht zu sagen ist, ob es das richtige Bild ist.',
  'check.no-margin':
    'Nur {percent} % des Randes sieht nach blankem Papier aus; darum ist Weiß nicht von dort genommen, und die Farben sind, wie die Kamera sie hatte. Wählen Sie eine Stelle blanken Papiers, oder legen Sie die Ecken auf die bemalte Fläche.',
  'check.white-uneven':
    'Das Licht auf dem Papier ist um {percent} % verschieden: ein Schatten liegt darauf, oder eine Lampe ist nah. Tonwerte sind dort weniger sicher; fotografieren Sie am Fenster, ohne Ihren Schatten.',
  'check.white-clipped':
    '{percent} % des Papiers ist überbelichtet: Lichter sind nicht mehr zu unterscheiden. Fotografieren Sie dunkler.',
  'check.white-dark':
    'Das Papier ist dunkel in diesem Foto ({percent} % des vollen Lichts): Dunkles geht im Rauschen unter. Nehmen Sie mehr Licht.',
  'check.cut-off':
    '{percent} % des Bildes liegt außerhalb des Fotos: nur ein Teil des Blatts ist zu sehen. Gehen Sie mit der Kamera zurück und prüfen Sie noch einmal.',
  'check.no-white':
    'Nichts sagte, was weiß ist; die Töne sind die der Kamera. Wählen Sie, wo blankes Papier zu sehen ist, und prüfen Sie noch einmal.',
  'check.shadow':
    'Ein Schatten liegt über {percent} % des Randes und macht das Papier um {dark} % dunkler. Tonwerte darunter sind weniger sicher; gehen Sie aus dem Licht und fotografieren Sie noch einmal.',
  'check.shadow-on-painting':
    'Etwas nimmt {percent} % des Bildes {dark} % des Lichts, über die Grenzen der Massen hinweg: am ehesten ein Schatten im Foto. Massen darunter, die zu dunkel aussehen, werden Ihnen nicht angelastet. Gehen Sie aus dem Licht und fotografieren Sie noch einmal; sieht es dann ebenso aus, liegt dort eine graue Lasur.',
  'check.in-shadow': 'Sie liegt unter dem Schatten, der {shift, 1, fixed} Tonstufen ausmacht.',
  'check.blur':
    'Das Foto ist nicht scharf: seine schärfste Kante ist {width} breit. Kanten, die zu weich aussehen, können von der Kamera kommen, darum wird keine genannt. Halten Sie still, stellen Sie auf das Bild scharf und fotografieren Sie noch einmal.',
  'check.glare':
    '{percent} % der dunkleren Massen glänzt heller als Papier: nasse Farbe oder eine Lampe. Lassen Sie es trocknen, drehen Sie es vom Licht weg und prüfen Sie noch einmal.',
  'check.small-step': 'Der Unterschied fällt neben den Nachbarn kaum auf.',
  'check.too-light': 'Das sind {area} % des Bildes.',
  'check.too-dark': 'Das sind {area} % des Bildes.',
  'check.accent': 'Klein genug, um in einem Strich neu gesetzt zu werden.',
  'check.accent-opaque':
    'Klein genug, um es abzudecken: ein deckendes Licht, oder ausgekratzt, wo Abheben nicht hinreicht.',
  'check.reserve-lost':
    'Es sollte blankes Papier bleiben und ist {shift, 1, fixed} Tonstufen zu dunkel.',
  'check.glaze':
    'Bringt es auf Tonwert {to, 1}, gemischt zu {strength} % einer vollen Lasur, über das, was da liegt.',
  'check.glaze-short':
    'Es bleibt {short, 1, fixed} Tonstufen zu hell: mit diesen Farben wird es darüber nicht dunkler.',
  'check.glaze-unknown':
    'Was da liegt, steht nicht auf der Tafel, darum gilt es als einfaches Grau: versuchen Sie es zuerst an einer Stelle.',
  'check.glaze-opaque': 'Darin ist {tube}, das deckt: es lasiert nicht, es legt sich darüber.',
  'check.re-wets':
    'Darunter liegt {tube} und löst sich: legen Sie die Lasur in einem Zug und gehen Sie nicht zurück.',
  'check.no-shelf': 'Legen Sie Ihre Tuben ins Regal, dann steht hier eine Mischung.',
  'check.layers':
    '{layers} Schichten liegen schon da: noch eine macht sie stumpf und reißt sie auf. Vielleicht lassen Sie es.',
  'check.lift':
    'Was da liegt, {staining}: Abheben bringt höchstens {percent} % des Wegs zum Papier zurück. Versuchen Sie es zuerst an einer Stelle.',
  'check.lift-short':
    'Es bleibt {short, 1, fixed} Tonstufen zu dunkel: machen Sie lieber dunkler, was darum herum liegt.',
  'check.lift-unknown': 'Was da liegt, ist nicht notiert, darum gilt es als leicht färbend.',
  'check.cannot-lift':
    'Es bliebe {short, 1, fixed} Tonstufen zu dunkel, auf {area} % des Bildes: beginnen Sie damit im Sinn neu, oder lassen Sie alles andere dunkler werden.',
  'check.island-lighter': '{shift, 1, fixed} Tonstufen heller als ihre Masse.',
  'check.island-darker': '{shift, 1, fixed} Tonstufen dunkler als ihre Masse.',
  'check.glaze-after':
    'Erst {steps, plural, one {# Schritt} other {# Schritte}}, die sie oder ihre Nachbarn berühren; dann beurteilen Sie sie zusammen.',
  'check.edge-too-hard': 'Zu hart: ihre Stufe ist {width} breit.',
  'check.edge-too-soft': 'Zu weich: ihre Stufe ist {width} breit.',
};
