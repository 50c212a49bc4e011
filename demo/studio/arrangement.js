/**
 * A painter's own arrangement of panels on a page of twelve columns: which panels lie on it, in what order, how broad and how
 * high. All functions are pure and give a new arrangement; the DOM and the browser's storage are not known here.
 *
 * @typedef {object} Panel what a page says of a panel it has
 * @property {string} id
 * @property {number} columns how broad it is at first
 * @property {number} rows how high it is at first; 0: as its content
 * @property {boolean} [away] whether it is put away at first
 *
 * @typedef {object} Place a panel's place; the order of places is the order of panels
 * @property {string} id
 * @property {number} columns 3 to 12
 * @property {number} rows 8 to 64 rows, or 0: as high as its content
 * @property {boolean} away
 *
 * @typedef {Place[]} Arrangement
 */

export const COLUMNS = { least: 3, most: 12 };
export const ROWS = { least: 8, most: 64, asContent: 0 };

const EDITION = 1;

/**
 * The arrangement that the page proposes.
 * @param {readonly Panel[]} panels
 * @returns {Arrangement}
 */
export function proposed(panels) {
  return panels.map(({ id, columns, rows, away = false }) => ({ id, columns, rows, away }));
}

/** A whole number within limits. */
function kept(value, { least, most }) {
  return Math.min(most, Math.max(least, Math.round(value)));
}

function isPlace(value) {
  if (typeof value !== 'object' || value === null) return false;
  const { id, columns, rows, away } = value;
  return (
    typeof id === 'string' &&
    Number.isFinite(columns) &&
    Number.isFinite(rows) &&
    typeof away === 'boolean'
  );
}

/**
 * Reads a remembered arrangement. Text that is missing or broken gives the proposed one; panels that the page no longer has
 * are left out, panels it has since got are added at the end.
 * @param {string | null} text
 * @param {readonly Panel[]} panels
 * @returns {Arrangement}
 */
export function read(text, panels) {
  let places;
  try {
    const { edition, places: found } = JSON.parse(text ?? '');
    if (edition === EDITION && Array.isArray(found) && found.every(isPlace)) places = found;
  } catch {
    // No JSON, or none of ours: the proposed arrangement.
  }
  if (!places) return proposed(panels);
  const known = new Set(panels.map(({ id }) => id));
  const taken = new Set();
  const arrangement = [];
  for (const { id, columns, rows, away } of places) {
    if (!known.has(id) || taken.has(id)) continue;
    taken.add(id);
    arrangement.push({
      id,
      columns: kept(columns, COLUMNS),
      rows: rows <= 0 ? ROWS.asContent : kept(rows, ROWS),
      away,
    });
  }
  return [...arrangement, ...proposed(panels).filter(({ id }) => !taken.has(id))];
}

/**
 * The text that {@link read} reads.
 * @param {Arrangement} arrangement
 */
export function write(arrangement) {
  return JSON.stringify({ edition: EDITION, places: arrangement });
}

/**
 * Gives a panel another size, kept within the limits; what is missing stays.
 * @param {Arrangement} arrangement
 * @param {string} id
 * @param {{ columns?: number, rows?: number }} size
 * @returns {Arrangement}
 */
export function resized(arrangement, id, { columns, rows }) {
  return arrangement.map((place) =>
    place.id === id
      ? {
          ...place,
          columns: columns === undefined ? place.columns : kept(columns, COLUMNS),
          rows:
            rows === undefined
              ? place.rows
              : rows === ROWS.asContent
                ? ROWS.asContent
                : kept(rows, ROWS),
        }
      : place,
  );
}

/**
 * Brings a panel before (-1) or behind (1) its neighbour on the page; those put away are passed over.
 * @param {Arrangement} arrangement
 * @param {string} id
 * @param {-1 | 1} way
 * @returns {Arrangement}
 */
export function moved(arrangement, id, way) {
  const from = arrangement.findIndex((place) => place.id === id);
  let to = from + way;
  while (arrangement[to]?.away) to += way;
  if (from < 0 || !arrangement[to]) return arrangement;
  const others = arrangement.filter((place) => place.id !== id);
  others.splice(to, 0, arrangement[from]);
  return others;
}

/**
 * Puts a panel away. The last one on the page stays.
 * @param {Arrangement} arrangement
 * @param {string} id
 * @returns {Arrangement}
 */
export function putAway(arrangement, id) {
  const left = arrangement.filter((place) => !place.away && place.id !== id);
  if (left.length === 0) return arrangement;
  return arrangement.map((place) => (place.id === id ? { ...place, away: true } : place));
}

/**
 * Takes a panel out again, behind all others.
 * @param {Arrangement} arrangement
 * @param {string} id
 * @returns {Arrangement}
 */
export function takenOut(arrangement, id) {
  const place = arrangement.find((each) => each.id === id);
  if (!place) return arrangement;
  return [...arrangement.filter((each) => each !== place), { ...place, away: false }];
}

/**
 * Which panels are half as broad as the page where it has room for two columns: of the panels of at most half the columns, those
 * that find another one beside them.
 * @param {Arrangement} arrangement
 * @returns {Set<string>} ids
 */
export function halves(arrangement) {
  const shown = arrangement.filter(({ away }) => !away);
  const narrow = ({ columns }) => columns <= COLUMNS.most / 2;
  const found = new Set();
  for (let i = 0; i + 1 < shown.length; i++) {
    if (!narrow(shown[i]) || !narrow(shown[i + 1])) continue;
    found.add(shown[i].id).add(shown[i + 1].id);
    i++;
  }
  return found;
}
