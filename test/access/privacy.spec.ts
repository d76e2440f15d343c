import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Role, WhoMay } from '@ribband/access';
import { DemoYard, type YardDocument } from '@ribband/planning';
import { startApi, type TestApi, testPassword } from '../harness/api.js';
import type { Client } from '../harness/client.js';
import { documentFor, type ScalarValues } from '../harness/documents.js';

const demoYard = fileURLToPath(new URL('../../fixtures/demo-yard.json', import.meta.url));

describe('a volunteer', () => {
  let api: TestApi;
  let document: YardDocument;
  let me: string;
  const clients = new Map<Role, Client>();

  beforeAll(async () => {
    api = await startApi();
    document = JSON.parse(readFileSync(demoYard, 'utf8')) as YardDocument;
    // Somebody whose every fact can be told from all others.
    const marked = document.volunteers.find((one) => one.ref === 'odalys-brenn');
    if (!marked) throw new Error('The demo yard has changed');
    Object.assign(marked, {
      bornOn: '1961-09-17',
      showUpChance: 0.7351,
      phone: '+1 360 555 0142',
      minutesAWeek: 1237,
      minutesATurnout: 391,
    });
    for (const card of marked.cards)
      Object.assign(card, { issuer: 'An issuer like no other', expiresOn: '2031-07-19' });
    const seeded = await api.server.app.get(DemoYard).seed(document, testPassword);
    for (const { role, email, name } of seeded) {
      clients.set(role, await api.signIn(email));
      if (role === 'volunteer') me = name;
    }
  }, 120_000);
  afterAll(() => api.close());

  const as = (role: Role): Client => {
    const client = clients.get(role);
    if (!client) throw new Error(`There is no ${role}`);
    return client;
  };
  const other = async (): Promise<{ id: string; name: string }> => {
    const { volunteers } = await as('director').query<{
      volunteers: { nodes: { id: string; name: string }[] };
    }>('{ volunteers(first: 200) { nodes { id name } } }');
    const found = volunteers.nodes.find((one) => one.name === 'Odalys Brenn');
    if (!found) throw new Error('The shipwright is not in the list');
    return found;
  };

  it('is told the same of somebody else as of somebody who does not exist', async () => {
    const { id } = await other();
    const nobody = id.replace(/.{4}$/, '0000');
    const volunteer = as('volunteer');
    for (const query of [
      'query Q($id: ID!) { volunteer(id: $id) { id name email } }',
      'query Q($id: ID!) { node(id: $id) { id __typename } }',
    ]) {
      const answer = await volunteer.send(query, { id });
      expect(Object.values(answer.data ?? {})).toEqual([null]);
      expect(answer).toEqual(await volunteer.send(query, { id: nobody }));
    }
    expect(await as('coordinator').query('query Q($id: ID!) { node(id: $id) { id } }', { id })).toEqual({
      node: { id },
    });
  });

  it('learns nothing of others beside their names, whatever they ask', async () => {
    const { id } = await other();
    const { tasks } = await as('director').query<{ tasks: { nodes: { id: string }[] } }>(
      '{ tasks(first: 200) { nodes { id } } }',
    );
    const emails = document.volunteers.filter((one) => one.name !== me).flatMap((one) => one.email ?? []);
    // A number by itself: outlines of timber are full of figures.
    const secrets = [
      ...emails,
      '1961-09-17',
      ':0.7351',
      ':1237',
      'An issuer like no other',
      '2031-07-19',
      '555 0142',
    ];
    // The test can fail: those who may know are told.
    const told = JSON.stringify(
      await as('director').query(
        'query Q($id: ID!) { volunteer(id: $id) { email minutesAWeek cards { issuer expiresOn } } }',
        { id },
      ),
    );
    expect(told).toContain('An issuer like no other');
    expect(told).toContain(':1237');

    const { schema, app } = api.server;
    const heard: string[] = [];
    for (const { kind, name } of app.get(WhoMay).operations()) {
      const field = kind === 'Query' ? schema.getQueryType()?.getFields()[name] : undefined;
      if (!field) continue;
      const values: ScalarValues = (scalar) =>
        ({ Int: 200, LocalDate: '2027-03-13', ID: name === 'task' ? tasks.nodes[0]?.id : id })[scalar] ??
        null;
      const { query, variables } = documentFor('query', field, values, 4);
      heard.push(JSON.stringify((await as('volunteer').send(query, variables)).data));
    }
    const all = heard.join('\n');
    expect(all.length).toBeGreaterThan(50_000);
    expect(secrets.filter((secret) => all.includes(secret))).toEqual([]);
  }, 120_000);
});
