/** What the examples of the reference begin with. An element without an entry gets its bare tag, with a picture if it takes one. */
const DOG = '../pictures/clay-dog-900.jpg';

const examples = {
  'value-band-viewer': `<value-band-viewer
  src="${DOG}"
  alt="A glazed clay dog on a pale cloth"
  limits="36 66"
  band-names="dark, middle, light"
  controls="views corner ladder"
>
  <p slot="caption">Is the dog still a dog in three values?</p>
</value-band-viewer>`,

  'lightness-picker': `<form>
  <lightness-picker
    name="darkest"
    src="${DOG}"
    alt="A glazed clay dog on a pale cloth"
    hole="6"
    card="middle"
    details
  ></lightness-picker>
  <button>Send the reading</button>
</form>`,

  'swatch-bucket-board': `<swatch-bucket-board
  bands="dark middle light"
  limits="36 66"
  required="2"
>
  <data value="#3a4148" data-bucket="dark">indigo grey</data>
  <data value="#4a3f36" data-bucket="dark">umber grey</data>
  <data value="#7d7468" data-bucket="middle">warm grey</data>
  <data value="#6f7b80" data-bucket="middle">cool grey</data>
  <data value="#5c5f61" data-bucket="light">a stray</data>
</swatch-bucket-board>`,

  'mixing-well': `<mixing-well
  tubes="yellow-ochre burnt-sienna ultramarine"
  target="#6b7078"
></mixing-well>`,

  'painting-plan': `<painting-plan src="${DOG}">
  <value-band-viewer
    controls="ladder"
    alt="The dog in bands"
  ></value-band-viewer>
  <swatch-bucket-board></swatch-bucket-board>
</painting-plan>`,

  'plan-sheet': `<plan-sheet
  src="${DOG}"
  paper="A4"
  squares="50"
  show="hatching outlines reserves numbers"
></plan-sheet>`,

  'swatch-sheet-reader': `<painting-plan bare>
  <swatch-sheet-reader
    src="../pictures/test-sheet.jpg"
  ></swatch-sheet-reader>
  <swatch-bucket-board></swatch-bucket-board>
</painting-plan>`,

  'painting-check': `<painting-plan
  src="${DOG}"
  bare
>
  <painting-check
    src="../pictures/painting-2.jpg"
  ></painting-check>
</painting-plan>`,
};

/** The markup that an element's example begins with. */
export function exampleOf({ tagName, attributes = [] }) {
  const src = attributes.some(({ name }) => name === 'src') ? ` src="${DOG}"` : '';
  return examples[tagName] ?? `<${tagName}${src}></${tagName}>`;
}
