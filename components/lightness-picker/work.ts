/** All that a photo is read with: the card, the hand on it, the panel, the list. It comes when the picker nears the viewport. */
export { lightnessOf } from '../shared/core.js';
export { pickerWords } from '../shared/words/picker.js';
export { unitsFilesWords } from '../shared/words/units-files.js';
export { cardLightness, drawCard, drawPhoto, drawRim, drawSpot } from './card.js';
export { HoleHand } from './hole-hand.js';
export { holeTools } from './hole-tools.js';
export { leanInWords, readingPanel } from './reading-panel.js';
export { readingsList } from './readings-list.js';
export { allGuesses, errorsByHue } from './training.js';
export { trainingTable } from './training-table.js';
export { workStyles } from './work.styles.js';
