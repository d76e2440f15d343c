import { checkPeople } from './check-people.js';
import { checkTask } from './check-task.js';
import { WorkCalendar } from './calendar.js';
import { Check, type Fault } from './faults.js';
import type { Problem } from './problem.js';

const RELATIONS = ['finish-to-start', 'start-to-start', 'finish-to-finish', 'start-to-finish'];

/**
 * Reads a problem for what is wrong with it before anything is computed from it. Everything is found in one reading.
 *
 * 'malformed' means that the numbers contradict each other or point nowhere: nothing may be computed. 'impossible'
 * means that the problem can be read but this one wish can't come true: planning gives "no plan", naming it.
 * Circles of links are not looked for here: `network` names them.
 */
export function checkProblem(problem: Problem): Fault[] {
  const check = new Check();
  if (check.choice('format', problem.format, ['ribband-problem/1']) && everyListIsThere(problem, check)) {
    checkTime(problem, check);
    checkPeople(problem, check);
    checkTools(problem, check);
    const longest = check.faults.length === 0 ? new WorkCalendar(problem.turnouts).longest : Infinity;
    problem.tasks.forEach((task, i) => {
      checkTask(problem, task, i, longest, check);
    });
    checkElements(problem, check);
    checkLinks(problem, check);
    checkPostings(problem, check);
  }
  return check.faults;
}

const LISTS = [
  'skills',
  'clearances',
  'turnouts',
  'people',
  'tools',
  'elements',
  'openingLimits',
  'tasks',
  'links',
  'posted',
] as const;

function everyListIsThere(problem: Problem, check: Check): boolean {
  for (const list of LISTS) if (!Array.isArray(problem[list])) check.fault(list, 'must be a list');
  return check.faults.length === 0;
}

function checkTime(problem: Problem, check: Check): void {
  const { now, horizon, turnouts, aim } = problem;
  if (check.minute('now', now) && check.minute('horizon', horizon) && horizon < now) {
    check.fault('horizon', `must not be before now (${now}), is ${horizon}`);
  }
  turnouts.forEach(({ start, end }, w) => {
    const path = `turnouts[${w}]`;
    if (!check.minute(`${path}.start`, start) || !check.minute(`${path}.end`, end)) return;
    if (end <= start) check.fault(`${path}.end`, `must be after its start (${start}), is ${end}`);
    const last = w > 0 ? turnouts[w - 1].end : start;
    if (start < last)
      check.fault(
        `${path}.start`,
        `must not be before the end of the turnout before it (${last}), is ${start}`,
      );
  });
  aim.slots.forEach((slot, k) => {
    if (!check.minute(`aim.slots[${k}]`, slot) || k === 0) return;
    if (slot <= aim.slots[k - 1])
      check.fault(`aim.slots[${k}]`, `must be after the slot before it (${aim.slots[k - 1]}), is ${slot}`);
  });
  if (check.minute('aim.gate', aim.gate) && !aim.slots.includes(aim.gate)) {
    check.fault('aim.gate', `must be one of aim.slots, is ${aim.gate}`);
  }
}

function checkTools(problem: Problem, check: Check): void {
  problem.tools.forEach((tool, k) => {
    check.whole(`tools[${k}].capacity`, tool.capacity);
    tool.spans.forEach((span, s) => {
      const path = `tools[${k}].spans[${s}]`;
      check.whole(`${path}.capacity`, span.capacity);
      if (!check.minute(`${path}.from`, span.from) || !check.minute(`${path}.to`, span.to)) return;
      if (span.to <= span.from)
        check.fault(`${path}.to`, `must be after its from (${span.from}), is ${span.to}`);
      const last = s > 0 ? tool.spans[s - 1].to : span.from;
      if (span.from < last)
        check.fault(
          `${path}.from`,
          `must not be before the end of the span before it (${last}), is ${span.from}`,
        );
    });
  });
}

/** Each element has one opener and one closer at most; limits name elements that there are. */
function checkElements(problem: Problem, check: Check): void {
  const size = problem.elements.length;
  for (const list of ['opens', 'closes'] as const) {
    const by = new Map<number, number>();
    problem.tasks.forEach((task, i) => {
      task[list].forEach((e, k) => {
        const first = by.get(e);
        if (first !== undefined && first !== i) {
          check.fault(
            `tasks[${i}].${list}[${k}]`,
            `must not be elements[${e}], which tasks[${first}] ${list} already`,
          );
        }
        by.set(e, first ?? i);
      });
    });
  }
  problem.tasks.forEach(({ progress, closes }, i) => {
    if (progress.kind !== 'done') return;
    closes.forEach((e, k) => {
      const opener = problem.tasks.findIndex((other) => other.opens.includes(e));
      if (opener < 0) return;
      const opened = problem.tasks[opener].progress;
      if (opened.kind !== 'waiting' && opened.startedAt <= progress.endedAt) return;
      check.fault(
        `tasks[${i}].closes[${k}]`,
        `must not be elements[${e}], shut before tasks[${opener}] opened it`,
      );
    });
  });
  problem.openingLimits.forEach((limit, k) => {
    check.indices(`openingLimits[${k}].elements`, limit.elements, 'elements', size);
    check.whole(`openingLimits[${k}].atMost`, limit.atMost);
    if (limit.from !== undefined) check.minute(`openingLimits[${k}].from`, limit.from);
  });
}

function checkLinks(problem: Problem, check: Check): void {
  const size = problem.tasks.length;
  problem.links.forEach((link, k) => {
    const path = `links[${k}]`;
    const sound =
      check.index(`${path}.before`, link.before, 'tasks', size) &&
      check.index(`${path}.after`, link.after, 'tasks', size);
    if (sound && link.before === link.after) check.fault(`${path}.after`, 'must be another task than before');
    check.choice(`${path}.relation`, link.relation, RELATIONS);
    check.choice(`${path}.lagKind`, link.lagKind, ['working', 'elapsed']);
    check.minute(`${path}.lag`, link.lag);
  });
}

function checkPostings(problem: Problem, check: Check): void {
  problem.posted.forEach(({ task, turnout, person, firm }, k) => {
    const path = `posted[${k}]`;
    const sound = [
      check.index(`${path}.task`, task, 'tasks', problem.tasks.length),
      check.index(`${path}.turnout`, turnout, 'turnouts', problem.turnouts.length),
      check.index(`${path}.person`, person, 'people', problem.people.length),
    ].every(Boolean);
    if (!sound || !firm || problem.turnouts[turnout].end <= problem.now) return;
    if (!problem.people[person].stays.some((stay) => stay.turnout === turnout)) {
      check.impossible(path, `people[${person}] is not expected at turnouts[${turnout}]`);
    }
  });
}
