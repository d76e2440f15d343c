import { addDays, instantToLocal, localToInstant } from '@ribband/platform';
import type { ComingException, ComingRule, DatedTurnout } from './availability.types.js';
import { staysOf } from './stays.js';

/** From when until when it is night at the yard. Common practice, no source. */
const night = { from: '22:00', to: '06:00' };

type Hours = Pick<ComingRule, 'from' | 'to'>;
const namesHours = ({ from, to }: Hours): boolean => from !== null && to !== null;
const goesOverMidnight = ({ from, to }: Hours): boolean => from !== null && to !== null && to <= from;

/**
 * Whether somebody has said that they can come for the whole of a watch. By day what they said of days counts as it
 * does for a turnout. Nobody is expected at night who has only named days: there it takes hours that reach over the
 * watch, such as 20:00 to 08:00, which may have begun the evening before. Hours count for the day on which they begin:
 * being away on that day, or a holiday on it, takes the whole night.
 * @param closed holidays
 */
export function comesToWatch(
  rules: readonly ComingRule[],
  exceptions: readonly ComingException[],
  watch: Omit<DatedTurnout, 'isClosed'>,
  timeZone: string,
  closed: ReadonlySet<string>,
): boolean {
  const covers = (
    said: readonly ComingRule[],
    changed: readonly ComingException[],
    on: string = watch.on,
    isClosed = closed.has(on),
  ): boolean =>
    staysOf(said, changed, [{ ...watch, on, isClosed }], timeZone).some(
      ({ from, to }) => from === watch.startsAt && to === watch.endsAt,
    );
  if (!isNight(watch, timeZone)) return covers(rules, exceptions);
  const away = exceptions.filter(({ canCome }) => !canCome);
  const byHours = exceptions.filter((one) => !one.canCome || namesHours(one));
  if (covers(rules.filter(namesHours), byHours)) return true;
  const before = exceptions.filter((one) => !one.canCome || goesOverMidnight(one));
  const everyDay = { rule: 'FREQ=DAILY', startsOn: watch.on, untilOn: watch.on, from: null, to: null };
  return (
    covers(rules.filter(goesOverMidnight), before, addDays(watch.on, -1)) &&
    covers([everyDay], away, watch.on, false)
  );
}

/** Whether any of it is at night. */
export function isNight(
  { startsAt, endsAt }: Pick<DatedTurnout, 'startsAt' | 'endsAt'>,
  timeZone: string,
): boolean {
  const { day } = instantToLocal(startsAt, timeZone);
  return [addDays(day, -1), day].some(
    (on) =>
      startsAt < localToInstant(addDays(on, 1), night.to, timeZone) &&
      localToInstant(on, night.from, timeZone) < endsAt,
  );
}
