import { AccessModule, accessEntities, accessMigrations, Organisation, type Caller } from '@ribband/access';
import { crewEntities, crewMigrations, writeCrew, type CrewDocument } from '@ribband/crew';
import {
  Config,
  Database,
  type DatabaseKind,
  localToInstant,
  newId,
  PlatformModule,
  platformEntities,
  platformMigrations,
  RefusalError,
  Revisions,
  scratchPlace,
  YardClock,
} from '@ribband/platform';
import { SCHOONER } from '../../hull/src/model/halibut-schooner.fixture.js';
import { Module, type INestApplicationContext, type Type } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { nothingCameOff } from './document/came-off-document.js';
import { noSafety } from './permits/safety-document.js';
import { noOpenings } from './document/openings-document.js';
import type { RepairDocument, TaskDocument } from './document/repair-document.js';
import { writeRepair } from './document/write-repair.js';
import { RepairModule } from './repair.module.js';
import { repairEntities, repairMigrations } from './repair.schema.js';
import { noTimber } from './timber/timber-document.js';
import { RosterView, type TurnoutSpan } from './roster-view/roster-view.js';
import type { TaskDraft } from './tasks/task-draft.js';

const zone = 'America/Los_Angeles';

const crew: CrewDocument = {
  skills: [
    { ref: 'puller', name: 'puller' },
    { ref: 'journey', name: 'journey' },
  ],
  cardKinds: [{ ref: 'fire-watch', name: 'fire watch' }],
  volunteers: ['anselm-druitt', 'marguerite-alkin'].map((ref) => ({
    ref,
    name: ref === 'anselm-druitt' ? 'Anselm Druitt' : 'Marguerite Alkin',
    bornOn: '1960-01-01',
    kind: 'volunteer',
    email: null,
    showUpChance: 0.8,
    minutesAWeek: null,
    minutesATurnout: null,
    skills: [],
    cards: [],
    availability: { rules: [], exceptions: [] },
  })),
};

/** A task with nothing but a title and two hours of work for two. */
export const plain: TaskDraft = {
  title: 'Sweep the shed',
  kind: 'work',
  position: null,
  estimate: { by: 'work', personMinutes: { low: 180, likely: 240, high: 360 } },
  crew: { min: 1, efficient: 2, max: 3 },
  seats: [],
  cards: [],
  leastAge: null,
  oneGo: false,
  setUpMinutes: 10,
  extraHandShare: 0.5,
  learnerShare: 0.5,
  tools: [],
  opens: [],
  closes: [],
  hazards: [],
  cautions: [],
  notBefore: null,
  held: null,
};

const task = (ref: string, over: Partial<TaskDocument>): TaskDocument => ({
  ...plain,
  ref,
  progress: null,
  ...over,
});
const nobody = { min: 0, efficient: 0, max: 0 };

/** Shores and braces that somebody has seen stand. */
const smallOpenings: RepairDocument['openings'] = {
  ...noOpenings,
  supports: (['shore', 'brace'] as const).map((kind) => ({
    ref: `${kind}s`,
    kind,
    side: 'starboard',
    firstFrame: 10,
    lastFrame: 21,
    task: null,
    seen: { on: '2027-03-20', by: 'Odalys Brenn' },
    struck: null,
  })),
};

/** A frame drawn, its stubs punched, a look, and she floats. */
export const smallVessel: RepairDocument = {
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
    timeZone: zone,
    liftSlots: [
      {
        ref: 'gate',
        kind: 'gate',
        on: '2027-10-16',
        startTime: '07:10',
        endTime: '08:40',
        confirmBy: '2027-09-18',
        extraCostCents: 0,
        note: null,
        words: [],
      },
      {
        ref: 'fallback',
        kind: 'fallback',
        on: '2027-11-15',
        startTime: '06:50',
        endTime: '08:20',
        confirmBy: null,
        extraCostCents: 640_000,
        note: 'yard time',
        words: [],
      },
    ],
  },
  hull: { outline: SCHOONER },
  survey: null,
  methods: null,
  timber: noTimber,
  tools: [{ ref: 'ship-saw', name: 'ship saw', capacity: 1 }],
  elements: [
    { ref: 'frame-12', name: 'Frame 12', kind: 'frame', side: 'starboard', frame: 12, strake: null },
    { ref: 'frame-13', name: 'Frame 13', kind: 'frame', side: 'starboard', frame: 13, strake: null },
  ],
  openingLimits: [
    {
      ref: 'frames-12-13',
      name: 'Never two neighbours out',
      elements: ['frame-12', 'frame-13'],
      atMost: 1,
      basis: 'common practice',
      override: null,
    },
  ],
  tasks: [
    task('pull-nails', {
      title: 'Strake 9A: pull plank nails to trays',
      position: 'starboard, strake 9',
      estimate: { by: 'count', unit: 'nails', count: 36, perPersonHour: { low: 3, likely: 6, high: 9 } },
      seats: [{ skill: 'puller', level: 2, count: 1, cards: [] }],
      hazards: ['eye', 'strain'],
    }),
    task('cut-bolts', {
      title: 'Frame 12: cut bolts at floor and clamp',
      position: 'starboard, frame 12',
      hazards: ['hot-work', 'noise'],
      cards: ['fire-watch'],
      tools: [{ tool: 'ship-saw', count: 1 }],
    }),
    task('draw-futtocks', {
      title: 'Frame 12: draw futtocks',
      position: 'starboard, frame 12',
      seats: [{ skill: 'journey', level: 3, count: 1, cards: ['fire-watch'] }],
      opens: ['frame-12'],
      hazards: ['crush', 'lifting'],
      cautions: ['Mind the clamp: it is split aft of frame 12.'],
      leastAge: 18,
    }),
    task('set-frame', {
      title: 'Frame 12: set new frame',
      closes: ['frame-12'],
      progress: { startedOn: '2027-03-20', endedOn: null },
    }),
    task('surveyor-looks', { title: 'Surveyor looks', kind: 'hold', estimate: null, crew: nobody }),
    task('launch', {
      title: 'Launch',
      kind: 'launch',
      estimate: null,
      crew: { min: 2, efficient: 6, max: 10 },
    }),
  ],
  links: [
    {
      before: 'cut-bolts',
      after: 'draw-futtocks',
      relation: 'finish-to-start',
      lagMinutes: 0,
      lagKind: 'working',
    },
    {
      before: 'pull-nails',
      after: 'draw-futtocks',
      relation: 'start-to-start',
      lagMinutes: 300,
      lagKind: 'working',
    },
    {
      before: 'set-frame',
      after: 'surveyor-looks',
      relation: 'finish-to-start',
      lagMinutes: 1440,
      lagKind: 'elapsed',
    },
    {
      before: 'surveyor-looks',
      after: 'launch',
      relation: 'finish-to-start',
      lagMinutes: 0,
      lagKind: 'working',
    },
  ],
  openings: smallOpenings,
  cameOff: nothingCameOff,
  safety: noSafety,
  delegations: [],
  tallies: [
    {
      task: 'pull-nails',
      volunteer: 'marguerite-alkin',
      on: '2027-03-20',
      count: 10,
      minutes: 120,
      finished: false,
      note: 'two rusted off',
    },
  ],
};

/** Saturdays of five hours, nine to two. */
const saturdays: TurnoutSpan[] = ['2027-03-20', '2027-03-27', '2027-04-03', '2027-04-10'].map((on) => ({
  id: `turnout_${on}`,
  on,
  startsAt: localToInstant(on, '09:00', zone),
  endsAt: localToInstant(on, '14:00', zone),
}));

export interface SmallYard {
  app: INestApplicationContext;
  database: Database;
  organisationId: string;
  /** Tasks with a place that somebody has taken. */
  taken: Set<string>;
  get<T>(type: Type<T>): T;
  as(role: Caller['role'], volunteerRef?: string): Promise<Caller>;
  idOf(ref: string): Promise<string>;
  setClock(day: string, time: string): Promise<void>;
  revision(): Promise<number>;
  /** Moves into a fresh organisation with the same small vessel, so that tests do not see one another's work. */
  renew(): Promise<void>;
  close(): Promise<void>;
}

/** A yard with the small vessel on a database of its own, its clock standing at noon of 27 March 2027. */
export async function openSmallYard(kind: DatabaseKind): Promise<SmallYard> {
  const place = await scratchPlace(kind);
  const config = Config.read({ DATA_DIR: place.dataDir, DATABASE_URL: place.databaseUrl ?? undefined });
  const schema = {
    entities: [...platformEntities, ...accessEntities, ...crewEntities, ...repairEntities],
    migrations: [...platformMigrations, ...accessMigrations, ...crewMigrations, ...repairMigrations],
  };
  @Module({ imports: [PlatformModule.forRoot({ config, schema }), AccessModule, RepairModule] })
  class Yard {}
  const app = await NestFactory.createApplicationContext(Yard, { logger: ['error'], abortOnError: false });
  const database = app.get(Database);
  const taken = new Set<string>();
  app.get(RosterView).connect({
    turnouts: () => Promise.resolve(saturdays),
    takenTasks: () => Promise.resolve(taken),
  });
  const setClock = (day: string, time: string) =>
    database.write((manager) =>
      app.get(YardClock).set(manager, yard.organisationId, localToInstant(day, time, zone)),
    );
  const fill = (organisationId: string) =>
    database.write(async (manager) => {
      await manager.insert(Organisation, {
        id: organisationId,
        version: 1,
        name: 'Corvane Harbor Old Hulls Society',
        units: 'imperial',
        crewOddsWish: 0.85,
        isDemo: false,
      });
      await writeCrew(manager, organisationId, crew);
      await writeRepair(manager, organisationId, smallVessel, 'Perrin Vaskell', Date.now());
    });
  const idOf = async (ref: string): Promise<string> => {
    for (const table of [
      'task',
      'volunteer',
      'skill',
      'card_kind',
      'tool',
      'hull_element',
      'opening_limit',
    ]) {
      const rows: { id: string }[] = await database.read.query(
        `SELECT "id" FROM "${table}" WHERE "organisationId" = '${yard.organisationId}' AND "ref" = '${ref}'`,
      );
      if (rows[0]) return rows[0].id;
    }
    throw new Error(`nothing is called ${ref}`);
  };
  const yard: SmallYard = {
    app,
    database,
    organisationId: '',
    taken,
    get: (type) => app.get(type),
    async as(role, volunteerRef) {
      const volunteerId = volunteerRef ? await idOf(volunteerRef) : null;
      const { organisationId } = yard;
      return { accountId: `account_of_${role}`, name: `The ${role}`, organisationId, role, volunteerId };
    },
    idOf,
    setClock,
    revision: () => app.get(Revisions).current(database.read, yard.organisationId),
    async renew() {
      yard.organisationId = newId('organisation');
      taken.clear();
      await fill(yard.organisationId);
      await setClock('2027-03-27', '12:00');
    },
    async close() {
      await app.close();
      await place.remove();
    },
  };
  await yard.renew();
  return yard;
}

/** The refusal that a use case answers with. @throws when it went through */
export async function refusalOf(work: Promise<unknown>) {
  try {
    await work;
  } catch (error) {
    if (error instanceof RefusalError) return error.refusal;
    throw error;
  }
  throw new Error('It was not refused');
}
