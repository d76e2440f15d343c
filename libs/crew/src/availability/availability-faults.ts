import { checkRule, isDay, isTime } from '@ribband/platform';
import type { Fault } from '../faults.js';
import type { ComingException, ComingRule } from './availability.types.js';

const code = 'BAD_INPUT';

const dayFault = (path: string, day: string): Fault[] =>
  isDay(day)
    ? []
    : [
        {
          code,
          path,
          message: `"${day}" is not a day`,
          wouldBeRight: 'a day of the calendar, such as 2027-03-06',
        },
      ];

const timeFault = (path: string, time: string | null): Fault[] =>
  time === null || isTime(time)
    ? []
    : [{ code, path, message: `"${time}" is not a time of day`, wouldBeRight: 'a time such as 09:30' }];

function timesFaults(path: string, times: { from: string | null; to: string | null }): Fault[] {
  const faults = [...timeFault(`${path}.from`, times.from), ...timeFault(`${path}.to`, times.to)];
  if (faults.length === 0 && times.from !== null && times.from === times.to)
    faults.push({
      code,
      path: `${path}.to`,
      message: 'it ends at the minute at which it begins',
      wouldBeRight: 'a later time, or no times for the whole turnout',
    });
  return faults;
}

const longestRule = 500;

function ruleFaults(rule: ComingRule, path: string, timeZone: string): Fault[] {
  const faults = [
    ...dayFault(`${path}.startsOn`, rule.startsOn),
    ...(rule.untilOn === null ? [] : dayFault(`${path}.untilOn`, rule.untilOn)),
    ...timesFaults(path, rule),
  ];
  if (faults.length > 0) return faults;
  const fault =
    rule.rule.length > longestRule
      ? `the rule is longer than ${longestRule} characters`
      : checkRule(rule.rule, rule.startsOn, timeZone, rule.untilOn);
  if (fault === null) return [];
  return [
    {
      code: 'RULE_NEVER_OCCURS',
      path: `${path}.rule`,
      message: fault,
      wouldBeRight: 'a rule that occurs, such as FREQ=WEEKLY;BYDAY=WE,SA',
    },
  ];
}

function exceptionFaults(exception: ComingException, path: string): Fault[] {
  const faults = [
    ...dayFault(`${path}.fromOn`, exception.fromOn),
    ...dayFault(`${path}.toOn`, exception.toOn),
    ...timesFaults(path, exception),
  ];
  if (faults.length === 0 && exception.toOn < exception.fromOn)
    faults.push({
      code,
      path: `${path}.toOn`,
      message: `it ends on ${exception.toOn}, before it begins on ${exception.fromOn}`,
      wouldBeRight: 'the same day or a later one',
    });
  return faults;
}

const mostRules = 50;
const mostExceptions = 500;

/** What can't stand in somebody's availability; paths are `rules[1].rule`, `exceptions[0].toOn`. */
export function availabilityFaults(
  rules: readonly ComingRule[],
  exceptions: readonly ComingException[],
  timeZone: string,
): Fault[] {
  const tooMany = (path: string, count: number, most: number): Fault[] =>
    count > most ? [{ code, path, message: `${count} are too many`, wouldBeRight: `at most ${most}` }] : [];
  return [
    ...tooMany('rules', rules.length, mostRules),
    ...tooMany('exceptions', exceptions.length, mostExceptions),
    ...rules.slice(0, mostRules).flatMap((rule, at) => ruleFaults(rule, `rules[${at}]`, timeZone)),
    ...exceptions
      .slice(0, mostExceptions)
      .flatMap((exception, at) => exceptionFaults(exception, `exceptions[${at}]`)),
  ];
}
