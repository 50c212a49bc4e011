/**
 * Whether a JPEG (ITU-T T.81) or PNG (3rd edition) file breaks off before its end, as a copy or a download that did not finish. Some engines show such
 * a picture as far as it goes and say nothing (Firefox), others refuse it; a painter must not take bands from a blank half.
 *
 * A JPEG's end is its marker EOI (B.2.1). Inside a scan the byte FF is always followed by 00 or by a marker (F.1.2.3), so FF D9 behind the first SOS
 * is that marker; before it an Exif thumbnail may have one of its own. A PNG's end is its chunk IEND (11.2.5). What follows the end, as phones add
 * films, is no part of the picture. Files of other formats are never said to break off.
 */
export function breaksOff(file: Uint8Array): boolean {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  if (file[0] === 0xff && file[1] === 0xd8) return jpegBreaksOff(file, view);
  if (file.length >= 8 && view.getUint32(0) === 0x89504e47) return pngBreaksOff(view);
  return false;
}

/** Whether the last bytes of a file are a JPEG's or a PNG's end, so that the rest need not be read. `tail` holds 12 bytes or more. */
export function endsWhole(tail: Uint8Array): boolean {
  const last = tail.length - 1;
  if (tail[last - 1] === 0xff && tail[last] === 0xd9) return true;
  const IEND = [0, 0, 0, 0, 0x49, 0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82];
  return IEND.every((byte, i) => tail[last - 11 + i] === byte);
}

function jpegBreaksOff(file: Uint8Array, view: DataView): boolean {
  let at = 2;
  while (at + 4 <= file.length && file[at] === 0xff && file[at + 1] !== 0xda)
    at += file[at + 1] === 0xff ? 1 : 2 + view.getUint16(at + 2); // a fill byte, or a segment
  for (at = file.indexOf(0xff, at + 2); at !== -1; at = file.indexOf(0xff, at + 1))
    if (file[at + 1] === 0xd9) return false;
  return true;
}

function pngBreaksOff(view: DataView): boolean {
  for (let at = 8; at + 8 <= view.byteLength; at += 12 + view.getUint32(at))
    if (view.getUint32(at + 4) === 0x49454e44) return false; // IEND
  return true;
}
