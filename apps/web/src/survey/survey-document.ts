/** Survey and methods as the yard document has them: what the server gives and takes whole. */

export interface FramesFinding {
  frames: [number, number];
  side: 'port' | 'starboard';
  pieces: number[];
  condition: 'sound' | 'doubtful' | 'sister' | 'renew' | 'scarf' | 'new joint';
  cause: string | null;
  by: string;
  on: string;
  note: string | null;
  scarf?: string;
  at?: number;
  part?: 'above' | 'below';
  why?: string;
  decidedBy?: string;
}

export interface PlankFinding {
  plank: string;
  condition: 'sound' | 'doubtful' | 'renew';
  /** First and last frame of the new wood where only a part is renewed. */
  part?: [number, number];
  cause: string | null;
  by: string;
  on: string;
  note: string | null;
}

export type Finding = FramesFinding | PlankFinding;

export interface Survey {
  causes: { key: string; name: string; hasTask: boolean }[];
  findings: Finding[];
  choices: {
    aim: string;
    ceiling: string;
    stayOverHead: number;
    stays: string[];
    offAnyway: string[];
    inspectionStrake: string | null;
    by: string;
    reason: string | null;
    openings: Record<string, { by: string; reason: string }>;
  };
}

export interface Rate {
  key: string;
  says: string;
  unit: string;
  low: number;
  likely: number;
  high: number;
  origin: { kind: string; document?: string };
}

export interface Step {
  key: string;
  title: string;
  kind: StepKind;
  estimate: StepEstimate | null;
  crew: { min: number; efficient: number; max: number };
  seats: StepSeat[];
  cards: string[];
  leastAge: number | null;
  oneGo: boolean;
  setUpMinutes: number;
  tools: { tool: string; count: number }[];
  opens: boolean;
  closes: boolean;
  hazards: string[];
  cautions: string[];
  noticeDays: number | null;
  eyes?: string;
  sets?: string;
  onlyWith: string | null;
  after: StepAfter[];
}

export type StepKind = 'work' | 'fixed' | 'elapsed' | 'hold' | 'launch';

export type StepEstimate =
  | { by: 'count'; count: string; rate: string }
  | { by: 'work'; personMinutes: Rate3; each: string | null }
  | { by: 'time'; minutes: Rate3 };

export interface StepSeat {
  skill: string;
  level: number;
  count: number;
  cards: string[];
}

export interface StepAfter {
  step: string;
  of: string;
  relation: string;
  lag: { turnouts: number } | { elapsedMinutes: number };
}

export interface Rate3 {
  low: number;
  likely: number;
  high: number;
}

export interface Method {
  key: string;
  version: number;
  title: string;
  for: string;
  steps: Step[];
  changed?: { by: string; reason: string };
  changes?: { version: number; by: string; reason: string; what: string[] }[];
}

export interface Methods {
  ownTasks: Record<string, string>;
  book: { rates: Rate[]; methods: Method[] };
}

/** A survey in which nothing has been found and nothing was chosen but what is usual. */
export const emptySurvey = (by: string): Survey => ({
  causes: [],
  findings: [],
  choices: {
    aim: 'least hours',
    ceiling: 'as the aim has it',
    stayOverHead: 2,
    stays: [],
    offAnyway: [],
    inspectionStrake: null,
    by,
    reason: null,
    openings: {},
  },
});
