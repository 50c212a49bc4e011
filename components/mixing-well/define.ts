import { MixingWell } from './mixing-well.js';

MixingWell.define();
