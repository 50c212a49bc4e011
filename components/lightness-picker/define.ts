import { LightnessPicker } from './lightness-picker.js';

LightnessPicker.define();
