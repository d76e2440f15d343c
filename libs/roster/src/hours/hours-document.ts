import { leaves } from '@ribband/crew';
import { z } from 'zod';
import { hourWays } from './hour-entry.entity.js';
import type { ReportDocument } from './report-document.js';

const { byAt, day, idOf, list, moment, ref, time, whole, words } = leaves;

const cents = whole.min(-1_000_000_000).max(1_000_000_000);
const minutes = whole.min(-100_000_000).max(100_000_000);
const sums = list(z.strictObject({ name: words, minutes, cents }));

const reportShape = z.strictObject({
  form: z.literal(1),
  organisation: words,
  grant: z.strictObject({ name: words, funder: words, awardNumber: words.nullable() }),
  from: day,
  to: day,
  madeBy: words,
  madeOn: day,
  lines: list(
    z.strictObject({
      entry: idOf('hours'),
      on: day,
      person: words,
      kind: words,
      task: words.nullable(),
      start: time.nullable(),
      end: time.nullable(),
      minutes,
      centsAnHour: cents,
      source: words,
      cents,
      reason: words.nullable(),
    }),
    20_000,
  ),
  byKind: sums,
  byPerson: sums,
  byDay: sums,
  rates: list(z.strictObject({ kind: words, centsAnHour: cents, source: words })),
  minutes,
  cents,
  leftOut: list(z.strictObject({ why: words, minutes }), 100),
});

/** Kept letter for letter, as its hash was made of it: looked at, not read into another order. */
const frozen = z.custom<ReportDocument>((value) => reportShape.safeParse(value).success, {
  error: 'is no report',
  params: { wouldBeRight: 'the report as it was taken out' },
});

/**
 * The hours book in a yard document. Kinds of work and grants go by their names, which are theirs alone; entries keep
 * their ids, since reports that were made name them. `on` and `startTime` name a turnout.
 */
export const hoursForm = z.strictObject({
  kinds: list(z.strictObject({ name: words, skill: ref.nullable() }), 100),
  grants: list(
    z.strictObject({
      name: words,
      funder: words,
      awardNumber: words.nullable(),
      from: day,
      to: day,
      kinds: list(words, 100),
    }),
    500,
  ),
  rates: list(
    z.strictObject({
      kind: words.nullable(),
      grant: words.nullable(),
      from: day,
      centsAnHour: whole.min(1).max(100_000),
      source: words,
      enteredBy: words,
      enteredAt: moment,
    }),
    2000,
  ),
  /** In the order of entry, those that were corrected among them. */
  entries: list(
    z.strictObject({
      id: idOf('hours'),
      volunteer: ref,
      task: ref.nullable(),
      turnout: z.strictObject({ on: day, startTime: time }).nullable(),
      kind: words,
      on: day,
      startsAt: moment.nullable(),
      endsAt: moment.nullable(),
      minutes: whole.min(-100_000).max(100_000).nullable(),
      way: z.enum(hourWays),
      note: words.nullable(),
      enteredAt: moment,
      enteredBy: words,
      endedBy: words.nullable(),
      isVoid: z.boolean(),
      corrects: idOf('hours').nullable(),
      adjusts: idOf('hours').nullable(),
      reason: words.nullable(),
    }),
    20_000,
  ),
  periods: list(z.strictObject({ from: day, to: day, closed: byAt.unwrap() }), 500),
  /** As they were made. One in force claims an entry for each of its lines. */
  reports: list(
    z.strictObject({
      grant: words,
      document: frozen,
      csv: z.string().max(2_000_000),
      hash: words,
      /**
       * The entries that it claims, in the order of its lines; none once it is withdrawn. What it says is frozen, and so
       * names the entries as they were called in the yard where it was made. Left out: the entries of its lines.
       */
      claims: list(idOf('hours'), 20_000).optional(),
      made: byAt.unwrap(),
      withdrawn: z.strictObject({ at: moment, by: words, reason: words }).nullable(),
    }),
    500,
  ),
});

export type HoursDocument = z.infer<typeof hoursForm>;

type Report = HoursDocument['reports'][number];

/** The entries that a report claims: one for each of its lines, none where it is withdrawn. */
export function claimsOf({ claims, document, withdrawn }: Report): string[] {
  return withdrawn ? [] : (claims ?? document.lines.map(({ entry }) => entry));
}
