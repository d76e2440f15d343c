import type { Link, Person, Problem, Relation, Seat, Task } from '@ribband/engine';
import { Random } from '../../libs/engine/src/search/random.js';
import { link, problem, task, turnout } from './small-problem.js';

const RELATIONS: Relation[] = ['finish-to-start', 'start-to-start', 'finish-to-finish', 'start-to-finish'];

/**
 * One long turnout with tasks of a set length in one go: people who come and go, seats of several skills, tools that are
 * taken away for a while, links of all kinds, time that passes by itself. Small enough to try everything.
 */
export function unbrokenYard(seed: number, mostTasks = 5): Problem {
  const random = new Random(seed);
  const whole = (min: number, max: number) => min + random.below(max - min + 1);
  const oneIn = (n: number) => whole(1, n) === n;
  const now = oneIn(4) ? whole(1, 3) : 0;
  const end = 24;
  const turnouts = [turnout(oneIn(4) ? 2 : 0, end)];
  const skills = [0, 1, 2].slice(0, whole(1, 3)).map((s) => ({ id: `s${s}`, name: `skill ${s}` }));
  const people = Array.from({ length: whole(2, 4) }, (_, p): Person => {
    const from = oneIn(5) ? whole(turnouts[0].start, 5) : turnouts[0].start;
    const to = oneIn(5) ? whole(8, end) : end;
    return {
      id: `p${p}`,
      name: `person ${p}`,
      levels: skills.map(() => (oneIn(3) ? 0 : whole(2, 3))),
      stays: [{ turnout: 0, from, to, showUp: oneIn(12) ? 0 : 1 }],
      clearances: oneIn(2) ? [{ clearance: 0, until: null }] : [],
      minutesAWeek: null,
      minutesATurnout: null,
    };
  });
  const tools = [0, 1].slice(0, whole(0, 2)).map((k) => ({
    id: `t${k}`,
    name: `tool ${k}`,
    capacity: whole(1, 3),
    spans: oneIn(3) ? [{ from: 4, to: 7, capacity: whole(0, 2) }] : [],
  }));
  const anyTask = (i: number): Task => {
    const elapsed = oneIn(6);
    const effort = {
      kind: elapsed ? ('elapsed' as const) : ('fixed' as const),
      minutes: whole(oneIn(8) ? 0 : 1, 4),
    };
    const seats: Seat[] = elapsed
      ? []
      : skills.flatMap((_, skill) => {
          const able = people.filter((one) => one.levels[skill] > 0).length;
          if (able === 0 || !oneIn(2)) return [];
          const level = oneIn(6) ? 3 : 2;
          return [{ skill, level, count: whole(1, Math.min(2, able)), clearances: oneIn(9) ? [0] : [] }];
        });
    const seated = seats.reduce((sum, seat) => sum + seat.count, 0);
    const min = elapsed ? 0 : Math.max(seated, whole(0, Math.min(2, people.length)));
    return task(`task ${i}`, 0, {
      effort,
      seats,
      crew: elapsed
        ? { min: 0, efficient: 0, max: 0 }
        : { min, efficient: Math.max(1, min), max: Math.max(1, min) + whole(0, 1) },
      clearances: !elapsed && oneIn(8) ? [0] : [],
      tools: tools.flatMap(({ capacity }, tool) => (oneIn(2) ? [{ tool, count: whole(1, capacity) }] : [])),
      notBefore: oneIn(6) ? whole(0, 8) : null,
    });
  };
  const tasks = Array.from({ length: whole(2, mostTasks) }, (_, i) => anyTask(i));
  const links = Array.from({ length: whole(0, tasks.length) }, (): Link => {
    const [a, b] = [whole(0, tasks.length - 1), whole(0, tasks.length - 1)];
    const simple = oneIn(2);
    return link(Math.min(a, b), Math.max(a, b), {
      relation: simple ? 'finish-to-start' : RELATIONS[whole(0, 3)],
      lag: simple ? 0 : whole(-3, 3),
      lagKind: oneIn(2) ? 'working' : 'elapsed',
    });
  }).filter((one) => one.before !== one.after);
  const clearances = [{ id: 'c0', name: 'card' }];
  return problem({ now, horizon: end, turnouts, skills, clearances, people, tools, tasks, links });
}
