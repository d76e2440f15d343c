import { cardPurposes, type ConsentKind, consentKinds, isPhone, leaves, skillPurposes } from '@ribband/crew';
import {
  cares,
  delegationsForm,
  hazardCodes,
  lineKinds,
  methodsShape,
  noOpenings,
  nothingCameOff,
  noTimber,
  outlineShape,
  pictureTypes,
  pieceFaces,
  pieceFates,
  pieceHeadings,
  repairVerdicts,
  safetyForm,
  slotWordKinds,
  surveyShape,
  timberForm,
} from '@ribband/repair';
import { hoursForm, turnoutBookForm, turnoutKinds } from '@ribband/roster';
import { z } from 'zod';
import { planBookForm } from './plan-book.js';

/**
 * A whole yard in one versioned JSON document: what `importYard` takes and `yardDocument` gives back.
 *
 * Every key is always written (`hull`, `survey`, `methods` and `timber` may be wanting, as in older documents); null says "nothing". A key that is not listed here is a fault. Things refer to one
 * another by `ref`, the document's own key. Times are local to the haul-out's zone; lengths of time are whole minutes.
 */

const { day, email, list, moment, ref, text, time, whole, words } = leaves;
const zone = text(isZone, 'is not a known time zone', 'a name of the IANA list such as America/Los_Angeles');
const count = whole.min(0).max(10_000_000);
const share = z.number().min(0).max(1);
const hands = whole.min(0).max(200);
const level = whole.min(1).max(4);
const rule = text(
  (v) => v.length > 0 && v.length <= 500,
  'is empty or too long',
  'a rule such as FREQ=WEEKLY;BYDAY=SA',
);
const threePoint = (least: number) => {
  const value = z.number().min(least).max(10_000_000);
  return z.strictObject({ low: value, likely: value, high: value });
};

const estimate = z.discriminatedUnion('by', [
  /** So many of something at so many an hour for one person. */
  z.strictObject({
    by: z.literal('count'),
    unit: words,
    count: whole.min(1).max(1_000_000),
    perPersonHour: threePoint(0.001),
  }),
  /** Work that a crew shares: person-minutes. */
  z.strictObject({ by: z.literal('work'), personMinutes: threePoint(1) }),
  /** A length of time whatever the crew: minutes. */
  z.strictObject({ by: z.literal('time'), minutes: threePoint(1) }),
]);

const slotWord = z.strictObject({
  word: z.enum(slotWordKinds),
  on: day,
  by: words,
  yardSays: words.nullable(),
  note: words.nullable(),
});

const liftSlot = z.strictObject({
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

const element = z.strictObject({
  ref,
  name: words,
  kind: z.enum(['frame', 'plank', 'ceiling', 'floor', 'deck', 'other']),
  side: z.enum(['port', 'starboard']).nullable(),
  frame: whole.nullable(),
  strake: whole.nullable(),
});

const openingLimit = z.strictObject({
  ref,
  name: words,
  elements: list(ref),
  atMost: count,
  basis: words,
  override: z
    .strictObject({
      by: words,
      reason: words,
      elements: list(ref, 500).nullable().default(null),
      untilOn: day.nullable().default(null),
    })
    .nullable(),
});

const task = z.strictObject({
  ref,
  title: words,
  kind: z.enum(['work', 'fixed', 'elapsed', 'hold', 'launch']),
  position: words.nullable(),
  estimate: estimate.nullable(),
  crew: z.strictObject({ min: hands, efficient: hands, max: hands }),
  seats: list(z.strictObject({ skill: ref, level, count: whole.min(1).max(100), cards: list(ref, 20) }), 20),
  cards: list(ref, 20),
  leastAge: whole.min(0).max(99).nullable(),
  oneGo: z.boolean(),
  setUpMinutes: whole.min(0).max(600),
  extraHandShare: share,
  learnerShare: share,
  tools: list(z.strictObject({ tool: ref, count: whole.min(1).max(1000) }), 20),
  opens: list(ref, 200),
  closes: list(ref, 200),
  hazards: list(z.enum(hazardCodes), 20),
  cautions: list(words, 20),
  notBefore: day.nullable(),
  held: words.nullable(),
  progress: z.strictObject({ startedOn: day, endedOn: day.nullable() }).nullable(),
});

const link = z.strictObject({
  before: ref,
  after: ref,
  relation: z.enum(['finish-to-start', 'start-to-start', 'finish-to-finish', 'start-to-finish']),
  lagMinutes: whole.min(-1_000_000).max(1_000_000),
  lagKind: z.enum(['working', 'elapsed']),
});

const turnoutRule = z.strictObject({
  ref,
  rule,
  startsOn: day,
  untilOn: day.nullable(),
  startTime: time,
  endTime: time,
});

const volunteer = z.strictObject({
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

/** `on` and `startTime` name the turnout; `from` and `to` are null when the place lasts as long as the turnout. */
const place = z.strictObject({
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

const tally = z.strictObject({
  task: ref,
  volunteer: ref.nullable(),
  on: day,
  count: whole.min(0).max(1_000_000).nullable(),
  minutes: whole.min(0).max(100_000),
  finished: z.boolean(),
  note: words.nullable(),
});

const side = z.enum(['port', 'starboard']);
const frame = whole.min(1).max(500);
const dated = z.strictObject({ on: day, by: words }).nullable();

const openings = z.strictObject({
  supports: list(
    z.strictObject({
      ref,
      kind: z.enum(['shore', 'brace', 'ribband']),
      side: side.nullable(),
      firstFrame: frame.nullable(),
      lastFrame: frame.nullable(),
      task: ref.nullable(),
      seen: dated,
      struck: dated,
    }),
    500,
  ),
  reports: list(
    z.strictObject({
      element: ref,
      isOpen: z.boolean(),
      seenBy: words,
      on: day,
      time,
      enteredBy: words,
      note: words.nullable(),
    }),
  ),
  witnessMarks: list(
    z.strictObject({
      ref,
      name: words,
      kind: z.enum(['breadth', 'keel', 'sheer', 'other']),
      frame: frame.nullable(),
      everyDays: whole.min(1).max(90),
      entries: list(
        z.discriminatedUnion('kind', [
          z.strictObject({
            kind: z.literal('reading'),
            on: day,
            time: z.enum(['afloat', 'after blocking', 'later']),
            reader: words,
            millimetres: z.number().min(0.001).max(100_000),
            enteredBy: words,
            struck: z.strictObject({ by: words, reason: words }).nullable(),
          }),
          z.strictObject({ kind: z.literal('lift'), by: words, reason: words }),
        ]),
      ),
    }),
    200,
  ),
  holdPoints: list(
    z.strictObject({
      task: ref,
      eyes: z.enum(['surveyor', 'insurer', 'funder', 'inspector', 'sling']),
      noticeDays: whole.min(0).max(180),
      notice: dated,
      seen: dated,
      note: words.nullable(),
    }),
  ),
  plankLayouts: list(
    z.strictObject({
      side,
      butts: list(z.strictObject({ strake: frame, bay: frame }), 500),
      by: words,
      reason: words,
    }),
    2,
  ),
});

const people = { by: words, on: day };
const sized = whole.min(1).max(4096);

/** What came off and finds its way back. Corrections are worked in. */
const cameOff = z.strictObject({
  lots: list(
    z.strictObject({
      ref,
      name: words,
      fastening: words,
      size: words,
      count: whole.min(1).max(1_000_000),
      source: words,
      priceCents: count.nullable(),
      cameOn: day,
    }),
    1000,
  ),
  trays: list(
    z.strictObject({
      ref,
      name: words,
      element: ref,
      place: words,
      fastening: words,
      inPlace: count,
      frames: list(z.strictObject({ frame, inPlace: count }), 500),
      pullTask: ref.nullable(),
      driveTask: ref.nullable(),
      entries: list(
        z.strictObject({
          ...people,
          frame: frame.nullable(),
          lines: list(
            z.strictObject({
              kind: z.enum(lineKinds),
              count: whole.min(1).max(100_000),
              reason: words.optional(),
              tray: words.optional(),
            }),
            20,
          ),
          holes: list(
            z.strictObject({
              key: ref,
              nail: z.enum(['sound', 'scrap', 'none']),
              hole: z.enum(['sound', 'enlarged']),
              plugTenths: whole.min(10).max(1000).nullable(),
            }),
            500,
          ),
          counted: count.nullable(),
          lot: ref.nullable(),
          note: words.nullable(),
        }),
      ),
      repairs: list(
        z.strictObject({
          ...people,
          count: whole.min(1).max(100_000),
          verdict: z.enum(repairVerdicts),
          task: ref.nullable(),
          reason: words.nullable(),
        }),
        500,
      ),
    }),
    2000,
  ),
  care: list(z.strictObject({ ...people, fastening: words, care: z.enum(cares), reason: words }), 1000),
  pieces: list(
    z.strictObject({
      code: words,
      name: words,
      element: ref.nullable(),
      place: words,
      face: z.enum(pieceFaces).nullable(),
      heading: z.enum(pieceHeadings).nullable(),
      fate: z.enum(pieceFates),
      keptAt: words.nullable(),
      cameOffOn: day.nullable(),
      notes: list(z.strictObject({ ...people, words }), 1000),
      /** With their bytes as long as there is room: about a megabyte and a half in all. */
      pictures: list(
        z.strictObject({
          hash: text((v) => /^[0-9a-f]{64}$/.test(v), 'is no SHA-256', '64 hexadecimal digits'),
          type: z.enum(pictureTypes),
          width: sized,
          height: sized,
          byteCount: count,
          caption: words.nullable(),
          by: words,
          base64: z.string().max(2_000_000).nullable(),
        }),
        12,
      ),
    }),
    20_000,
  ),
});

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
  haulOut: z.strictObject({ hauledOutOn: day, timeZone: zone, liftSlots: list(liftSlot, 50) }),
  /** Documents from before these three were kept have no such keys. */
  hull: z.strictObject({ outline: outlineShape }).nullable().default(null),
  survey: surveyShape.nullable().default(null),
  methods: methodsShape.nullable().default(null),
  /** The timber book; documents from before it was kept have no such key. */
  timber: timberForm.default(noTimber),
  skills: list(z.strictObject({ ref, name: words, purpose: z.enum(skillPurposes).nullish() }), 100),
  cardKinds: list(z.strictObject({ ref, name: words, purpose: z.enum(cardPurposes).nullish() }), 100),
  tools: list(z.strictObject({ ref, name: words, capacity: whole.min(1).max(1000) }), 100),
  elements: list(element),
  openingLimits: list(openingLimit, 500),
  tasks: list(task),
  links: list(link, 20_000),
  turnoutRules: list(turnoutRule, 50),
  closedDays: list(z.strictObject({ on: day, reason: words.nullable() }), 1000),
  singleTurnouts: list(
    z.strictObject({
      ...{ on: day, startTime: time, endTime: time, note: words.nullable() },
      /** Left out for a usual turnout. */
      kind: z.enum(turnoutKinds).optional(),
    }),
    1000,
  ),
  cancelledTurnouts: list(
    z.strictObject({
      ...{ on: day, startTime: time, reason: words },
      /** When it was called off: what went on until then still has its fires and its round. Older documents do not say. */
      at: moment.optional(),
    }),
    1000,
  ),
  volunteers: list(volunteer, 1000),
  places: list(place, 20_000),
  tallies: list(tally, 20_000),
  /** What holds her and what was seen while she is open; older documents have no such key. */
  openings: openings.default(noOpenings),
  /** Trays, lots and pieces; older documents have no such key. */
  cameOff: cameOff.default(nothingCameOff),
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
