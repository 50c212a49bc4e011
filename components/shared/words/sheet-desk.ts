import type { Words } from '../strings.js';
import { valueCardWords } from './value-card.js';
import { leanWords } from './leans.js';

/** Words of the sheet reader's desk: reading, putting right, sending, drying, one tube, value card, memory. Values are Munsell, 0 to 10. */
export const sheetDeskWords: Words = {
  ...valueCardWords,
  ...leanWords,
  'reader.sheet': 'Test sheet',
  'reader.picture':
    '{count, plural, =0 {Photo of the sheet, no dabs} one {Photo of the sheet, # dab} other {Photo of the sheet, # dabs}}',
  'reader.reading': 'Reading the sheet',
  'reader.read':
    '{count, plural, =0 {No dabs were found.} one {One dab was found.} other {# dabs were found.}}',
  'reader.stopped': 'Stopped. What was read before is kept.',
  'reader.read-again': 'Read the sheet',
  'reader.read-failed':
    'The sheet could not be read. Board and earlier dabs are as they were. Try again, or open the photo again.',
  'reader.dab-failed': 'This place could not be read: it lies outside the photo. Move it back.',
  'reader.no-light':
    'There is too little bare paper to read by. Set the corners so that bare paper lies within them, or photograph the sheet again.',
  'reader.undo': 'Undo',
  'reader.redo': 'Redo',
  'reader.undone': 'Undone.',
  'reader.redone': 'Done again.',
  'reader.undo-plan': 'Undo',
  'reader.add': 'Add a dab',
  'reader.add-hint': 'Draw a box around the dab in the photo.',
  'reader.add-middle': 'Lay one in the middle',
  'reader.nearer': 'Nearer',
  'reader.corners-reset': 'Corners as found',
  'reader.corners-crossed':
    'The corners are crossed or dented. Drag each to its own corner of the sheet.',
  'reader.top-left': 'Top left corner',
  'reader.top-right': 'Top right corner',
  'reader.bottom-right': 'Bottom right corner',
  'reader.bottom-left': 'Bottom left corner',
  'reader.corner':
    '{corner} of the sheet, {x} percent across, {y} percent down. Arrow keys move it, with Shift farther.',
  'reader.box': 'Dab {number}, value {value}. Arrow keys move it, plus and minus size it.',
  'reader.size': 'Size of dab {number}',
  'reader.line-end':
    'End {number} of the line, {x} percent across, {y} percent down. Arrow keys move it.',
  'reader.keys':
    'Drag a corner or a dab, or move it with the arrow keys (Shift: farther). Plus and minus size a dab, Page Up and Page Down go to the next, Delete drops it.',
  'reader.warnings': 'What the photo lacks',
  'reader.limits': 'What a photo of paper cannot tell',

  'reader.dabs': '{count, plural, =0 {No dabs} one {# dab} other {# dabs}}',
  'reader.sheet-is': 'The sheet was',
  'reader.sheet-wet': 'The sheet is taken as {wet}.',
  'reader.wet-dry': 'dry',
  'reader.wet-damp': 'damp',
  'reader.wet-satin': 'satin',
  'reader.wet-shining': 'shining',
  'reader.wet-mixed': 'dry and wet',
  'reader.column': 'Column {column}',
  'reader.column-of': 'Column {column}, {count, plural, one {# dab} other {# dabs}}',
  'reader.column-new': 'A new column',
  'reader.value': 'value {value}',
  'reader.with-recipe': 'recipe noted',
  'reader.sure': 'sure to a tenth',
  'reader.fair': 'sure to a quarter',
  'reader.rough': 'only roughly',
  'reader.even': 'even',
  'reader.lively': 'lively',
  'reader.blotchy': 'blotchy',
  'reader.told-sure': 'The photo tells its value surely.',
  'reader.told-fair': 'Its value may be off by a quarter: more even light would tell it better.',
  'reader.told-rough':
    'Its value is only known roughly: photograph the sheet again in more, and more even, light.',
  'reader.told-even': 'The wash lies even.',
  'reader.told-lively': 'The wash varies a little within itself, as granulating paint does.',
  'reader.told-blotchy':
    'The wash varies much within itself: the value is that of its greater part.',
  'reader.dab': 'Dab {number}',
  'reader.dab-said': 'Dab {number}: value {value}.',
  'reader.within': 'give or take {by}',
  'reader.facts': 'L* {lightness} ± {uncertainty}, a* {a}, b* {b}; varies by {spread} L*.',
  'reader.leans': 'Leans to {lean}.',
  'reader.close': 'Close',
  'reader.name': 'Name',
  'reader.in': 'Belongs to',
  'reader.in-column': 'Put in column {column}.',
  'reader.dab-is': 'This dab was',
  'reader.join': 'Join with …',
  'reader.join-label': 'Join dab {number} with another',
  'reader.join-with': 'dab {number}, value {value}',
  'reader.joined': 'Joined with dab {number}.',
  'reader.part': 'Part in two',
  'reader.part-here': 'Part along the line',
  'reader.part-hint': 'Lay the line where one dab ends and the other begins: drag its ends.',
  'reader.line-turn': 'Turn the line',
  'reader.line-misses': 'The line misses the dab. Lay it across.',
  'reader.leave': 'Leave it',
  'reader.drop': 'Drop',
  'reader.dropped': 'Dab {number} was dropped.',

  'reader.recipe': 'Mixed from',
  'reader.recipe-none': 'not noted',
  'reader.recipe-type': 'Type in the parts …',
  'reader.recipe-keep': 'Note this recipe',
  'reader.tube-choose': 'choose a tube',
  'reader.tube-any': 'any tube',
  'reader.tubes-own': 'On the shelf',
  'reader.tubes-all': 'All tubes',
  'reader.tube-of': 'Tube {number}',
  'reader.tube-more': 'Another tube',
  'reader.parts': 'Parts',
  'reader.parts-wrong': 'Choose a tube in each row, with parts above 0, as 2 or 0.5.',
  'reader.strength': 'Let down with water',
  'reader.let-down': '{times, plural, =1 {heaviest wash} other {to # times the water}}',

  'reader.panels': 'What the dabs are used for',
  'reader.panel-board': 'To the board',
  'reader.panel-drying': 'Wet and dry',
  'reader.panel-tube': 'One tube',
  'reader.panel-card': 'Value card',
  'reader.panel-memory': 'Dab memory',

  'reader.board-title': 'To the board',
  'reader.board-none': 'There are no dabs to send yet. Add one, or photograph the sheet again.',
  'reader.board-hint':
    'Each column goes to the bucket that its value falls in; choose another where you meant another. All dabs are remembered with today’s date.',
  'reader.only-remember': 'no bucket, only remember',
  'reader.send':
    '{count, plural, =0 {Remember the dabs} one {Send # swatch to the board} other {Send # swatches to the board}}',
  'reader.send-again':
    '{count, plural, =0 {Remember the dabs anew} one {Send # swatch anew} other {Send # swatches anew}}',
  'reader.send-again-hint':
    'This sheet was sent before: its swatches are replaced, none is there twice.',
  'reader.sent':
    '{count, plural, =0 {} one {One swatch is on the board. } other {# swatches are on the board. }}{dabs, plural, one {One dab is remembered.} other {# dabs are remembered.}}',
  'reader.board-full':
    'The board has no room for so many swatches. Remove some there, or send fewer columns.',

  'reader.drying-title': 'Wet and dry',
  'reader.drying-hint':
    'Read one sheet twice, wet and dry: from the pairs it is known how your own paint dries. This sheet is taken as {wet}; say so above if it was not.',
  'reader.drying-none':
    'No earlier sheet is remembered yet. Photograph the sheet wet, say above how wet it was, send it; then photograph it dry and pair it here.',
  'reader.pair-sheet': 'The same sheet, read earlier',
  'reader.pair-no-sheet': 'none',
  'reader.earlier-sheet': '{date}, {wet}, {count, plural, one {# dab} other {# dabs}}',
  'reader.earlier-dab': '{number}: value {value}, {wet}',
  'reader.pair-of': 'The same as dab {number}',
  'reader.pair-none': 'no partner',
  'reader.paired': '{count, plural, one {One dab is paired.} other {# dabs are paired.}}',
  'reader.unpaired': 'No dabs are paired.',
  'reader.dries':
    'From {wet} your paint dries {by, 1} L* lighter, from {count, plural, one {# pair} other {# pairs}}.',
  'reader.dries-darker':
    'From {wet} your paint dries {by, 1} L* darker, from {count, plural, one {# pair} other {# pairs}}. Paint hardly does that: was the wet photo in glare?',
  'reader.drying-rule': 'Predictions go by it, give or take {within, 1} L*.',
  'reader.drying-once':
    'Predictions go by it as soon as one of these dabs was read wet and dry a second time.',
  'reader.drying-send': 'Send the sheet, so that its pairs are remembered.',

  'reader.tube-title': 'One tube, from masstone to pale',
  'reader.tube-hint':
    'Paint one tube alone: as thick as you ever lay it, then let down with water by halves. From dry dabs it is told how strong your own tube is.',
  'reader.tube-dabs': 'These are one tube',
  'reader.tube-dabs-all': 'All dabs of the sheet',
  'reader.tube': 'Tube',
  'reader.times-of': 'How far dab {number} was let down',
  'reader.times-reset': 'All dabs again',
  'reader.leave-out': 'leave out',
  'reader.fit': 'How strong is it?',
  'reader.fit-gain': 'Prediction of these dabs off by {before, 1} before, {after, 1} after.',
  'reader.fit-keep': 'Use this strength',
  'reader.fit-kept': '{tube} is now predicted by your own dabs.',
  'reader.fit-failed': 'The strength could not be worked out. Try again.',
  'reader.load': 'Used now: {load, 2} times the strength of the data.',
  'reader.tube-missing': 'Choose the tube that these dabs are of.',
  'reader.tube-no-dabs': 'No dabs are left in: choose a column that has some.',
  'reader.tube-wet': 'Some of these dabs were wet. Strength is told from dry dabs only.',

  'reader.card-title': 'Your own value card',
  'reader.card-hint':
    'Paint a grey for each limit between two bands side by side on a strip. When each is right for this plan, a hole in each makes a card that needs no screen.',
  'reader.card-certified': 'This strip may be relied on for this plan.',
  'reader.card-repaint':
    '{count, plural, one {One grey is to be painted anew.} other {# greys are to be painted anew.}}',
  'reader.card-unsure': 'The photo does not say surely enough: photograph the strip again.',
  'reader.card-wet': 'Let the strip dry, then photograph it again.',
  'reader.card-limit': '{darker} below, {lighter} above: value {value}',
  'reader.card-holes-title': 'Punching the holes',
  'reader.card-holes':
    'Punch a hole of about 6 mm into the middle of each grey, with an office punch or an awl, so that at least 5 mm of grey stay all round. Write the plan’s name and the limit on the back.',
  'reader.card-use':
    'Hold the card in the light that the painting is in and half close your eyes. What shows lighter through a hole than the grey around it belongs above that limit, what shows darker below.',
  'reader.card-page-title': 'The strip to print',
  'reader.card-page-hint':
    'Print it at 100 % on the paper you paint on, or trace it. Paint the greys, let them dry, photograph the strip and open the photo here.',
  'reader.card-page-print': 'Print the strip',
  'reader.card-page-save': 'Save it (SVG)',
  'reader.card-page-file': 'value-card',
  'reader.card-page-saved': '{name} was handed to your downloads.',
  'reader.doubtful': 'look at it',
  'card.fits': 'Value {lightness, 1}: it may stand for the limit.',
  'card.too-dark':
    'Value {lightness, 1}, too dark by {by, 1} L*. Paint it anew with more water, or lift it.',
  'card.too-light':
    'Value {lightness, 1}, too light by {by, 1} L*. Glaze it once, or paint it anew with less water.',
  'card.unsure':
    'Value {lightness, 1}, but only to {uncertainty, 1} L*. Photograph the strip again in even light.',
  'card.missing': 'No grey of the strip is for this limit. Paint one of value {limit, 1}.',
  'card.coloured':
    'It has colour (chroma {chroma, 0}): the eye takes it for lighter. Mix a greyer grey.',
  'card.blotchy': 'It is blotchy ({spread, 1} L*). Lay it evenly, in one go.',
  'card.extra':
    '{count, plural, one {One grey belongs} other {# greys belong}} to no limit; the card works without.',
  'card.order': 'The greys do not go from dark to light along the strip. That works, but misleads.',

  'reader.memory-title': 'Dab memory',
  'reader.memory-none':
    'Nothing is remembered yet. Every dab that is sent stays here with its recipe and its date.',
  'reader.memory-text': 'Words',
  'reader.memory-band': 'Band',
  'reader.memory-any': 'any band',
  'reader.memory-from': 'Value from',
  'reader.memory-to': 'to',
  'reader.memory-found':
    '{count, plural, =0 {No dab fits.} one {One dab of {all}.} other {# dabs of {all}.}}',
  'reader.memory-more': '{count, plural, one {# more} other {# more}}',
  'reader.forget': 'Forget',
  'reader.forget-of': 'Forget the dab of value {value}, {date}',
  'reader.forgotten': 'The dab is forgotten.',
  'reader.habits': 'Your habits',
  'reader.habits-none':
    'None yet. From four dry dabs with recipes on, it is told how your mixes depart from what was meant.',
  'reader.range-darks': 'darks',
  'reader.range-middles': 'middles',
  'reader.range-lights': 'lights',
  'reader.proven': 'Proven mixes',
  'reader.proven-for': 'For the band',
  'reader.proven-none': 'None yet: note recipes before you send dry dabs.',
  'reader.proven-times':
    '{times, plural, one {Painted once, {date}.} other {Painted # times, last {date}.}}',
  'reader.proven-scatter': 'Came out within {scatter, 1} of itself.',
  'habit.lighter': 'Your {range} end {by, 1} L* lighter than meant ({count} dabs).',
  'habit.darker': 'Your {range} end {by, 1} L* darker than meant ({count} dabs).',
  'habit.tube-weaker':
    'Mixes led by {tube} end {by, 1} L* lighter than predicted ({count} dabs): take less water, or fit the tube.',
  'habit.tube-stronger':
    'Mixes led by {tube} end {by, 1} L* darker than predicted ({count} dabs): take more water, or fit the tube.',
  'habit.duller': 'Your colours end duller than meant, by {by, 1} of chroma ({count} dabs).',
  'habit.more-colourful': 'Your colours end purer than meant, by {by, 1} of chroma ({count} dabs).',
  'habit.dries-lighter': 'From {wet}, your paint dries {by, 1} L* lighter ({count} pairs).',
  'habit.dries-darker': 'From {wet}, your paint dries {by, 1} L* darker ({count} pairs).',

  'sheet.not-found':
    'No sheet stands out from what lies about it, so the whole photo was read. Drag the four corners to the sheet, or lay it on something darker and photograph it again.',
  'sheet.cut-off':
    '{sides, plural, one {A side or corner of the sheet lies} other {# sides or corners of the sheet lie}} outside the photo. What is in it was read; photograph the whole sheet if a dab is missing.',
  'sheet.mirrored':
    'The corners go round the wrong way: the photo is mirrored, or two corners have changed places. Values stand; for the columns, turn the photo or drag the corners to their places.',
  'sheet.small':
    'The sheet is only {pixels} pixels across. Go nearer, or take the photo in its full size.',
  'sheet.no-paper':
    'Too little bare paper is seen ({share, 0} percent) to know the light, so nothing was read. Drag the corners out to the bare paper, or leave bare paper between the dabs.',
  'sheet.dark':
    'The photo is dark (paper at value {lightness, 1}), and noise blurs the values. Take it again nearer to the window, or with a longer exposure.',
  'sheet.noise':
    'The photo is grainy, or the light rakes the tooth of the paper ({spread, 1} L*). Take it again in more light from higher up.',
  'sheet.coloured-paper':
    'Paper or light leans to {lean} (chroma {chroma, 0}). It was taken for the light. If the paper itself is tinted, trust the values, not the colours.',
  'sheet.uneven':
    'The light is less even than can be followed (off by {residual, 1} L*). Move away from lamps, let no shadow fall on the sheet, take it again.',
  'sheet.falls-off':
    'One end of the sheet has only {share, 0} percent of the light of the other. Turn the sheet along the window, or go farther from it.',
  'sheet.shadow':
    'A shadow lies on {share, 0} percent of the sheet{dabs, plural, =0 {} one {; one dab in it was left out} other {; # dabs in it were left out}}. Step aside and take it again.',
  'sheet.glare':
    'The sheet reflects the light on {share, 0} percent of it{dabs, plural, =0 {} one {; one dab there was left out} other {; # dabs there were left out}}. No flash; tilt the sheet until the shine is gone.',
  'sheet.wet-glare':
    '{count, plural, one {One dab has} other {# dabs have}} spots that shine; these were left out. For wet paint, tilt the sheet away from the window.',
  'sheet.clipping':
    'The paper is overexposed on {share, 0} percent, so pale dabs cannot be told there. Expose for the paper: touch it on the screen, then take it again.',
  'sheet.dark-clipping':
    '{count, plural, one {One dab is} other {# dabs are}} so dark in the photo that nothing is told within. Give it more light.',
  'sheet.blur':
    'The photo is blurred. Touch the sheet on the screen to focus, hold still or rest your elbows, and take it again.',
  'sheet.compressed':
    'The file was saved at a low quality ({quality, 0} of 100), which leaves its tones in coarse steps: values are less sure, and colours suffer first. Open the photo as the camera wrote it, not one that was sent by a messenger.',
  'sheet.maybe-shadow':
    '{count, plural, one {One shape has} other {# shapes have}} the paper’s own colour with less light and may be a shadow. Drop it from the list if it is one; leave it if it is grey paint.',
  'sheet.at-edge':
    '{count, plural, one {One painted shape} other {# painted shapes}} at the edge of the sheet {count, plural, one {was} other {were}} left out: tape, table, or a dab that is cut off. Add it by hand if it is a dab.',
  'sheet.no-dabs':
    'Nothing looks like a dab. Dabs have to be as broad as a thumb and differ from the paper; add one by hand, or check the corners.',

  'sheet.no-rim':
    'No rim of the paper is seen, so the whole photo was read as the sheet. If a table as light as the paper shows, drag the four corners to the sheet.',
  'sheet.paper-assumed':
    'The paper is taken to be neutral and of value {lightness, 1}, as your plan says. Were it darker or tinted, so would be every dab.',
  'sheet.brighteners':
    'Brighteners in paper and paint that glow in daylight are seen as part of the colour.',
  'sheet.camera-tone':
    'The camera’s own contrast is taken to be the usual one (sRGB). A phone that lifts or deepens the darks shifts them.',
  'sheet.camera-colour':
    'A camera sees three colours under one light: values are surer than hues, strong colours are the least sure.',
  'sheet.as-paper':
    'A dab that differs from the paper by less than {contrast, 1} L* is not told from it.',
  'sheet.empty-place':
    'Column {column} has a free place ({place} from the top): bare paper, or a dab as light as the paper.',

  'dab.gamut':
    'Its colour is stronger than a photo file can hold: hue and strength are only the nearest, and the value is less sure.',
  'dab.maybe-shadow':
    'It may be a shadow: it has the paper’s own colour with less light. Drop it if it is one.',
};
