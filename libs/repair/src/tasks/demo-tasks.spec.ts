import { readFileSync } from 'node:fs';
import type { RepairDocument } from '../document/repair-document.js';
import { taskFaults } from './task-faults.js';

const demo = JSON.parse(
  readFileSync(new URL('../../../../fixtures/demo-yard.json', import.meta.url), 'utf8'),
) as RepairDocument & Record<'skills' | 'cardKinds', { ref: string }[]>;

const refs = (rows: { ref: string }[]) => new Set(rows.map((row) => row.ref));

describe('The tasks of the demo yard', () => {
  it('could each be saved again as they are', () => {
    const around = {
      skills: refs(demo.skills),
      cards: refs(demo.cardKinds),
      tools: new Map(demo.tools.map((tool) => [tool.ref, tool.capacity])),
      elements: refs(demo.elements),
      longestTurnoutMinutes: 300,
    };
    const refused = demo.tasks.flatMap((task) =>
      taskFaults(task, around).map((fault) => `${task.ref}: ${fault.path} ${fault.message}`),
    );
    expect(refused).toEqual([]);
    expect(demo.tasks.length).toBeGreaterThan(200);
  });
});
