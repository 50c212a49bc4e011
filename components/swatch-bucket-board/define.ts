import { SwatchBucketBoard } from './swatch-bucket-board.js';

SwatchBucketBoard.define();
