export { repairEntities, repairMigrations } from './repair.schema.js';
export { HaulOut } from './haul-out/haul-out.entity.js';
export { LiftSlot, type LiftSlotKind, liftSlotKinds } from './haul-out/lift-slot.entity.js';
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
export { Tool } from './tools/tool.entity.js';
