import type { Words } from '../strings.js';

/** Words of the rehearsal, and of the steps of the order of work. */
export const rehearsalWords: Words = {
  'tool.rehearsal': 'Rehearse',
  'tool.rehearsal.lead':
    'The painting before it is painted: each shape filled with the swatch of its bucket that leans nearest, step by step in the order of work, edges soft where they are planned soft.',
  'tool.rehearsal.painting': 'Rehearsal of the painting',
  'tool.rehearsal.photo': 'The photo',
  'tool.rehearsal.working': 'The painting is being rehearsed …',
  'tool.rehearsal.no-photo': 'Open a photo first.',
  'tool.rehearsal.bare':
    '{bare, plural, =1 {One part} other {# parts}} of {parts} stand in grey: their bucket has no dry swatch with a colour yet.',
  'tool.rehearsal.full':
    'Every part has a swatch. The colours are predictions: watercolour granulates, runs and dries in its own way.',
  'tool.rehearsal.again': 'Try again',
  'tool.rehearsal.steps': 'Done so far',
  'tool.rehearsal.step': 'Step {step} of {steps}: {what}',
  'tool.rehearsal.paper': 'Bare paper',
  'tool.rehearsal.save': 'Save beside the photo',
  'tool.rehearsal.strip': 'Save as a strip',
  'tool.rehearsal.writing': 'Step {step} …',
  'tool.rehearsal.file': 'rehearsal',
  'tool.rehearsal.strip-file': 'rehearsal strip',
  'step.keep': 'leave the paper',
  'step.mask': 'mask lights',
  'step.tint': 'tint lights pale',
  'step.ground': 'wash in the ground',
  'step.lay': 'lay “{band}”',
  'step.unmask': 'take the masking off',
  'step.marks': 'last marks',
  'step.own': 'a step of your own',
};
