import { SwatchSheetReader } from './swatch-sheet-reader.js';

SwatchSheetReader.define();
