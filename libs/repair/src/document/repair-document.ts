import type { HullOutline } from '@ribband/hull';
import type { HazardCode } from '../hazards/hazard-catalogue.js';
import type { LiftSlotKind } from '../haul-out/lift-slot.entity.js';
import type { SlotWordKind } from '../haul-out/slot-word.entity.js';
import type { LagKind, Relation } from '../links/link-words.js';
import type { ElementKind, Side } from '../openings/hull-element.entity.js';
import type { MethodsDocument } from '../methods/methods-shape.js';
import type { SurveyDocument } from '../survey/survey-shape.js';
import type { SafetyDocument } from '../permits/safety-document.js';
import type { DelegationsDocument } from '../tallies/delegations-document.js';
import type { TimberDocument } from '../timber/timber-document.js';
import type { CameOffDocument } from './came-off-document.js';
import type { OpeningsDocument } from './openings-document.js';
import type { TaskDraft } from '../tasks/task-draft.js';

/** The vessel's part of a yard document. Things are named by `ref`, the document's own key. */
export interface RepairDocument {
  vessel: VesselDocument;
  haulOut: { hauledOutOn: string; timeZone: string; liftSlots: LiftSlotDocument[] };
  /** How the hull is built; null where nobody has entered it. */
  hull: HullDocument | null;
  /** What was found and chosen; null before she was surveyed. */
  survey: SurveyDocument | null;
  /** How work is done here; null where tasks are all entered by hand. */
  methods: MethodsDocument | null;
  timber: TimberDocument;
  tools: { ref: string; name: string; capacity: number }[];
  elements: ElementDocument[];
  openingLimits: OpeningLimitDocument[];
  /** Those entered by hand, and those made by a method that were changed since. */
  tasks: TaskDocument[];
  links: LinkDocument[];
  tallies: TallyDocument[];
  /** What holds her and what was seen while she is open. */
  openings: OpeningsDocument;
  cameOff: CameOffDocument;
  /** Older documents have neither of the two; one that is silent leaves permits, tags and weather as they are. */
  safety?: SafetyDocument | undefined;
  delegations?: DelegationsDocument | undefined;
}

export interface HullDocument {
  outline: HullOutline;
}

export interface VesselDocument {
  name: string;
  rig: string | null;
  builtYear: number | null;
  lengthMillimetres: number | null;
  beamMillimetres: number | null;
  draftMillimetres: number | null;
  frameCount: number | null;
  strakeCount: number | null;
  roomAndSpaceMillimetres: number | null;
}

export interface LiftSlotDocument {
  ref: string;
  kind: LiftSlotKind;
  on: string;
  startTime: string;
  endTime: string;
  confirmBy: string | null;
  extraCostCents: number;
  note: string | null;
  /** What the yard was told about it, oldest first; the newest holds. */
  words: SlotWordDocument[];
}

export interface SlotWordDocument {
  word: SlotWordKind;
  on: string;
  by: string;
  yardSays: string | null;
  note: string | null;
}

export interface ElementDocument {
  ref: string;
  name: string;
  kind: ElementKind;
  side: Side | null;
  frame: number | null;
  strake: number | null;
}

export interface OpeningLimitDocument {
  ref: string;
  name: string;
  elements: string[];
  atMost: number;
  basis: string;
  /** `elements` are those that may be open and are not counted, null all; `untilOn` is the last day, null none. */
  override: { by: string; reason: string; elements: string[] | null; untilOn: string | null } | null;
}

export interface TaskDocument extends TaskDraft {
  ref: string;
  hazards: HazardCode[];
  progress: { startedOn: string; endedOn: string | null } | null;
}

export interface LinkDocument {
  before: string;
  after: string;
  relation: Relation;
  lagMinutes: number;
  lagKind: LagKind;
}

/** What somebody got done; corrections are worked in. */
export interface TallyDocument {
  task: string;
  volunteer: string | null;
  on: string;
  count: number | null;
  minutes: number;
  finished: boolean;
  note: string | null;
}
