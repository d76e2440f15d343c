import type { Effort, Posting, Problem, Task } from '@ribband/engine';
import { instantToLocal } from '@ribband/platform';
import { Clearances, isMinorOn } from './clearances.js';
import { PlanClock } from './minutes.js';
import { seenOpenings, type SeenOpenings } from './openings.js';
import { buildPeople } from './people.js';
import { standingOf, type Standing } from './progress.js';
import { readyScope } from './scope.js';
import type { TaskRecord, YardRecords } from './yard-records.js';

/** A problem with what is needed to read its answer: the engine's indices are those of the lists here. */
export interface BuiltProblem {
  problem: Problem;
  /** The instant of the problem's minute 0. */
  epochAt: number;
  /** Ids of the records behind `problem.links`, in its order. */
  linkIds: string[];
}

/** Places taken for turnouts that start within this time are kept whatever it costs. */
const comingWeek = 7 * 24 * 60;

/**
 * The engine's problem from a yard's records: pure, so the same records always give the same problem.
 *
 * A dropped task stays as a point without length, so that what followed it still follows what it followed. Held work
 * is not planned for the coming week. The launch and what follows it are left out: see `readyScope`.
 */
export function buildProblem(yard: YardRecords): BuiltProblem {
  const clock = PlanClock.of(yard);
  const now = clock.minuteFrom(yard.now);
  const today = instantToLocal(yard.now, yard.timeZone).day;
  const scope = readyScope(yard.tasks, yard.links);
  const clearances = new Clearances(yard, today);
  const people = buildPeople(yard, clearances, clock, today);
  const index = {
    skills: indexOf(yard.skills),
    tools: indexOf(yard.tools),
    elements: indexOf(yard.elements),
    tasks: indexOf(scope.tasks),
    turnouts: indexOf(yard.turnouts),
    people: new Map(people.map((person, i) => [person.id, i])),
  };
  const openings = seenOpenings(yard);
  const minors = yard.hands.some((hand) => isMinorOn(hand, today));
  const adultSkill = minors ? addAdultSkill(yard, people, today) : null;
  const tasks = scope.tasks.map((task) =>
    buildTask(task, standingOf(task, now, clock), { clock, now, clearances, index, adultSkill, openings }),
  );
  const turnouts = yard.turnouts.map(({ id, startsAt, endsAt }) => ({
    id,
    start: clock.minute(startsAt),
    end: clock.minute(endsAt),
  }));
  const gate = yard.slots.find((slot) => slot.kind === 'gate');
  if (!gate) throw new Error('A haul-out without a gate has no plan: the import does not let one in');
  const problem: Problem = {
    format: 'ribband-problem/1',
    now,
    horizon: Math.max(now, ...turnouts.map((turnout) => turnout.end), ...tasks.map(endOfDone)),
    skills: [...yard.skills.map(({ id, name }) => ({ id, name })), ...(adultSkill === null ? [] : [adult])],
    clearances: clearances.list,
    turnouts,
    people,
    tools: yard.tools.map(({ id, name, capacity }) => ({ id, name, capacity, spans: [] })),
    elements: yard.elements.map(({ id, name }) => ({ id, name })),
    openingLimits: openings.limits.map(({ id, name, elementIds, atMost, fromOn }) => ({
      id,
      name,
      elements: elementIds.map((element) => at(index.elements, element)),
      atMost,
      ...(fromOn === null ? {} : { from: clock.startOfDay(fromOn) }),
    })),
    tasks,
    links: scope.links.map((link) => ({
      before: at(index.tasks, link.beforeId),
      after: at(index.tasks, link.afterId),
      relation: link.relation,
      lag: link.lagMinutes,
      lagKind: link.lagKind,
    })),
    posted: buildPostings(yard, tasks, clock, now, index),
    aim: { gate: clock.minute(gate.startsAt), slots: yard.slots.map((slot) => clock.minute(slot.startsAt)) },
  };
  return { problem, epochAt: clock.epochAt, linkIds: scope.links.map((link) => link.id) };
}

/** A skill of our own by which somebody under 18 never makes up a crew without an adult. */
const adult = { id: 'adult', name: 'an adult' };

function addAdultSkill(yard: YardRecords, people: Problem['people'], today: string): number {
  const minors = new Set(yard.hands.filter((hand) => isMinorOn(hand, today)).map((hand) => hand.id));
  for (const person of people) person.levels.push(minors.has(person.id) ? 0 : 2);
  return yard.skills.length;
}

interface Around {
  clock: PlanClock;
  now: number;
  clearances: Clearances;
  index: Record<'skills' | 'tools' | 'elements' | 'tasks' | 'turnouts' | 'people', Map<string, number>>;
  adultSkill: number | null;
  openings: SeenOpenings;
}

function buildTask(task: TaskRecord, standing: Standing, around: Around): Task {
  const { clock, now, clearances, index, openings } = around;
  const isDropped = task.state === 'dropped';
  const effort = isDropped ? ({ kind: 'hold' } as const) : effortOf(task, standing);
  const seats = task.seats.map((seat) => ({
    skill: at(index.skills, seat.skillId),
    level: seat.level,
    count: seat.count,
    clearances: seat.cardIds.map((card) => clearances.card(card)),
  }));
  const seated = seats.reduce((sum, seat) => sum + seat.count, 0);
  const built: Task = {
    id: task.id,
    name: task.title,
    effort,
    crew:
      effort.kind === 'hold'
        ? { min: seated, efficient: seated, max: seated }
        : effort.kind === 'elapsed'
          ? { min: 0, efficient: 0, max: 0 }
          : { ...task.crew },
    seats: effort.kind === 'elapsed' ? [] : seats,
    clearances: effort.kind === 'elapsed' ? [] : clearances.ofTask(task),
    oneGo: task.oneGo,
    setUpMinutes: task.setUpMinutes,
    extraHandShare: task.extraHandShare,
    learnerShare: task.learnerShare,
    tools: task.tools.map(({ toolId, count }) => ({ tool: at(index.tools, toolId), count })),
    opens: openings.opens(task.id).map((element) => at(index.elements, element)),
    closes: openings.closes(task.id).map((element) => at(index.elements, element)),
    notBefore: notBefore(task, clock, now),
    progress: standing.progress,
  };
  if (isDropped)
    return {
      ...built,
      crew: { min: 0, efficient: 0, max: 0 },
      seats: [],
      clearances: [],
      tools: [],
      opens: [],
      closes: [],
    };
  if (around.adultSkill !== null) seatAnAdult(built, around.adultSkill, clearances.adult);
  return built;
}

/** Nobody under 18 is on a task without an adult: an adult has a seat, or all are adults where one may be alone. */
function seatAnAdult(task: Task, skill: number, adultClearance: number): void {
  if (task.effort.kind !== 'work' && task.effort.kind !== 'fixed') return;
  if (task.crew.max === 0 || task.clearances.includes(adultClearance)) return;
  const [first] = task.seats;
  if (first) first.clearances.push(adultClearance);
  else if (task.crew.min >= 2) task.seats.push({ skill, level: 1, count: 1, clearances: [] });
  else task.clearances.push(adultClearance);
}

function effortOf(task: TaskRecord, standing: Standing): Effort {
  switch (task.kind) {
    case 'work':
      return {
        kind: 'work',
        personMinutes: Math.max(task.state === 'done' ? 0 : 1, Math.round(task.workLeftPersonMinutes ?? 0)),
      };
    case 'fixed':
      return { kind: 'fixed', minutes: standing.minutesLeft };
    case 'elapsed':
      return { kind: 'elapsed', minutes: standing.minutesLeft };
    case 'hold':
    case 'launch':
      return { kind: 'hold' };
  }
}

function notBefore(task: TaskRecord, clock: PlanClock, now: number): number | null {
  const day = task.notBefore === null ? null : clock.startOfDay(task.notBefore);
  if (!task.isHeld) return day;
  return Math.max(day ?? 0, now + comingWeek);
}

function buildPostings(
  yard: YardRecords,
  tasks: Task[],
  clock: PlanClock,
  now: number,
  index: Around['index'],
): Posting[] {
  const spans = new Map(
    yard.turnouts.map(({ id, startsAt, endsAt }) => [
      id,
      { start: clock.minute(startsAt), end: clock.minute(endsAt) },
    ]),
  );
  const postings = new Map<string, Posting>();
  const taken = new Map<string, number>();
  for (const { handId, turnoutId, state } of yard.places)
    if (state === 'taken')
      taken.set(`${handId} ${turnoutId}`, (taken.get(`${handId} ${turnoutId}`) ?? 0) + 1);
  for (const place of yard.places) {
    const task = index.tasks.get(place.taskId);
    const turnout = index.turnouts.get(place.turnoutId);
    const person = index.people.get(place.handId);
    if (place.state === 'left' || task === undefined || turnout === undefined || person === undefined)
      continue;
    // Who learns there comes, and is none of the crew.
    if (place.isLesson) continue;
    const span = spans.get(place.turnoutId);
    if (!span || span.end <= now || tasks[task]?.progress.kind === 'done') continue;
    // A posting names no hour: who goes from one place to another the same day is asked for both and held to neither.
    const isOnly = taken.get(`${place.handId} ${place.turnoutId}`) === 1;
    // Nor does it hold anybody once the turnout has begun: who does what is said there, and by tallies.
    const isToCome = span.start > now && clock.minute(place.startsAt) < now + comingWeek;
    const firm = place.state === 'taken' && isOnly && isToCome;
    const key = `${String(task)} ${String(turnout)} ${String(person)}`;
    postings.set(key, { task, turnout, person, firm: firm || (postings.get(key)?.firm ?? false) });
  }
  return [...postings.values()];
}

function endOfDone(task: Task): number {
  return task.progress.kind === 'done' ? task.progress.endedAt : 0;
}

function indexOf(list: readonly { id: string }[]): Map<string, number> {
  return new Map(list.map(({ id }, i) => [id, i]));
}

function at(index: Map<string, number>, id: string): number {
  const found = index.get(id);
  if (found === undefined) throw new Error(`A record refers to ${id}, which the yard does not have`);
  return found;
}
