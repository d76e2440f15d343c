/**
 * Where a number of the trade comes from. A `document` was read; `memory` names a document that was not opened;
 * `practice` is common practice with no source.
 */
export type Origin =
  { kind: 'document'; document: string } | { kind: 'memory'; document: string } | { kind: 'practice' };

/** A default of the trade. */
export interface Rule<T> {
  key: string;
  /** The rule in one sentence, as it is shown beside every use. */
  says: string;
  value: T;
  origin: Origin;
}

/** The shipwright's own value in place of a default: never without a name and a reason. */
export interface WrittenChange<T> {
  value: T;
  by: string;
  reason: string;
}

export const fromDocument = (document: string): Origin => ({ kind: 'document', document });
export const fromMemory = (document: string): Origin => ({ kind: 'memory', document });
export const PRACTICE: Origin = { kind: 'practice' };

export function originInWords(origin: Origin): string {
  if (origin.kind === 'document') return origin.document;
  if (origin.kind === 'memory') return `${origin.document} (from memory)`;
  return 'common practice, no source';
}

/** Shown wherever limits or cautions are shown. */
export const WHO_DECIDES =
  'These limits are common practice. Shipwright, surveyor, yard, insurer and local code decide; this program cannot tell that a hull is safe.';
