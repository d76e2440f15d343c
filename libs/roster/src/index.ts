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
export { type NamedThere, hoursFaults } from './hours/hours-faults.js';
export { hoursForm } from './hours/hours-document.js';
export type { ReportDocument } from './hours/report-document.js';
export { hoursToKeep, writeHours } from './hours/write-hours.js';
export { turnoutBookForm } from './document/turnout-book.js';
export { turnoutBookFaults } from './document/turnout-book-faults.js';
export { turnoutBookToKeep, writeTurnoutBook } from './document/write-turnout-book.js';
export { AbsenceEntity } from './call/absence.entity.js';
export { CallGates, type CallRules } from './call/call-gates.js';
export { type CalledSeat, closedWords, type Lost } from './call/called-seats.js';
export { Calling } from './call/calling.service.js';
export { FallenTask } from './call/call.types.js';
export { TurnoutCallEntity } from './call/turnout-call.entity.js';
export { PlaceEntity, type PlaceState } from './places/place.entity.js';
export { placesDuring } from './places/elsewhere.js';
export { GateBook, type SeatedAt } from './places/gate-book.js';
export { overrideSentence } from './overrides/overrides.records.js';
export { type StopOverride } from './overrides/stop-override.entity.js';
export { StopOverrides } from './overrides/stop-overrides.service.js';
export { Feeds } from './feed/feeds.service.js';
export { RosterMessages } from './news/roster-messages.js';
export { jobsOf, type TaskJob } from './places/task-jobs.js';
export { type PastWork, pastWork } from './places/past-work.js';
export { learnersAt, learnersWithoutTeacher } from './places/learners.js';
export { Places } from './places/places.service.js';
export { type Posted, Posting, type TurnedAway } from './places/posting.service.js';
export type { SeatToPost } from './places/reconcile-places.js';
export { placesLoader, rosterTaskLoader, turnoutLoader } from './roster.loaders.js';
export { RosterModule } from './roster.module.js';
export { rosterEntities, rosterMigrations } from './roster.schema.js';
export { RosterSettings } from './settings/roster-settings.service.js';
export { SwingHandEntity } from './swing/swing-hand.entity.js';
export { SwingHands, type SwingToPost } from './swing/swing-hands.service.js';
export { swingAt } from './swing/swing.records.js';
export { lastTurnoutDay } from './turnouts/lay-out.js';
export { closedOn } from './turnouts/closed-days.service.js';
export { overlap } from './turnouts/relay-out.js';
export { TurnoutEntity, type TurnoutKind, turnoutKinds } from './turnouts/turnout.entity.js';
export { AllHandsRoles } from './all-hands/all-hands-roles.service.js';
export { AllHands } from './all-hands/all-hands.service.js';
export { Watches } from './watches/watches.service.js';
export { Turnouts } from './turnouts/turnouts.service.js';
export { rosterTopic } from './roster-news.js';
