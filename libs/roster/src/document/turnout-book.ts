import { gateRuleNames, leaves } from '@ribband/crew';
import { pictureTypes } from '@ribband/repair';
import { z } from 'zod';
import { attendanceWays } from '../attendance/attendance.entity.js';
import { pumpLogForm } from '../pump-log/pump-log.document.js';
import { incidentKinds } from '../safety/incident.entity.js';

const { byAt, day, list, moment, ref, time, whole, words } = leaves;

/** The day and start that name a turnout. */
const turnout = { on: day, startTime: time };

/** What was kept at turnouts: who came, how they were called and ended, what happened. */
export const turnoutBookForm = z.strictObject({
  /** Null: the usual ones. */
  settings: z
    .strictObject({ lateHours: whole.min(0).max(10_000), staleHours: whole.min(0).max(10_000) })
    .nullable(),
  /** When the yard sends no e-mail; null: the usual hours. */
  quietHours: z.strictObject({ from: time, to: time }).nullable(),
  /** What a closing round looks at; null: the usual list. */
  closingList: list(words, 40).nullable(),
  attendance: list(
    z.strictObject({
      ...turnout,
      volunteer: ref,
      arrivedAt: moment,
      leftAt: moment.nullable(),
      how: z.enum(attendanceWays),
      enteredBy: words,
    }),
    50_000,
  ),
  /** Each time that a turnout was called, in order. */
  calls: list(
    z.strictObject({
      ...turnout,
      called: byAt.unwrap(),
      visitors: list(words, 200),
      fallen: list(z.strictObject({ task: ref, why: words }), 200),
      turnedAway: list(words, 200),
      /** The roster as it was before. */
      replaced: list(
        z.strictObject({
          task: ref,
          volunteer: ref.nullable(),
          skill: ref.nullable(),
          level: whole.min(0).max(4),
          state: z.enum(['posted', 'taken', 'left']),
          startsAt: moment,
          endsAt: moment,
        }),
        500,
      ),
    }),
  ),
  /** Stops that somebody with authority set aside, withdrawn ones among them; first documents of this kind have none. */
  setAside: list(
    z.strictObject({
      ...turnout,
      task: ref,
      volunteer: ref,
      rule: z.enum(gateRuleNames),
      stopped: words,
      reason: words,
      granted: byAt.unwrap(),
      withdrawn: byAt,
    }),
  ).default([]),
  /** Who was asked to stand by, and said no where `leftAt` stands; earlier documents have none. */
  swingHands: list(
    z.strictObject({ ...turnout, volunteer: ref, postedAt: moment, leftAt: moment.nullable() }),
    50_000,
  ).default([]),
  absences: list(z.strictObject({ ...turnout, volunteer: ref, saidSo: z.boolean() }), 50_000),
  closingRounds: list(
    z.strictObject({
      ...turnout,
      items: list(z.strictObject({ words, isDone: z.boolean(), note: words.nullable() }), 100),
      accounted: list(ref, 200),
      closed: byAt.unwrap(),
    }),
  ),
  /** Each time that the watch over hot work was written down, in order; first documents of this kind have none. */
  fireWatches: list(
    z.strictObject({
      ...turnout,
      task: ref,
      watch: ref.nullable(),
      notLit: words.nullable(),
      lastSparkAt: moment.nullable(),
      lookBy: words.nullable(),
      lookDueAt: moment.nullable(),
      lookedAt: moment.nullable(),
      found: words.nullable(),
      reason: words.nullable(),
      written: byAt.unwrap(),
    }),
  ).default([]),
  /** Rounds at the pumps on watches; first documents of this kind have none. */
  pumpLog: pumpLogForm.default([]),
  incidents: list(
    z.strictObject({
      kind: z.enum(incidentKinds),
      what: words,
      place: words,
      who: words.nullable(),
      reported: byAt.unwrap(),
      /** Who reported it, where they are in the crew: they may read what they wrote. */
      reporter: ref.nullable(),
      owner: ref.nullable(),
      followUp: words.nullable(),
      dueOn: day.nullable(),
      closed: byAt,
      outcome: words.nullable(),
      /** Null without one, and where the document had no room for it: then one that the yard has is kept. */
      picture: z.strictObject({ type: z.enum(pictureTypes), base64: z.string().max(2_000_000) }).nullable(),
    }),
    2000,
  ),
});

export type TurnoutBook = z.infer<typeof turnoutBookForm>;

/** The most characters of incidents' photographs that a document carries. */
export const mostIncidentCharacters = 600_000;
