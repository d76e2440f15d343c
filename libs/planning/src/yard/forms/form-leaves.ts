import { leaves } from '@ribband/crew';
import { z } from 'zod';

/** What several parts of a yard document have in common, besides the leaves of all rooms. */

const { text, whole } = leaves;

export const count = whole.min(0).max(10_000_000);
export const share = z.number().min(0).max(1);
export const level = whole.min(1).max(4);
export const rule = text(
  (v) => v.length > 0 && v.length <= 500,
  'is empty or too long',
  'a rule such as FREQ=WEEKLY;BYDAY=SA',
);
export const side = z.enum(['port', 'starboard']);
export const frame = whole.min(1).max(500);
