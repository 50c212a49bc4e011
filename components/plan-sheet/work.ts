/** All that pages are made, shown and rearranged with. It comes when the element nears the viewport. */
export { TUBES } from '../shared/core.js';
export { tubeName } from '../shared/paint-words.js';
export { stepName } from '../shared/step-name.js';
export { paintWords } from '../shared/words/paint.js';
export { printedWords } from '../shared/words/printed.js';
export { tubesWords } from '../shared/words/tubes.js';
export { unitsFilesWords } from '../shared/words/units-files.js';
export { drawingOf } from '../shared/page-drawing.js';
export { pointAt } from './page-drawing.js';
export { printedStrings } from './printed-strings.js';
export { printPages } from '../shared/printing.js';
export { valueCardOf } from '../shared/value-card.js';
export { StepDrag } from './step-drag.js';
export { renderSteps } from './steps-view.js';
export { workStyles } from './work.styles.js';
