import { type NamedRate } from './rates.js';

/** Repair methods as data: what a shipwright can read, change and hand on. JSON, nothing else. */
export interface MethodBook {
  format: 'ribband-methods/1';
  rates: NamedRate[];
  methods: Method[];
}

/** One way to deal with one kind of element, as steps. */
export interface Method {
  key: string;
  /** Goes up with each change; a task remembers the version that made it. */
  version: number;
  title: string;
  for: ElementKind;
  steps: Step[];
  /** Who changed it last from what it was, and why. */
  changed?: { by: string; reason: string } | undefined;
  /** Its versions after the first, oldest first, with what each changed; the last 50. */
  changes?: MethodChange[] | undefined;
}

export interface MethodChange {
  version: number;
  by: string;
  reason: string;
  what: string[];
}

export type ElementKind = 'frame' | 'plank' | 'ceiling' | 'cause' | 'vessel';

export interface Step {
  /** Stable and in words: with the element's key it names the task for ever. */
  key: string;
  title: string;
  kind: 'work' | 'fixed' | 'elapsed' | 'hold' | 'launch';
  estimate: StepEstimate | null;
  /** Crew that may start, crew that works well, most that may crowd in. All 0 where nobody is needed. */
  crew: { min: number; efficient: number; max: number };
  seats: MethodSeat[];
  /** Card kinds that everyone on it holds. */
  cards: string[];
  leastAge: number | null;
  oneGo: boolean;
  setUpMinutes: number;
  tools: { tool: string; count: number }[];
  /** True: the element is open from this step's start, or shut at its end. */
  opens: boolean;
  closes: boolean;
  hazards: Hazard[];
  cautions: string[];
  /** Days of notice that somebody outside the yard wants before a hold. */
  noticeDays: number | null;
  /** Whose eyes a hold waits for, before anything is closed over or a piece is cut free. */
  eyes?: Eyes | undefined;
  /** What stands once this is done, wherever she is opened. */
  sets?: 'shore' | 'brace' | 'ribband' | undefined;
  /** Left out where this count is 0. */
  onlyWith: CountName | null;
  after: After[];
}

/** Somebody from outside; or, for a sling, a named person who sees piece and zone. */
export const EYES = ['surveyor', 'insurer', 'funder', 'inspector', 'sling'] as const;
export type Eyes = (typeof EYES)[number];

export interface MethodSeat {
  skill: string;
  /** 1 learning, 2 works alone, 3 teaches, 4 may say so. */
  level: number;
  count: number;
  cards: string[];
}

export type StepEstimate =
  /** A count of the element, at one of the book's rates. */
  | { by: 'count'; count: CountName; rate: string }
  /** Person-minutes, for the whole or for each of a count. */
  | { by: 'work'; personMinutes: ThreePoint; each: CountName | null }
  | { by: 'time'; minutes: ThreePoint };

export interface ThreePoint {
  low: number;
  likely: number;
  high: number;
}

export type Relation = 'finish-to-start' | 'start-to-start' | 'finish-to-finish' | 'start-to-finish';

/** What a step waits for: a step of the same element, or of elements that touch it. */
export interface After {
  step: string;
  of: Touching;
  relation: Relation;
  lag: { turnouts: number } | { elapsedMinutes: number };
}

export type Touching =
  | 'itself'
  | 'planks over it'
  | 'ceiling over it'
  | 'frames under it'
  | 'strake below'
  | 'strake above'
  | 'all planks'
  | 'all frames'
  | 'all ceiling'
  | 'all causes'
  | 'vessel';

/** What can be counted on an element of the hull or on the vessel as a whole. */
export const COUNT_NAMES = [
  'pieces',
  'nails',
  'new nails',
  'bolts',
  'stubs',
  'plugs',
  'stuck fastenings',
  'chocks',
  'new joints',
  'scarfs',
  'bungs',
  'saved nails',
  'seam feet',
  'square feet',
  'planks',
  'frames',
  'renewed planks',
  'long strake runs',
] as const;
export type CountName = (typeof COUNT_NAMES)[number];
export type Counts = Partial<Record<CountName, number>>;

export const HAZARDS = [
  'lead',
  'eye',
  'dust',
  'noise',
  'strain',
  'lifting',
  'crush',
  'fall',
  'hot-work',
  'machine',
  'burn',
  'chemical',
  'enclosed-space',
  'wet',
  'drowning',
  'fatigue',
  'electric',
] as const;
export type Hazard = (typeof HAZARDS)[number];
