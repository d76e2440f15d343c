import { jest } from '@jest/globals';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { setTimeout as pause } from 'node:timers/promises';
import { type Role, roles, WhoMay } from '@ribband/access';
import { DemoYard } from '@ribband/planning';
import { newId } from '@ribband/platform';
import { startApi, type TestApi, testPassword } from '../harness/api.js';
import type { Client } from '../harness/client.js';
import { documentFor, type ScalarValues } from '../harness/documents.js';

const demoYard = fileURLToPath(new URL('../../fixtures/demo-yard.json', import.meta.url));

/** Well-formed values that make little sense together. */
const small: ScalarValues = (name, field) =>
  ({
    ID: newId(field.replace(/Ids?$/, '').toLowerCase() || 'task'),
    String: 'x',
    Int: 1,
    Float: 0.5,
    Boolean: true,
    DateTime: '2027-03-06T17:00:00Z',
    LocalDate: '2027-03-13',
    LocalTime: '09:00',
    JSONDocument: { format: 'ribband-yard/1' },
  })[name];
const odd: ScalarValues = (name) =>
  ({
    ID: '',
    String: `'"\\ \u0000 ${'é'.repeat(5_000)}`,
    Int: -2_147_483_648,
    Float: -1e300,
    Boolean: false,
    DateTime: '0001-01-01T00:00:00Z',
    LocalDate: '9999-12-31',
    LocalTime: '23:59',
    JSONDocument: [null],
  })[name];
const large: ScalarValues = (name) =>
  ({
    ID: `task_${'9'.repeat(3_000)}`,
    String: 'FREQ=SECONDLY',
    Int: 2_147_483_647,
    Float: 1e300,
    Boolean: true,
    DateTime: '9999-12-31T23:59:59Z',
    LocalDate: '0001-01-01',
    LocalTime: '00:00',
    JSONDocument: 'x'.repeat(10_000),
  })[name];

/** Those that change who is signed in; they have tests of their own. */
const apart = new Set(['signIn', 'signOut', 'changePassword']);
/** Some 300 operations for five people each, on a busy machine. */
jest.setTimeout(400_000);

describe('every operation, tried by everybody on the demo yard', () => {
  let api: TestApi;
  const people = new Map<Role | null, Client>();

  beforeAll(async () => {
    api = await startApi({ computing: 'run' });
    const seeded = await api.server.app
      .get(DemoYard)
      .seed(JSON.parse(readFileSync(demoYard, 'utf8')), testPassword);
    for (const { role, email } of seeded) people.set(role, await api.signIn(email));
    people.set(null, api.visitor());
    const isThere = async (): Promise<boolean> =>
      (await people.get('director')?.query('{ plan { id } }'))?.['plan'] !== null;
    while (!(await isThere())) await pause(100);
  });
  afterAll(() => api.close());

  const tried = (kind: 'Query' | 'Mutation'): { name: string; may: (role: Role | null) => boolean }[] =>
    api.server.app
      .get(WhoMay)
      .operations()
      .filter((operation) => operation.kind === kind && !apart.has(operation.name))
      .map(({ name, leave }) => ({
        name,
        may: (role) =>
          leave?.who === 'anyone' ||
          (role !== null && (leave?.who === 'signed in' || leave?.who.includes(role) === true)),
      }));

  const fieldOf = (kind: 'Query' | 'Mutation', name: string) => {
    const type = kind === 'Query' ? api.server.schema.getQueryType() : api.server.schema.getMutationType();
    const field = type?.getFields()[name];
    if (!field) throw new Error(`The schema has no ${name}`);
    return field;
  };

  /** What goes wrong, in words; nothing if all is well. */
  async function tryAll(
    kind: 'Query' | 'Mutation',
    values: ScalarValues,
    depth: number,
    isTried: (name: string) => boolean = () => true,
  ): Promise<string[]> {
    const troubles: string[] = [];
    for (const { name, may } of tried(kind)) {
      if (!isTried(name)) continue;
      const { query, variables } = documentFor(
        kind === 'Query' ? 'query' : 'mutation',
        fieldOf(kind, name),
        values,
        depth,
      );
      for (const [role, client] of people) {
        const { status, data, errors } = await client.send(query, variables);
        const codes = errors.map((error) => String(error.extensions?.['code']));
        const outcome = `${role ?? 'nobody'} ${name}: ${status} ${JSON.stringify(errors).slice(0, 300)}`;
        if (status >= 500 || codes.includes('INTERNAL_SERVER_ERROR')) troubles.push(`fault: ${outcome}`);
        if (codes.includes('GRAPHQL_VALIDATION_FAILED')) troubles.push(`cannot be asked: ${outcome}`);
        if (!may(role)) {
          const isRefused = codes.includes(role === null ? 'NOT_SIGNED_IN' : 'NOT_PERMITTED');
          if (!isRefused || data?.[name]) troubles.push(`let in: ${outcome}`);
        }
      }
    }
    return troubles;
  }

  it('lets in only those whom it names', async () => {
    expect(roles.every((role) => people.has(role))).toBe(true);
    expect(await tryAll('Query', small, 2)).toEqual([]);
    expect(await tryAll('Mutation', small, 2)).toEqual([]);
  });

  it('answers odd and large values with a reason, and never with a fault', async () => {
    const takesValues = (kind: 'Query' | 'Mutation') => (name: string) => fieldOf(kind, name).args.length > 0;
    for (const values of [odd, large]) {
      expect(await tryAll('Query', values, 1, takesValues('Query'))).toEqual([]);
      expect(await tryAll('Mutation', values, 1, takesValues('Mutation'))).toEqual([]);
    }
  });

  it('tells each role all that it may ask for, in one go', async () => {
    const troubles: string[] = [];
    const director = people.get('director');
    if (!director) throw new Error('There is no director');
    const known = await director.query<{
      plan: { id: string };
      tasks: { nodes: { id: string }[] };
      volunteers: { nodes: { id: string }[] };
      turnouts: { id: string }[];
    }>(
      '{ plan { id } tasks(first: 1) { nodes { id } } volunteers(first: 1) { nodes { id } } turnouts(from: "2027-03-06", to: "2027-03-13") { id } }',
    );
    const turnout = known.turnouts[0]?.id;
    const ids: Record<string, string | undefined> = {
      allHandsRoles: turnout,
      node: known.plan.id,
      task: known.tasks.nodes[0]?.id,
      volunteer: known.volunteers.nodes[0]?.id,
      hullPiece: 'strake-9-plank-2-starboard',
      replacementFaults: 'strake-9-plank-2-starboard',
      pattern: 'frame-12-starboard-futtock-3',
      piece: 'piece_unknown',
      tray: 'tray_unknown',
      crewList: turnout,
      hoursSheet: turnout,
      morning: turnout,
      morningSheet: turnout,
      secondVersion: turnout,
      stopOverrides: turnout,
      stopsFor: turnout,
      triedWeek: known.plan.id,
      weekProposal: known.plan.id,
      turnoutCall: turnout,
      grantReport: 'grantreport_unknown',
      grantReportDraft: 'grant_unknown',
    };
    const texts: Record<string, string | undefined> = {
      hullPiece: ids['hullPiece'],
      pattern: ids['pattern'],
      pieceByCode: 'x',
    };
    const { yardDocument } = await director.query<{ yardDocument: { hull: { outline: unknown } } }>(
      '{ yardDocument }',
    );
    const documents: Record<string, unknown> = { drawOutline: yardDocument.hull.outline };
    for (const { name, may } of tried('Query')) {
      const whole: ScalarValues = (scalar) =>
        ({
          Int: 5,
          Boolean: true,
          LocalDate: '2027-03-13',
          ID: ids[name],
          String: texts[name],
          JSONDocument: documents[name],
        })[scalar] ?? null;
      const { query, variables } = documentFor('query', fieldOf('Query', name), whole, 4);
      for (const [role, client] of people) {
        const { status, errors } = await client.send(query, variables);
        const outcome = `${role ?? 'nobody'} ${name}: ${status} ${JSON.stringify(errors).slice(0, 300)}`;
        const shown = errors.every((error) =>
          ['NOT_PERMITTED', 'NOT_FOUND', 'TASK_NOT_READY', 'BAD_INPUT', 'PLAN_OUTDATED'].includes(
            String(error.extensions?.['code']),
          ),
        );
        if (status !== 200 || (may(role) && !shown)) troubles.push(outcome);
      }
    }
    expect(troubles).toEqual([]);
  });
});
