import { css } from 'lit';
import { disclosure } from '../shared/disclosure.styles.js';
import { fields } from '../shared/fields.styles.js';
import { ladderStyles } from '../shared/ladder.js';

const desk = css`
  h3,
  h4,
  h5,
  p,
  ul,
  figure {
    margin: 0;
    padding: 0;
  }
  h3 {
    font-size: 0.9375rem;
    font-weight: 600;
  }
  h4 {
    font-size: 1.0625rem;
    font-weight: 600;
  }
  h5 {
    font-size: 0.8125rem;
    font-weight: 600;
  }
  ul {
    list-style: none;
  }
  .tiny {
    font-size: 0.75rem;
    line-height: 1.3;
    overflow-wrap: anywhere;
  }
  .desk {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 24px;
    min-inline-size: 0;
  }
  .head {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 12px;
    align-items: center;
    min-block-size: var(--_target);
  }
  .spring {
    flex: 1;
  }
  .acts {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: center;
  }
  .tick {
    display: flex;
    gap: 8px;
    align-items: center;
    min-block-size: var(--_target);
  }
  select,
  input[type='text'] {
    min-inline-size: 0;
    max-inline-size: 100%;
  }
  input[type='color'] {
    inline-size: 56px;
    padding: 4px;
  }
  .remarks {
    display: grid;
    gap: 8px;
  }
  .remarks li {
    padding-inline-start: 12px;
    border-inline-start: 3px solid var(--_edge);
    max-inline-size: 68ch;
  }
  .remarks li::first-letter,
  .tube-name::first-letter,
  .pan-name::first-letter,
  .spoon-name::first-letter,
  .grade::first-letter,
  .note::first-letter,
  .told::first-letter,
  .done > span::first-letter,
  .band::first-letter,
  .lean::first-letter,
  h4::first-letter {
    text-transform: uppercase;
  }
  .fault {
    padding: 8px 12px;
    border: 1px solid var(--_edge);
    border-inline-start-width: 4px;
    background: var(--_sheet);
  }
  .done {
    display: flex;
    flex-wrap: wrap;
    gap: 0 8px;
    align-items: center;
    justify-content: space-between;
    padding-inline-start: 12px;
    border-inline-start: 3px solid var(--_edge);
    color: var(--_ink-soft);
  }
  .done button {
    color: var(--_ink);
  }

  /* The shelf: porcelain pans, the paint running out into a pale wash. */
  .shelf {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 8px;
  }
  .pans {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, max(96px, 5.5rem)), 1fr));
    grid-auto-flow: row dense;
    gap: 12px 8px;
  }
  .place {
    display: grid;
    grid-template-rows: 1fr auto;
    min-inline-size: 0;
  }
  .pan,
  button.pan {
    display: flex;
    flex-direction: column;
    align-items: stretch;
    justify-content: start;
    gap: 2px;
    min-inline-size: 0;
    padding: 6px 6px 8px;
    border: 1px solid var(--_line);
    border-radius: 10px 10px 4px 4px;
    background: var(--_sheet);
    text-align: start;
  }
  .wash {
    position: relative;
    display: block;
    block-size: 72px;
    margin-block-end: 4px;
    border-radius: 6px 6px 14px 14px;
    box-shadow: inset 0 0 0 1px rgb(0 0 0 / 0.18);
    forced-color-adjust: none;
  }
  .wash.none,
  .chip.none {
    border: 1px dashed var(--_edge);
    box-shadow: none;
    background: none;
    forced-color-adjust: auto;
  }
  .none-word {
    position: absolute;
    inset: 0;
    display: grid;
    place-items: center;
    color: var(--_ink-soft);
    text-align: center;
  }
  .count {
    position: absolute;
    inset-block-end: 4px;
    inset-inline-end: 4px;
    min-inline-size: 24px;
    padding-inline: 6px;
    border: 1px solid #555;
    border-radius: 12px;
    background: #fff;
    color: #111;
    font-size: 0.8125rem;
    line-height: 22px;
    text-align: center;
  }
  .pan-name {
    display: block;
    font-size: 0.8125rem;
    line-height: 1.3;
    overflow-wrap: anywhere;
    hyphens: manual;
  }
  .note,
  .told {
    display: block;
  }
  .note {
    font-weight: 600;
  }
  .place .about {
    justify-self: start;
    gap: 4px;
    padding-inline: 6px;
    font-size: 0.8125rem;
    color: var(--_ink-soft);
  }
  .place .about[aria-expanded='true'] {
    color: var(--_ink);
    text-decoration: underline;
    text-underline-offset: 4px;
  }
  .card {
    grid-column: 1 / -1;
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 12px;
    padding: 8px 16px 16px;
    border: 1px solid var(--_edge);
    border-radius: var(--_radius);
    background: var(--_sheet);
  }
  .title {
    display: flex;
    gap: 8px;
    align-items: start;
    justify-content: space-between;
  }
  .title > div {
    display: flex;
    flex-wrap: wrap;
    gap: 0 12px;
    align-items: baseline;
    padding-block-start: 5px;
    overflow-wrap: anywhere;
  }
  .title > button {
    flex: none;
    margin-inline-end: -12px;
  }
  .about-body {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 12px;
  }
  .about-body .strip {
    block-size: 40px;
    max-inline-size: 480px;
  }
  .traits {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 8px;
  }
  .traits li {
    padding: 2px 10px;
    border: 1px solid var(--_line);
    border-radius: 14px;
    font-size: 0.8125rem;
  }
  .fit {
    display: grid;
    gap: 8px;
    padding-block-start: 12px;
    border-block-start: 1px solid var(--_line);
  }
  .typed {
    display: grid;
    gap: 8px;
  }
  .typed .row {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 200px), 240px));
    gap: 8px;
    align-items: end;
  }
  .typed label {
    display: grid;
    gap: 4px;
  }
  .chooser {
    padding: 16px;
    border: 1px solid var(--_edge);
    border-radius: var(--_radius);
    background: var(--_sheet);
  }
  .chooser > p {
    max-inline-size: 68ch;
  }
  /* The way out stays in sight while the long list is gone through. */
  .chooser > .acts {
    position: sticky;
    inset-block-start: 0;
    z-index: 1;
    padding-block: 8px;
    background: var(--_sheet);
  }
  .tubes {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 248px), 1fr));
    gap: 0 16px;
  }
  .tubes li {
    border-block-start: 1px solid var(--_line);
  }
  .tube {
    display: grid;
    grid-template-columns: auto 28px minmax(0, 1fr);
    gap: 12px;
    align-items: start;
    padding-block: 8px;
    min-block-size: var(--_target);
    cursor: pointer;
  }
  .tube > input {
    margin-block-start: 3px;
    scroll-margin-block: 72px;
  }
  .chip {
    block-size: 40px;
    border-radius: 4px 4px 10px 10px;
    box-shadow: inset 0 0 0 1px rgb(0 0 0 / 0.18);
    forced-color-adjust: none;
  }
  .tube-words {
    display: grid;
    gap: 0;
    min-inline-size: 0;
    overflow-wrap: anywhere;
  }
  .tube-name {
    display: block;
  }
  .sketch {
    display: flex;
    gap: 6px;
  }
  .sketch .wash {
    flex: 1;
    block-size: 64px;
    margin: 0;
    border-radius: 4px 4px 12px 12px;
  }

  /* The puddle and the well. */
  .work {
    display: flex;
    flex-direction: column;
    gap: 24px;
    /* What is gone to by keys is not to lie under the puddle. */
    --_clear: 224px;
  }
  .work :is(button, input, select, summary) {
    scroll-margin-block-start: var(--_clear);
  }
  .wells,
  .layers,
  .outlook,
  .facts {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 16px;
    align-content: start;
    min-inline-size: 0;
  }
  .wells {
    container-type: inline-size;
  }
  .mat {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 8px;
    align-items: center;
    padding: 8px;
    border: 1px solid transparent;
    background: var(--_surround);
  }
  .scene {
    display: block;
    inline-size: 100%;
    block-size: auto;
    max-block-size: 44vh;
    forced-color-adjust: none;
  }
  .scene .ghost {
    fill: none;
    stroke: #6a6a6a;
    stroke-dasharray: 5 5;
  }
  .legend {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 24px;
  }
  .seen {
    display: flex;
    gap: 8px;
    align-items: center;
  }
  .key {
    flex: none;
    inline-size: 16px;
    block-size: 16px;
    border-radius: 50%;
    box-shadow: 0 0 0 1px light-dark(rgb(0 0 0 / 0.25), rgb(255 255 255 / 0.4));
    forced-color-adjust: none;
  }
  .under {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: end;
  }
  .facts {
    gap: 8px;
  }
  .reading {
    display: grid;
    grid-template-columns: auto minmax(0, 1fr);
    gap: 0 16px;
    align-items: end;
  }
  .reading > .word {
    grid-column: 1 / -1;
  }
  .facts .value {
    font-size: 3.5rem;
    font-weight: 300;
    line-height: 1;
    letter-spacing: -0.02em;
  }
  .facts .band {
    font-size: 1.0625rem;
    line-height: 1.3;
    overflow-wrap: anywhere;
  }
  .facts .lean {
    line-height: 1.3;
  }
  .dabs {
    block-size: 24px;
  }
  .facts .span {
    color: var(--_ink);
  }
  .doubt > summary {
    color: var(--_ink-soft);
    font-size: 0.8125rem;
  }
  .doubt[open] > summary {
    margin-block-end: 8px;
  }
  .doubt .remarks {
    font-size: 0.8125rem;
  }
  .send {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: end;
  }
  .send .field {
    flex: 0 1 160px;
  }
  .send-button {
    flex: 1 1 auto;
  }
  .from-board {
    max-inline-size: 320px;
  }
  .spoons {
    display: grid;
    gap: 12px;
  }
  .spoon {
    display: grid;
    grid-template-columns: 20px minmax(0, 1fr) auto;
    gap: 4px 10px;
    align-items: center;
  }
  .dab {
    inline-size: 20px;
    block-size: 20px;
    border-radius: 50% 46% 52% 48%;
    box-shadow: inset 0 0 0 1px rgb(0 0 0 / 0.18);
    forced-color-adjust: none;
  }
  .drop {
    box-shadow: none;
    fill: none;
    stroke: currentColor;
    stroke-width: 1.5;
  }
  .spoon-name {
    display: block;
    overflow-wrap: break-word;
    hyphens: auto;
  }
  .spoon-figure {
    color: var(--_ink-soft);
    font-size: 0.8125rem;
  }
  .measure {
    grid-column: 1 / -1;
    display: grid;
    grid-template-columns: auto minmax(0, 1fr) auto;
    gap: 8px;
    align-items: center;
  }
  .step {
    gap: 4px;
    padding-inline: 8px;
    font-size: 0.8125rem;
  }
  .step svg.icon {
    inline-size: 16px;
    block-size: 16px;
  }
  .measure input[type='range'] {
    inline-size: 100%;
    min-inline-size: 0;
    margin: 0;
  }
  .water {
    padding-block-start: 16px;
    border-block-start: 1px solid var(--_line);
  }
  .then {
    grid-column: 2 / -1;
    margin: 0;
  }
  .weak-strong {
    grid-column: 1 / -1;
    display: grid;
    grid-template-columns: minmax(0, 1fr);
  }
  /* The strip turns with the direction of writing, as sliders do. */
  .strip:dir(rtl) {
    transform: scaleX(-1);
  }
  .weak-strong input {
    margin: 0;
  }
  .steps {
    grid-column: 1 / -1;
    display: grid;
    grid-template-columns: auto auto;
    gap: 8px;
    align-items: center;
    justify-content: space-between;
  }
  .strength-told {
    grid-column: 1 / -1;
    grid-row: 2;
    text-align: center;
  }
  @container (min-width: 26rem) {
    .steps {
      grid-template-columns: auto minmax(0, 1fr) auto;
    }
    .strength-told {
      grid-area: auto;
    }
  }
  /* Large text: the figure goes under the name. */
  @container (max-width: 14rem) {
    .spoon {
      grid-template-columns: 20px minmax(0, 1fr);
    }
    .spoon-figure {
      grid-column: 2;
    }
  }
  .strip-box {
    position: relative;
    margin-inline: 8px;
  }
  .strip {
    block-size: 36px;
    border-radius: 2px;
    box-shadow: inset 0 0 0 1px rgb(0 0 0 / 0.18);
    forced-color-adjust: none;
  }
  .limit {
    position: absolute;
    inset-block: -2px -4px;
    inset-inline-start: var(--_at);
    inline-size: 3px;
    margin-inline-start: -1.5px;
    border-inline: 1px solid #fff;
    background: #111;
    forced-color-adjust: none;
  }
  .weak-strong .spans {
    margin-inline: 8px;
  }

  /* What can be asked. */
  .tools {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 16px;
    padding-block-start: 24px;
    border-block-start: 1px solid var(--_line);
    justify-items: start;
  }
  .tool {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 16px;
    inline-size: 100%;
  }
  .ask {
    display: flex;
    flex-wrap: wrap;
    gap: 12px;
    align-items: end;
  }
  .ask .field {
    flex: 1 1 168px;
    max-inline-size: 280px;
  }
  .ask .field.eye,
  .ask .field.number {
    flex: 0 1 auto;
  }
  .field.number input {
    inline-size: 12ch;
  }
  .running {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 16px;
    align-items: center;
  }
  .found {
    display: grid;
    border-block-start: 1px solid var(--_line);
  }
  .mix {
    display: grid;
    grid-template-columns: 96px minmax(0, 1fr);
    gap: 8px 16px;
    align-items: center;
    padding-block: 12px;
    border-block-end: 1px solid var(--_line);
  }
  .mix .acts,
  .mix .done {
    grid-column: 1 / -1;
  }
  /* A hairline about what is looked at, since a paint may be as dark or as pale as the grey about it. */
  .pair,
  .fan {
    block-size: 64px;
    padding: 8px;
    background: var(--_surround);
    box-shadow:
      inset 0 0 0 7px var(--_surround),
      inset 0 0 0 8px light-dark(rgb(0 0 0 / 0.3), rgb(255 255 255 / 0.35));
    forced-color-adjust: none;
  }
  .pair {
    display: grid;
    grid-template-columns: 1fr 1fr;
  }
  .pair.alone {
    grid-template-columns: 1fr;
  }
  .mix-words {
    display: grid;
    min-inline-size: 0;
    overflow-wrap: anywhere;
  }
  .fades {
    font-weight: 600;
  }
  .fades::first-letter {
    text-transform: uppercase;
  }
  .fades .plain {
    font-weight: 400;
  }
  .small-title {
    font-size: 0.8125rem;
  }
  .grade {
    display: block;
    font-weight: 600;
  }
  .fan {
    display: flex;
  }
  .fan span {
    flex: 1;
  }
  .puddle {
    display: grid;
    gap: 8px;
  }
  .big {
    font-size: 1.5rem;
    font-weight: 300;
  }
  .doses {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 24px;
  }
  .doses li {
    display: flex;
    gap: 6px;
    align-items: baseline;
  }
  .doses b {
    font-size: 1.25rem;
    font-weight: 400;
  }

  @container (min-width: 600px) {
    .pans {
      grid-template-columns: repeat(auto-fill, minmax(max(120px, 7.5rem), 1fr));
    }
    .mix {
      grid-template-columns: 96px minmax(0, 1fr) auto;
    }
    .mix .acts {
      grid-column: auto;
    }
    .found {
      max-inline-size: 960px;
    }
  }
  @container (max-width: 599px) {
    .wash {
      block-size: 52px;
    }
    .tools > .segments {
      display: grid;
      grid-template-columns: 1fr 1fr;
      gap: 4px;
      inline-size: 100%;
      padding: 0;
    }
    .tools > .segments > button {
      margin: 0;
      border-radius: var(--_radius);
    }
    .ask .field {
      max-inline-size: none;
    }
  }
  /* Too narrow for the puddle beside the wells: it stays in sight above them, where there is height enough. */
  @container (max-width: 719px) {
    .mat:has(.facts) {
      grid-template-columns: minmax(0, 1fr) fit-content(10rem);
      gap: 8px 12px;
    }
    .mat > .facts {
      display: contents;
    }
    .mat .reading {
      grid-template-columns: minmax(0, 1fr);
    }
    .mat .ladder {
      grid-column: 1 / -1;
    }
    .mat .dabs {
      block-size: 16px;
    }
    .mat .spans {
      block-size: 20px;
    }
  }
  @container (480px <= inline-size < 720px) {
    .facts .value {
      font-size: 5rem;
    }
  }
  /* Large text: value and band go below the puddle. */
  @container (max-width: 16rem) {
    .mat:has(.facts) {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  @media (min-height: 32em) {
    @container (16rem < inline-size < 720px) {
      .mat:has(.facts) {
        position: sticky;
        inset-block-start: 0;
        z-index: 1;
      }
    }
  }
  @container (min-width: 720px) {
    .work {
      --_clear: 0;
      display: grid;
      grid-template:
        'mat wells' auto 'layers wells' auto 'outlook wells' 1fr / minmax(0, 1fr)
        minmax(0, 1fr);
      gap: 24px 32px;
    }
    .mat {
      grid-area: mat;
      align-self: start;
    }
    .facts {
      padding: 4px 8px;
    }
    .wells {
      grid-area: wells;
    }
    .layers {
      grid-area: layers;
    }
    .outlook {
      grid-area: outlook;
    }
    .work.blank {
      grid-template: 'mat wells' auto 'layers wells' 1fr / minmax(0, 1fr) minmax(0, 1fr);
    }
  }
  @container (min-width: 1100px) {
    .work.blank {
      grid-template: 'mat wells' auto 'layers wells' 1fr / minmax(0, 7fr) minmax(0, 12fr);
    }
    .work:not(.blank) {
      grid-template:
        'mat mat wells' auto 'layers outlook wells' 1fr / minmax(0, 7fr) minmax(0, 5fr)
        minmax(0, 7fr);
    }
    .work:not(.blank) > .mat {
      grid-template-columns: minmax(0, 7fr) minmax(0, 5fr);
      gap: 24px;
      padding-inline-end: 16px;
    }
    .facts .value {
      font-size: 5rem;
    }
  }
`;

export const deskStyles = [disclosure, fields, ladderStyles, desk];
