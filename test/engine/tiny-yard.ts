import type { Effort, Person, Problem, Relation, Seat, Task, Turnout } from '@ribband/engine';
import fc, { type GeneratorValue } from 'fast-check';
import { link, problem, task, turnout } from './small-problem.js';

const RELATIONS: Relation[] = ['finish-to-start', 'start-to-start', 'finish-to-finish', 'start-to-finish'];
const WEEK = 7 * 24 * 60;

/**
 * Yards small enough for the oracle, with every kind of rule in them now and then. Turnouts last a few minutes.
 *
 * A plain one is what a sound yard looks like: easy days at the end, nothing posted, what is opened is shut by a later
 * task, nobody has a cap that leaves no room.
 */
export function tinyYard(g: GeneratorValue, mostTasks = 5, plain = false): Problem {
  const whole = (min: number, max: number) => g(fc.integer, { min, max });
  const oneIn = (n: number) => whole(1, n) === n;
  const odd = (n: number) => !plain && oneIn(n);
  const some = <T>(list: T[], n: number) => list.filter(() => oneIn(n));

  let t = oneIn(6) ? WEEK - 9 : 0;
  const epoch = t;
  const turnouts: Turnout[] = [];
  for (let w = whole(2, 5); w > 0; w--) {
    const start = t + whole(0, 3);
    turnouts.push(turnout(start, (t = start + whole(2, 6))));
  }
  // Most yards have some easy days at the end, so that lateness shows as a date.
  const easy = plain || !oneIn(6) ? 2 : 0;
  for (let w = 0; w < easy; w++) turnouts.push(turnout(t + 1, (t += 7)));
  const skills = [0, 1].slice(0, whole(1, 2)).map((s) => ({ id: `s${s}`, name: `skill ${s}` }));
  const clearances = odd(4) ? [{ id: 'c0', name: 'card' }] : [];

  const people = Array.from({ length: whole(1, 3) }, (_, p): Person => {
    const stays = turnouts.flatMap((one, w) => {
      if (w >= turnouts.length - easy) return [{ turnout: w, from: one.start, to: one.end, showUp: 1 }];
      if (oneIn(6)) return [];
      const from = oneIn(4) ? whole(one.start, one.end - 1) : one.start;
      const to = oneIn(4) ? whole(from + 1, one.end) : one.end;
      return [{ turnout: w, from, to, showUp: odd(20) ? 0 : 1 }];
    });
    return {
      id: `p${p}`,
      name: `person ${p}`,
      levels: skills.map(() => (oneIn(3) && !(plain && p === 0) ? whole(0, 3) : 2)),
      stays,
      clearances: clearances.flatMap((_, c) =>
        oneIn(4) ? [] : [{ clearance: c, until: oneIn(3) ? whole(epoch, t) : null }],
      ),
      minutesAWeek: odd(8) ? whole(4, 20) : null,
      minutesATurnout: odd(8) ? whole(2, 5) : null,
    };
  });

  const tools = oneIn(2)
    ? [
        {
          id: 't0',
          name: 'bench',
          capacity: whole(1, 2),
          spans: oneIn(3) ? [{ from: epoch + 2, to: epoch + 6, capacity: 0 }] : [],
        },
      ]
    : [];
  const now = oneIn(5) ? whole(epoch, turnouts[0].end) : epoch;

  const anyTask = (i: number): Task => {
    const kind = ['work', 'work', 'fixed', 'elapsed', 'hold'][whole(0, 4)];
    const effort: Effort =
      kind === 'work'
        ? { kind, personMinutes: whole(1, 6) }
        : kind === 'hold'
          ? { kind }
          : { kind: kind as 'fixed', minutes: whole(kind === 'fixed' && !plain ? 0 : 1, 4) };
    const max = kind === 'elapsed' ? 0 : whole(kind === 'work' ? 1 : 0, people.length);
    const efficient = max === 0 ? 0 : whole(1, max);
    const seats: Seat[] = [];
    for (const skill of skills.keys()) {
      const room = max - seats.reduce((sum, seat) => sum + seat.count, 0);
      const best = Math.max(...people.map((one) => one.levels[skill]));
      if (room > 0 && best > 0 && oneIn(2)) {
        seats.push({
          skill,
          level: whole(1, best),
          count: odd(9) ? room : 1,
          clearances: some([...clearances.keys()], 5),
        });
      }
    }
    const progress: Task['progress'] =
      now > epoch && oneIn(4)
        ? oneIn(2)
          ? { kind: 'under way', startedAt: whole(epoch, now) }
          : { kind: 'done', startedAt: epoch, endedAt: whole(epoch, now) }
        : { kind: 'waiting' };
    return task(`task ${i}`, 0, {
      effort,
      crew: { min: whole(0, efficient), efficient, max },
      seats,
      clearances: kind === 'elapsed' ? [] : some([...clearances.keys()], 5),
      oneGo: oneIn(2),
      setUpMinutes: oneIn(3) ? whole(1, 2) : 0,
      extraHandShare: [0, 0.5, 1][whole(0, 2)],
      learnerShare: [0, 0.5, 1][whole(0, 2)],
      tools: tools.flatMap((_, k) => (oneIn(2) ? [{ tool: k, count: 1 }] : [])),
      notBefore: oneIn(6) ? whole(epoch, t) : null,
      progress,
    });
  };
  const tasks = Array.from({ length: whole(1, mostTasks) }, (_, i) => anyTask(i));

  const links = Array.from({ length: whole(0, tasks.length) }, () => {
    const [a, b] = [whole(0, tasks.length - 1), whole(0, tasks.length - 1)];
    const simple = oneIn(2);
    return link(Math.min(a, b), Math.max(a, b), {
      relation: simple ? 'finish-to-start' : RELATIONS[whole(0, 3)],
      lag: simple ? 0 : whole(-3, 4),
      lagKind: oneIn(2) ? 'working' : 'elapsed',
    });
  }).filter((one) => one.before !== one.after);

  const elements = [0, 1].slice(0, oneIn(2) ? 2 : 0).map((e) => ({ id: `e${e}`, name: `frame ${e}` }));
  elements.forEach((_, e) => {
    const [a, b] = [whole(0, tasks.length - 1), whole(0, tasks.length - 1)];
    const [opener, closer] = [tasks[Math.min(a, b)], tasks[Math.max(a, b)]];
    if (opener.progress.kind !== 'done' && closer.progress.kind === 'done') return;
    if (plain && (opener === closer || opener.progress.kind !== 'waiting')) return;
    if (plain) links.push(link(Math.min(a, b), Math.max(a, b)));
    if (!odd(6)) opener.opens.push(e);
    if (!odd(6)) closer.closes.push(e);
  });

  const posted = odd(6)
    ? [{ task: whole(0, tasks.length - 1), turnout: whole(0, turnouts.length - 1), person: 0, firm: true }]
    : [];
  const gate = t + 1;
  // Now and then a limit that is only in force again from some minute on, beside what holds until then.
  const later =
    elements.length > 0 && oneIn(3)
      ? [{ id: 'l', name: 'fore body', elements: [0, 1], atMost: 1, from: whole(epoch, t) }]
      : [];
  return problem({
    now,
    horizon: t + whole(0, 3),
    turnouts,
    skills,
    clearances,
    people,
    tools,
    elements,
    openingLimits:
      later.length > 0 || elements.length === 0
        ? later
        : [{ id: 'l', name: 'fore body', elements: [0, 1], atMost: odd(6) ? 0 : 1 }],
    tasks,
    links,
    posted,
    aim: { gate, slots: [gate] },
  });
}
