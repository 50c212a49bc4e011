import {
  parsePlan,
  photosOf,
  PlanError,
  reason,
  serialisePlan,
  type Plan,
  type Reason,
} from '../shared/core.js';
import { withoutPlace } from './photo-clean.js';
import { digestOf } from './storage.js';
import { isZip, partsOf, readPart, zipped, ZipError, type ZipInput, type ZipPart } from './zip.js';

/** What a plan file may hold at most. Bytes are counted once inflated. */
export const FILE_LIMITS = {
  fileBytes: 600_000_000,
  parts: 100,
  /** A plan has at most 4 000 000 characters, of at most four bytes each. */
  planBytes: 16_000_000,
  photoBytes: 200_000_000,
  allBytes: 600_000_000,
} as const;

const PLAN_PART = 'plan.json';
const PHOTO_PART = /^photos\/([0-9a-f]{64})\.[a-z0-9]{1,5}$/;

const ENDINGS: Readonly<Record<string, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/avif': 'avif',
  'image/gif': 'gif',
};

/** A photo with the file it is kept as. */
export interface PhotoFile {
  sha256: string;
  name: string;
  blob: Blob;
}

/** A plan as it was read from a file. */
export interface PlanInFile {
  plan: Plan;
  photos: PhotoFile[];
}

/** Why a file was not taken up: every fault as a code with figures. */
export class PlanFileError extends Error {
  constructor(readonly faults: Reason[]) {
    super(`The file cannot be taken up: ${faults.map(({ code }) => code).join(', ')}`);
    this.name = 'PlanFileError';
  }
}

/** A plan as a file without photos: JSON as `serialisePlan` writes it. */
export function planAsJson(plan: Plan): Blob {
  return new Blob([serialisePlan(plan)], { type: 'application/json' });
}

/**
 * A plan with its photos as one ZIP file: `plan.json` and `photos/<SHA-256>.<ending>`. Photos leave without the place
 * where they were taken; since that changes the file, the plan inside names the digest of what is inside.
 */
export async function planAsZip(plan: Plan, photos: readonly PhotoFile[]): Promise<Blob> {
  let text = serialisePlan(plan);
  const inputs: ZipInput[] = [];
  for (const { sha256, blob } of photos) {
    const clean = await withoutPlace(blob);
    const digest = await digestOf(clean);
    text = text.replaceAll(sha256, digest);
    const name = `photos/${digest}.${ENDINGS[clean.type] ?? 'bin'}`;
    if (!inputs.some((input) => input.name === name)) inputs.push({ name, blob: clean });
  }
  const json = new Blob([serialisePlan(parsePlan(text))], { type: 'application/json' });
  return zipped([{ name: PLAN_PART, blob: json, squeeze: true }, ...inputs]);
}

/** A file name made of a title: nothing that a file system refuses. */
export function fileNameOf(title: string, ending: string): string {
  const plain = title
    .replace(/[\u0000-\u001f\u007f<>:"/\\|?*\u202a-\u202e\u2066-\u2069]+/g, ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[. ]+|[. ]+$/g, '')
    .slice(0, 80)
    .trim();
  return `${plain || 'plan'}.${ending}`;
}

/**
 * Reads a plan file, with or without photos. Sizes are looked at before anything is read; photos whose content is not what
 * the plan names are faults; parts that a plan file does not have are left alone.
 * @throws PlanFileError with every fault.
 */
export async function readPlanFile(file: Blob): Promise<PlanInFile> {
  try {
    if (file.size > FILE_LIMITS.fileBytes) throw refusal('too-large', FILE_LIMITS.fileBytes);
    if (await isZip(file)) return await fromZip(file);
    if (file.size > FILE_LIMITS.planBytes) throw refusal('too-large', FILE_LIMITS.planBytes);
    const text = (await file.text()).replace(/^\ufeff/, '');
    if (!/^\s*\{/.test(text.slice(0, 1000)))
      throw new PlanFileError([reason('plan-file.not-a-plan')]);
    return { plan: parsePlan(text), photos: [] };
  } catch (thrown) {
    throw asRefusal(thrown);
  }
}

async function fromZip(file: Blob): Promise<PlanInFile> {
  const parts = await partsOf(file, FILE_LIMITS.parts);
  const planPart = parts.find(({ name }) => name === PLAN_PART);
  if (!planPart) throw new PlanFileError([reason('plan-file.no-plan')]);
  if (planPart.size > FILE_LIMITS.planBytes) throw refusal('too-large', FILE_LIMITS.planBytes);
  const json = await readPart(file, planPart, FILE_LIMITS.planBytes);
  const plan = parsePlan((await json.text()).replace(/^\ufeff/, ''));
  const faults: Reason[] = [];
  const photos: PhotoFile[] = [];
  let bytes = 0;
  for (const { sha256, name } of photosOf(plan)) {
    const part = parts.find((each) => PHOTO_PART.exec(each.name)?.[1] === sha256);
    if (!part) continue;
    bytes += part.size;
    if (bytes > FILE_LIMITS.allBytes) throw refusal('too-large', FILE_LIMITS.allBytes);
    if (part.size > FILE_LIMITS.photoBytes)
      faults.push(
        reason('plan-file.photo-too-large', { name, limit: FILE_LIMITS.photoBytes / 1e6 }),
      );
    else photos.push({ sha256, name, blob: await photoIn(file, part) });
  }
  for (const { sha256, name, blob } of photos)
    if ((await digestOf(blob)) !== sha256) faults.push(reason('plan-file.photo-altered', { name }));
  if (faults.length > 0) throw new PlanFileError(faults);
  return { plan, photos };
}

async function photoIn(file: Blob, part: ZipPart): Promise<Blob> {
  const blob = await readPart(file, part, FILE_LIMITS.photoBytes);
  const ending = part.name.slice(part.name.lastIndexOf('.') + 1);
  const type = Object.keys(ENDINGS).find((each) => ENDINGS[each] === ending) ?? '';
  return new Blob([blob], { type });
}

function refusal(code: 'too-large', limit: number): PlanFileError {
  return new PlanFileError([reason(`plan-file.${code}`, { limit: limit / 1e6 })]);
}

function asRefusal(thrown: unknown): PlanFileError {
  if (thrown instanceof PlanFileError) return thrown;
  if (thrown instanceof PlanError) return new PlanFileError(thrown.faults);
  if (thrown instanceof ZipError)
    return new PlanFileError([
      reason(`plan-file.${thrown.fault}`, {
        limit: thrown.fault === 'too-large' ? FILE_LIMITS.planBytes / 1e6 : FILE_LIMITS.parts,
      }),
    ]);
  return new PlanFileError([reason('plan-file.unreadable')]);
}
