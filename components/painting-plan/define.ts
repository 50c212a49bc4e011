import { PaintingPlan } from './painting-plan.js';

PaintingPlan.define();
