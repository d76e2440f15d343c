/** Survey and methods as the yard document has them: what the server gives and takes whole. */

export interface FramesFinding {
  frames: [number, number];
  side: 'port' | 'starboard';
  pieces: number[];
  condition: 'sound' | 'doubtful' | 'sister' | 'renew' | 'new joint';
  cause: string | null;
  by: string;
  on: string;
  note: string | null;
  at?: number;
  part?: 'above' | 'below';
  why?: string;
  decidedBy?: string;
}

export interface PlankFinding {
  plank: string;
  condition: 'sound' | 'doubtful' | 'renew';
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
}

export interface Step {
  key: string;
  title: string;
  kind: string;
  estimate:
    | { by: 'count'; count: string; rate: string }
    | { by: 'work'; personMinutes: Rate3; each: string | null }
    | { by: 'time'; minutes: Rate3 }
    | null;
  crew: { min: number; efficient: number; max: number };
  seats: { skill: string; count: number }[];
  tools: { tool: string; count: number }[];
  opens: boolean;
  closes: boolean;
  after: { step: string; of: string; relation: string }[];
}

interface Rate3 {
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
