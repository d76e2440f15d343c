import { readFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { Database, YardClock } from '@ribband/platform';
import type { YardDocument } from '@ribband/planning';
import { addressOf, foundYard, startApi, type TestApi } from '../harness/api.js';
import type { Client } from '../harness/client.js';

/*
 * The timber book through the API, on the demo yard: what is short holds the work that needs it, a proposal is made
 * by the worker, and what the shipwright keeps is what the work waits for.
 */

const demoYard = (): YardDocument =>
  JSON.parse(readFileSync(new URL('../../fixtures/demo-yard.json', import.meta.url), 'utf8')) as YardDocument;

interface Wood {
  piece: string;
  standing: string;
  flitchId: string | null;
  fromOn: string | null;
}

interface TaskPage {
  pageInfo: { hasNextPage: boolean; endCursor: string | null };
  edges: { node: { title: string; stockHold: { fromOn: string } | null } }[];
}

interface BookSeen {
  isLayingUp: boolean;
  wood: Wood[];
  flitches: { id: string; version: number; mark: string; reservedFor: string | null }[];
  proposed: { id: string; placed: { piece: string; flitchId: string }[]; wanting: string[] } | null;
  kept: { id: string } | null;
}

const book = `timberBook { isLayingUp
  wood { piece standing flitchId fromOn }
  flitches { id version mark reservedFor }
  proposed { id placed { piece flitchId } wanting }
  kept { id } }`;

describe('timber for the demo yard', () => {
  let api: TestApi;
  let shipwright: Client;

  beforeAll(async () => {
    api = await startApi({ computing: 'run' });
    const organisationId = await foundYard(api, { isDemo: true });
    const { app } = api.server;
    await app
      .get(Database)
      .write((manager) =>
        app.get(YardClock).set(manager, organisationId, Date.parse('2027-03-06T20:00:00Z')),
      );
    const coordinator = await api.signIn(addressOf('coordinator'));
    const { importYard } = await coordinator.query<{ importYard: { __typename: string } }>(
      `mutation ($document: JSONDocument!) { importYard(document: $document) { __typename } }`,
      { document: demoYard() },
    );
    expect(importYard.__typename).toBe('ImportYardPayload');
    shipwright = await api.signIn(addressOf('shipwright'));
  }, 90_000);
  afterAll(() => api.close());

  const read = async (): Promise<BookSeen> =>
    (await shipwright.query<{ timberBook: BookSeen }>(`{ ${book} }`)).timberBook;

  /** First days of the work that waits for timber, by title. */
  const stockHolds = async (): Promise<Map<string, string>> => {
    const holds = new Map<string, string>();
    for (let after: string | null = null; ;) {
      const { tasks }: { tasks: TaskPage } = await shipwright.query<{ tasks: TaskPage }>(
        `query ($after: String) { tasks(first: 200, after: $after) {
          pageInfo { hasNextPage endCursor } edges { node { title stockHold { fromOn } } } } }`,
        { after },
      );
      for (const { node } of tasks.edges) if (node.stockHold) holds.set(node.title, node.stockHold.fromOn);
      if (!tasks.pageInfo.hasNextPage) return holds;
      after = tasks.pageInfo.endCursor;
    }
  };

  it('names every piece that is made new, and what each waits for', async () => {
    const { wood } = await read();
    expect(wood).toHaveLength(16);
    const wanting = wood.filter((one) => one.standing === 'WANTING');
    expect(wanting.map((one) => [one.piece, one.fromOn])).toEqual([
      ['frame-12-starboard-futtock-4', '2027-04-03'],
      ['frame-17-starboard-futtock-3', '2027-04-17'],
    ]);
  });

  it('holds the work that saws the late ones, and no other', async () => {
    const holds = await stockHolds();
    expect([...holds.keys()].filter((title) => !title.includes('lay up'))).toEqual([]);
    const days = [...holds.values()].sort();
    expect(days).toEqual(['2027-04-03', '2027-04-17', '2027-04-24', '2027-04-24']);
  });

  it('proposes places for all pieces on the stock as it is now, and keeps what the shipwright keeps', async () => {
    const before = await read();
    const late = before.flitches.find((one) => one.mark === 'C2b')!;
    const asked = await shipwright.query<{ askForLayUp: { __typename: string } }>(
      `mutation { askForLayUp { __typename ... on Refusal { message } } }`,
    );
    expect(asked.askForLayUp.__typename).toBe('TimberPayload');
    let seen = await read();
    for (const end = Date.now() + 90_000; seen.isLayingUp || seen.proposed === null; seen = await read()) {
      if (Date.now() > end) throw new Error('no proposal came');
      await pause(250);
    }
    expect(seen.proposed.placed.length + seen.proposed.wanting.length).toBe(16);
    expect(seen.kept?.id).toBe(before.kept?.id);
    const { keepLayUp } = await shipwright.query<{ keepLayUp: { __typename: string } }>(
      `mutation ($id: ID!) { keepLayUp(id: $id) { __typename ... on Refusal { message } } }`,
      { id: seen.proposed.id },
    );
    expect(keepLayUp.__typename).toBe('TimberPayload');
    const after = await read();
    expect(after.proposed).toBeNull();
    expect(after.kept?.id).toBe(seen.proposed.id);
    for (const { piece, flitchId } of seen.proposed.placed)
      expect(after.wood.find((one) => one.piece === piece)).toMatchObject({ standing: 'LAID_UP', flitchId });
    const onLate = after.wood.filter((one) => one.flitchId === late.id);
    expect(new Set(onLate.map((one) => one.fromOn))).toEqual(new Set(['2027-04-24']));
  }, 120_000);

  it('takes back a flitch that is kept for a later job: its pieces wait again', async () => {
    const seen = await read();
    const flitch = seen.flitches.find((one) => seen.wood.some((wood) => wood.flitchId === one.id))!;
    const { keepFlitch } = await shipwright.query<{ keepFlitch: { __typename: string } }>(
      `mutation ($input: FlitchInput!) { keepFlitch(input: $input) { __typename ... on Refusal { message field } } }`,
      {
        input: {
          id: flitch.id,
          version: flitch.version,
          mark: flitch.mark,
          species: 'Douglas fir',
          use: 'FRAMES',
          thickness: 127,
          length: 2743,
          widths: [635, 483],
          sweep: 445,
          sapwood: 19,
          defects: [],
          reservedFor: 'the sternpost, next haul-out',
        },
      },
    );
    expect(keepFlitch.__typename).toBe('TimberPayload');
    const { wood } = await read();
    const lost = wood.filter((one) => one.flitchId === flitch.id);
    expect(lost.length).toBeGreaterThan(0);
    for (const one of lost) expect(one.fromOn! > '2027-03-06').toBe(true);
  });
});
