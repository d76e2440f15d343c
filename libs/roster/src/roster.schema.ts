import type { SchemaClass } from '@ribband/platform';
import { AttendanceEntity } from './attendance/attendance.entity.js';
import { AbsenceEntity } from './call/absence.entity.js';
import { TurnoutCallEntity } from './call/turnout-call.entity.js';
import { hoursEntities } from './hours/hours.room.js';
import { FireWatchEntity } from './fire-watch/fire-watch.entity.js';
import { DeedEntity } from './deeds/deed.entity.js';
import { Deeds1764100500001 } from './migrations/1764100500001-deeds.js';
import { Call1764100500002 } from './migrations/1764100500002-call.js';
import { Roster1764000005000 } from './migrations/1764000005000-roster.js';
import { Attendance1764100300001 } from './migrations/1764100300001-attendance.js';
import { Safety1764100300004 } from './migrations/1764100300004-safety.js';
import { ClosingListEntity, ClosingRoundEntity } from './safety/closing-round.entity.js';
import { SwingHandEntity } from './swing/swing-hand.entity.js';
import { SwingHands1764419000001 } from './migrations/1764419000001-swing-hands.js';
import { LearnersPlaces1764419000002 } from './migrations/1764419000002-learners-places.js';
import { StopOverride } from './overrides/stop-override.entity.js';
import { StopOverrides1764407000001 } from './migrations/1764407000001-stop-overrides.js';
import { IncidentEntity } from './safety/incident.entity.js';
import { Hours1764100300002 } from './migrations/1764100300002-hours.js';
import { CalendarFeed1764100200003 } from './migrations/1764100200003-calendar-feed.js';
import { CalendarEventEntity, CalendarFeedEntity } from './feed/feed.entity.js';
import { PlaceEntity } from './places/place.entity.js';
import { RosterSettingsEntity } from './settings/roster-settings.entity.js';
import { ClosedDayEntity } from './turnouts/closed-day.entity.js';
import { TurnoutRuleEntity } from './turnouts/turnout-rule.entity.js';
import { FireWatch1764421000001 } from './migrations/1764421000001-fire-watch.js';
import { FormerLearners1764424000001 } from './migrations/1764424000001-former-learners.js';
import { Watches1764422000001 } from './migrations/1764422000001-watches.js';
import { PumpEntryEntity } from './pump-log/pump-entry.entity.js';
import { PumpLog1764426000001 } from './migrations/1764426000001-pump-log.js';
import { Roles1764425000001 } from './migrations/1764425000001-roles.js';
import { TurnoutEntity } from './turnouts/turnout.entity.js';

export const rosterEntities: SchemaClass[] = [
  TurnoutRuleEntity,
  ClosedDayEntity,
  TurnoutEntity,
  PlaceEntity,
  AttendanceEntity,
  DeedEntity,
  RosterSettingsEntity,
  TurnoutCallEntity,
  AbsenceEntity,
  ...hoursEntities,
  IncidentEntity,
  ClosingRoundEntity,
  ClosingListEntity,
  CalendarFeedEntity,
  CalendarEventEntity,
  StopOverride,
  SwingHandEntity,
  FireWatchEntity,
  PumpEntryEntity,
];
export const rosterMigrations: SchemaClass[] = [
  Roster1764000005000,
  Attendance1764100300001,
  Hours1764100300002,
  Safety1764100300004,
  Deeds1764100500001,
  Call1764100500002,
  CalendarFeed1764100200003,
  StopOverrides1764407000001,
  SwingHands1764419000001,
  LearnersPlaces1764419000002,
  FireWatch1764421000001,
  Watches1764422000001,
  FormerLearners1764424000001,
  Roles1764425000001,
  PumpLog1764426000001,
];
