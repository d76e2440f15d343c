import type { Bottleneck, Bound, Problem, WorkCalendar } from '@ribband/engine';
import { count, daysFromTo, listOf } from './days.js';
import { instantOf, type Told } from './hold.js';

/** A lift slot as the sentences name it. */
export interface SlotSpoken {
  kind: 'gate' | 'fallback' | 'later';
  startsAt: number;
}

/** 'Ready 14 Sep, 32 days before the gate on 16 Oct, if everyone comes who said so.' */
export function readySentence(told: Told, slots: readonly SlotSpoken[]): string {
  const { days, plan } = told;
  const readyAt = instantOf(told, plan.ready);
  if (told.problem.tasks.length > 0 && told.problem.tasks.every(({ progress }) => progress.kind === 'done'))
    return `Ready since ${days.at(readyAt)}: nothing is left to be done before the lift.`;
  const gate = slots.find((slot) => slot.kind === 'gate');
  const slot = plan.slot === null ? undefined : slots[plan.slot];
  const ready = `Ready ${days.at(readyAt)}`;
  const hope = 'if everyone comes who said so';
  if (!gate) return `${ready}, ${hope}.`;
  const spare = daysFromTo(days, readyAt, gate.startsAt);
  const onGate = `the gate on ${days.at(gate.startsAt)}`;
  if (readyAt <= gate.startsAt) {
    return spare === 0
      ? `${ready}, the day of ${onGate}, ${hope}.`
      : `${ready}, ${count(spare, 'day')} before ${onGate}, ${hope}.`;
  }
  const late =
    spare === 0 ? `${ready}, too late for ${onGate}` : `${ready}, ${count(-spare, 'day')} after ${onGate}`;
  if (!slot) return `${late}, and after the last lift slot, ${hope}.`;
  const name = slot.kind === 'fallback' ? 'the fallback' : 'a later slot';
  return `${late}; ${name} on ${days.at(slot.startsAt)} would be made, ${hope}.`;
}

/** What can't be beaten, and why. */
export function boundSentence(told: Told): string {
  const { plan, days } = told;
  const day = days.at(instantOf(told, plan.bound.ready));
  if (plan.proved) return `Proved: no plan with these people and turnouts is ready before ${day}.`;
  return `No plan with these people and turnouts can be ready before ${day}: ${boundReason(told, plan.bound)}.`;
}

/** 'Scarcest: Sawing (Anselm Druitt). 64 hours needed between 9 Aug and 15 Nov, 109 there, if everyone comes.' */
export function bottleneckSentence(told: Told): string | null {
  const { problem, plan } = told;
  const load = plan.scarcest;
  if (!load) return null;
  const skills = load.skills.map((skill) => problem.skills[skill]?.name ?? '');
  const people = load.people.map((person) => problem.people[person]?.name ?? '');
  const who =
    skills.length > MOST_NAMED
      ? 'no single skill, but all hands together'
      : `${listOf(skills)}${people.length > MOST_NAMED ? '' : ` (${listOf(people)})`}`;
  return `Scarcest: ${who}. ${loadWords(told, load)}, if everyone comes who said so.`;
}

/** So many names are said one by one. */
const MOST_NAMED = 3;

/** '210 hours needed before 16 Oct, 190 there'. */
function loadWords(told: Told, load: Bottleneck): string {
  const { problem, days } = told;
  const to = days.at(instantOf(told, load.to));
  const when =
    load.from > problem.now ? `between ${days.at(instantOf(told, load.from))} and ${to}` : `before ${to}`;
  return `${hours(load.needed)} needed ${when}, ${tenths(load.there)} there`;
}

function boundReason(told: Told, bound: Bound): string {
  const { problem } = told;
  const load = bound.bottleneck;
  switch (bound.kind) {
    case 'critical path':
      return 'the links alone take until then, however many come';
    case 'resource energy':
    case 'skill load': {
      if (!load) return 'there are no more working hours until then than the work asks for';
      const tools = (load.tools ?? []).map((tool) => problem.tools[tool]?.name ?? '');
      const skills = load.skills.map((skill) => problem.skills[skill]?.name ?? '');
      const people = load.people.map((person) => problem.people[person]?.name ?? '');
      const [named = people.slice(0, MOST_NAMED)] = [tools, skills].filter((names) => names.length > 0);
      return `${listOf(named)}, ${loadWords(told, load)} for a day earlier`;
    }
    case 'destructive':
    case 'search':
      return 'every earlier day was ruled out';
  }
}

const tenths = (minutes: number): string =>
  String(minutes < 600 ? Math.round(minutes / 6) / 10 : Math.round(minutes / 60));

const hours = (minutes: number): string => `${tenths(minutes)} ${tenths(minutes) === '1' ? 'hour' : 'hours'}`;

/** How far the plan may be from the best there is, in percent of the time from now to the bound. */
export function gapPercent(told: Pick<Told, 'plan' | 'problem'>): number {
  const best = told.plan.bound.ready - told.problem.now;
  if (best <= 0) return 0;
  return Math.max(0, Math.round(((told.plan.ready - told.plan.bound.ready) / best) * 1000) / 10);
}

/** Calendar days that a task's start can slip before she is no longer ready by the gate; negative when she is late. */
export function daysToSpare(told: Told, task: number, calendar: WorkCalendar): number {
  const times = told.plan.tasks[task];
  if (!times) return 0;
  const spare = times.float + calendar.between(told.plan.ready, told.problem.aim.gate);
  const from = Math.max(times.start, told.problem.now);
  const latest = calendar.startOf(calendar.worked(from) + spare);
  return daysFromTo(told.days, instantOf(told, from), instantOf(told, clamp(latest, told.problem)));
}

/** A time before now or after the last turnout says no more than these do. */
function clamp(minute: number, problem: Problem): number {
  return Math.min(Math.max(minute, 0), problem.horizon);
}

/** How far a task's start can slip before she is ready later, in words. */
export function floatWords(minutes: number, longestTurnout: number): string {
  if (minutes <= 0) return 'can’t slip: she is ready later if it does';
  if (minutes < longestTurnout) return `can slip ${count(Math.round(minutes / 6) / 10, 'working hour')}`;
  return `can slip ${count(Math.floor(minutes / longestTurnout), 'turnout')}`;
}
