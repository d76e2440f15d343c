import type { Check } from './faults.js';
import { minutesOf } from './lengths.js';
import type { Problem, Seat, Task } from './problem.js';

/** One task: its effort, crew, seats, tools and progress, each alone and against the people and tools there are. */
export function checkTask(problem: Problem, task: Task, i: number, longest: number, check: Check): void {
  const path = `tasks[${i}]`;
  const before = check.faults.length;
  checkEffort(task, path, check);
  checkCrew(task, path, check);
  task.seats.forEach((seat, s) => {
    checkSeat(problem, seat, `${path}.seats[${s}]`, check);
  });
  check.indices(`${path}.clearances`, task.clearances, 'clearances', problem.clearances.length);
  check.indices(`${path}.opens`, task.opens, 'elements', problem.elements.length);
  check.indices(`${path}.closes`, task.closes, 'elements', problem.elements.length);
  check.whole(`${path}.setUpMinutes`, task.setUpMinutes);
  check.share(`${path}.extraHandShare`, task.extraHandShare);
  check.share(`${path}.learnerShare`, task.learnerShare);
  task.tools.forEach(({ tool, count }, k) => {
    check.index(`${path}.tools[${k}].tool`, tool, 'tools', problem.tools.length);
    check.whole(`${path}.tools[${k}].count`, count, 1);
  });
  if (task.notBefore !== null) check.minute(`${path}.notBefore`, task.notBefore);
  checkProgress(problem, task, path, check);
  if (check.faults.length === before && task.progress.kind !== 'done') {
    checkPossible(problem, task, path, longest, check);
  }
}

function checkEffort({ effort, crew, seats }: Task, path: string, check: Check): void {
  switch (effort.kind) {
    case 'work':
      if (!(effort.personMinutes >= 0 && effort.personMinutes < 1e12)) {
        check.fault(`${path}.effort.personMinutes`, `must be 0 or more, is ${String(effort.personMinutes)}`);
      }
      if (crew.max === 0 && effort.personMinutes > 0)
        check.fault(`${path}.crew.max`, 'must be 1 or more: work needs hands');
      return;
    case 'elapsed':
    case 'fixed':
      check.whole(`${path}.effort.minutes`, effort.minutes);
      if (effort.kind === 'fixed') return;
      if (crew.max > 0)
        check.fault(`${path}.crew.max`, `must be 0: time passes without a crew; is ${crew.max}`);
      if (seats.length > 0) check.fault(`${path}.seats`, 'must be empty: time passes without a crew');
      return;
    case 'hold':
      return;
    default:
      check.choice(`${path}.effort.kind`, (effort as { kind: string }).kind, [
        'work',
        'fixed',
        'elapsed',
        'hold',
      ]);
  }
}

function checkCrew({ crew, seats }: Task, path: string, check: Check): void {
  const { min, efficient, max } = crew;
  const whole = [
    check.whole(`${path}.crew.min`, min),
    check.whole(`${path}.crew.efficient`, efficient),
    check.whole(`${path}.crew.max`, max),
  ].every(Boolean);
  if (!whole) return;
  if (min > max) check.fault(`${path}.crew.min`, `must not be above the most hands (${max}), is ${min}`);
  else if (efficient < min || efficient > max) {
    check.fault(`${path}.crew.efficient`, `must lie between ${min} and ${max}, is ${efficient}`);
  } else if (max > 0 && efficient === 0)
    check.fault(`${path}.crew.efficient`, 'must be 1 or more where hands are let in');
  const seated = seats.reduce((sum, seat) => sum + seat.count, 0);
  if (seated > max)
    check.fault(`${path}.seats`, `must not have more seats than hands are let in (${max}), have ${seated}`);
}

function checkSeat(problem: Problem, seat: Seat, path: string, check: Check): void {
  check.index(`${path}.skill`, seat.skill, 'skills', problem.skills.length);
  check.whole(`${path}.level`, seat.level, 1, 4);
  check.whole(`${path}.count`, seat.count, 1);
  check.indices(`${path}.clearances`, seat.clearances, 'clearances', problem.clearances.length);
}

function checkProgress({ now }: Problem, { progress }: Task, path: string, check: Check): void {
  if (progress.kind === 'waiting') return;
  if (!check.choice(`${path}.progress.kind`, progress.kind, ['waiting', 'under way', 'done'])) return;
  const { startedAt } = progress;
  if (check.minute(`${path}.progress.startedAt`, startedAt) && startedAt > now) {
    check.fault(`${path}.progress.startedAt`, `must not be after now (${now}), is ${startedAt}`);
  }
  if (progress.kind !== 'done' || !check.minute(`${path}.progress.endedAt`, progress.endedAt)) return;
  if (progress.endedAt < startedAt || progress.endedAt > now) {
    check.fault(
      `${path}.progress.endedAt`,
      `must lie between its start (${startedAt}) and now (${now}), is ${progress.endedAt}`,
    );
  }
}

/** Wishes that nobody and nothing here can meet, whatever the plan. */
function checkPossible(problem: Problem, task: Task, path: string, longest: number, check: Check): void {
  const able = problem.people.filter(
    (person) =>
      person.stays.some((stay) => stay.showUp > 0) &&
      task.clearances.every((c) => person.clearances.some((held) => held.clearance === c)),
  );
  if (able.length < task.crew.min) {
    check.impossible(`${path}.crew.min`, `wants ${task.crew.min} people, ${able.length} may work on it`);
  }
  task.seats.forEach((seat, s) => {
    const fit = able.filter(
      (person) =>
        person.levels[seat.skill] >= seat.level &&
        seat.clearances.every((c) => person.clearances.some((held) => held.clearance === c)),
    );
    if (fit.length < seat.count)
      check.impossible(
        `${path}.seats[${s}].count`,
        `wants ${seat.count} people, ${fit.length} are fit for it`,
      );
  });
  task.tools.forEach(({ tool, count }, k) => {
    const most = Math.max(
      problem.tools[tool].capacity,
      ...problem.tools[tool].spans.map((span) => span.capacity),
    );
    if (count > most)
      check.impossible(`${path}.tools[${k}].count`, `wants ${count}, there are never more than ${most}`);
  });
  if (!task.oneGo || task.effort.kind === 'elapsed' || task.effort.kind === 'hold') return;
  const minutes = minutesOf(task, able.length, 'fastest');
  if (minutes > longest)
    check.impossible(
      `${path}.oneGo`,
      `takes ${minutes} minutes in one go, the longest turnout has ${longest}`,
    );
}
