import type { Words } from '../strings.js';
import { boardFieldWords } from './board-field.js';

/** Words of a board: its buckets, what a person can do, and what is judged of each swatch. Values are Munsell, 0 to 10. */
export const boardWords: Words = {
  ...boardFieldWords,
  'buckets.undo': 'Undo',
  'buckets.redo': 'Redo',
  'buckets.greys': 'See as greys',
  'buckets.judge': 'Judge the board',
  'buckets.exchange': 'Take out, bring in',
  'buckets.forgive': 'Put aside',
  'buckets.sum-none': 'No swatches yet.',
  'buckets.sum-judging': 'The swatches are being judged.',
  'buckets.sum-fine':
    '{count, plural, one {The one swatch belongs.} other {All # swatches belong.}}',
  'buckets.sum':
    '{faults, plural, =0 {No fault} one {# swatch is out of place} other {# swatches are out of place}} among {count}{open, plural, =0 {} other {; # open}}.',
  'buckets.sum-hidden':
    '{count, plural, one {# swatch} other {# swatches}}. The verdict is not shown here.',
  'buckets.sum-submit':
    '{count, plural, one {# swatch} other {# swatches}}. The verdict comes when you hand the board in.',
  'buckets.sum-lack':
    '{count, plural, one {One bucket needs more swatches.} other {# buckets need more swatches.}}',

  'lesson.attempt': 'attempt {attempt}',

  'bucket.range-first': 'dry, value {to, 1} and darker',
  'bucket.range-last': 'dry, value {from, 1} and lighter',
  'bucket.range': 'dry, value {from, 1} to {to, 1}',
  'bucket.range-one': 'all values',
  'bucket.range-detail': 'L* {floor, 1} to {ceiling, 1}',
  'bucket.locked': 'fixed',
  'bucket.lack':
    '{missing, plural, one {One more is asked for here.} other {# more are asked for here.}}',
  'bucket.lack-lean':
    '{missing, plural, one {One that leans {lean} is missing.} other {# that lean {lean} are missing.}}',
  'bucket.lack-neutral':
    '{missing, plural, one {A neutral one is missing.} other {# neutral ones are missing.}}',
  'bucket.empty-first':
    'Your darkest mixes go here: everything that dries to value {to, 1} or darker.',
  'bucket.empty-last':
    'Your lightest mixes go here: everything that dries to value {from, 1} or lighter.',
  'bucket.empty': 'Mixes that dry between value {from, 1} and {to, 1} go here.',
  'bucket.empty-how': 'Add one by its colour, or drag one in.',
  'bucket.empty-how-tied':
    'Add one by its colour, drag one in, or send a reading from the picture.',
  'bucket.gap': '{by, 1} apart',
  'bucket.gap-none': 'touching',
  'bucket.gap-crossed': 'crossing by {by, 1}',
  'bucket.gap-label': 'Distance in value between {darker} and {lighter}: {distance}',
  'bucket.pairs': 'Pairs that cross',
  'bucket.pair': '“{darker}” in {darkerBand} is not darker than “{lighter}” in {lighterBand}.',
  'bucket.pair-more': '{count, plural, one {and one more pair} other {and # more pairs}}',

  'band.change': 'Change bucket',
  'band.name': 'Name of the bucket',
  'band.upto': 'Reaches up to value',
  'band.split': 'Split in two',
  'band.remove': 'Take away',
  'band.remove-hint': 'Its swatches join the neighbouring bucket.',
  'band.done': 'Done',
  'band.fresh': 'darker {name}',
  'band.renamed': 'The bucket is now called {name}.',
  'band.moved': '{name} now reaches up to value {to, 1}.',
  'band.splitted': '{name} was split in two.',
  'band.removed': '{name} was taken away.',

  'add.open': 'Add a colour',
  'add.css': 'Colour, by name or code',
  'add.css-hint': 'tan, #8a6f5c, oklch(0.55 0.03 60)',
  'add.pick': 'Choose by eye',
  'add.name': 'Name (if you like)',
  'add.lay': 'Lay it in',
  'add.cancel': 'Cancel',
  'add.preview': 'value {value, 1}',
  'add.unknown':
    '“{css}” is no colour that CSS knows. Try a name (tan), #8a6f5c or oklch(0.55 0.03 60).',
  'add.missing': 'Write a colour first, or choose one by eye.',
  'add.full': 'The board is full: 1000 swatches. Delete one first.',

  'dab.label': '{name}, value {value, 1}, {verdict}',
  'dab.label-plain': '{name}',
  'dab.hint':
    'Space picks it up; the arrow keys then move it, Space lays it down, Escape puts it back. Delete deletes it.',
  'dab.value': 'value {value, 1}',
  'dab.value-wet': 'value {value, 1} wet',
  'dab.margin-in': '{by, 1} to spare',
  'dab.margin-out': '{by, 1} out',
  'dab.detail': 'L* {lightness, 1}; {lean}, chroma {chroma, 0}',
  'dab.detail-plain': 'L* {lightness, 1}',
  'dab.within': '; known within {uncertainty, 1}',
  'dab.change': 'Change',
  'dab.details': 'Details',
  'dab.name': 'Name',
  'dab.note': 'Note',
  'dab.bucket': 'Lies in',
  'dab.accent': 'Accent: out of value on purpose',
  'dab.wet': 'Still wet: it will dry lighter',
  'dab.delete': 'Delete',
  'dab.done': 'Done',
  'dab.lifted': '{name} is picked up. Arrow keys move it, Space lays it down, Escape puts it back.',
  'dab.at': '{band}, place {place} of {count}.',
  'dab.laid': '{name} lies in {band}, place {place} of {count}.',
  'dab.back': '{name} is back in {band}.',
  'dab.added': '{name} was added to {band}.',
  'dab.deleted': '{name} was deleted.',
  'dab.undone': 'Taken back.',
  'dab.redone': 'Done again.',
  'dab.edited': '{name} was changed.',

  'verdict.said': 'Verdict: {verdict}.',
  'verdict.fits': 'fits',
  'verdict.between': 'at the edge',
  'verdict.unsure': 'not sure',
  'verdict.accent': 'accent',
  'verdict.judging': 'being judged',

  'swatch.fits': '{margin, plural, =0 {Belongs, right at the edge.} other {Belongs, # to spare.}}',
  'swatch.not-darker':
    '{by, plural, =0 {No darker than} other {Lighter by # than}} “{other}”, which lies in {otherBand}{count, plural, one {} other {; crosses # swatches in all}}. Mix it darker or move it.',
  'swatch.not-lighter':
    '{by, plural, =0 {No lighter than} other {Darker by # than}} “{other}”, which lies in {otherBand}{count, plural, one {} other {; crosses # swatches in all}}. Mix it lighter or move it.',
  'swatch.passed':
    '“{other}” from {otherBand} crosses it{count, plural, one {} other {, and so do others}}; mend that one, not this.',
  'swatch.above-ceiling':
    '{by, plural, =0 {A trace} other {# of value}} above {ceiling, 1}, where {band} ends. Mix it darker or move it.',
  'swatch.below-floor':
    '{by, plural, =0 {A trace} other {# of value}} below {floor, 1}, where {band} begins. Mix it lighter or move it.',
  'swatch.between-lighter':
    '{by, plural, =0 {A trace} other {# of value}} above {ceiling, 1}, where {band} was to end, yet darker than {otherBand}, which begins at {next, 1}. It will read.',
  'swatch.between-darker':
    '{by, plural, =0 {A trace} other {# of value}} below {floor, 1}, where {band} was to begin, yet lighter than {otherBand}, which ends at {next, 1}. It will read.',
  'swatch.unsure-order':
    'Lies from {low, 1} to {high, 1}, so it may meet “{other}” in {otherBand} ({otherLow, 1} to {otherHigh, 1}). Measure it dry to be sure.',
  'swatch.unsure-limit':
    'Lies from {low, 1} to {high, 1}, so it may be past {limit, 1}, the edge of {band}. Measure it dry to be sure.',
  'swatch.wet': 'Wet at {wet, 1}; dries to about {dried, 1}, from {low, 1} to {high, 1}.',
  'swatch.accent-lighter': 'Lighter than {band} by {by, 1} on purpose; left out of the order.',
  'swatch.accent-darker': 'Darker than {band} by {by, 1} on purpose; left out of the order.',
  'swatch.accent-inside': 'An accent whose value would belong here anyway; left out of the order.',
  'swatch.bucket-wide':
    'This bucket spans {spread, 1} of value where {allowed, 1} is allowed; “{other}” is its other end.',

  'swatch.lean.neutral': 'neutral',
  'swatch.lean.red': 'leans red',
  'swatch.lean.orange': 'leans orange',
  'swatch.lean.yellow': 'leans yellow',
  'swatch.lean.yellow-green': 'leans yellow-green',
  'swatch.lean.green': 'leans green',
  'swatch.lean.blue-green': 'leans blue-green',
  'swatch.lean.blue': 'leans blue',
  'swatch.lean.violet': 'leans violet',
  'swatch.lean.red-violet': 'leans red-violet',
};
