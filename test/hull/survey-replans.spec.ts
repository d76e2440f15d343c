import { readFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import type { YardDocument } from '@ribband/planning';
import { addressOf, foundYard, startApi, type TestApi } from '../harness/api.js';
import type { Client } from '../harness/client.js';

/* One line of the survey changes, through the API as the shipwright's page does it, and there is a newer plan. */

const demo = JSON.parse(
  readFileSync(new URL('../../fixtures/demo-yard.json', import.meta.url), 'utf8'),
) as YardDocument;

interface Touched {
  ref: string;
  title: string;
}

describe('a survey line is changed at the demo yard', () => {
  let api: TestApi;
  let shipwright: Client;
  let coordinator: Client;

  beforeAll(async () => {
    api = await startApi({ computing: 'run' });
    await foundYard(api, { isDemo: true });
    coordinator = await api.signIn(addressOf('coordinator'));
    shipwright = await api.signIn(addressOf('shipwright'));
    await coordinator.query(
      'mutation ($document: JSONDocument!) { importYard(document: $document) { __typename } }',
      {
        document: demo,
      },
    );
    await coordinator.query('mutation { moveYardClock(to: "2027-03-06T15:00:00Z") { __typename } }');
  }, 90_000);
  afterAll(async () => {
    await api.close();
  });

  interface PlanSeen {
    revision: number;
    readyOn: string;
    isNewest: boolean;
    tasks: { nodes: { task: { title: string } }[] };
  }

  async function newestPlan(after: number): Promise<PlanSeen> {
    const end = Date.now() + 90_000;
    for (;;) {
      const { plan, computing } = await shipwright.query<{
        plan: PlanSeen | null;
        computing: { state: string } | null;
      }>(
        '{ plan { revision readyOn isNewest tasks(first: 100) { nodes { task { title } } } } computing { state } }',
      );
      if (plan?.isNewest && plan.revision > after && computing?.state === 'DONE') return plan;
      if (Date.now() > end) throw new Error(`no new plan: ${JSON.stringify(computing)}`);
      await pause(250);
    }
  }

  const changeOf = (findings: unknown[], version: number) => {
    const survey = demo.survey!;
    return {
      survey: { ...survey, findings: [...survey.findings, ...findings] },
      surveyVersion: version,
      reason: 'drilled again',
    };
  };
  const looked = { by: 'Odalys Brenn', on: '2027-03-06', note: null };
  const frame = (number: number, condition: string, cause: string | null) => ({
    frames: [number, number],
    side: 'starboard',
    pieces: [3, 4],
    condition,
    cause,
    ...looked,
  });
  const moved = [frame(19, 'sound', null), frame(20, 'renew', 'deck-edge')];

  it('is shown with what would come, go and change, and with the opening that it asks for', async () => {
    const { survey } = await shipwright.query<{
      survey: { version: number; conditions: { element: string; condition: string }[] };
    }>('{ survey { version conditions { element condition } } }');
    expect(survey.version).toBe(1);
    expect(survey.conditions).toContainEqual({ element: 'frame-19-starboard-futtock-3', condition: 'renew' });
    const { previewWork } = await shipwright.query<{
      previewWork: {
        __typename: string;
        added: Touched[];
        dropped: Touched[];
        kept: number;
        scope: { openings: { chosen: boolean; hours: number }[]; limitsInTheWay: unknown[] };
      };
    }>(
      `query ($change: WorkChangeInput!) { previewWork(change: $change) { __typename ... on WorkPreview {
        added { ref title } dropped { ref title } kept
        scope { openings { chosen hours } limitsInTheWay { limit } } } } }`,
      { change: changeOf(moved, 1) },
    );
    expect(previewWork.dropped.map(({ ref }) => ref)).toContain('frame-19-starboard-draw-pieces');
    expect(previewWork.added.map(({ title }) => title)).toContain(
      'Frame 20 starboard: saw futtocks to bevel',
    );
    expect(previewWork.kept).toBeGreaterThan(150);
    expect(previewWork.scope.openings.filter(({ chosen }) => chosen)).toHaveLength(1);
    expect(previewWork.scope.limitsInTheWay).toEqual([]);
  });

  it('and once it is done, the yard is planned anew: frame 20 is in the plan and frame 19 is not', async () => {
    const before = await newestPlan(0);
    const { applyWork } = await shipwright.query<{
      applyWork: { __typename: string; surveyVersion: number };
    }>(
      `mutation ($change: WorkChangeInput!) { applyWork(change: $change) { __typename
        ... on WorkPayload { surveyVersion } ... on Refusal { message field facts { name value } } } }`,
      { change: changeOf(moved, 1) },
    );
    expect(applyWork).toEqual({ __typename: 'WorkPayload', surveyVersion: 2 });
    const after = await newestPlan(before.revision);
    expect(after.readyOn).toMatch(/^2027-/);
    const { yardDocument } = await coordinator.query<{ yardDocument: YardDocument }>('{ yardDocument }');
    expect(yardDocument.survey?.findings).toHaveLength(demo.survey!.findings.length + 2);
    const stateOf = async (position: string) => {
      const { tasks } = await shipwright.query<{
        tasks: { nodes: { title: string; state: string; planned: { startsAt: string } | null }[] };
      }>(
        'query ($position: String) { tasks(first: 50, position: $position) { nodes { title state planned { startsAt } } } }',
        { position },
      );
      return tasks.nodes;
    };
    const [gone, come] = [await stateOf('Frame 19 starboard'), await stateOf('Frame 20 starboard')];
    expect(gone.length).toBeGreaterThan(10);
    for (const task of gone) expect(task).toMatchObject({ state: 'DROPPED' });
    expect(come.length).toBeGreaterThan(10);
    for (const task of come) {
      expect(task.state).toBe('WAITING');
      expect(task.planned?.startsAt).toMatch(/^2027-/);
    }
  }, 200_000);
});
