import { type ConsentKind, consentKinds, isPhone, leaves } from '@ribband/crew';
import { z } from 'zod';
import { level, rule, share } from './form-leaves.js';

const { day, email, list, ref, text, time, whole, words } = leaves;

export const volunteerForm = z.strictObject({
  ref,
  name: words,
  bornOn: day.nullable(),
  kind: z.enum(['volunteer', 'staff', 'paid']),
  email: email.nullable(),
  /** Older documents have it, of invented people too: what is believed of them before there is a record. Never written out. */
  showUpChance: share.optional(),
  phone: text(
    isPhone,
    'is no telephone number',
    'digits as one dials them, such as +1 360 555 0142',
  ).optional(),
  minutesAWeek: whole.min(1).max(10_080).nullable(),
  minutesATurnout: whole.min(1).max(1440).nullable(),
  skills: list(z.strictObject({ skill: ref, level, signedOffBy: words.nullable() }), 100),
  cards: list(z.strictObject({ kind: ref, issuer: words, expiresOn: day.nullable() }), 100),
  availability: z.strictObject({
    rules: list(
      z.strictObject({
        rule,
        startsOn: day,
        untilOn: day.nullable(),
        from: time.nullable(),
        to: time.nullable(),
      }),
      50,
    ),
    exceptions: list(
      z.strictObject({
        fromOn: day,
        toOn: day,
        canCome: z.boolean(),
        from: time.nullable(),
        to: time.nullable(),
      }),
      500,
    ),
  }),
  turnoutsAMonth: whole.min(1).max(31).nullable().optional(),
  wouldLearn: list(ref, 100).optional(),
  consents: list(
    z.strictObject({
      guardianName: words,
      guardianEmail: email.nullable(),
      kinds: list(z.enum(Object.keys(consentKinds) as [ConsentKind, ...ConsentKind[]]), 8),
      how: words,
      givenOn: day,
      writtenBy: words,
      withdrawnOn: day.nullable(),
    }),
    100,
  ).optional(),
});
