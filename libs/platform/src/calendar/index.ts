export { addDays, daysBetween, isDay, isoWeek, lastDay, startOfWeek, weekdayOf } from './days.js';
export { checkRule, expandRule, longestExpansionYears, type Recurrence } from './rules.js';
export {
  checkTimeZone,
  instantToLocal,
  instantToText,
  isTime,
  localToInstant,
  textToInstant,
} from './zones.js';
export { type ZoneChange, zoneChanges } from './zone-changes.js';
