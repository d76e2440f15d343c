import { cardPurposes, leaves, skillPurposes } from '@ribband/crew';
import {
  delegationsForm,
  methodsShape,
  noOpenings,
  nothingCameOff,
  noTimber,
  outlineShape,
  safetyForm,
  surveyShape,
  timberForm,
} from '@ribband/repair';
import { hoursForm, turnoutBookForm } from '@ribband/roster';
import { z } from 'zod';
import { cameOffForm } from './forms/came-off.js';
import { count, share } from './forms/form-leaves.js';
import { liftSlotForm } from './forms/haul-out.js';
import { openingsForm } from './forms/openings.js';
import { volunteerForm } from './forms/people.js';
import { cancelledTurnoutForm, placeForm, singleTurnoutForm, turnoutRuleForm } from './forms/turnouts.js';
import { elementForm, linkForm, openingLimitForm, tallyForm, taskForm } from './forms/work.js';
import { planBookForm } from './plan-book.js';

/**
 * A whole yard in one versioned JSON document: what `importYard` takes and `yardDocument` gives back.
 *
 * Every key is always written (`hull`, `survey`, `methods` and `timber` may be wanting, as in older documents); null
 * says "nothing". A key that is not listed here is a fault. Things refer to one another by `ref`, the document's own key.
 * Times are local to the haul-out's zone; lengths of time are whole minutes.
 */

const { day, list, ref, text, whole, words } = leaves;
const zone = text(isZone, 'is not a known time zone', 'a name of the IANA list such as America/Los_Angeles');

export const yardDocument = z.strictObject({
  format: z.literal('ribband-yard/1'),
  organisation: z.strictObject({ name: words, units: z.enum(['imperial', 'metric']), crewOddsWish: share }),
  vessel: z.strictObject({
    name: words,
    rig: words.nullable(),
    builtYear: whole.min(1400).max(2200).nullable(),
    lengthMillimetres: count.nullable(),
    beamMillimetres: count.nullable(),
    draftMillimetres: count.nullable(),
    frameCount: count.nullable(),
    strakeCount: count.nullable(),
    roomAndSpaceMillimetres: count.nullable(),
  }),
  haulOut: z.strictObject({ hauledOutOn: day, timeZone: zone, liftSlots: list(liftSlotForm, 50) }),
  /** Documents from before these three were kept have no such keys. */
  hull: z.strictObject({ outline: outlineShape }).nullable().default(null),
  survey: surveyShape.nullable().default(null),
  methods: methodsShape.nullable().default(null),
  /** The timber book; documents from before it was kept have no such key. */
  timber: timberForm.default(noTimber),
  skills: list(z.strictObject({ ref, name: words, purpose: z.enum(skillPurposes).nullish() }), 100),
  cardKinds: list(z.strictObject({ ref, name: words, purpose: z.enum(cardPurposes).nullish() }), 100),
  tools: list(z.strictObject({ ref, name: words, capacity: whole.min(1).max(1000) }), 100),
  elements: list(elementForm),
  openingLimits: list(openingLimitForm, 500),
  tasks: list(taskForm),
  links: list(linkForm, 20_000),
  turnoutRules: list(turnoutRuleForm, 50),
  closedDays: list(z.strictObject({ on: day, reason: words.nullable() }), 1000),
  singleTurnouts: list(singleTurnoutForm, 1000),
  cancelledTurnouts: list(cancelledTurnoutForm, 1000),
  volunteers: list(volunteerForm, 1000),
  places: list(placeForm, 20_000),
  tallies: list(tallyForm, 20_000),
  /** What holds her and what was seen while she is open; older documents have no such key. */
  openings: openingsForm.default(noOpenings),
  /** Trays, lots and pieces; older documents have no such key. */
  cameOff: cameOffForm.default(nothingCameOff),
  /** Permits, tags, weather and noise; a document that is silent about them leaves what is there. */
  safety: safetyForm.optional(),
  /** Say-so in other hands; older documents have no such key. */
  delegations: delegationsForm.optional(),
  /** The hours book; a document that is silent about it leaves the hours that are there. */
  hours: hoursForm.optional(),
  /** What was kept at turnouts, and how the yard keeps its roster; a silent document leaves what belongs to no turnout. */
  turnoutBook: turnoutBookForm.optional(),
  /** Baselines and paces set by hand; a silent document leaves them. */
  planBook: planBookForm.optional(),
});

export type YardDocument = z.infer<typeof yardDocument>;
export type YardTask = YardDocument['tasks'][number];

function isZone(value: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: value });
    return value.length > 0;
  } catch {
    return false;
  }
}
