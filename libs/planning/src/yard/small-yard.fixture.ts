import { noTimber } from '@ribband/repair';
import { SCHOONER } from '../../../hull/src/model/halibut-schooner.fixture.js';
import { smallBooks } from './small-books.fixture.js';
import { smallHull } from './small-hull.fixture.js';
import type { YardDocument } from './yard-document.js';

/** A yard of six tasks with everything in it once: for tests. */
export function smallYard(): YardDocument {
  return {
    format: 'ribband-yard/1',
    organisation: { name: 'Corvane Harbor Old Hulls Society', units: 'imperial', crewOddsWish: 0.85 },
    vessel: {
      name: 'Signe Holvang',
      rig: 'halibut schooner',
      builtYear: 1913,
      lengthMillimetres: 23165,
      beamMillimetres: 5029,
      draftMillimetres: 2591,
      frameCount: 44,
      strakeCount: 19,
      roomAndSpaceMillimetres: 508,
    },
    haulOut: {
      hauledOutOn: '2027-03-06',
      timeZone: 'America/Los_Angeles',
      liftSlots: [
        slot('gate', '2027-04-17', '2027-04-03', 0),
        {
          ...slot('fallback', '2027-05-15', null, 640_000),
          words: [
            {
              ...{ word: 'confirmed', on: '2027-02-20', by: 'Thandeka Orrill' },
              ...{ yardSays: 'Held for you; letter 27-114', note: null },
            },
          ],
        },
        slot('later', '2027-06-19', null, 900_000),
      ],
    },
    hull: { outline: SCHOONER },
    survey: null,
    methods: null,
    timber: noTimber,
    skills: [
      { ref: 'sawyer', name: 'sawyer', purpose: null },
      { ref: 'puller', name: 'nail puller', purpose: null },
    ],
    cardKinds: [{ ref: 'first-aid', name: 'first aid', purpose: 'first-aid' }],
    tools: [{ ref: 'band-mill', name: 'band mill', capacity: 1 }],
    elements: [
      { ref: 'plank-s9a', name: 'plank S9A', kind: 'plank', side: 'starboard', frame: null, strake: 9 },
      { ref: 'frame-12', name: 'frame 12', kind: 'frame', side: 'starboard', frame: 12, strake: null },
    ],
    openingLimits: [
      {
        ref: 'strakes',
        name: 'open strakes',
        elements: ['plank-s9a'],
        atMost: 1,
        basis: 'common practice',
        override: {
          by: 'Odalys Brenn',
          reason: 'ribbands and daily readings',
          elements: ['plank-s9a'],
          untilOn: '2027-05-31',
        },
      },
    ],
    tasks: [
      task('pull-nails', 'Strake 9A: pull plank nails to trays', {
        position: 'S9A',
        estimate: { by: 'count', unit: 'nails', count: 36, perPersonHour: { low: 3, likely: 4, high: 8 } },
        crew: { min: 1, efficient: 2, max: 3 },
        seats: [{ skill: 'puller', level: 2, count: 1, cards: [] }],
        hazards: ['eye', 'strain'],
        cautions: ['Clear the plank edge first.'],
        opens: ['plank-s9a'],
      }),
      task('saw-plank', 'Saw the new plank', {
        estimate: { by: 'work', personMinutes: { low: 300, likely: 480, high: 700 } },
        crew: { min: 2, efficient: 2, max: 2 },
        seats: [{ skill: 'sawyer', level: 2, count: 1, cards: ['first-aid'] }],
        leastAge: 18,
        tools: [{ tool: 'band-mill', count: 1 }],
        hazards: ['machine', 'noise', 'dust'],
      }),
      task('hang-plank', 'Steam and hang the plank', {
        estimate: { by: 'time', minutes: { low: 150, likely: 180, high: 240 } },
        kind: 'fixed',
        crew: { min: 3, efficient: 3, max: 4 },
        oneGo: true,
        closes: ['plank-s9a'],
        hazards: ['burn', 'lifting'],
      }),
      task('bungs-set', 'Bungs set', {
        kind: 'elapsed',
        estimate: { by: 'time', minutes: { low: 1440, likely: 1440, high: 2880 } },
        crew: { min: 0, efficient: 0, max: 0 },
      }),
      task('surveyor-passes', 'The surveyor passes the plank', {
        kind: 'hold',
        estimate: null,
        crew: { min: 0, efficient: 0, max: 0 },
      }),
      task('launch', 'Launch', { kind: 'launch', estimate: null, crew: { min: 2, efficient: 3, max: 4 } }),
    ],
    links: [
      link('pull-nails', 'hang-plank'),
      link('saw-plank', 'hang-plank'),
      { ...link('hang-plank', 'bungs-set'), lagMinutes: 300, lagKind: 'working' },
      { ...link('hang-plank', 'surveyor-passes'), relation: 'finish-to-finish', lagMinutes: 60 },
      link('bungs-set', 'launch'),
      link('surveyor-passes', 'launch'),
    ],
    turnoutRules: [
      {
        ref: 'usual',
        rule: 'FREQ=WEEKLY;BYDAY=WE,SA,SU',
        startsOn: '2027-03-06',
        untilOn: null,
        startTime: '09:00',
        endTime: '14:00',
      },
    ],
    closedDays: [{ on: '2027-03-28', reason: 'Easter Sunday' }],
    singleTurnouts: [
      { on: '2027-03-09', startTime: '17:00', endTime: '20:00', note: 'an evening for the mill' },
      // Afloat still, two nights before she comes out.
      { on: '2027-03-04', startTime: '20:00', endTime: '00:00', note: null, kind: 'watch' },
    ],
    cancelledTurnouts: [{ on: '2027-04-04', startTime: '09:00', reason: 'the yard has the lift' }],
    volunteers: [
      volunteer('anselm-druitt', 'Anselm Druitt', 'FREQ=WEEKLY;BYDAY=WE,SA', {
        skills: [{ skill: 'sawyer', level: 3, signedOffBy: 'Odalys Brenn' }],
        cards: [{ kind: 'first-aid', issuer: 'Harbor training', expiresOn: '2027-12-31' }],
        email: 'anselm@oldhulls.example',
        minutesAWeek: 900,
      }),
      volunteer('marguerite-alkin', 'Marguerite Alkin', 'FREQ=WEEKLY;BYDAY=WE,SA', {
        skills: [{ skill: 'puller', level: 2, signedOffBy: null }],
      }),
      volunteer('halcyon-reeves', 'Halcyon Reeves', 'FREQ=WEEKLY;BYDAY=SA,SU', {
        skills: [{ skill: 'puller', level: 1, signedOffBy: null }],
      }),
      volunteer('cass-underhay', 'Cass Underhay', 'FREQ=WEEKLY;BYDAY=SA', {
        bornOn: '2010-01-15',
        consents: [
          {
            guardianName: 'A parent',
            guardianEmail: null,
            kinds: ['light', 'eye', 'dust', 'noise', 'strain', 'lifting', 'chemical', 'wet'],
            how: 'on paper',
            givenOn: '2027-02-20',
            writtenBy: 'Perrin Vaskell',
            withdrawnOn: null,
          },
        ],
      }),
    ],
    places: [
      {
        on: '2027-03-06',
        startTime: '09:00',
        task: 'pull-nails',
        from: null,
        to: null,
        volunteer: 'marguerite-alkin',
        skill: 'puller',
        level: 2,
        state: 'taken',
        why: 'the only puller that day',
      },
      {
        on: '2027-03-06',
        startTime: '09:00',
        task: 'pull-nails',
        from: '09:00',
        to: '12:00',
        volunteer: null,
        skill: null,
        level: null,
        state: 'posted',
        why: null,
      },
    ],
    safety: {
      permits: [
        {
          kind: 'lead',
          task: 'pull-nails',
          by: 'Odalys Brenn',
          opensAt: '2027-03-05T17:30:00.000Z',
          expiresAt: '2027-05-01T06:59:59.999Z',
          oxygenPercent: null,
          flammablePercent: null,
          note: 'kept wet',
          closed: { at: '2027-04-01T17:00:00.000Z', by: 'Perrin Vaskell' },
        },
      ],
      tags: [
        {
          kind: 'staging',
          name: 'starboard staging',
          inspectedOn: '2027-03-05',
          inspectedBy: 'Odalys Brenn',
          expiresOn: '2027-04-30',
          withdrawnBy: null,
        },
      ],
      weather: [
        {
          on: '2027-03-06',
          highFahrenheit: 52,
          lowFahrenheit: 38,
          windMilesAnHour: 12,
          airQualityIndex: null,
          thunder: false,
          holdReason: 'wind at the steam box',
          holdHazards: ['burn'],
          writtenBy: 'Perrin Vaskell',
        },
      ],
      loudness: [{ tool: 'band-mill', dba: 92, measuredOn: '2027-03-05', by: 'Odalys Brenn' }],
      settings: {
        protectorsRating: 25,
        ages: {
          visitorsBelow: 14,
          inSightBelow: 16,
          teardownFrom: 18,
          byHazard: { machine: 18, dust: 15 },
        },
        agesReason: 'as counsel wrote',
        agesBy: 'Thandeka Orrill',
      },
    },
    delegations: [
      {
        volunteer: 'anselm-druitt',
        scope: 'tasks',
        names: ['saw-plank'],
        from: '2027-03-06',
        until: '2027-04-06',
        reason: 'away until April',
        givenBy: 'Odalys Brenn',
        givenAt: '2027-03-05T18:00:00.000Z',
        revoked: null,
      },
    ],
    ...smallBooks(),
    ...smallHull(),
    tallies: [
      {
        task: 'pull-nails',
        volunteer: 'marguerite-alkin',
        on: '2027-03-06',
        count: 10,
        minutes: 150,
        finished: false,
        note: 'two broke',
      },
    ],
  };
}

type Task = YardDocument['tasks'][number];
type Volunteer = YardDocument['volunteers'][number];

function slot(
  kind: 'gate' | 'fallback' | 'later',
  on: string,
  confirmBy: string | null,
  extraCostCents: number,
) {
  return {
    ...{ ref: kind, kind, on, startTime: '07:10', endTime: '08:40', confirmBy, extraCostCents, note: null },
    words: [],
  };
}

function task(ref: string, title: string, rest: Partial<Task>): Task {
  return {
    ref,
    title,
    kind: 'work',
    position: null,
    estimate: null,
    crew: { min: 1, efficient: 1, max: 1 },
    seats: [],
    cards: [],
    leastAge: null,
    oneGo: false,
    setUpMinutes: 0,
    extraHandShare: 0.5,
    learnerShare: 0.5,
    tools: [],
    opens: [],
    closes: [],
    hazards: [],
    cautions: [],
    notBefore: null,
    held: null,
    progress: null,
    ...rest,
  };
}

function link(before: string, after: string): YardDocument['links'][number] {
  return { before, after, relation: 'finish-to-start', lagMinutes: 0, lagKind: 'elapsed' };
}

function volunteer(ref: string, name: string, rule: string, rest: Partial<Volunteer>): Volunteer {
  return {
    ref,
    name,
    bornOn: '1970-05-02',
    kind: 'volunteer',
    email: null,
    minutesAWeek: null,
    minutesATurnout: null,
    skills: [],
    cards: [],
    availability: {
      rules: [{ rule, startsOn: '2027-03-06', untilOn: null, from: null, to: null }],
      exceptions: [{ fromOn: '2027-04-10', toOn: '2027-04-11', canCome: false, from: null, to: null }],
    },
    ...rest,
  };
}
