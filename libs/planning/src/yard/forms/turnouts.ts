import { leaves } from '@ribband/crew';
import { turnoutKinds } from '@ribband/roster';
import { z } from 'zod';
import { level, rule } from './form-leaves.js';

const { day, moment, ref, time, words } = leaves;

export const turnoutRuleForm = z.strictObject({
  ref,
  rule,
  startsOn: day,
  untilOn: day.nullable(),
  startTime: time,
  endTime: time,
});

export const singleTurnoutForm = z.strictObject({
  ...{ on: day, startTime: time, endTime: time, note: words.nullable() },
  /** Left out for a usual turnout. */
  kind: z.enum(turnoutKinds).optional(),
});

export const cancelledTurnoutForm = z.strictObject({
  ...{ on: day, startTime: time, reason: words },
  /** When it was called off: what went on until then still has its fires and its round. Older documents do not say. */
  at: moment.optional(),
});

/** `on` and `startTime` name the turnout; `from` and `to` are null when the place lasts as long as the turnout. */
export const placeForm = z.strictObject({
  on: day,
  startTime: time,
  task: ref,
  from: time.nullable(),
  to: time.nullable(),
  volunteer: ref.nullable(),
  skill: ref.nullable(),
  level: level.nullable(),
  role: words.optional(),
  card: ref.optional(),
  state: z.enum(['posted', 'taken', 'left']),
  why: words.nullable(),
  teacher: ref.optional(),
  takenAt: moment.optional(),
  leftAt: moment.optional(),
  leftReason: words.optional(),
});
