import { type Side } from './names.js';
import { type Exception, type HullOutline } from './outline.js';

type StrakeException = Extract<Exception, { strakes: unknown }>;
type FrameException = Extract<Exception, { frames: unknown }>;

export const frameExceptions = (outline: HullOutline, frame: number, side: Side): FrameException[] =>
  (outline.exceptions ?? []).filter(
    (one): one is FrameException =>
      'frames' in one &&
      one.frames[0] <= frame &&
      frame <= one.frames[1] &&
      (one.side === undefined || one.side === side),
  );

export const strakeExceptions = (outline: HullOutline, strake: number, side: Side): StrakeException[] =>
  (outline.exceptions ?? []).filter(
    (one): one is StrakeException =>
      'strakes' in one &&
      one.strakes[0] <= strake &&
      strake <= one.strakes[1] &&
      (one.side === undefined || one.side === side),
  );

/** Later exceptions overrule earlier ones. */
export const lastOf = <T, K extends keyof T>(
  list: T[],
  field: K,
  usual: NonNullable<T[K]>,
): NonNullable<T[K]> => list.reduce((value, one) => one[field] ?? value, usual);
