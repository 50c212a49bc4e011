import type { Words } from '../strings.js';
import { boardAccentsWords } from './board-accents.js';
import { boardExchangeWords } from './board-exchange.js';
import { boardMixesWords } from './board-mixes.js';
import { boardWords } from './board.js';
import { checkDeskWords } from './check-desk.js';
import { checkWords } from './check.js';
import { commonWords } from './common.js';
import { passagesWorkWords } from './passages-work.js';
import { pickerWords } from './picker.js';
import { pictureWords } from './picture.js';
import { planWords } from './plan.js';
import { printedWords } from './printed.js';
import { rehearsalWords } from './rehearsal.js';
import { shapesWords } from './shapes.js';
import { sheetDeskWords } from './sheet-desk.js';
import { sheetReaderWords } from './sheet-reader.js';
import { toolsWords } from './tools.js';
import { paintWords } from './paint.js';
import { tracingsWords } from './tracings.js';
import { tubesWords } from './tubes.js';
import { deskWords } from './viewer-desk.js';
import { unitsFilesWords } from './units-files.js';
import { viewerEmptyWords } from './viewer-empty.js';
import { viewerWords } from './viewer.js';
import { wellDeskWords } from './well-desk.js';
import { wellWords } from './well.js';

/** The tables of all parts; a key stands for one sentence, whichever table holds it. */
export const TABLES: readonly Words[] = [
  commonWords,
  unitsFilesWords,
  pictureWords,
  viewerWords,
  viewerEmptyWords,
  deskWords,
  toolsWords,
  shapesWords,
  rehearsalWords,
  tracingsWords,
  pickerWords,
  boardWords,
  boardMixesWords,
  boardAccentsWords,
  boardExchangeWords,
  planWords,
  printedWords,
  passagesWorkWords,
  tubesWords,
  paintWords,
  wellWords,
  wellDeskWords,
  sheetReaderWords,
  sheetDeskWords,
  checkWords,
  checkDeskWords,
];

/** All words of the kit, English: the one table that a translation replaces (`setWords`). */
export const ENGLISH: Words = Object.assign({}, ...TABLES);
