import type { HazardCode } from '../hazards/hazard-catalogue.js';
import type { TaskKind } from './task-words.js';

/** Three points, rising. */
export interface ThreePoint {
  low: number;
  likely: number;
  high: number;
}

export type Estimate =
  /** So many pieces, at so many an hour for one person. */
  | { by: 'count'; unit: string; count: number; perPersonHour: ThreePoint }
  /** Work that a crew shares. */
  | { by: 'work'; personMinutes: ThreePoint }
  /** A length of time, whatever the crew. */
  | { by: 'time'; minutes: ThreePoint };

/** A task as it is entered. Skills, cards, tools and elements go by whatever key the caller uses. */
export interface TaskDraft {
  title: string;
  kind: TaskKind;
  position: string | null;
  estimate: Estimate | null;
  crew: { min: number; efficient: number; max: number };
  seats: SeatDraft[];
  /** Cards that everyone must hold. */
  cards: string[];
  leastAge: number | null;
  oneGo: boolean;
  setUpMinutes: number;
  extraHandShare: number;
  learnerShare: number;
  tools: { tool: string; count: number }[];
  opens: string[];
  closes: string[];
  hazards: HazardCode[];
  cautions: string[];
  notBefore: string | null;
  held: string | null;
}

export interface SeatDraft {
  skill: string;
  /** 1..4. */
  level: number;
  count: number;
  cards: string[];
}

/** What a draft is held against: the keys that exist, and the yard's days. */
export interface TaskSurroundings {
  skills: ReadonlySet<string>;
  cards: ReadonlySet<string>;
  /** Capacity by tool. */
  tools: ReadonlyMap<string, number>;
  elements: ReadonlySet<string>;
  /** Minutes of the longest turnout to come, or null when there is none. */
  longestTurnoutMinutes: number | null;
}
