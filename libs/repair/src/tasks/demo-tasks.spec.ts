import { readFileSync } from 'node:fs';
import type { RepairDocument } from '../document/repair-document.js';
import { workedIn } from '../methods/worked-in.js';
import { taskFaults } from './task-faults.js';

const demo = JSON.parse(
  readFileSync(new URL('../../../../fixtures/demo-yard.json', import.meta.url), 'utf8'),
) as RepairDocument & Record<'skills' | 'cardKinds', { ref: string; name: string }[]>;

const refs = (rows: { ref: string }[]) => new Set(rows.map((row) => row.ref));

describe('The tasks of the demo yard', () => {
  it('could each be saved again as they are, whether entered by hand or made by a method', () => {
    const { skills, tools, cardKinds } = demo;
    const { document } = workedIn(demo, { skills, tools, cards: cardKinds });
    const around = {
      skills: refs(skills),
      cards: refs(cardKinds),
      tools: new Map(tools.map((tool) => [tool.ref, tool.capacity])),
      elements: refs(document.elements),
      longestTurnoutMinutes: 300,
    };
    const refused = document.tasks.flatMap((task) =>
      taskFaults(task, around).map((fault) => `${task.ref}: ${fault.path} ${fault.message}`),
    );
    expect(refused).toEqual([]);
    expect(document.tasks.length).toBeGreaterThan(300);
  });
});
