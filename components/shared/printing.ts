import { SHEET_SIZES, type SheetPaper } from './core.js';
import { drawingOf } from './page-drawing.js';

/** What is on paper and what is on the screen while pages are printed. `@page` is of the whole document, so it lasts as long. */
const pageRules = (paper: SheetPaper): string => {
  const [width, height] = SHEET_SIZES[paper];
  return `
    @page { size: ${width}mm ${height}mm; margin: 0; }
    @media screen { [data-printed-plan] { display: none !important; } }
    @media print {
      html, body {
        margin: 0 !important; padding: 0 !important; border: 0 !important;
        inline-size: auto !important; block-size: auto !important; min-block-size: 0 !important;
        transform: none !important; zoom: 1 !important; overflow: visible !important; display: block !important;
        background: none !important;
      }
      body > :not([data-printed-plan]) { display: none !important; }
      body > [data-printed-plan] { display: block !important; }
    }`;
};
const SHEET_RULES = `
  :host { all: initial; }
  svg { display: block; break-inside: avoid; break-after: page; }
  svg:last-child { break-after: auto; }`;

/** How long an engine may take to begin, in milliseconds: a page that may not print (in a sandboxed frame) is not told so. */
const BEGIN_MS = 2000;

let under: (() => void) | undefined;

/**
 * Prints pages alone, at true size: for as long as the print dialogue is up they stand at the end of the document and the rest is out of
 * print. Rules are put in as constructed style sheets, which policies without inline styles allow; no window and no frame is opened.
 * @returns whether the engine began to print.
 */
export async function printPages(
  pages: readonly string[],
  paper: SheetPaper,
  owner: Document,
): Promise<boolean> {
  under?.();
  const window = owner.defaultView;
  if (!window) return false;
  const holder = owner.createElement('div');
  holder.setAttribute('data-printed-plan', '');
  const root = holder.attachShadow({ mode: 'open' });
  const rules = new window.CSSStyleSheet();
  rules.replaceSync(SHEET_RULES);
  root.adoptedStyleSheets = [rules];
  root.append(...pages.map((page) => drawingOf(page, owner)));
  const outer = new window.CSSStyleSheet();
  outer.replaceSync(pageRules(paper));
  owner.adoptedStyleSheets = [...owner.adoptedStyleSheets, outer];
  owner.body.append(holder);
  const end = (): void => {
    window.removeEventListener('afterprint', end);
    holder.remove();
    owner.adoptedStyleSheets = owner.adoptedStyleSheets.filter((each) => each !== outer);
    under = undefined;
  };
  under = end;
  window.addEventListener('afterprint', end);
  const begun = new Promise<boolean>((resolve) => {
    window.addEventListener('beforeprint', () => resolve(true), { once: true });
    setTimeout(() => resolve(false), BEGIN_MS);
  });
  window.print();
  if (await begun) return true;
  if (under === end) end();
  return false;
}
