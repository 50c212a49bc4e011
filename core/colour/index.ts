export type { Lab } from '../base/types.js';
export {
  helmholtzKohlrausch,
  leanOf,
  NEUTRAL_CHROMA,
  type Lean,
  type LeanName,
} from './appearance.js';
export { cssLabOf, labOf, lightnessOf, xyzOfCss } from './css.js';
export { labOfHex } from './hex.js';
export { labOfName } from './named.js';
export { ciede2000, deltaE2000 } from './difference.js';
export {
  cssOfLab,
  expectLab,
  labOfLinear,
  labOfSrgb,
  labOfXyz,
  lchOf,
  lightnessOfLuminance,
  linearOfLab,
  luminanceOfLightness,
  WHITE_D65,
  xyzOfLab,
  type Lch,
  type Xyz,
} from './lab.js';
export { lightnessOfMunsell, munsellValue } from './munsell.js';
export {
  byteOfLinear,
  LINEAR_OF_SRGB,
  linearOfSrgb,
  LUMINANCE_OF_RGB,
  srgbOfLinear,
} from './srgb.js';
