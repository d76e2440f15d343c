import type { Hand, Link, Minute, Plan, Problem, Segment, Task } from '@ribband/engine';

/**
 * Reads a plan against its problem and lists every rule that it breaks; an empty list means that it may be posted.
 * Written from the problem's description alone and sharing no code with the engine, so that the two can disagree.
 */
export type Rule =
  | 'shape'
  | 'task missing'
  | 'times'
  | 'turnout'
  | 'one go'
  | 'stopped'
  | 'work'
  | 'crew'
  | 'seat'
  | 'clearance'
  | 'second hand'
  | 'stay'
  | 'two places'
  | 'cap'
  | 'tool'
  | 'opening'
  | 'link'
  | 'not before'
  | 'now'
  | 'horizon'
  | 'posting'
  | 'ready'
  | 'chain';

export interface Broken {
  rule: Rule;
  says: string;
}

const WEEK = 7 * 24 * 60;

export function verifyPlan(problem: Problem, plan: Plan): Broken[] {
  const broken: Broken[] = [];
  const fault = (rule: Rule, says: string) => broken.push({ rule, says });

  if (!wellShaped(problem, plan, fault)) return broken;
  const segments: Segment[][] = problem.tasks.map(() => []);
  for (const segment of plan.segments) segments[segment.task].push(segment);
  for (const list of segments) list.sort((a, b) => a.start - b.start || a.end - b.end);

  problem.tasks.forEach((task, i) => {
    times(problem, plan, i, segments[i], fault);
    if (task.progress.kind === 'done') return;
    for (const segment of segments[i]) {
      if (isMark(task)) {
        if (segment.end > segment.start) fault('work', `${task.name} has nothing to do and takes time`);
        continue;
      }
      where(problem, segment, fault);
      crew(problem, segment, fault);
    }
    amount(problem, plan, i, segments[i], fault);
  });
  people(problem, plan, fault);
  tools(problem, plan, fault);
  openings(problem, plan, fault);
  links(problem, plan, fault);
  postings(problem, plan, fault);
  ready(problem, plan, fault);
  chain(plan, fault);
  return broken;
}

/** Nothing to do and nobody to ask: it only stands between links. */
function isMark({ effort }: Task): boolean {
  if (effort.kind === 'hold') return false;
  return effort.kind === 'work' ? effort.personMinutes === 0 : effort.minutes === 0;
}

type Fault = (rule: Rule, says: string) => void;

function wellShaped(problem: Problem, plan: Plan, fault: Fault): boolean {
  let sound = true;
  const bad = (says: string) => {
    fault('shape', says);
    sound = false;
  };
  const index = (value: number, size: number) => Number.isInteger(value) && value >= 0 && value < size;
  if (plan.tasks.length !== problem.tasks.length) {
    bad(`times of ${plan.tasks.length} tasks, there are ${problem.tasks.length}`);
  }
  plan.segments.forEach((segment, s) => {
    if (!index(segment.task, problem.tasks.length)) bad(`segment ${s} is of task ${segment.task}`);
    if (segment.turnout !== null && !index(segment.turnout, problem.turnouts.length)) {
      bad(`segment ${s} is in turnout ${segment.turnout}`);
    }
    if (!Number.isInteger(segment.start) || !Number.isInteger(segment.end) || segment.end < segment.start) {
      bad(`segment ${s} runs from ${segment.start} to ${segment.end}`);
    }
    if (s > 0 && segment.start < plan.segments[s - 1].start)
      bad(`segment ${s} starts before the one listed before it`);
    for (const hand of segment.crew) {
      if (!index(hand.person, problem.people.length)) bad(`segment ${s} names person ${hand.person}`);
      const seats = problem.tasks[segment.task]?.seats.length ?? 0;
      if (hand.seat !== null && !index(hand.seat, seats)) bad(`segment ${s} names seat ${hand.seat}`);
    }
  });
  return sound;
}

/** First start and last end are what the plan says, nothing overlaps, nothing lies in the past or past the horizon. */
function times(problem: Problem, plan: Plan, i: number, segments: Segment[], fault: Fault): void {
  const { progress, effort, name, notBefore } = problem.tasks[i];
  const { start, end } = plan.tasks[i];
  if (progress.kind === 'done') {
    if (segments.length > 0) fault('times', `${name} is done and worked on again`);
    if (start !== progress.startedAt || end !== progress.endedAt)
      fault('times', `${name} is done at other times`);
    return;
  }
  if (segments.length === 0) {
    const length =
      effort.kind === 'work' ? effort.personMinutes : effort.kind === 'hold' ? 0 : effort.minutes;
    if (length > 0 || effort.kind === 'hold') fault('task missing', `${name} has no segment`);
    return;
  }
  const first = progress.kind === 'under way' ? progress.startedAt : segments[0].start;
  const last = Math.max(...segments.map((segment) => segment.end));
  if (start !== first || end !== last) {
    fault('times', `${name} is said to run ${start}..${end}, its segments run ${first}..${last}`);
  }
  segments.forEach((segment, s) => {
    if (s > 0 && segment.start < segments[s - 1].end)
      fault('two places', `${name} is worked on twice at ${segment.start}`);
    if (segment.start < problem.now) fault('now', `${name} has a segment at ${segment.start}, before now`);
    if (segment.end > problem.horizon) fault('horizon', `${name} has a segment until ${segment.end}`);
  });
  if (progress.kind === 'waiting' && notBefore !== null && first < notBefore) {
    fault('not before', `${name} starts at ${first}, not before ${notBefore}`);
  }
}

/** Work lies inside the turnout that it names; what passes by itself names none. */
function where(problem: Problem, segment: Segment, fault: Fault): void {
  const { name, effort, seats } = problem.tasks[segment.task];
  if (effort.kind === 'elapsed') {
    if (segment.turnout !== null) fault('turnout', `${name} passes by itself and names a turnout`);
    if (segment.crew.length > 0) fault('crew', `${name} passes by itself and names a crew`);
    return;
  }
  if (segment.turnout === null) {
    const empty = segment.start === segment.end && segment.crew.length === 0 && seats.length === 0;
    if (!empty) fault('turnout', `${name} at ${segment.start} names no turnout`);
    return;
  }
  const turnout = problem.turnouts[segment.turnout];
  if (segment.start < turnout.start || segment.end > turnout.end) {
    fault('turnout', `${name} runs ${segment.start}..${segment.end}, outside turnout ${segment.turnout}`);
  }
}

/** Enough hands, not too many, every seat filled by somebody fit for it who is there. */
function crew(problem: Problem, segment: Segment, fault: Fault): void {
  const task = problem.tasks[segment.task];
  if (task.effort.kind === 'elapsed') return;
  const at = `${task.name} at ${segment.start}`;
  const size = segment.crew.length;
  if (size < task.crew.min || size > task.crew.max) {
    fault('crew', `${at}: ${size} hands, ${task.crew.min} to ${task.crew.max} wanted`);
  }
  if (new Set(segment.crew.map((hand) => hand.person)).size < size)
    fault('two places', `${at}: one person named twice`);
  task.seats.forEach((seat, s) => {
    const holders = segment.crew.filter((hand) => hand.seat === s);
    if (holders.length !== seat.count)
      fault('seat', `${at}: seat ${s} has ${holders.length} of ${seat.count}`);
    for (const { person } of holders) {
      const { name, levels } = problem.people[person];
      if (levels[seat.skill] < seat.level) fault('seat', `${at}: ${name} has not the level for seat ${s}`);
      for (const clearance of seat.clearances) holds(problem, segment, person, clearance, fault);
    }
  });
  for (const { person } of segment.crew) {
    for (const clearance of task.clearances) holds(problem, segment, person, clearance, fault);
    if (!isThere(problem, segment, person)) {
      fault('stay', `${at}: ${problem.people[person].name} is not there the whole time`);
    }
  }
  const learners = segment.crew.filter((hand) => best(problem, task, hand) === 1);
  if (learners.length > 0 && !segment.crew.some((hand) => best(problem, task, hand) >= 2)) {
    fault('second hand', `${at}: a learner without anybody who works alone`);
  }
}

function holds(problem: Problem, segment: Segment, person: number, clearance: number, fault: Fault): void {
  const last = Math.max(segment.start, segment.end - 1);
  const fit = problem.people[person].clearances.some(
    (held) => held.clearance === clearance && (held.until === null || held.until >= last),
  );
  const task = problem.tasks[segment.task].name;
  if (!fit) {
    fault(
      'clearance',
      `${task} at ${segment.start}: ${problem.people[person].name} lacks clearance ${clearance}`,
    );
  }
}

function isThere(problem: Problem, segment: Segment, person: number): boolean {
  return problem.people[person].stays.some(
    (stay) =>
      stay.turnout === segment.turnout &&
      stay.showUp > 0 &&
      stay.from <= segment.start &&
      segment.end <= stay.to,
  );
}

/** Best level among the skills that the task seats; 2 where it seats none, so that nobody is a learner there. */
function best(problem: Problem, task: Task, hand: Hand): number {
  if (task.seats.length === 0) return 2;
  return Math.max(...task.seats.map((seat) => problem.people[hand.person].levels[seat.skill]));
}

function rate(problem: Problem, task: Task, hands: Hand[]): number {
  const shares = hands.map((hand) => (best(problem, task, hand) === 1 ? task.learnerShare : 1));
  shares.sort((a, b) => b - a);
  return shares.reduce(
    (sum, share, k) => sum + share * (k < task.crew.efficient ? 1 : task.extraHandShare),
    0,
  );
}

/** As much done as there was to do, set-up paid at every return, no stop without a cause, nothing worked beyond. */
function amount(problem: Problem, plan: Plan, i: number, segments: Segment[], fault: Fault): void {
  const task = problem.tasks[i];
  const { effort, name } = task;
  if (segments.length === 0) return;
  if (effort.kind === 'hold' || effort.kind === 'elapsed') {
    const length = effort.kind === 'hold' ? 0 : effort.minutes;
    if (segments.length > 1) fault('one go', `${name} is in ${segments.length} pieces`);
    if (segments[0].end - segments[0].start !== length)
      fault('work', `${name} takes ${length} minutes, given another length`);
    return;
  }
  if (task.oneGo && segments.length > 1)
    fault('one go', `${name} is done in one go, planned in ${segments.length}`);
  let done = 0;
  let last = 1;
  let owed = 0;
  segments.forEach((segment, s) => {
    const goesOn =
      s > 0 && segments[s - 1].end === segment.start && segments[s - 1].turnout === segment.turnout;
    if (s > 0 && !goesOn) owed = task.setUpMinutes;
    const minutes = segment.end - segment.start;
    last = effort.kind === 'work' ? rate(problem, task, segment.crew) : 1;
    done += Math.max(0, minutes - owed) * last;
    owed = Math.max(0, owed - minutes);
    const next = segments.at(s + 1);
    if (
      next &&
      !(next.start === segment.end && next.turnout === segment.turnout) &&
      !mustStop(problem, plan, segment)
    ) {
      fault('stopped', `${name} stops at ${segment.end} though nobody has to leave`);
    }
  });
  const wanted = effort.kind === 'work' ? effort.personMinutes : effort.minutes;
  if (done < wanted - 1e-6) fault('work', `${name}: ${done} of ${wanted} done`);
  if (done - wanted >= last - 1e-6)
    fault('work', `${name} goes on after its work is done: ${done} of ${wanted}`);
}

/** The turnout ends here, or one of the hands or tools must go. */
function mustStop(problem: Problem, plan: Plan, segment: Segment): boolean {
  const { end } = segment;
  if (segment.turnout === null || problem.turnouts[segment.turnout].end === end) return true;
  const task = problem.tasks[segment.task];
  if (segment.crew.some((hand) => leaves(problem, plan, segment, hand.person))) return true;
  return task.tools.some(({ tool }) =>
    problem.tools[tool].spans.some((span) => span.from === end || span.to === end),
  );
}

/** The stay or a clearance ends here, or the person has worked as long as they want to. */
function leaves(problem: Problem, plan: Plan, segment: Segment, p: number): boolean {
  const { end, turnout } = segment;
  const person = problem.people[p];
  if (person.stays.some((stay) => stay.turnout === turnout && stay.to === end)) return true;
  if (person.clearances.some((held) => held.until !== null && held.until + 1 === end)) return true;
  let inTurnout = 0;
  let inWeek = 0;
  const week = Math.floor((end - 1) / WEEK) * WEEK;
  for (const one of plan.segments) {
    if (one.end > end || !one.crew.some((hand) => hand.person === p)) continue;
    if (one.turnout === turnout) inTurnout += one.end - one.start;
    inWeek += Math.max(0, one.end - Math.max(one.start, week));
  }
  return inTurnout === person.minutesATurnout || inWeek === person.minutesAWeek;
}

/** Whether minute b is late enough after minute a for the lag of the link. */
export function lagIsKept(problem: Problem, link: Link, a: Minute, b: Minute): boolean {
  const worked = (t: Minute) =>
    problem.turnouts.reduce((sum, one) => sum + Math.max(0, Math.min(t, one.end) - one.start), 0);
  if (link.lagKind === 'elapsed' || link.lag === 0) return b - a >= link.lag;
  return worked(b) - worked(a) >= link.lag;
}

/** Nobody in two places, nobody over the cap of a turnout or a week. */
function people(problem: Problem, plan: Plan, fault: Fault): void {
  const segments: Segment[][] = problem.people.map(() => []);
  for (const segment of plan.segments) {
    if (segment.end > segment.start) for (const hand of segment.crew) segments[hand.person].push(segment);
  }
  problem.people.forEach((person, p) => {
    const turnouts = new Map<number, number>();
    const weeks = new Map<number, number>();
    segments[p].sort((a, b) => a.start - b.start);
    segments[p].forEach((segment, s) => {
      if (s > 0 && segment.start < segments[p][s - 1].end) {
        const [a, b] = [segments[p][s - 1], segment].map((one) => problem.tasks[one.task].name);
        fault('two places', `${person.name} is on ${a} and ${b} at ${segment.start}`);
      }
      const minutes = segment.end - segment.start;
      if (segment.turnout !== null)
        turnouts.set(segment.turnout, (turnouts.get(segment.turnout) ?? 0) + minutes);
      for (let from = segment.start; from < segment.end;) {
        const week = Math.floor(from / WEEK);
        const to = Math.min(segment.end, (week + 1) * WEEK);
        weeks.set(week, (weeks.get(week) ?? 0) + to - from);
        from = to;
      }
    });
    for (const [w, minutes] of turnouts) {
      if (person.minutesATurnout !== null && minutes > person.minutesATurnout) {
        fault('cap', `${person.name} works ${minutes} minutes in turnout ${w}`);
      }
    }
    for (const [week, minutes] of weeks) {
      if (person.minutesAWeek !== null && minutes > person.minutesAWeek) {
        fault('cap', `${person.name} works ${minutes} minutes in week ${week}`);
      }
    }
  });
}

function tools(problem: Problem, plan: Plan, fault: Fault): void {
  const held: Segment[][] = problem.tools.map(() => []);
  for (const segment of plan.segments) {
    for (const { tool } of problem.tasks[segment.task].tools)
      if (segment.end > segment.start) held[tool].push(segment);
  }
  problem.tools.forEach((tool, k) => {
    const changes = tool.spans.flatMap((span) => [span.from, span.to]);
    const moments = new Set([...held[k].map((segment) => segment.start), ...changes]);
    const takes = (segment: Segment) =>
      problem.tasks[segment.task].tools.reduce((sum, one) => sum + (one.tool === k ? one.count : 0), 0);
    for (const t of moments) {
      const capacity = tool.spans.find((span) => span.from <= t && t < span.to)?.capacity ?? tool.capacity;
      const use = [...new Set(held[k])].reduce(
        (sum, s) => sum + (s.start <= t && t < s.end ? takes(s) : 0),
        0,
      );
      if (use > capacity) fault('tool', `${tool.name}: ${use} of ${capacity} in use at ${t}`);
    }
  });
}

/** At the moment that something is opened, no limit is passed. What was open before `now` is nobody's fault now. */
function openings(problem: Problem, plan: Plan, fault: Fault): void {
  const opener = problem.elements.map((_, e) => problem.tasks.findIndex((task) => task.opens.includes(e)));
  const closer = problem.elements.map((_, e) => problem.tasks.findIndex((task) => task.closes.includes(e)));
  const isOpen = (e: number, t: Minute) => {
    if (opener[e] < 0 && closer[e] < 0) return false;
    const from = opener[e] < 0 ? -Infinity : plan.tasks[opener[e]].start;
    const to = closer[e] < 0 ? Infinity : plan.tasks[closer[e]].end;
    return from <= t && t < to;
  };
  problem.elements.forEach(({ name }, e) => {
    if (opener[e] < 0 || closer[e] < 0) return;
    if (plan.tasks[closer[e]].end < plan.tasks[opener[e]].start)
      fault('opening', `${name} is shut before it is opened`);
  });
  for (const limit of problem.openingLimits) {
    for (const e of limit.elements) {
      if (opener[e] < 0 || problem.tasks[opener[e]].progress.kind !== 'waiting') continue;
      // What was opened before the limit came into force counts on the minute on which it does.
      const t = Math.max(plan.tasks[opener[e]].start, limit.from ?? -Infinity);
      const open = limit.elements.filter((other) => isOpen(other, t)).length;
      if (open > limit.atMost && isOpen(e, t))
        fault('opening', `${limit.name}: ${open} of ${limit.atMost} open at ${t}`);
    }
  }
}

function links(problem: Problem, plan: Plan, fault: Fault): void {
  problem.links.forEach((link) => {
    const after = problem.tasks[link.after];
    const [from, to] = link.relation.split('-to-') as ['start' | 'finish', 'start' | 'finish'];
    if (after.progress.kind === 'done' || (after.progress.kind === 'under way' && to === 'start')) return;
    const a = from === 'start' ? plan.tasks[link.before].start : plan.tasks[link.before].end;
    const b = to === 'start' ? plan.tasks[link.after].start : plan.tasks[link.after].end;
    if (!lagIsKept(problem, link, a, b)) {
      const lag = `${link.relation}, ${link.lag} ${link.lagKind} minutes`;
      fault('link', `${problem.tasks[link.before].name} at ${a}, ${after.name} at ${b}: ${lag}`);
    }
  });
}

function postings(problem: Problem, plan: Plan, fault: Fault): void {
  let changed = 0;
  problem.posted.forEach((posting, n) => {
    if (problem.tasks[posting.task].progress.kind === 'done') return;
    if (problem.turnouts[posting.turnout].end <= problem.now) return;
    const kept = plan.segments.some(
      ({ task, turnout, crew }) =>
        task === posting.task &&
        turnout === posting.turnout &&
        crew.some((hand) => hand.person === posting.person),
    );
    if (kept) return;
    changed++;
    if (posting.firm) fault('posting', `firm posting ${n} is not kept`);
  });
  if (changed !== plan.postingsChanged)
    fault('posting', `${changed} postings changed, ${plan.postingsChanged} told`);
}

/** The ready minute, the slot after it and the bound say what the times say. */
function ready(problem: Problem, plan: Plan, fault: Fault): void {
  const last = plan.tasks.reduce((t, task) => Math.max(t, task.end), -Infinity);
  if (plan.tasks.length > 0 && plan.ready !== last)
    fault('ready', `ready at ${plan.ready}, the last task ends at ${last}`);
  const slot = problem.aim.slots.findIndex((start) => start >= plan.ready);
  if (plan.slot !== (slot < 0 ? null : slot))
    fault('ready', `slot ${plan.slot} told, ${slot} is the first after ready`);
  if (plan.bound.ready > plan.ready)
    fault('ready', `ready at ${plan.ready} beats the bound ${plan.bound.ready}`);
  if (plan.proved !== (plan.bound.ready === plan.ready))
    fault('ready', `said to be ${plan.proved ? '' : 'not '}proved`);
}

/** The launch chain leads up to the last end, and no float is less than none. */
function chain(plan: Plan, fault: Fault): void {
  if (plan.tasks.length === 0) return;
  const last = plan.launchChain.at(-1);
  if (!last) fault('chain', 'there is no launch chain');
  else if (plan.tasks.at(last.task)?.end !== plan.ready) {
    fault('chain', `the launch chain ends with task ${last.task}, which does not end at ${plan.ready}`);
  }
  plan.tasks.forEach(({ float }, i) => {
    if (!(float >= 0)) fault('chain', `task ${i} has float ${float}`);
  });
}
