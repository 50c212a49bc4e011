import { PaintingCheck } from './painting-check.js';

PaintingCheck.define();
