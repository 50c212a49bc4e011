import { PlanSheet } from './plan-sheet.js';

PlanSheet.define();
