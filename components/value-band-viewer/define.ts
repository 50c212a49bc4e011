import { ValueBandViewer } from './value-band-viewer.js';

ValueBandViewer.define();
