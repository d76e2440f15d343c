export { AttendanceEntity } from './attendance/attendance.entity.js';
export type { RosterDocument, RosterRefs } from './document/roster-document.js';
export { readRoster } from './document/read-roster.js';
export {
  eraseRoster,
  type TurnoutsByStart,
  turnoutKey,
  writePlaces,
  writeTurnouts,
} from './document/write-roster.js';
export { AbsenceEntity } from './call/absence.entity.js';
export { CallGates, type CallRules } from './call/call-gates.js';
export { type CalledSeat, type Lost, settleSeats } from './call/called-seats.js';
export { Calling } from './call/calling.service.js';
export { FallenTask } from './call/call.types.js';
export { TurnoutCallEntity } from './call/turnout-call.entity.js';
export { PlaceEntity, type PlaceState } from './places/place.entity.js';
export { GateBook, type SeatedAt } from './places/gate-book.js';
export { Feeds } from './feed/feeds.service.js';
export { RosterMessages } from './news/roster-messages.js';
export { jobsOf, type TaskJob } from './places/task-jobs.js';
export { Places } from './places/places.service.js';
export { type Posted, Posting, type TurnedAway } from './places/posting.service.js';
export type { SeatToPost } from './places/reconcile-places.js';
export { placesLoader, rosterTaskLoader, turnoutLoader } from './roster.loaders.js';
export { RosterModule } from './roster.module.js';
export { rosterEntities, rosterMigrations } from './roster.schema.js';
export { RosterSettings } from './settings/roster-settings.service.js';
export { lastTurnoutDay } from './turnouts/lay-out.js';
export { TurnoutEntity } from './turnouts/turnout.entity.js';
export { Turnouts } from './turnouts/turnouts.service.js';
export { rosterTopic } from './roster-news.js';
