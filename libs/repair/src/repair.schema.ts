import type { SchemaClass } from '@ribband/platform';
import { HaulOut } from './haul-out/haul-out.entity.js';
import { LiftSlot } from './haul-out/lift-slot.entity.js';
import { SlotWord } from './haul-out/slot-word.entity.js';
import { Vessel } from './haul-out/vessel.entity.js';
import { HullRecord } from './hull/hull.entity.js';
import { Link } from './links/link.entity.js';
import { HoldPoint } from './hold-points/hold-point.entity.js';
import { HoldLift } from './marks/hold-lift.entity.js';
import { MarkReading } from './marks/mark-reading.entity.js';
import { WitnessMark } from './marks/witness-mark.entity.js';
import { Repair1764000004000 } from './migrations/1764000004000-repair.js';
import { MethodsRecord } from './methods/methods.entity.js';
import { TaskOrigin } from './methods/task-origin.entity.js';
import { Survey1764000008000 } from './migrations/1764000008000-survey.js';
import { SurveyRecord } from './survey/survey.entity.js';
import { Hull1764000007000 } from './migrations/1764000007000-hull.js';
import { Pieces1764000007300 } from './migrations/1764000007300-pieces.js';
import { Trays1764000007400 } from './migrations/1764000007400-trays.js';
import { Timber1764000009000 } from './migrations/1764000009000-timber.js';
import { Openings1764000008200 } from './migrations/1764000008200-openings.js';
import { DayWeatherEntity } from './permits/day-weather.entity.js';
import { Loudness } from './permits/loudness.entity.js';
import { Permit } from './permits/permit.entity.js';
import { SafetyTag } from './permits/safety-tag.entity.js';
import { YardSafety } from './permits/yard-safety.entity.js';
import { Deliveries1764406000001 } from './migrations/1764406000001-deliveries.js';
import { TallyKeys1764427000001 } from './migrations/1764427000001-tally-keys.js';
import { SlotWords1764420000001 } from './migrations/1764420000001-slot-words.js';
import { Promises1764420000002 } from './migrations/1764420000002-promises.js';
import { Permits1764100100001 } from './migrations/1764100100001-permits.js';
import { ElementReport } from './openings/element-report.entity.js';
import { HullElement } from './openings/hull-element.entity.js';
import { HullSupport } from './openings/hull-support.entity.js';
import { OpeningLimit } from './openings/opening-limit.entity.js';
import { PictureBytes, PictureEntity } from './pictures/picture.entity.js';
import { PieceNote } from './pieces/piece-note.entity.js';
import { Piece } from './pieces/piece.entity.js';
import { LayoutChoice } from './planking/layout-choice.entity.js';
import { Delegations1764100300003 } from './migrations/1764100300003-delegations.js';
import { DelegationEntity } from './tallies/delegation.entity.js';
import { SaySo } from './tallies/say-so.entity.js';
import { TallyEntity } from './tallies/tally.entity.js';
import { TallyKey } from './tallies/tally-key.entity.js';
import { Seat } from './tasks/seat.entity.js';
import { TaskOpening } from './tasks/task-opening.entity.js';
import { TaskTool } from './tasks/task-tool.entity.js';
import { Task } from './tasks/task.entity.js';
import { CareChoiceEntity } from './trays/care-choice.entity.js';
import { Lot } from './trays/lot.entity.js';
import { PlankRepair } from './trays/plank-repair.entity.js';
import { TrayEntryEntity } from './trays/tray-entry.entity.js';
import { Tray } from './trays/tray.entity.js';
import { timberEntities } from './timber/timber.room.js';
import { Tool } from './tools/tool.entity.js';

export const repairEntities: SchemaClass[] = [
  Vessel,
  HaulOut,
  LiftSlot,
  SlotWord,
  HullRecord,
  SurveyRecord,
  MethodsRecord,
  Tool,
  HullElement,
  OpeningLimit,
  Task,
  Seat,
  TaskTool,
  TaskOpening,
  Link,
  TallyEntity,
  TallyKey,
  SaySo,
  Piece,
  PieceNote,
  PictureEntity,
  PictureBytes,
  TaskOrigin,
  Lot,
  Tray,
  TrayEntryEntity,
  PlankRepair,
  CareChoiceEntity,
  ...timberEntities,
  ElementReport,
  HullSupport,
  WitnessMark,
  MarkReading,
  HoldLift,
  HoldPoint,
  LayoutChoice,
  DelegationEntity,
  Permit,
  SafetyTag,
  DayWeatherEntity,
  Loudness,
  YardSafety,
];
export const repairMigrations: SchemaClass[] = [
  Repair1764000004000,
  Hull1764000007000,
  Pieces1764000007300,
  Trays1764000007400,
  Survey1764000008000,
  Openings1764000008200,
  Timber1764000009000,
  Delegations1764100300003,
  Permits1764100100001,
  Deliveries1764406000001,
  SlotWords1764420000001,
  Promises1764420000002,
  TallyKeys1764427000001,
];
