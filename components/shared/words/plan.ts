import type { Words } from '../strings.js';

/** Words of the plan: keeping, undo, and what went wrong with either. */
export const planWords: Words = {
  'plan.title': 'Title of this plan',
  'plan.untitled': 'Untitled plan',
  'plan.undo': 'Undo',
  'plan.redo': 'Redo',
  'plan.export': 'Save the plan as a file',
  'plan.saving': 'Keeping…',
  'plan.saved': 'Kept on this device at {time}',
  'plan.unsaved': 'Not kept yet',
  'plan.memory': 'Kept only while this page is open',
  'plan.restored': 'Your plan of {date} was taken up again.',
  'plan.forked':
    'Another page changed this plan meanwhile. Yours is kept as a copy of its own; both are safe.',
  'plan.photo-not-kept':
    'The photo cannot be kept on this page (it is not served securely). Keep its file: the plan itself is kept.',
  'plan.storage-full':
    'This device has no room left, so changes are not kept. The plan stays usable here: save it as a file, then make room.',
  'plan.storage-closed':
    'This browser does not let the page keep anything (a private window may be the reason). The plan stays usable here: save it as a file before you leave.',
  'plan.unreadable':
    'The kept plan could not be read, so a new one was begun. The old one is left as it is.',
};
