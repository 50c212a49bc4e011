/**
 * From pixels to lightness: upright sRGB pixels, the lightness plane, reduction by area, readings, what a photo can tell, what a file is.
 * No decoding: that is the platform's work.
 */
export { lightnessKernel, lightnessPlane } from './lightness.js';
export { cropPixels, fitWithin, reduceKernel, type Reduced, type RowSource } from './reduce.js';
export { readingOf, type SpotReading } from './reading.js';
export {
  photoReport,
  photoReportKernel,
  type PhotoReport,
  type PhotoReportOptions,
} from './report.js';
export { withPixelsPerMetre } from './physical-size.js';
export { jpegTables, type JpegTables } from './jpeg.js';
export { sniffPicture, type PictureFacts } from './sniff.js';
export { trustedPlane, type TrustedSpot } from './trust.js';
export { withoutLocation, type Removed, type Stripped } from './strip.js';
