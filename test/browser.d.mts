/** Finds a real Chromium: `CHROME_PATH`, else the system's, else the one that a development dependency brings. */
export function chromePath(): Promise<string>;
export const chromeArgs: string[];
