import { readFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { ComputeJob, Database, Revisions } from '@ribband/platform';
import type { YardDocument } from '@ribband/planning';
import type { Client } from './harness/client.js';
import { addressOf, foundYard, startApi, type TestApi } from './harness/api.js';

/*
 * The main job once from end to end, through the API as a page uses it: a yard file becomes a plan, the plan a
 * posted week, somebody takes a place and leaves it, a tally comes in, and there is a newer plan.
 */

const demoYard = (): YardDocument =>
  JSON.parse(readFileSync(new URL('../fixtures/demo-yard.json', import.meta.url), 'utf8')) as YardDocument;

const planFields = `id revision isNewest readyAt readyOn sentence boundSentence daysToSpare gapPercent notices
  gateSlot { on } noPlan { sentence } launchChain { task { title } why daysToSpare }`;

interface PlanSeen {
  id: string;
  revision: number;
  isNewest: boolean;
  readyAt: string | null;
  sentence: string;
  daysToSpare: number;
  gateSlot: { on: string };
  noPlan: { sentence: string }[];
  launchChain: { task: { title: string }; why: string; daysToSpare: number }[];
}

describe('a yard from its file to a replanned week', () => {
  let api: TestApi;
  let director: Client;
  let coordinator: Client;
  let shipwright: Client;
  let organisationId: string;

  beforeAll(async () => {
    api = await startApi({ computing: 'run' });
    organisationId = await foundYard(api, { isDemo: true });
    director = await api.signIn(addressOf('director'));
    coordinator = await api.signIn(addressOf('coordinator'));
    shipwright = await api.signIn(addressOf('shipwright'));
  }, 60_000);
  afterAll(async () => {
    await director.close();
    await api.close();
  });

  /** The plan in force once nothing newer is on its way. */
  async function newestPlan(after = 0): Promise<PlanSeen> {
    const end = Date.now() + 90_000;
    for (;;) {
      const { plan, computing } = await director.query<{
        plan: PlanSeen | null;
        computing: { state: string; message: string | null } | null;
      }>(`{ plan { ${planFields} } computing { state message } }`);
      if (computing?.state === 'FAILED') throw new Error(computing.message ?? 'failed');
      if (plan?.isNewest && plan.revision > after && computing?.state === 'DONE') return plan;
      if (Date.now() > end) throw new Error(`no new plan: ${JSON.stringify({ plan, computing })}`);
      await pause(200);
    }
  }

  const importYard = (document: unknown, replace = false) =>
    coordinator.query<{
      importYard: { __typename: string; faults?: { path: string; wouldBeRight: string }[]; tasks?: number };
    }>(
      `mutation ($document: JSONDocument!, $replace: Boolean) {
        importYard(document: $document, replace: $replace) {
          __typename ... on YardFaults { faults { path message wouldBeRight } } ... on ImportYardPayload { tasks }
        }
      }`,
      { document, replace },
    );

  it('a yard file with faults is refused with every one by its path, and nothing is written', async () => {
    const faulty = demoYard();
    faulty.tasks[3].crew.max = -1;
    faulty.skills.push({ ref: 'Not a ref', name: '' });
    const { importYard: answer } = await importYard(faulty);
    expect(answer.__typename).toBe('YardFaults');
    expect(answer.faults?.map((fault) => fault.path).sort()).toEqual(
      [
        `skills[${faulty.skills.length - 1}].name`,
        `skills[${faulty.skills.length - 1}].ref`,
        'tasks[3].crew.max',
      ].sort(),
    );
    expect((await director.query<{ haulOut: unknown }>('{ haulOut { id } }')).haulOut).toBeNull();
  });

  it('the demo yard goes in and comes out equal, but for what nobody may read about a person', async () => {
    const { importYard: answer } = await importYard(demoYard());
    expect(answer).toEqual({ __typename: 'ImportYardPayload', tasks: 310 });
    const moved = await director.query<{ moveYardClock: { __typename: string } }>(
      'mutation { moveYardClock(to: "2027-03-06T15:00:00Z") { __typename } }',
    );
    expect(moved.moveYardClock.__typename).toBe('MoveYardClockPayload');
    const { yardDocument } = await coordinator.query<{ yardDocument: unknown }>('{ yardDocument }');
    const demo = demoYard();
    for (const volunteer of demo.volunteers) delete volunteer.showUpChance;
    expect(yardDocument).toEqual(demo);
  });

  it('the first plan, everybody coming who said so, is ready some weeks before the gate', async () => {
    const plan = await newestPlan();
    expect(plan.noPlan).toEqual([]);
    expect(plan.gateSlot.on).toBe('2027-10-16');
    expect(plan.daysToSpare).toBeGreaterThanOrEqual(14);
    expect(plan.sentence).toMatch(
      /^Ready \d+ \w+, \d+ days before the gate on 16 Oct, if everyone comes who said so\.$/,
    );
    expect(plan.launchChain.length).toBeGreaterThan(5);
    for (const knot of plan.launchChain) expect(knot.why).not.toBe('');
    const { plan: whole } = await director.query<{
      plan: { tasks: { totalCount: number }; criticalPath: { title: string }[] };
    }>('{ plan { tasks(first: 1) { totalCount } criticalPath { title } } }');
    expect(whole.tasks.totalCount).toBeGreaterThan(250);
    expect(whole.criticalPath.length).toBeGreaterThan(3);
  }, 100_000);

  interface PlaceSeen {
    id: string;
    state: string;
    hand: { name: string } | null;
    task: { id: string; title: string };
    why: string | null;
  }
  const week = async () => {
    const { weekProposal } = await coordinator.query<{
      weekProposal: {
        weekOf: string;
        planId: string;
        posted: boolean;
        turnouts: {
          turnout: { id: string; on: string; places: PlaceSeen[] };
          work: {
            task: { title: string };
            crew: { hand: { name: string }; why: string }[];
            gaps: string[];
            cautions: string[];
          }[];
          notices: string[];
        }[];
      };
    }>(`{ weekProposal(weekOf: "2027-03-10") { weekOf planId posted turnouts {
      turnout { id on places { id state why hand { name } task { id title } } }
      work { task { title } crew { hand { name } why } gaps cautions } notices } } }`);
    return weekProposal;
  };
  const post = (planId: string) =>
    coordinator.query<{ postWeek: { __typename: string; code?: string } }>(
      'mutation ($planId: ID!) { postWeek(weekOf: "2027-03-10", planId: $planId) { __typename ... on Refusal { code } } }',
      { planId },
    );

  it('the week is proposed with reasons, posted, and posting it again changes nothing', async () => {
    const proposal = await week();
    expect(proposal).toMatchObject({ weekOf: '2027-03-08', posted: false });
    expect(proposal.turnouts.map(({ turnout }) => turnout.on)).toEqual([
      '2027-03-10',
      '2027-03-13',
      '2027-03-14',
    ]);
    const crews = proposal.turnouts.flatMap(({ work }) => work.flatMap(({ crew }) => crew));
    expect(crews.length).toBeGreaterThan(10);
    for (const hand of crews) expect(hand.why).not.toBe('');
    expect((await post(proposal.planId)).postWeek.__typename).toBe('PostWeekPayload');
    const posted = await week();
    expect(posted.posted).toBe(true);
    expect((await post(proposal.planId)).postWeek.__typename).toBe('PostWeekPayload');
    expect(await week()).toEqual(posted);
  });

  it('a volunteer says yes to a place and then that they can’t come, and it stands open for others', async () => {
    const { volunteers } = await director.query<{ volunteers: { nodes: { id: string; name: string }[] } }>(
      '{ volunteers(first: 100) { nodes { id name } } }',
    );
    const asked = (await week()).turnouts
      .flatMap(({ turnout }) => turnout.places)
      .find((place) => place.hand?.name === 'Lachlan Birse');
    const lachlan = volunteers.nodes.find((one) => one.name === 'Lachlan Birse');
    const { openAccount } = await director.query<{ openAccount: { oneTimePassword: string } }>(
      `mutation ($input: OpenAccountInput!) { openAccount(input: $input) { ... on OpenAccountPayload { oneTimePassword } } }`,
      {
        input: {
          email: 'lachlan@yard.example',
          name: 'Lachlan Birse',
          role: 'VOLUNTEER',
          volunteerId: lachlan?.id,
        },
      },
    );
    const hand = await api.signIn('lachlan@yard.example', openAccount.oneTimePassword);
    await hand.query(
      'mutation ($old: String!) { changePassword(old: $old, new: "larch wedge treenail") { __typename } }',
      {
        old: openAccount.oneTimePassword,
      },
    );
    const { myPlaces } = await hand.query<{ myPlaces: PlaceSeen[] }>(
      '{ myPlaces { id state task { id title } } }',
    );
    expect(myPlaces.map((place) => place.id)).toContain(asked?.id);
    const say = async (what: 'take' | 'leave') => {
      const [field, payload] = {
        take: ['takePlace', 'TakePlacePayload'],
        leave: ['leavePlace', 'LeavePlacePayload'],
      }[what];
      const answer = await hand.query<{ said: { place: { state: string } } }>(
        `mutation ($id: ID!) { said: ${field}(placeId: $id) { ... on ${payload} { place { state } } } }`,
        { id: asked?.id },
      );
      return answer.said.place.state;
    };
    expect(await say('take')).toBe('TAKEN');
    const before = await newestPlan();
    expect(await say('leave')).toBe('LEFT');
    const after = await newestPlan(before.revision);
    expect(after.revision).toBe(before.revision + 1);
    const places = (await week()).turnouts.flatMap(({ turnout }) => turnout.places);
    expect(places.find((place) => place.id === asked?.id)).toMatchObject({ state: 'LEFT' });
    expect(
      places.filter(
        (place) => place.state === 'POSTED' && place.hand === null && place.task.id === asked?.task.id,
      ).length,
    ).toBeGreaterThan(0);
    interface Seen {
      places: { why: string | null; hand: { name: string } | null; task: { planned: unknown } }[];
    }
    const { turnouts, openPlaces } = await hand.query<{
      turnouts: Seen[];
      openPlaces: { place: { id: string; hand: unknown }; cautions: { words: string }[] }[];
    }>(`{ turnouts(from: "2027-03-08", to: "2027-03-14") { places { why hand { name } task { planned { heldBy } } } }
      openPlaces { place { id hand { name } } cautions { words } alongside { name } } }`);
    const others = turnouts
      .flatMap((turnout) => turnout.places)
      .filter((place) => place.hand?.name !== 'Lachlan Birse');
    expect(others.length).toBeGreaterThan(5);
    for (const place of others) expect([place.why, place.task.planned]).toEqual([null, null]);
    expect(openPlaces.length).toBeGreaterThan(0);
    for (const open of openPlaces) expect([open.place.hand, open.cautions.length > 0]).toEqual([null, true]);
    const refused = await hand.send('{ volunteers { nodes { name } } }');
    expect(refused.data).toBeNull();
    await hand.close();
  }, 120_000);

  it('a week is not posted from a plan that has been overtaken', async () => {
    const { planId } = await week();
    const { tasks } = await shipwright.query<{ tasks: { nodes: { id: string; version: number }[] } }>(
      '{ tasks(first: 1) { nodes { id version } } }',
    );
    const [task] = tasks.nodes;
    await shipwright.query(
      'mutation ($id: ID!, $version: Int!) { editTask(id: $id, version: $version, input: { setUpMinutes: 20 }) { __typename } }',
      { ...task },
    );
    expect((await post(planId)).postWeek).toEqual({ __typename: 'Refusal', code: 'PLAN_OUTDATED' });
  });

  it('a tally makes a newer plan, which everybody is told of', async () => {
    const before = await newestPlan();
    const news = director.subscribe<{
      planPublished: { planId: string; revision: number; sentence: string };
    }>('subscription { planPublished { planId revision sentence } }');
    type News = { data: { planPublished: { revision: number; sentence: string } } };
    // What is forecast of the plan before may be told first.
    const newer = async (): Promise<News> => {
      for (;;) {
        const told = (await news.next()).value as News;
        if (told.data.planPublished.revision > before.revision) return told;
      }
    };
    const first = newer();
    await pause(300);
    const { tasks } = await shipwright.query<{ tasks: { nodes: { id: string; title: string }[] } }>(
      '{ tasks(first: 200, state: CLEAR) { nodes { id title } } }',
    );
    const [clear] = tasks.nodes;
    const { enterTally } = await shipwright.query<{ enterTally: { __typename: string } }>(
      'mutation ($taskId: ID!) { enterTally(input: { taskId: $taskId, minutes: 60 }) { __typename ... on Refusal { message } } }',
      { taskId: clear.id },
    );
    expect(enterTally.__typename).toBe('TallyPayload');
    const told = await first;
    expect(told.data.planPublished.revision).toBe(before.revision + 1);
    expect(told.data.planPublished.sentence).toMatch(/^Ready /);
    const after = await newestPlan(before.revision);
    const { task } = await director.query<{ task: { state: string; planned: { startsAt: string } | null } }>(
      'query ($id: ID!) { task(id: $id) { state planned { startsAt } network { critical } } }',
      { id: clear.id },
    );
    expect(task.state).toBe('UNDER_WAY');
    expect(after.revision).toBe(before.revision + 1);
  }, 100_000);

  it('ten edits in a row are computed once, and the newest wins', async () => {
    await newestPlan();
    const database = api.server.app.get(Database);
    const count = () => database.read.countBy(ComputeJob, { organisationId, name: 'plan' });
    const before = await count();
    const { tasks } = await shipwright.query<{ tasks: { nodes: { id: string; version: number }[] } }>(
      '{ tasks(first: 10) { nodes { id version } } }',
    );
    await Promise.all(
      tasks.nodes.map((task) =>
        shipwright.query(
          'mutation ($id: ID!, $version: Int!) { editTask(id: $id, version: $version, input: { setUpMinutes: 25 }) { __typename } }',
          { ...task },
        ),
      ),
    );
    const newest = await api.server.app.get(Revisions).current(database.read, organisationId);
    const plan = await newestPlan(newest - 1);
    expect(plan.revision).toBe(newest);
    expect((await count()) - before).toBe(1);
  }, 100_000);
});
