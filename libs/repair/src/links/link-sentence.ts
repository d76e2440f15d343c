import type { LagKind, Relation } from './link-words.js';

export interface SaidLink {
  relation: Relation;
  lagMinutes: number;
  lagKind: LagKind;
}

const small = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

function counted(n: number, unit: string): string {
  return `${small[n] ?? n} ${unit}${n === 1 ? '' : 's'}`;
}

function inHoursOrMinutes(minutes: number, kind: string): string {
  return minutes % 60 === 0 ? counted(minutes / 60, `${kind}hour`) : counted(minutes, `${kind}minute`);
}

/**
 * A length of time as one says it. Working time is said in turnouts where it comes out even, since that is how the
 * yard counts; time of the calendar in days.
 * @param turnoutMinutes length of a usual turnout, or null when there is none
 */
function lagInWords(minutes: number, lagKind: LagKind, turnoutMinutes: number | null): string {
  if (lagKind === 'elapsed')
    return minutes % 1440 === 0 ? counted(minutes / 1440, 'day') : inHoursOrMinutes(minutes, '');
  if (turnoutMinutes && minutes % turnoutMinutes === 0) return counted(minutes / turnoutMinutes, 'turnout');
  return inHoursOrMinutes(minutes, 'working ');
}

/**
 * What a link says, from the side of the task that waits: after “Bolt frame 12” is done, two turnouts
 * after “Punch stubs” has begun. The sentence goes on from the name of the task that waits.
 */
export function linkSentence(link: SaidLink, title: string, turnoutMinutes: number | null): string {
  const before = `“${title}”`;
  const size = Math.abs(link.lagMinutes);
  const lag = size === 0 ? null : lagInWords(size, link.lagKind, turnoutMinutes);
  const early = link.lagMinutes < 0;
  switch (link.relation) {
    case 'finish-to-start':
      if (lag === null) return `after ${before} is done`;
      return early ? `from ${lag} before ${before} is done` : `${lag} after ${before} is done`;
    case 'start-to-start':
      if (lag === null) return `once ${before} has begun`;
      return early ? `from ${lag} before ${before} begins` : `${lag} after ${before} has begun`;
    case 'finish-to-finish':
      if (lag === null) return `ends no earlier than ${before}`;
      return early ? `ends at most ${lag} before ${before}` : `ends at least ${lag} after ${before}`;
    case 'start-to-finish':
      if (lag === null) return `ends after ${before} has begun`;
      return early
        ? `ends at most ${lag} before ${before} begins`
        : `ends at least ${lag} after ${before} begins`;
  }
}
