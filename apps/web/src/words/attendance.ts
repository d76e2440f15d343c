import { sayRule } from './availability.js';
import { sayDay, sayShortDay } from './dates.js';

export interface Rule {
  rule: string;
  startsOn: string;
  untilOn?: string | null;
  from?: string | null;
  to?: string | null;
}

export interface Exception {
  fromOn: string;
  toOn: string;
  canCome: boolean;
  from?: string | null;
  to?: string | null;
}

/** "every Wednesday and Saturday from 09:00 to 12:00, until 30 June" */
export function sayAttendance(rule: Rule): string {
  const said = sayRule(rule.rule) ?? `by a rule of its own (${rule.rule})`;
  return `${said}${sayHours(rule)}${rule.untilOn ? `, until ${sayShortDay(rule.untilOn, rule.startsOn)}` : ''}`;
}

/** "away from 5 June to 26 June", "can come on Sunday 14 March" */
export function sayException(exception: Exception): string {
  const { fromOn, toOn } = exception;
  const days =
    fromOn === toOn ? `on ${sayDay(fromOn)}` : `from ${sayShortDay(fromOn)} to ${sayShortDay(toOn, fromOn)}`;
  return `${exception.canCome ? 'can come' : 'away'} ${days}${sayHours(exception)}`;
}

function sayHours({ from, to }: { from?: string | null; to?: string | null }): string {
  if (from && to) return `, ${from} to ${to}${to <= from ? ' the next morning' : ''}`;
  if (from) return `, from ${from}`;
  if (to) return `, until ${to}`;
  return '';
}
