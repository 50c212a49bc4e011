/** A few words kept in this browser. Where storage is closed, full or forbidden they are simply not kept. */

/** @returns {string | null} */
export function recall(key) {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/** @returns {boolean} whether it is kept */
export function keep(key, text) {
  try {
    if (text === null) localStorage.removeItem(key);
    else localStorage.setItem(key, text);
    return true;
  } catch {
    return false;
  }
}
