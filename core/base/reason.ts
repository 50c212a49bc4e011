/**
 * A finding without words: a stable code and the figures that belong to it. Elements turn it into a sentence
 * (`components/shared/strings.ts`), other programs may branch on the code.
 */
export interface Reason {
  code: string;
  values: Record<string, string | number>;
}

/** Makes a {@link Reason}. */
export function reason(code: string, values: Record<string, string | number> = {}): Reason {
  return { code, values };
}

/**
 * An error whose `name` is stable and may be branched on; `reason` carries the same name as a code, with figures.
 * Names in use: `PictureEmpty`, `PictureUnsupported`, `PictureUnreadable`, `PictureTooLarge`, `PictureForbidden`,
 * `PictureMissing`, `PictureLost`, `CoreLost`, `CoreUnavailable`, `CoreDisposed`, `PartUnavailable`, `JobUnknown`, `PlanError`, `BoardError`, `LessonError`,
 * `SubmissionError`, `SwatchesError`, `CornersUnusable`.
 * A call that was given up rejects with the platform's `AbortError`.
 */
export class CoreError extends Error {
  readonly reason: Reason;

  constructor(name: string, message: string, values: Record<string, string | number> = {}) {
    super(message);
    this.name = name;
    this.reason = { code: name, values };
  }
}

/** The error of a call that was given up, as the platform names it. */
export function abortError(message = 'The work was given up.'): Error {
  if (typeof DOMException !== 'undefined') return new DOMException(message, 'AbortError');
  const error = new Error(message);
  error.name = 'AbortError';
  return error;
}
