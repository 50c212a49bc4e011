import { outOfRange, wrongType } from '../base/check.js';
import type { PhotoMarks, Plan, PlanPhoto } from './types.js';

/** The most photos of one sitter, the leading one counted. */
export const MOST_PHOTOS = 50;

/** All photos of the sitter, each once, the leading one first. */
export function photosOf(plan: Plan): PlanPhoto[] {
  const { photo, photos = [] } = plan;
  return photo ? [photo, ...photos.filter(({ sha256 }) => sha256 !== photo.sha256)] : [...photos];
}

/**
 * The plan with one more photo of the sitter: at the end of the others, or leading when there is none yet. A photo that the
 * plan has already (the same digest) changes nothing.
 *
 * @throws {RangeError} when the plan has {@link MOST_PHOTOS} photos.
 */
export function withPhotoAdded(plan: Plan, photo: PlanPhoto): Plan {
  expectDigest('photo.sha256', photo?.sha256);
  const all = photosOf(plan);
  if (all.some(({ sha256 }) => sha256 === photo.sha256)) return plan;
  if (all.length >= MOST_PHOTOS)
    throw outOfRange('photos', all.length + 1, `at most ${MOST_PHOTOS} photos`);
  if (all.length === 0) return { ...plan, photo };
  return withOthers(plan, [...othersOf(plan), photo]);
}

/**
 * The plan led by another of its photos. The one that led takes its place among the others. What was drawn on that one (crop,
 * sitter, distrusted spots, readings, focus areas, landmarks, overrules) is put into `marks`, and what was drawn on the new one before is taken
 * out of them, so that leading to and fro gives the plan as it was. Limits, `range` and steps stay: they are for the painter to look
 * at anew.
 *
 * @throws {RangeError} when the plan has no such photo.
 */
export function withPhotoLeading(plan: Plan, sha256: string): Plan {
  expectDigest('sha256', sha256);
  const { photo } = plan;
  if (photo?.sha256 === sha256) return plan;
  const others = othersOf(plan);
  const place = others.findIndex((other) => other.sha256 === sha256);
  if (place < 0) throw outOfRange('sha256', sha256, 'the digest of a photo of the plan');
  const left = others.slice();
  left.splice(place, 1, ...(photo ? [photo] : []));
  const marks = { ...plan.marks };
  const drawn = marksOf(plan);
  if (photo && Object.keys(drawn).length > 0) marks[photo.sha256] = drawn;
  const found = marks[sha256];
  delete marks[sha256];
  return {
    ...withMarks(withOthers(bare(plan), left), marks),
    ...found,
    photo: others[place],
  };
}

/**
 * The plan without one of its photos, what was drawn on it and the details borrowed from it. When it was the leading one, the first
 * of the others leads. A photo that the plan has not changes nothing.
 */
export function withPhotoRemoved(plan: Plan, sha256: string): Plan {
  expectDigest('sha256', sha256);
  const others = othersOf(plan);
  if (plan.photo?.sha256 === sha256) {
    if (others.length === 0) return withoutPhoto(plan);
    return withPhotoRemoved(withPhotoLeading(plan, others[0].sha256), sha256);
  }
  if (!others.some((other) => other.sha256 === sha256)) return plan;
  const left = others.filter((other) => other.sha256 !== sha256);
  const marks = { ...plan.marks };
  delete marks[sha256];
  return withoutBorrowedFrom(withMarks(withOthers(plan, left), marks), sha256);
}

/**
 * The plan without its leading photo, what was drawn on it (crop, sitter, distrusted spots, readings, focus areas, landmarks, overrules) and the
 * details borrowed from it: another photo is opened in its place. The other photos stay.
 */
export function withoutPhoto(plan: Plan): Plan {
  const { photo } = plan;
  if (!photo && Object.keys(marksOf(plan)).length === 0) return plan;
  const rest = bare(plan);
  return photo ? withoutBorrowedFrom(rest, photo.sha256) : rest;
}

/**
 * The plan that names the picture in hand as its leading photo, without touching what is drawn on it. A note on the photo is kept,
 * and the photo no longer stands among the others.
 */
export function withPhotoInHand(plan: Plan, photo: PlanPhoto): Plan {
  expectDigest('photo.sha256', photo?.sha256);
  const known = photosOf(plan).find(({ sha256 }) => sha256 === photo.sha256);
  const others = (plan.photos ?? []).filter(({ sha256 }) => sha256 !== photo.sha256);
  const note = photo.note ?? known?.note;
  return {
    ...withOthers(plan, others),
    photo: note === undefined ? photo : { ...photo, note },
  };
}

function expectDigest(name: string, value: unknown): void {
  if (typeof value !== 'string') throw wrongType(name, value, 'a SHA-256 digest');
  if (!/^[0-9a-f]{64}$/.test(value))
    throw outOfRange(name, value, '64 lower-case hexadecimal digits');
}

/** The photos beside the leading one. */
function othersOf(plan: Plan): PlanPhoto[] {
  return plan.photo ? photosOf(plan).slice(1) : photosOf(plan);
}

/** What is drawn on the leading photo. */
function marksOf({
  crop,
  sitter,
  distrusted,
  readings,
  focus,
  landmarks,
  overrules,
}: Plan): PhotoMarks {
  return {
    ...(crop && { crop }),
    ...(sitter && { sitter }),
    ...(distrusted && { distrusted }),
    ...(readings && { readings }),
    ...(focus && { focus }),
    ...(landmarks && { landmarks }),
    ...(overrules.length > 0 && { overrules }),
  };
}

/** The plan without its leading photo and what is drawn on it. */
function bare(plan: Plan): Plan {
  const { photo: _photo, crop: _crop, sitter: _sitter, ...rest } = plan;
  delete rest.distrusted;
  delete rest.readings;
  delete rest.focus;
  delete rest.landmarks;
  return { ...rest, overrules: [] };
}

function withOthers(plan: Plan, others: PlanPhoto[]): Plan {
  const { photos: _photos, ...rest } = plan;
  return others.length > 0 ? { ...rest, photos: others } : rest;
}

function withMarks(plan: Plan, marks: Record<string, PhotoMarks>): Plan {
  const { marks: _marks, ...rest } = plan;
  return Object.keys(marks).length > 0 ? { ...rest, marks } : rest;
}

function withoutBorrowedFrom(plan: Plan, sha256: string): Plan {
  if (!plan.borrowed?.some(({ photo }) => photo === sha256)) return plan;
  const { borrowed, ...rest } = plan;
  const left = borrowed.filter(({ photo }) => photo !== sha256);
  return left.length > 0 ? { ...rest, borrowed: left } : rest;
}
