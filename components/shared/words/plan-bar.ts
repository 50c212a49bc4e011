import type { Words } from '../strings.js';

/** Words of the plan's bar, of undo and of what goes wrong with keeping it; those of the panels come with them. */
export const planBarWords: Words = {
  'plan.title': 'Title of this plan',
  'plan.untitled': 'Untitled plan',
  'plan.undo': 'Undo',
  'plan.redo': 'Redo',
  'plan.undo-what': 'Undo: {what}',
  'plan.redo-what': 'Redo: {what}',
  'plan.export': 'Save the plan as a file',
  'plan.saving': 'Keeping…',
  'plan.saved': 'Kept here at {time}',
  'plan.unsaved': 'Not kept yet',
  'plan.memory': 'Kept only while this page is open',
  'plan.restored': 'Your plan of {date} was taken up again.',
  'plan.forked':
    'Another page changed this plan meanwhile. Yours is kept as a copy of its own; both are safe.',
  'plan.newer':
    'Another page has changed this plan since. Take up what it has, or keep yours as a copy beside it.',
  'plan.take-newer': 'Take up the other',
  'plan.keep-copy': 'Keep mine as a copy',
  'plan.copy-kept': 'Yours is kept as a copy of its own; both are safe.',
  'plan.photo-not-kept':
    'The photo cannot be kept on this page (it is not served securely). Keep its file: the plan itself is kept.',
  'plan.photo-missing':
    'The photo “{name}” is not on this device. The plan is whole; find the photo again under Photos.',
  'plan.storage-full':
    'This device has no room left, so changes are not kept. The plan stays usable here: save it as a file, then make room.',
  'plan.storage-full-of':
    'This device has no room left ({used, 0} MB of {room, 0} MB are used), so changes are not kept. The plan stays usable here: save it as a file, then delete plans or make room.',
  'plan.storage-closed':
    'This browser does not let the page keep anything (a private window may be the reason). The plan stays usable here: save it as a file before you leave.',
  'plan.storage-walled':
    'This page may not keep plans: it is shown in a frame that is walled off. The plan stays usable here: save it as a file before you leave.',
  'plan.as-text':
    'If no file came, copy this text into a file called {name}. That file can be opened here again; photos are not in it.',
  'plan.new-unkept':
    'Neither this plan nor the one before is kept here: save each as a file before you leave.',
  'plan.take-before': 'Take up the one before',
  'plan.storage-broken':
    'What this browser keeps for the page is damaged, so changes are not kept. The plan stays usable here: save it as a file, then restart the browser.',
  'plan.storage-newer':
    'The plans on this device were kept by a later edition of this page, so nothing is changed there. Reload the page to get that edition; until then save your plan as a file.',
  'plan.unreadable':
    'The kept plan could not be read, so a new one was begun. The old one is left as it is.',
  'plan.newer-edition':
    'The kept plan was made by a later edition of this page, so a new one was begun. The old one is left as it is: reload the page to get that edition.',

  'plan.shelf': 'Plans',
  'plan.shelf-title': 'Plans on this device',
  'plan.shelf-gone': 'That plan is no longer kept here; another page may have deleted it.',
  'plan.shelf-unreadable': 'That plan could not be read. It is left as it is.',
  'plan.shelf-newer-edition':
    'That plan was made by a later edition of this page. Reload the page to open it.',
  'plan.opened': '“{title}” is in hand.',

  'plan.close': 'Close',

  'plan.photos': 'Photos',
  'plan.photos-title': 'Photos of the sitter',
  'plan.brief': 'Brief',
  'plan.brief-title': 'What was agreed on',
  'plan.file': 'Save as file',
  'plan.file-title': 'One file for the whole plan',
  'plan.did.change': 'the last change',
  'plan.did.title': 'title',
  'plan.did.limits': 'limits',
  'plan.did.shapes': 'shapes',
  'plan.did.focus': 'finer parts',
  'plan.did.background': 'the ground',
  'plan.did.brush': 'the brush',
  'plan.did.bands': 'bands',
  'plan.did.paper': 'paper',
  'plan.did.brushes': 'brushes',
  'plan.did.crop': 'crop',
  'plan.did.sitter': 'loop about the sitter',
  'plan.did.distrusted': 'distrusted spot',
  'plan.did.keep-reading': 'reading kept',
  'plan.did.note-reading': 'note of a reading',
  'plan.did.delete-reading': 'reading deleted',
  'plan.did.send-reading': 'reading sent to the board',
  'plan.did.forget-guesses': 'guesses forgotten',
  'plan.did.board-add': 'swatch added',
  'plan.did.board-move': 'swatch moved',
  'plan.did.board-edit': 'swatch changed',
  'plan.did.board-remove': 'swatch removed',
  'plan.did.board-band': 'bucket changed',
  'plan.did.board-reset': 'board emptied',
  'plan.did.add-photo': 'photo added',
  'plan.did.lead-photo': 'leading photo',
  'plan.did.remove-photo': 'photo taken out',
  'plan.did.note-photo': 'note on a photo',
  'plan.did.add-borrowed': 'detail borrowed',
  'plan.did.note-borrowed': 'note on a detail',
  'plan.did.place-borrowed': 'detail placed',
  'plan.did.delete-borrowed': 'detail deleted',
  'plan.did.brief': 'brief',
  'plan.did.range': 'range of the paint',
  'plan.did.sheet': 'test sheet sent to the board',
  'plan.did.dab-forget': 'dab forgotten',
  'plan.did.file': 'plan from a file',
};
