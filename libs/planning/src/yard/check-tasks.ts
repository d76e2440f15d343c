import type { Add, Refs } from './refs.js';
import type { YardDocument, YardTask } from './yard-document.js';

/** Estimates, crews, seats, tools, openings and progress of the tasks. */
export function checkTasks(document: YardDocument, refs: Refs, add: Add): void {
  const capacity = new Map(document.tools.map((tool) => [tool.ref, tool.capacity]));
  const longest = longestTurnout(document);
  document.tasks.forEach((task, i) => {
    const path = `tasks[${String(i)}]`;
    checkEstimate(task, path, add);
    checkCrew(task, path, add);
    checkOneGo(task, longest, path, add);
    task.seats.forEach((seat, s) => {
      refs.check('skills', seat.skill, `${path}.seats[${String(s)}].skill`);
      refs.checkAll('cardKinds', seat.cards, `${path}.seats[${String(s)}].cards`);
    });
    refs.checkAll('cardKinds', task.cards, `${path}.cards`);
    task.tools.forEach((use, t) => {
      const at = `${path}.tools[${String(t)}]`;
      if (!refs.check('tools', use.tool, `${at}.tool`)) return;
      const there = capacity.get(use.tool) ?? 0;
      if (use.count > there)
        add(
          `${at}.count`,
          `asks for ${String(use.count)} of ${use.tool}`,
          `${String(there)} or fewer: there are no more`,
        );
    });
    const progress = task.progress;
    if (progress && progress.endedOn !== null && progress.endedOn < progress.startedOn)
      add(`${path}.progress.endedOn`, 'ends before it starts', `${progress.startedOn} or later, or null`);
  });
  checkOpenings(document, refs, add);
  const launches = document.tasks.flatMap((task, i) => (task.kind === 'launch' ? [i] : []));
  for (const i of launches.slice(1))
    add(
      `tasks[${String(i)}].kind`,
      'is a second launch',
      'one launch in a yard: what follows it is done afloat',
    );
}

function checkEstimate(task: YardTask, path: string, add: Add): void {
  const { kind, estimate } = task;
  const wanted = { work: 'count or work', fixed: 'time', elapsed: 'time', hold: '', launch: '' }[kind];
  if (wanted === '' && estimate) add(`${path}.estimate`, `a ${kind} has no length of its own`, 'null');
  if (wanted !== '' && !estimate)
    add(`${path}.estimate`, `a ${kind} task has no estimate`, `an estimate by ${wanted}`);
  if (wanted !== '' && estimate && !wanted.split(' or ').includes(estimate.by))
    add(`${path}.estimate.by`, `a ${kind} task can't be estimated by ${estimate.by}`, wanted);
  if (!estimate) return;
  const [name, points] =
    estimate.by === 'count'
      ? (['perPersonHour', estimate.perPersonHour] as const)
      : estimate.by === 'work'
        ? (['personMinutes', estimate.personMinutes] as const)
        : (['minutes', estimate.minutes] as const);
  if (points.low > points.likely || points.likely > points.high)
    add(
      `${path}.estimate.${name}`,
      `is out of order: ${String(points.low)}, ${String(points.likely)}, ${String(points.high)}`,
      'low no more than likely, likely no more than high',
    );
}

function checkCrew(task: YardTask, path: string, add: Add): void {
  const { min, efficient, max } = task.crew;
  if (min > efficient) add(`${path}.crew.efficient`, 'is below the least crew', `${String(min)} or more`);
  if (efficient > max) add(`${path}.crew.max`, 'is below the efficient crew', `${String(efficient)} or more`);
  if (task.kind === 'work' && min < 1) add(`${path}.crew.min`, 'work needs somebody', '1 or more');
  if (task.kind === 'elapsed' && (max > 0 || task.seats.length > 0))
    add(`${path}.crew`, 'time that passes by itself has no crew', 'a crew of 0, 0, 0 and no seats');
  const seats = task.seats.reduce((sum, seat) => sum + seat.count, 0);
  if (task.kind !== 'hold' && seats > max)
    add(
      `${path}.seats`,
      `${String(seats)} seats for a crew of ${String(max)} at most`,
      `${String(max)} seats or fewer`,
    );
}

function checkOneGo(task: YardTask, longest: number, path: string, add: Add): void {
  const staysInATurnout = task.kind === 'fixed' || (task.kind === 'work' && task.oneGo);
  if (!staysInATurnout || !task.estimate) return;
  const { efficient, max } = task.crew;
  const rate = efficient + (max - efficient) * task.extraHandShare;
  const estimate = task.estimate;
  const minutes =
    estimate.by === 'time'
      ? estimate.minutes.likely
      : estimate.by === 'work'
        ? estimate.personMinutes.likely / rate
        : (estimate.count / estimate.perPersonHour.likely) * (60 / rate);
  if (Number.isFinite(minutes) && minutes > longest)
    add(
      `${path}.oneGo`,
      `takes ${String(Math.ceil(minutes))} minutes in one go even with its largest crew`,
      `false, or ${String(longest)} minutes or less, the longest turnout`,
    );
}

/** Minutes of the longest turnout of a document. */
function longestTurnout(document: YardDocument): number {
  const spans = [...document.turnoutRules, ...document.singleTurnouts];
  return spans.reduce((most, span) => Math.max(most, minutesOf(span.endTime) - minutesOf(span.startTime)), 0);
}

/** Minutes since midnight of a local time. */
export function minutesOf(time: string): number {
  return Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));
}

function checkOpenings(document: YardDocument, refs: Refs, add: Add): void {
  const opener = new Map<string, string>();
  const closer = new Map<string, string>();
  document.tasks.forEach((task, i) => {
    for (const [name, by] of [['opens', opener] as const, ['closes', closer] as const]) {
      const path = `tasks[${String(i)}].${name}`;
      refs.checkAll('elements', task[name], path);
      task[name].forEach((element, e) => {
        const other = by.get(element);
        if (other !== undefined && other !== task.ref)
          add(
            `${path}[${String(e)}]`,
            `${other} ${name} ${element} already`,
            `one task that ${name} each element`,
          );
        by.set(element, task.ref);
      });
    }
  });
  document.tasks.forEach((task, i) => {
    task.closes.forEach((element, e) => {
      if (!opener.has(element))
        add(
          `tasks[${String(i)}].closes[${String(e)}]`,
          `nothing opens ${element}`,
          'an element that a task opens',
        );
    });
  });
  document.openingLimits.forEach((limit, i) => {
    refs.checkAll('elements', limit.elements, `openingLimits[${String(i)}].elements`);
  });
}
