/** How a painting stands against its plan. */
export interface Comparison {
  /** Share of the compared area whose band is the planned one (0..1). */
  agreement: number;
  /** Cohen's kappa of planned and painted bands. */
  kappa: number;
  /** Largest effect first. `shift` is L* to lighten (+) or darken (-); `area` pixels; `effect` is |shift| x area. */
  corrections: { region: number; shift: number; area: number; effect: number }[];
  /** Regions whose step is still ahead. */
  toCome: number[];
  /** Regions planned as bare paper that were painted over. */
  lostReserves: number[];
}
