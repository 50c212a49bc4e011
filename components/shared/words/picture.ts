import type { Words } from '../strings.js';

/** Words about opening pictures and about what a photo can tell. */
export const pictureWords: Words = {
  'picture.open': 'Open a photo',
  'picture.camera': 'Take a photo',
  'picture.paste': 'Paste',
  'picture.forgive': 'Put aside',
  'picture.animated': 'This file holds several frames; the first one is used.',
  'picture.thin':
    'This picture is {width} x {height} pixels: a strip. It opens, but shapes in it can hardly be judged.',
  'picture.small': 'This picture is only {width} x {height} pixels; ask for a larger copy.',
  'picture.clipboard-empty': 'The clipboard holds no picture. Copy one first, then paste.',
  'picture.clipboard-closed':
    'The browser does not let this page look into the clipboard. Press Ctrl+V (or ⌘V) here instead.',
  PictureEmpty: 'The file is empty. Ask for it again, or choose another one.',
  PictureUnsupported:
    'Browsers cannot open {format} pictures here. Save it as JPEG or PNG (on a phone: share it as “most compatible”), then open that.',
  PictureUnreadable:
    'This file is broken, breaks off before its end, or is not a picture. Ask for it again, or save it as JPEG or PNG and open that.',
  PictureTooLarge:
    'This picture has {width} x {height} pixels, more than can be opened here. Make a copy of at most 50 megapixels and open that.',
  PictureForbidden:
    'The picture at this address cannot be reached, or its server does not let other pages read it. Save it to this device and open the file.',
  PictureMissing:
    'There is no picture at this address. Check the address, or save the picture to this device and open the file.',
  PictureLost: 'This picture is no longer open. Open it again; your plan is kept.',
  CornersUnusable:
    'No sheet can have these corners: they cross, lie on one line, or one lies inside the others. Choose them anew in order: upper left, upper right, lower right, lower left.',
  CoreLost: 'The calculation stopped unexpectedly. Your plan is kept; open the photo again.',
  CoreUnavailable:
    'The calculation could not be started in this browser. Save the plan as a file if it is not kept here, then reload the page.',
  PartUnavailable:
    'A part of the calculation could not be loaded. Check the connection, then try again. Before you reload the page, save the plan as a file if it is not kept here.',
  CoreDisposed:
    'The calculation was ended. Save the plan as a file if it is not kept here, then reload the page.',
  TypeError: 'This is not a picture that can be opened. Choose a JPEG or PNG file.',
  RangeError: 'This is not a picture that can be opened. Choose a JPEG or PNG file.',
  'progress.label': 'Opening the photo',
  'progress.read': 'Reading the file',
  'progress.decode': 'Unpacking the photo',
  'progress.reduce': 'Making the working copy',
  'progress.stop': 'Stop',
};
