/** Defines every element under its usual tag. */
import { defineAll } from './define-all.js';

defineAll();
