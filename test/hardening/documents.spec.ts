import fc from 'fast-check';
import { addressOf, foundYard, startApi, type TestApi } from '../harness/api.js';
import type { Client } from '../harness/client.js';

/** What must never reach anybody outside: stacks, paths, statements, names of our tools. */
const leaks = /node_modules|\bat \S+ \(|\.[jt]s:\d+|SELECT |SQLITE_|QueryFailed|TypeORM|stacktrace/i;

const pieces = [
  '{', '}', '(', ')', '[', ']', '!', '$', ':', '=', '@', '|', '...', '"', '"""', '#', ',', '\\', '\0', '\uFFFF', '💥',
  'query', 'mutation', 'subscription', 'fragment', 'on', 'null', 'true', '-1', '1e999', '0x1',
  'me', 'account', 'organisation', 'node', 'id', 'signIn', '__typename', '__schema', '__type', 'first', 'x: me',
]; // prettier-ignore

describe('documents that make no sense', () => {
  let api: TestApi;
  let director: Client;
  beforeAll(async () => {
    api = await startApi();
    await foundYard(api);
    director = await api.signIn(addressOf('director'));
  });
  afterAll(() => api.close());

  const runs = Number(process.env['MALFORMED_DOCUMENTS'] ?? 400);

  const wellAnswered = async (body: string): Promise<void> => {
    const response = await director.post(body);
    const text = await response.text();
    expect(response.status).toBeLessThan(500);
    expect(text).not.toMatch(leaks);
    expect(text).not.toContain('INTERNAL_SERVER_ERROR');
  };

  it(
    'are answered as faults of whoever wrote them, and nothing of ours is shown',
    async () => {
      const document = fc
        .array(fc.constantFrom(...pieces), { maxLength: 40 })
        .map((parts) => parts.join(' '));
      const asDocument = document.map((query) => JSON.stringify({ query }));
      const asRequest = fc
        .record(
          {
            query: fc.oneof(document, fc.constant('{ me { role } }'), fc.jsonValue()),
            variables: fc.jsonValue(),
            operationName: fc.jsonValue(),
            extensions: fc.jsonValue(),
          },
          { requiredKeys: [] },
        )
        .map((request) => JSON.stringify(request));
      const asBody = fc.oneof(
        fc.json(),
        fc.string(),
        asDocument.map((text) => text.slice(0, -3)),
      );
      await fc.assert(fc.asyncProperty(fc.oneof(asDocument, asRequest, asBody), wellAnswered), {
        numRuns: runs,
      });
    },
    30_000 + runs * 50,
  );

  it('with variables of the wrong kind are refused with the name of the variable', async () => {
    for (const id of [null, {}, [], 1.5, true]) {
      const answer = await director.send('query Q($id: ID!) { node(id: $id) { id } }', { id });
      expect(answer.status).toBe(400);
      expect(answer.errors[0]?.message).toContain('$id');
      expect(answer.errors[0]?.extensions).toEqual({ code: 'BAD_USER_INPUT' });
    }
    // A number is a proper ID for GraphQL, and names nothing.
    expect(await director.query('query Q($id: ID!) { node(id: $id) { id } }', { id: 1 })).toEqual({
      node: null,
    });
  });

  it('that are too long, too deep, too dear or have too many aliases are refused before they are run', async () => {
    const deep = `{ __schema { types ${'{ fields { type '.repeat(12)} { name } ${'} }'.repeat(12)} } }`;
    const fragments = `{ ...f0 } ${Array.from(
      { length: 20 },
      (_, i) => `fragment f${i} on Query { me { organisation { id } } ...f${i + 1} ...f${i + 1} }`,
    ).join(' ')} fragment f20 on Query { __typename }`;
    const refused = [
      `{ ${'me { role } '.repeat(4_001)} }`,
      `{ ${Array.from({ length: 16 }, (_, i) => `a${i}: me { role }`).join(' ')} }`,
      deep.replace('__schema', 'me').replace('types', 'organisation'),
      '{ volunteers(first: 2000000) { nodes { id } } }',
      fragments,
    ];
    for (const query of refused) {
      const answer = await director.send(query);
      expect({ query: query.slice(0, 60), status: answer.status }).toEqual({
        query: query.slice(0, 60),
        status: 400,
      });
      expect(answer.data).toBeNull();
    }
  });

  it('may not be sent in batches', async () => {
    const response = await director.post(
      JSON.stringify([{ query: '{ me { role } }' }, { query: '{ me { role } }' }]),
    );
    expect(response.status).toBe(400);
  });

  it('that subscribe by POST are told where subscriptions go', async () => {
    const answer = await director.send('subscription { computing { id } }');
    expect(answer.status).toBe(400);
    expect(answer.errors[0]?.message).toMatch(/WebSocket/);
  });

  it('that are too big for any yard are turned away', async () => {
    const response = await director.post(
      JSON.stringify({ query: `{ me { role } } #${'x'.repeat(5_000_000)}` }),
    );
    expect(response.status).toBe(413);
  });
});
