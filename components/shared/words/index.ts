import type { Words } from '../strings.js';
import { boardWords } from './board.js';
import { commonWords } from './common.js';
import { pickerWords } from './picker.js';
import { pictureWords } from './picture.js';
import { planWords } from './plan.js';
import { printedWords } from './printed.js';
import { rehearsalWords } from './rehearsal.js';
import { toolsWords } from './tools.js';
import { tracingsWords } from './tracings.js';
import { deskWords } from './viewer-desk.js';
import { viewerWords } from './viewer.js';

/** The tables of all parts; a key stands for one sentence, whichever table holds it. */
export const TABLES: readonly Words[] = [
  commonWords,
  pictureWords,
  viewerWords,
  deskWords,
  toolsWords,
  rehearsalWords,
  tracingsWords,
  pickerWords,
  boardWords,
  planWords,
  printedWords,
];

/** All words of the kit, English: the one table that a translation replaces (`setWords`). */
export const ENGLISH: Words = Object.assign({}, ...TABLES);
