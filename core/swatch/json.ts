import { reason, type Reason } from '../base/reason.js';
import { DOCUMENT_LIMITS } from '../base/schema.js';

/**
 * JSON text read, or a value of another kind as it is.
 *
 * @param prefix - The first part of the codes `prefix.too-large` and `prefix.not-json-text`.
 */
export function readJson(value: unknown, prefix: string): { parsed?: unknown; fault?: Reason } {
  if (typeof value !== 'string') return { parsed: value };
  if (value.length > DOCUMENT_LIMITS.characters) {
    const values = { path: '$', found: value.length, limit: DOCUMENT_LIMITS.characters };
    return { fault: reason(`${prefix}.too-large`, values) };
  }
  try {
    return { parsed: JSON.parse(value) as unknown };
  } catch (cause) {
    const found = cause instanceof Error ? cause.message.slice(0, 200) : 'unreadable';
    return { fault: reason(`${prefix}.not-json-text`, { path: '$', found }) };
  }
}
