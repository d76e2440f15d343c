import type { HeldConsent, RatherNot } from '@ribband/crew';
import type { Relation } from '@ribband/engine';
import type { Spared } from '@ribband/repair';

/**
 * What a plan is made from, read out of the rooms' records at one moment. Instants are epoch milliseconds, days are
 * 'YYYY-MM-DD' at the yard, ids are the records' own.
 */
export interface YardRecords {
  timeZone: string;
  /** The yard clock. */
  now: number;
  hauledOutOn: string;
  /** Those that are left, in order of time; `kind` is what each is to the project now. */
  slots: { id: string; kind: 'gate' | 'fallback' | 'later'; startsAt: number; on: string }[];
  skills: Named[];
  cardKinds: Named[];
  tools: (Named & { capacity: number })[];
  elements: (Named & { seen: 'open' | 'shut' | null })[];
  openingLimits: (Named & { elementIds: string[]; atMost: number; spared: Spared | null })[];
  tasks: TaskRecord[];
  links: LinkRecord[];
  /** Not cancelled, in order of time. */
  turnouts: { id: string; on: string; isClosed?: boolean; startsAt: number; endsAt: number }[];
  hands: HandRecord[];
  /** Places that name somebody. */
  places: PlaceRecord[];
}

interface Named {
  id: string;
  name: string;
}

export interface TaskRecord {
  id: string;
  title: string;
  kind: 'work' | 'fixed' | 'elapsed' | 'hold' | 'launch';
  state: 'open' | 'done' | 'dropped';
  /** Work that is left, in person-minutes; null where the task is not work. */
  workLeftPersonMinutes: number | null;
  /** Its whole length in minutes; null where it has none of its own. */
  minutes: number | null;
  crew: { min: number; efficient: number; max: number };
  seats: { skillId: string; level: number; count: number; cardIds: string[] }[];
  cardIds: string[];
  /** Age that everybody on it must have, all reasons taken together; 0 where none is asked. */
  leastAge: number;
  /** Codes of the hazard list; absent for none. */
  hazards?: readonly string[];
  oneGo: boolean;
  setUpMinutes: number;
  extraHandShare: number;
  learnerShare: number;
  tools: { toolId: string; count: number }[];
  opens: string[];
  closes: string[];
  notBefore: string | null;
  isHeld: boolean;
  startedAt: number | null;
  endedAt: number | null;
}

export interface LinkRecord {
  id: string;
  beforeId: string;
  afterId: string;
  relation: Relation;
  lagMinutes: number;
  lagKind: 'working' | 'elapsed';
}

export interface HandRecord extends Named {
  bornOn: string | null;
  levels: ReadonlyMap<string, number>;
  cards: { kindId: string; expiresOn: string | null }[];
  /** 0..1. */
  showUpChance: number;
  minutesAWeek: number | null;
  minutesATurnout: number | null;
  stays: { turnoutId: string; from: number; to: number }[];
  /** Most turnouts in a calendar month; absent for no cap. */
  turnoutsAMonth?: number | null;
  /** What parents have said yes to; absent where it is not asked. */
  consents?: readonly HeldConsent[];
  /** What they would rather not do; absent for nothing. */
  ratherNots?: readonly RatherNot[];
}

export interface PlaceRecord {
  taskId: string;
  turnoutId: string;
  handId: string;
  state: 'posted' | 'taken' | 'left';
  /** Whether they learn beside somebody there, over and above the crew. */
  isLesson: boolean;
  startsAt: number;
  endsAt: number;
}
