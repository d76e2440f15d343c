/**
 * The part of RFC 5545, section 3.3.10, that a yard's rules may use: which day, never which hour. The time of day
 * stands beside the rule, so a rule makes at most one occurrence a day and every expansion is bounded by its days.
 *
 * The recurrence library passes over parts that it does not know and numbers out of range; a slip of the pen would
 * silently become another rule. So the parts are read here first.
 */

type PartCheck = (value: string) => string | null;

const weekdays = 'MO, TU, WE, TH, FR, SA or SU';

const wholeNumber =
  (least: number, most: number): PartCheck =>
  (value) =>
    /^\d+$/.test(value) && Number(value) >= least && Number(value) <= most
      ? null
      : `must be a whole number from ${least} to ${most}`;

const numbers =
  (most: number, mayCountFromTheEnd: boolean): PartCheck =>
  (value) =>
    value.split(',').every((item) => {
      const size = Math.abs(Number(item));
      return /^[+-]?\d+$/.test(item) && size >= 1 && size <= most && (mayCountFromTheEnd || Number(item) > 0);
    })
      ? null
      : `must be numbers from 1 to ${most}${mayCountFromTheEnd ? ', or from -1 downwards to count from the end' : ''}`;

const parts: Partial<Record<string, PartCheck>> = {
  FREQ: (value) =>
    ['DAILY', 'WEEKLY', 'MONTHLY', 'YEARLY'].includes(value)
      ? null
      : 'must be DAILY, WEEKLY, MONTHLY or YEARLY; the time of day stands beside the rule',
  INTERVAL: wholeNumber(1, 1000),
  COUNT: wholeNumber(1, 10_000),
  UNTIL: (value) =>
    /^\d{8}T\d{6}Z$/.test(value) ? null : 'must be a moment in UTC, such as 20270701T065959Z',
  BYDAY: (value) =>
    value
      .split(',')
      .every((item) => /^([+-]?\d{1,2})?(MO|TU|WE|TH|FR|SA|SU)$/.test(item) && !/^[+-]?0/.test(item))
      ? null
      : `must be days such as ${weekdays}, with a number before them in months and years (1SA, -1SU)`,
  BYMONTHDAY: numbers(31, true),
  BYYEARDAY: numbers(366, true),
  BYWEEKNO: numbers(53, true),
  BYMONTH: numbers(12, false),
  BYSETPOS: numbers(366, true),
  WKST: (value) => (/^(MO|TU|WE|TH|FR|SA|SU)$/.test(value) ? null : `must be ${weekdays}`),
};

/** What is wrong with the wording of a rule and what would be right; null when every part can be read. */
export function ruleWordingFault(rule: string): string | null {
  const seen = new Set<string>();
  for (const part of rule.split(';')) {
    const sides = part.split('=');
    const [name = '', value = ''] = sides;
    if (sides.length !== 2 || name === '')
      return `"${part}" is not a part of a rule; a rule is written like FREQ=WEEKLY;BYDAY=WE,SA,SU`;
    const check = Object.hasOwn(parts, name) ? parts[name] : undefined;
    if (!check) return `the rule cannot have ${name}; it may have ${Object.keys(parts).join(', ')}`;
    if (seen.has(name)) return `${name} stands twice in the rule; say it once`;
    seen.add(name);
    const fault = check(value);
    if (fault) return `${name} ${fault}, not "${value}"`;
  }
  if (!seen.has('FREQ')) return 'the rule does not say how often; begin it with FREQ=WEEKLY, for example';
  // The library forgets the day of the month beside a counted weekday in a rule by year.
  const countedWeekday = /;BYDAY=[^;]*\d/.test(`;${rule}`);
  if (rule.includes('FREQ=YEARLY') && countedWeekday && (seen.has('BYMONTHDAY') || seen.has('BYYEARDAY')))
    return 'a counted weekday and a day of the month or year cannot stand together in a rule by year; leave one out';
  return null;
}
