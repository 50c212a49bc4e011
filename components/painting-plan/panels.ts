/** What can be opened below the bar, and plan files. It comes when it is first opened. */
export { pictureWords } from '../shared/words/picture.js';
export { planWords } from '../shared/words/plan.js';
export { unitsFilesWords } from '../shared/words/units-files.js';
export { BriefView } from './brief-view.js';
export { FileView, refusalOf, saveAsFile, takenUp } from './file-view.js';
export { panelStyles } from './panels.styles.js';
export { PhotosView } from './photos-view.js';
export { PlanFileError, readPlanFile } from './plan-file.js';
export { ShelfView } from './shelf-view.js';
