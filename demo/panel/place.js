/** Where things of the panel's picture lie in the editor's, which may be larger and in units of its own. */

/** The outline of a selection in fractions of the part that was given, or nothing where it is that whole rectangle. */
export function ringsWithin({ area, selection }, part) {
  if (part !== 'selection' || !selection) return undefined;
  const { bounds, rings = [ringOf(bounds)] } = selection;
  const within = rings.map((ring) =>
    ring.map((value, i) =>
      i % 2 ? (value - area.y) / area.height : (value - area.x) / area.width,
    ),
  );
  return selection.rings || !sameRect(bounds, area) ? within : undefined;
}

const ringOf = ({ x, y, width, height }) => [
  ...[x, y, x + width, y],
  ...[x + width, y + height, x, y + height],
];

/** Parts are given in whole pixels, so a selection may end inside one. */
const sameRect = (a, b) =>
  ['x', 'y', 'width', 'height'].every((side) => Math.abs(a[side] - b[side]) < 1e-6);

/** A reading of the hole card as the editor takes it: the hole is on the paper, the spot in the editor's picture. */
export function spotOf({ reading, at, band, value, holeMm }, plan, area) {
  const { lightness, lab, css } = reading;
  return {
    at: [area.x + at[0] * area.width, area.y + at[1] * area.height],
    diameter: (holeMm / plan.paper.widthMm) * area.width,
    lightness,
    value,
    band: plan.board.bands[band]?.name ?? 'bare paper',
    lab,
    css,
  };
}

/** The board as the editor takes it. */
export function swatchesOf({ board, title }, { cssOfLab, designTokensOf, labOf }) {
  const colourOf = ({ lab, css, lightness }) =>
    cssOfLab(lab ?? (css ? labOf(css) : [lightness, 0, 0])).css;
  return {
    bands: board.bands.map(({ name, floor, ceiling }) => ({ name, floor, ceiling })),
    swatches: board.swatches.map((swatch) => ({
      name: swatch.name ?? '',
      band: swatch.bucket,
      lightness: swatch.lightness,
      css: colourOf(swatch),
      wet: swatch.wet,
      accent: swatch.accent,
    })),
    tokens: JSON.stringify(designTokensOf(board, { title })),
  };
}
