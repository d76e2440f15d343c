import { usualAges, type AgeTable } from './age-table.js';

/** What may be open: a named person's word that something may be done until a moment. */
export const permitKinds = ['hot-work', 'lead', 'asbestos', 'enclosed-space'] as const;
export type PermitKind = (typeof permitKinds)[number];

export interface OpenPermit {
  kind: PermitKind;
  /** Null: for all work of its kind. */
  taskId: string | null;
  by: string;
  /** Epoch milliseconds. */
  opensAt: number;
  expiresAt: number;
  /** Of a closed space only: volume per cent, and per cent of the lower flammable limit. */
  oxygenPercent: number | null;
  flammablePercent: number | null;
}

export const tagKinds = ['staging', 'lifting-gear'] as const;
export type TagKind = (typeof tagKinds)[number];

export interface InspectionTag {
  kind: TagKind;
  name: string;
  inspectedOn: string;
  /** Last day on which it counts. */
  expiresOn: string;
  isWithdrawn: boolean;
}

/** One day's weather as somebody wrote it down; null where nothing was. */
export interface DayWeather {
  highFahrenheit: number | null;
  lowFahrenheit: number | null;
  windMilesAnHour: number | null;
  airQualityIndex: number | null;
  thunder: boolean;
  /** A named person's stop: hazards that it is about, or none for all work. */
  hold: { by: string; reason: string; hazards: readonly string[] } | null;
}

/** The state of things at the yard on the day. */
export interface YardFacts {
  ages: AgeTable;
  /** Kinds of cards that count as first aid, and as training for the fire watch. */
  firstAidKinds: ReadonlySet<string>;
  fireWatchKinds: ReadonlySet<string>;
  /** Skills whose seat is the fire watch's. */
  fireWatchSkills: ReadonlySet<string>;
  permits: readonly OpenPermit[];
  tags: readonly InspectionTag[];
  weather: DayWeather | null;
  /** Noise reduction rating of what the yard hands out, in dB; null when it hands out none. */
  protectorsRating: number | null;
  /** Minutes that the fire watch stays; never below 30. */
  fireWatchMinutes: number;
  /** Who has signed in; null while nobody keeps a roll. */
  checkedIn: ReadonlySet<string> | null;
}

/** A yard of which nothing is written down but the usual ages. */
export const bareYard: YardFacts = {
  ages: usualAges,
  firstAidKinds: new Set(),
  fireWatchKinds: new Set(),
  fireWatchSkills: new Set(),
  permits: [],
  tags: [],
  weather: null,
  protectorsRating: null,
  fireWatchMinutes: 60,
  checkedIn: null,
};
