import type { Words } from '../../strings.js';

/** Die Probe, und die Schritte des Ablaufs. */
export const rehearsalWords: Words = {
  'tool.rehearsal': 'Proben',
  'tool.rehearsal.lead':
    'Das Bild, bevor es gemalt ist: jede Form in der Farbprobe ihres Fachs, die ihr am nächsten kommt, Schritt für Schritt in der Reihenfolge der Arbeit, Kanten weich, wo sie weich geplant sind.',
  'tool.rehearsal.painting': 'Probe des Bildes',
  'tool.rehearsal.photo': 'Das Foto',
  'tool.rehearsal.working': 'Das Bild wird geprobt …',
  'tool.rehearsal.no-photo': 'Öffnen Sie zuerst ein Foto.',
  'tool.rehearsal.bare':
    '{bare, plural, =1 {Ein Teil} other {# Teile}} von {parts} stehen in Grau: In ihrem Fach liegt noch keine trockene Farbprobe.',
  'tool.rehearsal.full':
    'Jeder Teil hat eine Farbprobe. Die Farben sind Vorhersagen: Aquarell granuliert, läuft und trocknet auf seine Weise.',
  'tool.rehearsal.again': 'Noch einmal',
  'tool.rehearsal.steps': 'Bisher getan',
  'tool.rehearsal.step': 'Schritt {step} von {steps}: {what}',
  'tool.rehearsal.paper': 'Blankes Papier',
  'tool.rehearsal.save': 'Neben dem Foto sichern',
  'tool.rehearsal.strip': 'Als Streifen sichern',
  'tool.rehearsal.writing': 'Schritt {step} …',
  'tool.rehearsal.file': 'Probe',
  'tool.rehearsal.strip-file': 'Probestreifen',
  'step.keep': 'das Papier stehen lassen',
  'step.mask': 'Lichter abdecken',
  'step.tint': 'Lichter blass tönen',
  'step.ground': 'den Grund lavieren',
  'step.lay': '„{band}“ legen',
  'step.unmask': 'die Abdeckung abnehmen',
  'step.marks': 'letzte Akzente',
  'step.own': 'ein eigener Schritt',
};
