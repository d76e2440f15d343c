import { accessEntities, accessMigrations, Audit, type Caller, Organisation } from '@ribband/access';
import {
  crewEntities,
  crewMigrations,
  FamilyNews,
  idsByRef,
  Skill,
  Volunteer,
  type VolunteerDocument,
  writeCrew,
  YardDay,
} from '@ribband/crew';
import {
  Bus,
  Config,
  Database,
  type DatabaseKind,
  localToInstant,
  Messages,
  newId,
  platformEntities,
  platformMigrations,
  Postman,
  RealClock,
  Recipients,
  Revisions,
  scratchPlace,
  YardClock,
} from '@ribband/platform';
import {
  HaulOut,
  HullDay,
  HullRecords,
  LiftSlot,
  Marks,
  OpeningGate,
  PlanView,
  repairEntities,
  repairMigrations,
  RosterView,
  Seat,
  Task,
  Vessel,
  YardBoard,
} from '@ribband/repair';
import type { EntityManager } from 'typeorm';
import { CallGates } from './call/call-gates.js';
import { Calling } from './call/calling.service.js';
import { Deeds } from './deeds/deeds.service.js';
import { RosterMessages } from './news/roster-messages.js';
import { StopOverrides } from './overrides/stop-overrides.service.js';
import { OpenPlaces } from './places/open-places.service.js';
import { PlaceEntity } from './places/place.entity.js';
import { Places } from './places/places.service.js';
import { Posting } from './places/posting.service.js';
import { StandIns } from './places/stand-ins.service.js';
import { RosterSettings } from './settings/roster-settings.service.js';
import { rosterSource } from './roster-source.js';
import { rosterEntities, rosterMigrations } from './roster.schema.js';
import { ClosedDays } from './turnouts/closed-days.service.js';
import { TurnoutEntity } from './turnouts/turnout.entity.js';
import { SwingHands } from './swing/swing-hands.service.js';
import { Turnouts } from './turnouts/turnouts.service.js';

const zone = 'America/Los_Angeles';
const schema = {
  entities: [...platformEntities, ...accessEntities, ...crewEntities, ...repairEntities, ...rosterEntities],
  migrations: [
    ...platformMigrations,
    ...accessMigrations,
    ...crewMigrations,
    ...repairMigrations,
    ...rosterMigrations,
  ],
};

/** Nobody computes in these tests. */
class Silent {
  nudge(): void {
    // The row is what a test looks at.
  }
  start = (): Promise<void> => Promise.resolve();
  close = (): Promise<void> => Promise.resolve();
  check = (): Promise<void> => Promise.resolve();
}

/** The roster's use cases over one connection to a database. */
export interface RosterAt {
  database: Database;
  turnouts: Turnouts;
  closedDays: ClosedDays;
  places: Places;
  open: OpenPlaces;
  posting: Posting;
  swing: SwingHands;
  calling: Calling;
  overrides: StopOverrides;
  bus: Bus;
  clock: YardClock;
  family: FamilyNews;
  gate: OpeningGate;
}

/** A yard with a haul-out, two Saturdays a week, some people and some tasks, for tests of the roster. */
export class TestYard {
  organisationId = newId('organisation');
  readonly openings: RosterAt[] = [];

  private constructor(private readonly place: Awaited<ReturnType<typeof scratchPlace>>) {}

  static async open(kind: DatabaseKind): Promise<TestYard> {
    const yard = new TestYard(await scratchPlace(kind));
    const { database } = await yard.connect();
    await database.write((manager) => yard.lay(manager));
    return yard;
  }

  /** One more connection: another process on PostgreSQL. SQLite has one. */
  async connect(): Promise<RosterAt> {
    const database = await Database.open(this.place, schema);
    const clock = new RealClock();
    const yardClock = new YardClock(database, clock);
    const revisions = new Revisions(clock, new Silent());
    const audit = new Audit(clock);
    const bus = new Bus();
    const yardDay = new YardDay(yardClock, database);
    yardDay.connect(() => Promise.resolve(zone));
    const roster = new RosterView(yardClock);
    roster.connect(rosterSource);
    const hulls = new HullRecords(database);
    const marks = new Marks(database, revisions, audit, yardClock, clock, hulls);
    const hullDay = new HullDay(new YardBoard(yardClock, roster), new PlanView(), hulls, marks);
    const gate = new OpeningGate(hullDay);
    const deeds = new Deeds(database, clock);
    const config = Config.read({});
    const postman = new Postman(database, clock, config, new Recipients());
    const messages = new Messages(config, clock, yardClock, bus, postman);
    const told = new RosterMessages(messages);
    const family = new FamilyNews(messages, yardDay);
    const standIns = new StandIns(new RosterSettings(database, audit), told, messages);
    const opened: RosterAt = {
      database,
      bus,
      family,
      gate,
      clock: yardClock,
      turnouts: new Turnouts(database, yardClock, revisions, audit, bus, told),
      closedDays: new ClosedDays(database, yardClock, revisions, audit, bus, told),
      places: new Places(database, yardClock, revisions, audit, bus, gate, deeds, standIns, told),
      open: new OpenPlaces(database, yardClock, gate, new PlanView()),
      posting: new Posting(yardClock, bus, gate, told),
      swing: new SwingHands(database, yardClock, audit, bus, deeds, told),
      overrides: new StopOverrides(database, yardClock, yardDay, audit, bus),
      calling: new Calling(database, yardClock, revisions, audit, bus, deeds, new CallGates(gate), family),
    };
    this.openings.push(opened);
    return opened;
  }

  /** Where its records lie, for a process of its own. */
  get settings(): Record<string, string> {
    const { dataDir, databaseUrl } = this.place;
    return { DATA_DIR: dataDir, ...(databaseUrl === null ? {} : { DATABASE_URL: databaseUrl }) };
  }

  /** Lets go of the records; the place stays until it is closed. */
  async release(): Promise<void> {
    for (const { database } of this.openings.splice(0)) await database.close();
  }

  get at(): RosterAt {
    return this.openings[0];
  }

  caller(role: Caller['role'], volunteerId: string | null = null): Caller {
    return {
      accountId: newId('account'),
      name: role,
      organisationId: this.organisationId,
      role,
      volunteerId,
    };
  }

  /** A volunteer's caller by document key. */
  async hand(ref: string): Promise<Caller> {
    const ids = await idsByRef(this.at.database.read, Volunteer, this.organisationId);
    return this.caller('volunteer', ids.get(ref) ?? null);
  }

  async skill(ref: string): Promise<string> {
    const ids = await idsByRef(this.at.database.read, Skill, this.organisationId);
    return ids.get(ref) ?? '';
  }

  async turnout(on: string): Promise<TurnoutEntity> {
    return this.at.database.read.findOneByOrFail(TurnoutEntity, {
      organisationId: this.organisationId,
      heldOn: on,
    });
  }

  placesOn(turnoutId: string): Promise<PlaceEntity[]> {
    return this.at.places.ofTurnouts(this.organisationId, [turnoutId]);
  }

  /** Puts a place on the roster as it is. */
  async addPlace(rest: Partial<PlaceEntity> & { turnoutId: string; taskId: string }): Promise<PlaceEntity> {
    const turnout = await this.at.database.read.findOneByOrFail(TurnoutEntity, { id: rest.turnoutId });
    return this.at.database.write((manager) =>
      manager.save(PlaceEntity, {
        id: newId('place'),
        organisationId: this.organisationId,
        version: 1,
        skillId: null,
        level: 0,
        volunteerId: null,
        state: 'posted' as const,
        startsAt: turnout.startsAt,
        endsAt: turnout.endsAt,
        why: null,
        planId: null,
        takenAt: null,
        leftAt: null,
        leftReason: null,
        teacherId: null,
        ...rest,
      }),
    );
  }

  async addTask(title: string, rest: Partial<Task> = {}, seats: Partial<Seat>[] = []): Promise<string> {
    const id = newId('task');
    await this.at.database.write(async (manager) => {
      await manager.save(Task, { ...plainTask(id, this.organisationId, title), ...rest });
      for (const seat of seats)
        await manager.save(Seat, {
          id: newId('seat'),
          organisationId: this.organisationId,
          taskId: id,
          level: 2,
          count: 1,
          cardKindIds: [],
          ...seat,
        } as Seat);
    });
    return id;
  }

  private async lay(manager: EntityManager): Promise<void> {
    const { organisationId } = this;
    await manager.save(Organisation, {
      id: organisationId,
      version: 1,
      name: 'Corvane Harbor Old Hulls Society',
      units: 'imperial',
      crewOddsWish: 0.85,
      isDemo: true,
    });
    const vessel = await manager.save(Vessel, {
      id: newId('vessel'),
      organisationId,
      name: 'Signe Holvang',
      rig: null,
      builtYear: 1913,
      lengthMillimetres: null,
      beamMillimetres: null,
      draftMillimetres: null,
      frameCount: null,
      strakeCount: null,
      roomAndSpaceMillimetres: null,
    });
    const haulOut = await manager.save(HaulOut, {
      id: newId('haulout'),
      organisationId,
      vesselId: vessel.id,
      version: 1,
      hauledOutOn: '2027-03-06',
      timeZone: zone,
    });
    await manager.save(LiftSlot, {
      id: newId('liftslot'),
      organisationId,
      haulOutId: haulOut.id,
      ref: 'gate',
      kind: 'gate',
      liftsOn: '2027-05-15',
      startTime: '07:10',
      endTime: '08:40',
      startsAt: localToInstant('2027-05-15', '07:10', zone),
      endsAt: localToInstant('2027-05-15', '08:40', zone),
      confirmBy: null,
      extraCostCents: 0,
      note: null,
    });
    await writeCrew(manager, organisationId, {
      skills: [{ ref: 'sawyer', name: 'sawyer' }],
      cardKinds: [{ ref: 'first-aid', name: 'first aid' }],
      volunteers: crowd(),
    });
    await new YardClock(this.at.database, new RealClock()).set(
      manager,
      organisationId,
      localToInstant('2027-03-06', '07:00', zone),
    );
  }

  async close(): Promise<void> {
    for (const { database } of this.openings) await database.close();
    await this.place.remove();
  }
}

function plainTask(id: string, organisationId: string, title: string): Task {
  return {
    id,
    organisationId,
    ref: id,
    version: 1,
    title,
    kind: 'work',
    position: null,
    estimateBy: 'work',
    unit: null,
    count: null,
    low: 60,
    likely: 60,
    high: 60,
    crewMin: 1,
    crewEfficient: 2,
    crewMax: 4,
    cardKindIds: [],
    leastAge: null,
    oneGo: false,
    setUpMinutes: 0,
    extraHandShare: 0.5,
    learnerShare: 0.5,
    hazards: [],
    ownCautions: [],
    notBefore: null,
    held: null,
    startedOn: null,
    endedOn: null,
    droppedAt: null,
    dropReason: null,
  };
}

const firstAid = { kind: 'first-aid', issuer: 'Harbor training', expiresOn: '2028-12-31' };

/** A sawyer, a learner, someone of 17, and thirty hands. */
function crowd(): VolunteerDocument[] {
  const person = (ref: string, rest: Partial<VolunteerDocument> = {}): VolunteerDocument => ({
    ref,
    name: ref,
    bornOn: '1970-05-02',
    kind: 'volunteer',
    email: null,
    showUpChance: 0.8,
    minutesAWeek: null,
    minutesATurnout: null,
    skills: [],
    cards: [],
    availability: { rules: [], exceptions: [] },
    ...rest,
  });
  return [
    person('anselm', { skills: [{ skill: 'sawyer', level: 3, signedOffBy: null }], cards: [firstAid] }),
    person('ysolde', { skills: [{ skill: 'sawyer', level: 1, signedOffBy: null }], cards: [firstAid] }),
    person('cass', {
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
    person('ottoline', {
      cards: [{ kind: 'first-aid', issuer: 'Harbor training', expiresOn: '2027-03-10' }],
    }),
    ...Array.from({ length: 30 }, (_, i) => person(`hand-${i + 1}`, i === 0 ? { cards: [firstAid] } : {})),
  ];
}
