import { randomBytes } from 'node:crypto';
import { Account, hashOf, Membership } from '@ribband/access';
import { insertAll, Volunteer } from '@ribband/crew';
import { type DatabaseKind, Database, newId, scratchKinds } from '@ribband/platform';
import { schema } from '@ribband/planning';
import { PlaceEntity } from '@ribband/roster';
import { TestYard } from '../../libs/roster/src/roster.fixture.js';
import { freePort, type Program, startProgram } from '../harness/process.js';
import { partAt } from '../parts/parts.js';

/** Milliseconds. The crowd itself takes a fraction of it, also on a machine that does much else. */
const patience = 110_000;
const crowdSize = 1_000;
const lastPlaces = 50;

/** One press: who, which place, with which key, at which door. */
interface Press {
  volunteerId: string;
  cookie: string;
  placeId: string;
  key: string;
  door: string;
}

/** 'yes', or the code of the refusal. */
type Said = string;

const document = `mutation Take($placeId: ID!, $key: ID!) {
  takePlace(placeId: $placeId, key: $key) {
    __typename
    ... on TakePlacePayload { place { id hand { volunteerId } } }
    ... on Refusal { code message }
  }
}`;

async function press({ cookie, placeId, key, door }: Press): Promise<Said> {
  const response = await fetch(`${door}/graphql`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', cookie },
    body: JSON.stringify({ query: document, variables: { placeId, key } }),
  });
  const body = (await response.json()) as {
    data?: { takePlace: { __typename: string; code?: string } };
    errors?: { message: string }[];
  };
  if (!body.data) throw new Error(`no answer: ${JSON.stringify(body.errors)}`);
  return body.data.takePlace.code ?? 'yes';
}

/** A thousand people with a session each, and fifty places that are the last ones of their work. */
async function gather(
  yard: TestYard,
): Promise<{ people: Omit<Press, 'placeId' | 'key' | 'door'>[]; placeIds: string[] }> {
  const { organisationId } = yard;
  const coordinator = yard.caller('coordinator');
  const hours = { startTime: '09:00', endTime: '14:00' };
  const turnout = await yard.at.turnouts.add(coordinator, { on: '2027-03-20', ...hours });
  const placeIds: string[] = [];
  for (let i = 0; i < lastPlaces; i += 1) {
    const taskId = await yard.addTask(`Piece of work ${i + 1}`);
    placeIds.push((await yard.addPlace({ turnoutId: turnout.id, taskId })).id);
  }
  const people = Array.from({ length: crowdSize }, () => {
    const token = randomBytes(32).toString('base64url');
    return { volunteerId: newId('volunteer'), accountId: newId('account'), token };
  });
  const now = Date.now();
  await yard.at.database.write(async (manager) => {
    await insertAll(
      manager,
      Volunteer,
      people.map(({ volunteerId }, i) => ({
        id: volunteerId,
        organisationId,
        ref: `crowd-${i + 1}`,
        version: 1,
        name: `Hand ${i + 1}`,
        kind: 'volunteer' as const,
        bornOn: '1980-02-03',
        email: null,
        showUpChance: 0.8,
        minutesAWeek: null,
        minutesATurnout: null,
      })),
    );
    await insertAll(
      manager,
      Account,
      people.map(({ accountId }, i) => ({
        id: accountId,
        email: `hand-${i + 1}@yard.example`,
        name: `Hand ${i + 1}`,
        passwordHash: 'nobody signs in with it',
        hasOneTimePassword: false,
        openedAt: now,
      })),
    );
    await insertAll(
      manager,
      Membership,
      people.map(({ accountId, volunteerId }) => {
        return {
          id: newId('membership'),
          organisationId,
          accountId,
          role: 'volunteer' as const,
          volunteerId,
        };
      }),
    );
    for (const { accountId, token } of people)
      await manager.query(
        `INSERT INTO "login_session" ("tokenHash", "accountId", "organisationId", "beganAt", "expiresAt")
         VALUES ('${hashOf(token)}', '${accountId}', '${organisationId}', ${now}, ${now + 3_600_000})`,
      );
  });
  return {
    placeIds,
    people: people.map(({ volunteerId, token }) => ({ volunteerId, cookie: `ribband_session=${token}` })),
  };
}

const canRun = (kind: DatabaseKind): boolean => kind === 'sqlite' || partAt('Redis') !== undefined;

describe.each(scratchKinds().filter(canRun))('a thousand people over fifty last places on %s', (kind) => {
  let yard: TestYard;
  const programs: Program[] = [];

  afterAll(async () => {
    for (const program of programs) await program.stop();
    await yard.close();
  }, patience);

  it(
    'press at once: nobody has two, no place has two, and everybody was told what the records say',
    async () => {
      yard = await TestYard.open(kind);
      const { people, placeIds } = await gather(yard);
      // On SQLite the file belongs to the process that serves it.
      await yard.release();
      const doors: string[] = [];
      for (let i = 0; i < (kind === 'postgres' ? 2 : 1); i += 1) {
        const port = await freePort();
        const program = startProgram('apps/api/dist/main.js', kind === 'postgres' ? ['--no-computing'] : [], {
          ...yard.settings,
          PORT: String(port),
          ...(kind === 'postgres'
            ? { REDIS_URL: partAt('Redis') ?? '', REDIS_PREFIX: yard.organisationId.replace('_', '-') }
            : {}),
        });
        programs.push(program);
        await program.until(/Ribband is at/);
        doors.push(`http://127.0.0.1:${port}`);
      }
      const at = (i: number): string => doors[i % doors.length] ?? '';
      const presses = people.flatMap((person, i): Press[] => {
        const one = { ...person, placeId: placeIds[i % lastPlaces] ?? '', key: `press-${i}`, door: at(i) };
        // Some press the same button twice, at two doors where there are two; some want two places at once.
        if (i % 10 === 1) return [one, { ...one, door: at(i + 1) }];
        if (i % 10 === 2)
          return [
            one,
            { ...one, placeId: placeIds[(i + 7) % lastPlaces] ?? '', key: `other-${i}`, door: at(i + 1) },
          ];
        return [one];
      });
      const began = Date.now();
      const said = await Promise.all(presses.map(press));
      const seconds = (Date.now() - began) / 1_000;

      // On SQLite a second process is not let in, so the server goes first.
      for (const program of programs.splice(0)) await program.stop();
      const reader = await Database.open(
        { dataDir: yard.settings['DATA_DIR'] ?? '', databaseUrl: yard.settings['DATABASE_URL'] },
        schema,
      );
      const rows = await reader.read.findBy(PlaceEntity, { organisationId: yard.organisationId });
      await reader.close();

      const holder = new Map(rows.map((row) => [row.id, row.state === 'taken' ? row.volunteerId : null]));
      expect(rows).toHaveLength(lastPlaces);
      const holders = [...holder.values()];
      expect(holders).not.toContain(null);
      expect(new Set(holders).size).toBe(lastPlaces);

      const untrue = presses.flatMap((one, i) => {
        const truth = truthOf(one, holder);
        return truth.includes(said[i] ?? '') ? [] : [{ ...one, said: said[i], truth }];
      });
      expect(untrue).toEqual([]);
      const byKey = new Map<string, Set<Said>>();
      presses.forEach(({ volunteerId, key }, i) => {
        const known = byKey.get(`${volunteerId} ${key}`) ?? new Set();
        byKey.set(`${volunteerId} ${key}`, known.add(said[i] ?? ''));
      });
      expect([...byKey.values()].filter((answers) => answers.size > 1)).toEqual([]);
      expect(seconds).toBeLessThan(90);
    },
    patience,
  );
});

/** What may truly be answered, as the records are afterwards. */
function truthOf({ volunteerId, placeId }: Press, holder: ReadonlyMap<string, string | null>): Said[] {
  if (holder.get(placeId) === volunteerId) return ['yes'];
  const holdsAnother = [...holder.values()].includes(volunteerId);
  return holdsAnother ? ['PLACE_TAKEN', 'ALREADY_ELSEWHERE'] : ['PLACE_TAKEN'];
}
