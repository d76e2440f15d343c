export { RepairModule } from './repair.module.js';
export { repairEntities, repairMigrations } from './repair.schema.js';
export type * from './document/repair-document.js';
export { noOpenings } from './document/openings-document.js';
export { readRepair } from './document/read-repair.js';
export { eraseRepair, writeRepair } from './document/write-repair.js';
export { HullRecord } from './hull/hull.entity.js';
export { HullRecords } from './hull/hull-records.service.js';
export { outlineShape } from './hull/outline-shape.js';
export { methodsShape } from './methods/methods-shape.js';
export { type WorkedIn, workedIn } from './methods/worked-in.js';
export { byTask } from './tasks/by-task.js';
export { TaskOrigin } from './methods/task-origin.entity.js';
export { surveyShape } from './survey/survey-shape.js';
export { haulOutInForce, slotStandingsOf } from './haul-out/haul-out.records.js';
export { HaulOut } from './haul-out/haul-out.entity.js';
export { LiftSlot, type LiftSlotKind, LiftSlotKindEnum, liftSlotKinds } from './haul-out/lift-slot.entity.js';
export { slotsLeft } from './haul-out/slots-left.js';
export { type SlotWord, slotWordKinds } from './haul-out/slot-word.entity.js';
export { SlotWords } from './haul-out/slot-words.service.js';
export { Vessel } from './haul-out/vessel.entity.js';
export { allCautionsOf, type CautionLine, cautionsOf, hazardsOf } from './hazards/cautions.js';
export {
  hazardCatalogue,
  type HazardCode,
  hazardCodes,
  isHazard,
  safetyNotice,
} from './hazards/hazard-catalogue.js';
export { type LagKind, lagKinds, type Relation, relations } from './links/link-words.js';
export { Link } from './links/link.entity.js';
export { type ElementKind, HullElement, type Side } from './openings/hull-element.entity.js';
export { OpeningLimit } from './openings/opening-limit.entity.js';
export { type RosterSource, RosterView, type TurnoutSpan } from './roster-view/roster-view.js';
export { wholeAuthorityOf } from './tallies/authority.js';
export { effectiveTallies } from './tallies/effective-tallies.js';
export { SaySo } from './tallies/say-so.entity.js';
export { TallyEntity } from './tallies/tally.entity.js';
export { Seat } from './tasks/seat.entity.js';
export { TaskOpening } from './tasks/task-opening.entity.js';
export { TaskTool } from './tasks/task-tool.entity.js';
export {
  type EstimateWay,
  type TaskKind,
  taskKinds,
  type TaskState,
  taskStates,
} from './tasks/task-words.js';
export { Task } from './tasks/task.entity.js';
export { noTimber, type TimberDocument, timberForm } from './timber/timber-document.js';
export { heaviestPieces } from './timber/heaviest-pieces.js';
export { deliveryDelays } from './timber/deliveries.js';
export { StockHolds } from './timber/stock-holds.service.js';
export { type StockOrders, StockToOrder } from './timber/stock-orders.service.js';
export { Tool } from './tools/tool.entity.js';
export { Tools } from './tools/tools.service.js';
export type { Progress } from './tasks/progress.js';
export type { Standing } from './tasks/task-board.js';
export type { Estimate, SeatDraft, TaskDraft, ThreePoint } from './tasks/task-draft.js';
export { estimateOf } from './tasks/task-row.js';
export { boardLoader } from './repair.loaders.js';
export { Caution, Hazard, hazardOf } from './hazards/hazard.type.js';
export { taskOf } from './tasks/task.records.js';
export { type Board, YardBoard } from './tasks/yard-board.js';
export { linkSentence } from './links/link-sentence.js';
export { Piece } from './pieces/piece.entity.js';
export { Pictures, readPicture, type ServedPicture } from './pictures/pictures.service.js';
export { CareEnum, CareSideBySide, FasteningKind } from './trays/lot.types.js';
export { CareLevels } from './trays/care.service.js';
export { Tray } from './trays/tray.entity.js';
export { type Spared, sparedOn } from './openings/counted.js';
export { courseOf, plannedOnward } from './openings/element-state.js';
export { type ElementToday, HullDay, type HullToday } from './openings/hull-today.js';
export { OpeningGate } from './openings/opening-gate.js';
export { type PlannedSpan, type PlannedSpans, PlanView } from './plan-view/plan-view.js';
export { HoldPoints } from './hold-points/hold-points.service.js';
export { HoldPoint } from './hold-points/hold-point.entity.js';
export { Tallies } from './tallies/tallies.service.js';
export { SaySos } from './tallies/say-so.service.js';
export { Trays } from './trays/trays.service.js';
export { FasteningKinds } from './trays/fastening-kinds.service.js';
export { Marks } from './marks/marks.service.js';
export { cameOffFaults } from './document/came-off-faults.js';
export { nothingCameOff } from './document/came-off-document.js';
export { withOwnPictures } from './document/read-came-off.js';
export { type PictureType, pictureTypes } from './pictures/clean-picture.js';
export { pieceFaces, pieceFates, pieceHeadings } from './pieces/piece-words.js';
export { cares } from './trays/care-choice.entity.js';
export { repairVerdicts } from './trays/plank-repair.entity.js';
export { lineKinds } from './trays/tray-line.js';
export { HoldLift } from './marks/hold-lift.entity.js';
export { MarkReading } from './marks/mark-reading.entity.js';
export { WitnessMark } from './marks/witness-mark.entity.js';
export { capital, wordsGiven, wordsOf, wordsOrNull } from './words.js';
export { Links } from './links/links.service.js';
export { Tasks } from './tasks/tasks.service.js';
export { Loudness } from './permits/loudness.entity.js';
export { noSafety, safetyForm, safetyToKeep } from './permits/safety-document.js';
export { delegationsForm } from './tallies/delegations-document.js';
export { agesOf, restsOf, safetyFactsOn } from './permits/safety-facts.js';
export { Permit } from './permits/permit.entity.js';
export { Permits } from './permits/permits.service.js';
export { SafetyRecords } from './permits/safety-records.service.js';
export { SafetyTag } from './permits/safety-tag.entity.js';
export { SafetyTags } from './permits/safety-tags.service.js';
