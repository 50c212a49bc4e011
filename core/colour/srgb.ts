/**
 * The sRGB transfer function (IEC 61966-2-1, threshold 0.04045) and the luminance of linear sRGB.
 * The matrices derive from the primaries and the white point of the standard in full precision, not
 * from its four printed decimals.
 */

/**
 * Luminance of linear red, green and blue, white being 1: Y = 0.2126.. R + 0.7152.. G + 0.0722.. B.
 */
export const LUMINANCE_OF_RGB: readonly [number, number, number] = [
  0.2126390058715103, 0.7151686787677559, 0.07219231536073371,
];

/** An encoded sRGB component (0..1; negative components mirror) to linear light. */
export function linearOfSrgb(encoded: number): number {
  const v = Math.abs(encoded);
  const linear = v <= 0.04045 ? v / 12.92 : Math.pow((v + 0.055) / 1.055, 2.4);
  return encoded < 0 ? -linear : linear;
}

/** Linear light (0..1; negative components mirror) to an encoded sRGB component. */
export function srgbOfLinear(linear: number): number {
  const v = Math.abs(linear);
  const encoded = v <= 0.0031308 ? v * 12.92 : 1.055 * Math.pow(v, 1 / 2.4) - 0.055;
  return linear < 0 ? -encoded : encoded;
}

/** Linear light, 0..1, of each 8-bit sRGB component. */
export const LINEAR_OF_SRGB: Float64Array = /* @__PURE__ */ Float64Array.from(
  { length: 256 },
  (_, byte) => linearOfSrgb(byte / 255),
);

/** The 8-bit sRGB component nearest a linear one; below 0 gives 0, above 1 gives 255. */
export function byteOfLinear(linear: number): number {
  if (!(linear > 0)) return 0;
  return linear >= 1 ? 255 : Math.floor(srgbOfLinear(linear) * 255 + 0.5);
}
