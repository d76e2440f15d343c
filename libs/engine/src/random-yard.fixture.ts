import fc from 'fast-check';
import type {
  Effort,
  Link,
  OpeningLimit,
  Person,
  Posting,
  Problem,
  Progress,
  Relation,
  Seat,
  Task,
  Tool,
  Turnout,
} from './problem.js';

/**
 * Random yards for tests: sound problems (`checkProblem` finds nothing malformed) with everything that a yard can
 * have. A plan need not exist unless `easy` is asked for: then everybody comes to every turnout for a long time, can
 * do everything, each opening is shut by the task that made it, and no posting is firm.
 *
 * `small` yards are for comparing with a search through all plans: few tasks, short turnouts, small numbers.
 */
export interface YardWishes {
  tasks?: number;
  easy?: boolean;
  small?: boolean;
}

export function randomYard({
  tasks = 12,
  easy = false,
  small = false,
}: YardWishes = {}): fc.Arbitrary<Problem> {
  const unit = small ? 1 : 15;
  return fc
    .record({
      turnouts: fc.array(
        fc.record({
          gap: fc.integer({ min: 0, max: small ? 6 : 2000 }),
          length: fc.integer({ min: small ? 3 : 60, max: small ? 8 : 420 }),
        }),
        { minLength: easy ? 12 : 3, maxLength: easy ? 12 : small ? 5 : 14 },
      ),
      skills: fc.integer({ min: 1, max: 3 }),
      people: fc.integer({ min: easy ? 4 : 2, max: small ? 4 : 8 }),
      tools: fc.integer({ min: 0, max: 2 }),
      elements: fc.integer({ min: 0, max: 4 }),
      count: fc.integer({ min: 1, max: tasks }),
      late: fc.integer({ min: 0, max: 3 }),
      dice: fc.infiniteStream(fc.nat({ max: 999_999 })),
    })
    .map((wish) => {
      const numbers = wish.dice[Symbol.iterator]();
      const below = (n: number): number => (n <= 0 ? 0 : (numbers.next().value as number) % n);
      const chance = (percent: number): boolean => below(100) < percent;
      const turnouts = turnoutsOf(wish.turnouts, easy, small);
      const last = turnouts[turnouts.length - 1].end;
      const now = easy || !chance(30) ? 0 : turnouts[below(Math.min(3, turnouts.length))].start + below(3);
      const problem: Problem = {
        format: 'ribband-problem/1',
        now,
        horizon: easy ? last : Math.max(now, last - (chance(20) ? below(5) : 0)),
        skills: named('skill', wish.skills),
        clearances: named('clearance', 2),
        turnouts,
        people: [],
        tools: [],
        elements: named('element', wish.elements),
        openingLimits: [],
        tasks: [],
        links: [],
        posted: [],
        aim: { gate: last, slots: [Math.floor(last / 2), last, last + 5000] },
      };
      problem.people = Array.from({ length: wish.people }, (_, p) =>
        person(problem, p, { easy, below, chance }),
      );
      problem.tools = Array.from({ length: wish.tools }, (_, k) => tool(problem, k, { easy, below, chance }));
      problem.openingLimits = limits(problem, { easy, below, chance });
      problem.tasks = Array.from({ length: wish.count }, (_, i) =>
        task(problem, i, unit, { easy, below, chance }),
      );
      problem.links = links(problem, unit, { easy, below, chance });
      elements(problem, { easy, below, chance });
      if (!easy)
        for (let k = 0; k < wish.late && k < problem.tasks.length; k++)
          begin(problem, k, { easy, below, chance });
      problem.posted = postings(problem, { easy, below, chance });
      return problem;
    });
}

interface Dice {
  easy: boolean;
  below: (n: number) => number;
  chance: (percent: number) => boolean;
}

function named(kind: string, count: number): { id: string; name: string }[] {
  return Array.from({ length: count }, (_, k) => ({ id: `${kind}-${k}`, name: `${kind} ${k}` }));
}

function turnoutsOf(wishes: { gap: number; length: number }[], easy: boolean, small: boolean): Turnout[] {
  let t = small ? 0 : 600;
  return wishes.map(({ gap, length }, w) => {
    const start = t + gap;
    t = start + (easy ? length + (small ? 20 : 600) : length);
    return { id: `turnout-${w}`, start, end: t };
  });
}

function person({ skills, turnouts }: Problem, p: number, { easy, below, chance }: Dice): Person {
  const stays = turnouts.flatMap(({ start, end }, turnout) => {
    if (easy || chance(75)) return [{ turnout, from: start, to: end, showUp: 0.8 }];
    if (chance(40)) return [];
    const from = start + below(end - start);
    return [{ turnout, from, to: from + 1 + below(end - from), showUp: chance(90) ? 0.7 : 0 }];
  });
  const half = turnouts[below(turnouts.length)].start + 1;
  return {
    id: `person-${p}`,
    name: `person ${p}`,
    levels: skills.map(() => (easy ? 3 : chance(40) ? below(2) : 1 + below(4))),
    stays,
    clearances: [0, 1].flatMap((clearance) => {
      if (!easy && chance(15)) return [];
      return [{ clearance, until: easy || chance(70) ? null : half }];
    }),
    minutesAWeek: easy || chance(80) ? null : 60 + below(600),
    minutesATurnout: easy || chance(80) ? null : 4 + below(240),
  };
}

function tool({ turnouts }: Problem, k: number, { easy, below, chance }: Dice): Tool {
  const { start, end } = turnouts[below(turnouts.length)];
  const from = start + below(end - start);
  const spans =
    easy || chance(60) ? [] : [{ from, to: from + 1 + below(2 * (end - start)), capacity: below(3) }];
  return { id: `tool-${k}`, name: `tool ${k}`, capacity: 1 + below(3), spans };
}

/** Some limits, and of each now and then only what is left of it until some minute, from which it is whole again. */
function limits({ elements: all, horizon }: Problem, { below, chance }: Dice): OpeningLimit[] {
  if (all.length === 0) return [];
  return Array.from({ length: below(3) }, (_, k) => k).flatMap((k): OpeningLimit[] => {
    const some = all.flatMap((_, e) => (chance(70) ? [e] : []));
    const limit = { id: `limit-${k}`, name: `limit ${k}`, elements: some, atMost: 1 + below(2) };
    if (!chance(30)) return [limit];
    const rest = { ...limit, elements: some.filter(() => chance(40)) };
    return [rest, { ...limit, from: below(horizon + 1) }];
  });
}

function task(problem: Problem, i: number, unit: number, { easy, below, chance }: Dice): Task {
  const shortest = Math.min(...problem.turnouts.map(({ start, end }) => end - start));
  const oneGo = chance(35);
  const minutes = 1 + below(oneGo ? shortest : 2 * shortest);
  const effort = effortOf(minutes, unit, below);
  const seats: Seat[] = [];
  const manned = effort.kind === 'work' || (effort.kind !== 'elapsed' && chance(70));
  const room = easy ? 2 : 3;
  for (let seated = 0; manned && chance(45) && seated < room;) {
    const count = chance(75) ? 1 : Math.min(2, room - seated);
    seated += count;
    seats.push({
      skill: below(problem.skills.length),
      level: chance(80) ? 1 + below(2) : 3,
      count,
      clearances: chance(15) ? [below(2)] : [],
    });
  }
  const seated = seats.reduce((sum, seat) => sum + seat.count, 0);
  const min = manned ? Math.max(1, seated, chance(70) ? 1 : 2) : 0;
  const efficient = manned ? min + below(3) : 0;
  return {
    id: `task-${i}`,
    name: `task ${i}`,
    effort:
      oneGo && effort.kind === 'work'
        ? { kind: 'work', personMinutes: Math.max(1, Math.floor(minutes / 3)) }
        : effort,
    crew: { min, efficient, max: efficient + (manned ? below(2) : 0) },
    seats,
    clearances: manned && chance(12) ? [below(2)] : [],
    oneGo,
    setUpMinutes: chance(40) ? below(Math.ceil(shortest / 4)) : 0,
    extraHandShare: [0, 0.25, 0.5, 1][below(4)],
    learnerShare: [0.25, 0.5, 1][below(3)],
    tools:
      effort.kind === 'hold'
        ? []
        : problem.tools.flatMap((one, k) =>
            chance(30) ? [{ tool: k, count: 1 + below(one.capacity) }] : [],
          ),
    opens: [],
    closes: [],
    notBefore: chance(15) ? below(problem.turnouts[Math.floor(problem.turnouts.length / 2)].end) : null,
    progress: { kind: 'waiting' },
  };
}

function effortOf(minutes: number, unit: number, below: (n: number) => number): Effort {
  switch (below(8)) {
    case 0:
      return { kind: 'elapsed', minutes: below(40 * unit) };
    case 1:
      return { kind: 'hold' };
    case 2:
    case 3:
      return { kind: 'fixed', minutes: below(10) === 0 ? 0 : minutes };
    default:
      return { kind: 'work', personMinutes: minutes };
  }
}

const RELATIONS: Relation[] = ['finish-to-start', 'start-to-start', 'finish-to-finish', 'start-to-finish'];

function links({ tasks }: Problem, unit: number, { below, chance }: Dice): Link[] {
  return tasks.flatMap((_, after) =>
    tasks.slice(0, after).flatMap((_, before): Link[] => {
      if (!chance(22)) return [];
      const relation = chance(55) ? RELATIONS[0] : RELATIONS[below(4)];
      const lag = chance(60) ? 0 : (below(16) - 4) * unit;
      return [{ before, after, relation, lag, lagKind: chance(50) ? 'working' : 'elapsed' }];
    }),
  );
}

/** Openers come before closers in the order of the tasks, so that no circle can arise. */
function elements({ tasks, elements: all }: Problem, { easy, below, chance }: Dice): void {
  all.forEach((_, e) => {
    const opener = below(tasks.length);
    const closer = easy ? opener : opener + below(tasks.length - opener);
    if (easy && tasks[opener].opens.length > 0) return;
    if (easy || chance(85)) tasks[opener].opens.push(e);
    if (easy || chance(85)) tasks[closer].closes.push(e);
  });
}

/** The first tasks may be done or under way, begun in their order. */
function begin({ now, tasks }: Problem, i: number, { below, chance }: Dice): void {
  if (now === 0) return;
  const before = i > 0 ? tasks[i - 1].progress : undefined;
  const least = before === undefined || before.kind === 'waiting' ? 0 : before.startedAt;
  const startedAt = least + below(now - least);
  const done = chance(50) && tasks.slice(0, i).every((one) => one.progress.kind === 'done');
  const progress: Progress = done
    ? { kind: 'done', startedAt, endedAt: startedAt + below(now - startedAt + 1) }
    : { kind: 'under way', startedAt };
  tasks[i].progress = progress;
}

function postings(problem: Problem, { easy, below, chance }: Dice): Posting[] {
  const posted: Posting[] = [];
  for (let k = below(4); k > 0; k--) {
    const person = below(problem.people.length);
    const { stays } = problem.people[person];
    if (stays.length === 0) continue;
    const { turnout } = stays[below(Math.min(3, stays.length))];
    const task = below(problem.tasks.length);
    const { effort, progress, crew } = problem.tasks[task];
    if (effort.kind === 'elapsed' || progress.kind === 'done' || crew.max === 0) continue;
    if (posted.some((one) => one.person === person && one.turnout === turnout)) continue;
    posted.push({ task, turnout, person, firm: !easy && chance(40) });
  }
  return posted;
}
