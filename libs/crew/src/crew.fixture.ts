import { AccessModule, accessEntities, accessMigrations, Organisation, type Caller } from '@ribband/access';
import {
  Config,
  Database,
  type DatabaseKind,
  newId,
  PlatformModule,
  platformEntities,
  platformMigrations,
  RefusalError,
  Revisions,
  scratchPlace,
  YardClock,
  localToInstant,
} from '@ribband/platform';
import { Module, type INestApplicationContext, type Type } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { CrewModule } from './crew.module.js';
import { crewEntities, crewMigrations } from './crew.schema.js';
import type { CrewDocument } from './document/crew-document.js';
import { writeCrew } from './document/write-crew.js';
import { YardDay } from './yard/yard-day.js';

const zone = 'America/Los_Angeles';

/** A small crew: a sawyer who teaches, a learner, a minor. */
export const smallCrew: CrewDocument = {
  skills: [
    { ref: 'sawyer', name: 'sawyer', purpose: null },
    { ref: 'caulker', name: 'caulker', purpose: null },
  ],
  cardKinds: [{ ref: 'first-aid', name: 'first aid', purpose: 'first-aid' }],
  volunteers: [
    {
      ref: 'anselm-druitt',
      name: 'Anselm Druitt',
      bornOn: '1959-09-14',
      kind: 'volunteer',
      email: 'anselm@example.org',
      minutesAWeek: null,
      minutesATurnout: 300,
      skills: [{ skill: 'sawyer', level: 3, signedOffBy: 'Odalys Brenn' }],
      cards: [{ kind: 'first-aid', issuer: 'Harbour first-aid school', expiresOn: '2027-05-31' }],
      availability: {
        rules: [
          { rule: 'FREQ=WEEKLY;BYDAY=WE,SA', startsOn: '2027-03-01', untilOn: null, from: null, to: null },
        ],
        exceptions: [{ fromOn: '2027-06-05', toOn: '2027-06-26', canCome: false, from: null, to: null }],
      },
    },
    {
      ref: 'ysolde-pankhart',
      name: 'Ysolde Pankhart',
      bornOn: '1993-02-01',
      kind: 'volunteer',
      email: null,
      minutesAWeek: 600,
      minutesATurnout: null,
      skills: [{ skill: 'sawyer', level: 1, signedOffBy: null }],
      cards: [],
      availability: {
        rules: [
          {
            rule: 'FREQ=WEEKLY;INTERVAL=2;BYDAY=SA',
            startsOn: '2027-03-06',
            untilOn: '2027-09-30',
            from: '09:30',
            to: '13:00',
          },
        ],
        exceptions: [],
      },
    },
    {
      ref: 'noor-tamblyn',
      name: 'Noor Tamblyn',
      bornOn: '2010-10-01',
      kind: 'volunteer',
      email: null,
      minutesAWeek: null,
      minutesATurnout: null,
      skills: [],
      cards: [],
      availability: { rules: [], exceptions: [] },
    },
  ],
};

export interface SmallYard {
  app: INestApplicationContext;
  database: Database;
  organisationId: string;
  get<T>(type: Type<T>): T;
  /** Somebody who asks; a volunteer is the crew's entry with this key. */
  as(role: Caller['role'], volunteerRef?: string): Promise<Caller>;
  idOf(ref: string): Promise<string>;
  revision(): Promise<number>;
  /** Moves into a fresh organisation with the same small crew, so that tests do not see one another's work. */
  renew(): Promise<void>;
  close(): Promise<void>;
}

/**
 * A yard with the small crew on a database of its own, its clock standing at 6 March 2027.
 * @param settings further ones, such as of a mail server
 */
export async function openSmallYard(
  kind: DatabaseKind,
  settings: Record<string, string> = {},
): Promise<SmallYard> {
  const place = await scratchPlace(kind);
  const config = Config.read({
    DATA_DIR: place.dataDir,
    DATABASE_URL: place.databaseUrl ?? undefined,
    ...settings,
  });
  const schema = {
    entities: [...platformEntities, ...accessEntities, ...crewEntities],
    migrations: [...platformMigrations, ...accessMigrations, ...crewMigrations],
  };
  @Module({ imports: [PlatformModule.forRoot({ config, schema }), AccessModule, CrewModule] })
  class Yard {}
  const app = await NestFactory.createApplicationContext(Yard, { logger: ['error'], abortOnError: false });
  const database = app.get(Database);
  app.get(YardDay).connect(() => Promise.resolve(zone));
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
      await writeCrew(manager, organisationId, smallCrew);
      await app.get(YardClock).set(manager, organisationId, localToInstant('2027-03-06', '08:00', zone));
    });
  const idOf = async (ref: string): Promise<string> => {
    for (const table of ['volunteer', 'skill', 'card_kind']) {
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
    get: (type) => app.get(type),
    async as(role, volunteerRef) {
      const volunteerId = volunteerRef ? await idOf(volunteerRef) : null;
      const { organisationId } = yard;
      return { accountId: `account_of_${role}`, name: `The ${role}`, organisationId, role, volunteerId };
    },
    idOf,
    revision: () => app.get(Revisions).current(database.read, yard.organisationId),
    async renew() {
      yard.organisationId = newId('organisation');
      await fill(yard.organisationId);
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
