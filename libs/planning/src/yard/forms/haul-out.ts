import { leaves } from '@ribband/crew';
import { slotWordKinds } from '@ribband/repair';
import { z } from 'zod';
import { count } from './form-leaves.js';

const { day, list, ref, time, words } = leaves;

const slotWord = z.strictObject({
  word: z.enum(slotWordKinds),
  on: day,
  by: words,
  yardSays: words.nullable(),
  note: words.nullable(),
});

export const liftSlotForm = z.strictObject({
  ref,
  kind: z.enum(['gate', 'fallback', 'later']),
  on: day,
  startTime: time,
  endTime: time,
  confirmBy: day.nullable(),
  extraCostCents: count,
  note: words.nullable(),
  /** What the yard was told about it, oldest first; documents from before that was kept have no such key. */
  words: list(slotWord, 50).default([]),
});
