import type { Words } from '../strings.js';

/** Words of the viewer's tools: crop, sitter, limits to choose from, distrusted spots, and what the photo can tell. */
export const toolsWords: Words = {
  'unit.px': 'px',
  'unit.mm-long': 'Millimetres',
  'unit.in-long': 'Inches',
  'tool.percent': '{percent, 1} %',

  'tool.crop': 'Crop',
  'tool.crop.lead':
    'Choose the part of the photo that is painted. It keeps the proportion of your paper.',
  'tool.crop.part': 'Part of the photo',
  'tool.crop.photo': 'Measured in pixels of the photo, which has {width} x {height}.',
  'tool.crop.left': 'From the left edge',
  'tool.crop.top': 'From the top edge',
  'tool.crop.width': 'Width',
  'tool.crop.height': 'Height',
  'tool.crop.largest': 'Largest part that fits',
  'tool.crop.whole': 'Whole photo',
  'tool.crop.scale': 'One millimetre of paper shows {pixels, 1} pixels of the photo.',
  'tool.crop.scale-in': 'One inch of paper shows {pixels, 0} pixels of the photo.',
  'tool.crop.unlike':
    'The photo has not the proportion of the paper: at the paper’s width it would be {height} {unit} high, the paper is {paper} {unit}. Take a part of it, or turn or change the paper.',
  'tool.crop.keys':
    'Drag the frame or its corners. By keyboard, with the picture in focus: arrows move it, + and − resize it, with Shift in larger steps; the Tab key reaches its corners.',
  'tool.crop.size': '{width} by {height} pixels',
  'tool.crop.said':
    'The part is {width} by {height} pixels, {x} from the left and {y} from the top.',
  'tool.crop.whole-said': 'The whole photo is used.',
  'tool.crop.refused': 'Enter a figure from {least} to {most}.',
  'tool.crop.grip-nw': 'Upper left corner',
  'tool.crop.grip-ne': 'Upper right corner',
  'tool.crop.grip-se': 'Lower right corner',
  'tool.crop.grip-sw': 'Lower left corner',

  'tool.paper': 'Paper, its painted part',
  'tool.paper.sheet': 'Sheet',
  'tool.paper.width': 'Width',
  'tool.paper.height': 'Height',
  'tool.paper.turn': 'Turn the paper',
  'tool.paper.unit': 'Lengths in',
  'tool.paper.said': 'The paper is {width} by {height} {unit}.',
  'tool.paper.refused': 'Enter a width and a height from {least} to {most} {unit}.',
  'sheet.own': 'A size of your own',
  'sheet.eighth': 'Eighth sheet · 11 x 7½ in',
  'sheet.quarter': 'Quarter sheet · 15 x 11 in',
  'sheet.half': 'Half sheet · 22 x 15 in',
  'sheet.full': 'Full sheet · 30 x 22 in',
  'sheet.block-10-7': 'Block · 10 x 7 in',
  'sheet.block-12-9': 'Block · 12 x 9 in',
  'sheet.block-14-10': 'Block · 14 x 10 in',
  'sheet.block-16-12': 'Block · 16 x 12 in',
  'sheet.block-20-14': 'Block · 20 x 14 in',
  'sheet.block-24-18': 'Block · 24 x 18 in',
  'sheet.a5': 'A5 · 210 x 148 mm',
  'sheet.a4': 'A4 · 297 x 210 mm',
  'sheet.a3': 'A3 · 420 x 297 mm',
  'sheet.a2': 'A2 · 594 x 420 mm',
  'sheet.source.iso': 'Size by ISO 216. Enter less if you leave a border.',
  'sheet.source.trade':
    'A usual size; makers differ by a few millimetres. Enter less if you leave a border.',
  'sheet.source.memory':
    'A usual block size, from memory: measure yours. Enter less if you leave a border.',
  'sheet.source.own': 'Measure what you paint on, without the border.',

  'tool.sitter': 'Sitter',
  'tool.sitter.lead':
    'Draw a loose loop around your subject. Limits, shares and what the photo tells are then taken inside it, so that the background has no say.',
  'tool.sitter.none':
    'There is no loop yet: figures are taken from the whole part that is painted.',
  'tool.sitter.holds': 'The loop holds {percent, 0} % of the photo.',
  'tool.sitter.outside':
    'The loop lies outside the part that is painted, so figures are taken from all of that part. Move the loop, or remove it.',
  'tool.sitter.small': 'That line encloses too little. Draw once around the whole subject.',
  'tool.sitter.oval': 'Place an oval',
  'tool.sitter.oval-again': 'Begin again with an oval',
  'tool.sitter.remove': 'Remove the loop',
  'tool.sitter.removed': 'The loop is removed.',
  'tool.sitter.width': 'Width of the loop',
  'tool.sitter.height': 'Height of the loop',
  'tool.sitter.said': 'The loop now holds {percent, 0} % of the photo.',
  'tool.sitter.keys':
    'Drawing again replaces the loop. By keyboard, with the picture in focus: Enter places an oval, arrows move the loop, + and − resize it, with Shift in larger steps, Delete removes it.',

  'tool.distrusted': 'Not to be trusted',
  'tool.distrusted.lead':
    'Mark where the photo gets a value wrong: a burnt-out light, a blocked shadow, a reflection. Give the value that you know or want there; readings, limits and shares then use yours.',
  'tool.distrusted.none':
    'Nothing is marked yet. Tap a place on the photo, or press there and draw outward to set the size.',
  'tool.distrusted.keys':
    'Drag a mark to move it. By keyboard, with the picture in focus: arrows move a cross, Enter marks the place, + and − resize, Delete removes the chosen mark; with Shift in larger steps.',
  'tool.distrusted.row': 'Mark {number}: value {value, 1}',
  'tool.distrusted.row-note': 'Mark {number}: value {value, 1}, {note}',
  'tool.distrusted.remove': 'Remove',
  'tool.distrusted.remove-long': 'Remove mark {number}',
  'tool.distrusted.removed': 'Mark {number} is removed.',
  'tool.distrusted.value': 'Your value, 0 black to 10 white',
  'tool.distrusted.value-said': 'Value {value, 2} is used there.',
  'tool.distrusted.value-refused': 'Enter a value from 0 to 10.',
  'tool.distrusted.size': 'Size, of the photo’s longer side',
  'tool.distrusted.size-said': 'The mark is {percent, 1} % of the photo’s longer side wide.',
  'tool.distrusted.note': 'Note',
  'tool.distrusted.measured': 'The photo itself says value {value, 1} there.',
  'tool.distrusted.place': '{across, 0} % across, {down, 0} % down',
  'tool.distrusted.full': 'No more marks can be made. Remove one first.',

  'tool.proposals': 'Ways to part it',
  'tool.proposals.lead':
    'The same photo, parted in other ways. Choose one, then move the limits as you like.',
  'tool.proposals.group': 'Limits to choose from',
  'tool.proposals.none': 'Open a photo first; small pictures to choose from then stand here.',
  'tool.proposals.optimum': 'As the photo falls',
  'tool.proposals.mostly-middles': 'Mostly middles',
  'tool.proposals.mostly-darks': 'Mostly darks',
  'tool.proposals.mostly-lights': 'Mostly lights',
  'tool.proposals.share': '{name} {percent, 0} %',
  'tool.proposals.between': ', ',
  'tool.proposals.paper': 'bare paper',
  'tool.proposals.said': 'Limits set, {name}: {shares}.',
  'tool.proposals.own':
    'The limits in use are your own; choosing here replaces them, and undo brings them back.',
  'tool.proposals.note':
    '“As the photo falls” keeps each band as even as it can be. Few lights, more darks, mostly middles is the usual plan.',
  'tool.proposals.sitter': 'Shares and limits are taken inside the sitter’s loop.',
  'tool.proposals.key':
    'The photo is in a {key} key with {contrast} contrast: half of it is lighter than value {middle, 1}, and all but its darkest and lightest twentieths lie between {low, 1} and {high, 1}.',
  'tool.key.low': 'low',
  'tool.key.middle': 'middle',
  'tool.key.high': 'high',
  'tool.contrast.close': 'close',
  'tool.contrast.moderate': 'moderate',
  'tool.contrast.strong': 'strong',

  'tool.range': 'What paint can reach',
  'tool.range.lead':
    'A photo goes darker than paint and lighter than paper. Choose where the difference is lost: among the darks, among the lights, or a little everywhere.',
  'tool.range.none':
    'Open a photo first; its values then stand here beside those that paint can reach.',
  'tool.range.hold': 'What stays as it is',
  'tool.range.darks': 'Hold the darks',
  'tool.range.share': 'Share the loss',
  'tool.range.lights': 'Hold the lights',
  'tool.range.to-darks': '{percent, 0} % of the way to holding the darks',
  'tool.range.to-lights': '{percent, 0} % of the way to holding the lights',
  'tool.range.photo': 'Photo',
  'tool.range.paint': 'Paint',
  'tool.range.compressed':
    'The values between {from, 1} and {to, 1} of the photo come closer together: what spans {steps, 1} there spans {left, 1} in paint.',
  'tool.range.whole':
    'Paint reaches every value of this photo: each stays where it is, and there is nothing to share.',
  'tool.range.kept':
    'The photo goes a little beyond paint, but nowhere is more than a fifth of the differences lost.',
  'tool.range.figure': '{value, 1, fixed}',
  'tool.range.limits': 'Limits between the bands',
  'tool.range.between': '{dark} to {light}',
  'tool.range.bare': 'bare paper',
  'tool.range.limit': 'in the photo {photo, 1, fixed}, in paint {paint, 1, fixed}',
  'tool.range.darkest': 'Your darkest paint',
  'tool.range.value': 'Value, 0 black to 10 white',
  'tool.range.lightness': 'Lightness L*',
  'tool.range.usual': 'Back to L* {usual, 0}',
  'tool.range.source':
    'Measured masstones of dark paints lie about L* 24 to 30; yours may differ: enter the darkest you can lay, read when it is dry.',
  'tool.range.paper': 'Your paper is L* {lightness, 0}, value {value, 1}.',
  'tool.range.refused': 'Enter a figure from {least, 1} to {most, 1}.',
  'range.compressed':
    'Between L* {from, 0} and {to, 0} the photo’s values come closer together in paint: {loss, 0} L* are lost there.',

  'tool.report': 'What this photo can tell',
  'tool.report.lead':
    'What can be relied on in this photo at the size of your paper, and what cannot.',
  'tool.report.brush': 'Your brush',
  'tool.report.brush-which': 'Brush',
  'tool.report.brush-unnamed': 'Brush {number}',
  'tool.report.brush-width': 'Width of its pressed stroke',
  'tool.report.brush-refused': 'Enter a width from {least} to {most} {unit}.',
  'tool.report.brush-add': 'Add a brush',
  'tool.report.brush-new': 'round',
  'tool.report.no-brush': 'Your plan has no brush yet; a stroke of {width} is assumed.',
  'tool.report.paper':
    'Press it on scrap paper and measure the stroke. The paper is {width} wide; change it under Crop.',
  'tool.report.no-photo': 'Open a photo first; what it can tell then stands here.',
  'tool.report.waiting': 'The photo is still being opened.',
  'tool.report.running': 'Looking over the photo, {percent, 0} % done',
  'tool.report.stop': 'Stop',
  'tool.report.stopped': 'Stopped before the photo was looked over.',
  'tool.report.again': 'Look again',
  'tool.report.failed': 'The photo could not be looked over.',
  'tool.report.said':
    'The photo is looked over: {count, plural, one {# finding} other {# findings}}.',
  'tool.report.where-whole': 'Of the whole photo.',
  'tool.report.where-crop': 'Of the part that is painted.',
  'tool.report.where-sitter': 'Inside the sitter’s loop.',

  'photo.topic.darks': 'Darks',
  'photo.topic.lights': 'Lights',
  'photo.topic.range': 'Range',
  'photo.topic.cast': 'Light’s colour',
  'photo.topic.sharpness': 'Sharpness',
  'photo.topic.brush': 'Brush',
  'photo.darks-clipped':
    'The darks are clipped over {percent, 1} % of the picture: nothing can be seen in them, so paint them as one shape or ask for a lighter photo.',
  'photo.darks-kept':
    'The darks hold: what you see in the shadows was really there, and you may draw from it.',
  'photo.lights-clipped':
    'The lights, or the strongest colours, are burnt out over {percent, 1} % of the picture: form is lost there, so leave such lights as paper, mark your own value, or ask for a darker photo.',
  'photo.lights-kept': 'The lights hold: the turning of the form in them can be read and painted.',
  'photo.range-narrow':
    'The values span only {low, 1} to {high, 1} of 10: the photo is flatter than your paint can be, so decide yourself how far to set darks and lights apart.',
  'photo.range-full':
    'The values span {low, 1} to {high, 1} of 10: there are darks and lights enough for a full plan.',
  'photo.cast':
    'The light leans to {lean}: white paper would look {lean} in it, so take colours as what they are beside each other, not as they stand.',
  'photo.cast-none': 'The light is nearly neutral: colours can be taken much as they stand.',
  'photo.cast-unsure':
    'The colour of the light cannot be told apart from that of the subject ({whole} overall, {lights} in the lights): look for something known to be white or grey before you trust a colour.',
  'photo.soft':
    'The photo is soft: even its sharpest edges are {widthPx, 0} pixels wide, so decide yourself which edges are hard, and do not copy its blur.',
  'photo.sharp':
    'The photo is sharp: where an edge is soft in it, the form turned there or lay out of focus.',
  'photo.sharpness-unsure':
    'There are too few clear edges to say how sharp the photo is: take its soft edges with care.',
  'photo.brush-coarse':
    'One stroke of this brush covers only {fullPx, 1} pixels of the photo: it cannot show all that the brush could say, so paint smaller, use a larger brush or ask for a larger photo.',
  'photo.brush-fine':
    'One stroke of this brush covers {fullPx, 0} pixels of the photo: it shows more than the brush can say, so leave out what is smaller.',

  'photo.lean.neutral': 'neutral',
  'photo.lean.red': 'red',
  'photo.lean.orange': 'orange',
  'photo.lean.yellow': 'yellow',
  'photo.lean.yellow-green': 'yellow-green',
  'photo.lean.green': 'green',
  'photo.lean.blue-green': 'blue-green',
  'photo.lean.blue': 'blue',
  'photo.lean.violet': 'violet',
  'photo.lean.red-violet': 'red-violet',
};
