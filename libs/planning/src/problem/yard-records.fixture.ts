import { addDays, localToInstant, weekdayOf } from '@ribband/platform';
import type { HandRecord, LinkRecord, PlaceRecord, TaskRecord, YardRecords } from './yard-records.js';

export const zone = 'America/Los_Angeles';
export const at = (day: string, time: string): number => localToInstant(day, time, zone);

/** Saturdays and Sundays from the haul-out on, nine to two. */
function weekends(weeks: number): YardRecords['turnouts'] {
  return Array.from({ length: weeks * 7 }, (_, i) => addDays('2027-03-06', i))
    .filter((day) => weekdayOf(day) >= 6)
    .map((on) => ({ id: on, on, startsAt: at(on, '09:00'), endsAt: at(on, '14:00') }));
}

export function task(id: string, rest: Partial<TaskRecord> = {}): TaskRecord {
  return {
    id,
    title: id,
    kind: 'work',
    state: 'open',
    workLeftPersonMinutes: 300,
    minutes: null,
    crew: { min: 1, efficient: 2, max: 2 },
    seats: [],
    cardIds: [],
    leastAge: 0,
    oneGo: false,
    setUpMinutes: 0,
    extraHandShare: 0.5,
    learnerShare: 0.5,
    tools: [],
    opens: [],
    closes: [],
    notBefore: null,
    isHeld: false,
    startedAt: null,
    endedAt: null,
    ...rest,
  };
}

export function hand(id: string, rest: Partial<HandRecord> = {}): HandRecord {
  return {
    id,
    name: id,
    bornOn: '1970-01-01',
    levels: new Map(),
    cards: [],
    showUpChance: 0.8,
    minutesAWeek: null,
    minutesATurnout: null,
    stays: weekends(20).map(({ id: turnoutId, startsAt, endsAt }) => ({
      turnoutId,
      from: startsAt,
      to: endsAt,
    })),
    ...rest,
  };
}

export function link(beforeId: string, afterId: string, rest: Partial<LinkRecord> = {}): LinkRecord {
  return {
    id: `${beforeId}-${afterId}`,
    beforeId,
    afterId,
    relation: 'finish-to-start',
    lagMinutes: 0,
    lagKind: 'elapsed',
    ...rest,
  };
}

export function place(
  handId: string,
  taskId: string,
  on: string,
  rest: Partial<PlaceRecord> = {},
): PlaceRecord {
  return {
    taskId,
    handId,
    turnoutId: on,
    state: 'posted',
    isLesson: false,
    startsAt: at(on, '09:00'),
    endsAt: at(on, '14:00'),
    ...rest,
  };
}

export function records(rest: Partial<YardRecords> = {}): YardRecords {
  return {
    timeZone: zone,
    now: at('2027-03-06', '07:00'),
    hauledOutOn: '2027-03-06',
    slots: [{ id: 'gate', kind: 'gate', startsAt: at('2027-04-17', '07:10'), on: '2027-04-17' }],
    skills: [{ id: 'sawyer', name: 'sawyer' }],
    cardKinds: [{ id: 'first-aid', name: 'first aid' }],
    tools: [{ id: 'band-mill', name: 'band mill', capacity: 1 }],
    elements: [{ id: 'plank', name: 'plank S9A', seen: null }],
    openingLimits: [],
    tasks: [],
    links: [],
    turnouts: weekends(20),
    hands: [],
    places: [],
    ...rest,
  };
}
