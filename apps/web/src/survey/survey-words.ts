import type { Finding, Step, Survey } from './survey-document.js';

/** "Frames 12 to 19 starboard, futtocks 3 and 4", or the plank by its key in words. */
export function sayWhere(finding: Finding): string {
  if ('plank' in finding) return sayKey(finding.plank);
  const { frames, side, pieces } = finding;
  const [first, last] = frames;
  const range = first === last ? `Frame ${first}` : `Frames ${first} to ${last}`;
  const futtocks = pieces.filter((piece) => piece > 0);
  const words = [
    ...(pieces.includes(0) ? ['floor'] : []),
    ...(futtocks.length ? [`${futtocks.length > 1 ? 'futtocks' : 'futtock'} ${listed(futtocks)}`] : []),
  ];
  return `${range} ${side}, ${words.join(' and ')}`;
}

/** Key of an element in words: "Strake 9 plank 2 starboard". */
export function sayKey(key: string): string {
  const words = key.replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const conditions: Record<Finding['condition'], string> = {
  sound: 'sound',
  doubtful: 'doubtful: look again when it is open',
  renew: 'renew',
  scarf: 'scarf here',
  'new joint': 'new joint here',
  sister: 'sister beside it',
};

export function sayCondition(finding: Finding): string {
  const words = conditions[finding.condition];
  if ('part' in finding && Array.isArray(finding.part))
    return `${words} over frames ${finding.part[0]} to ${finding.part[1]} only`;
  if (!('at' in finding) || finding.at === undefined) return words;
  const kind = finding.scarf ? ` (${finding.scarf})` : '';
  return `${words}${kind}, at ${finding.at} strakes, the part ${finding.part ?? 'above'} comes out: ${finding.why ?? ''} (decided by ${finding.decidedBy ?? ''})`;
}

/** The cause of a finding, and that the repair is temporary where nobody mends it. */
export function sayCause(finding: Finding, causes: Survey['causes']): string | null {
  const cause = causes.find((one) => one.key === finding.cause);
  if (!cause) return null;
  return cause.hasTask ? `${cause.name}, to be mended` : `${cause.name}, not mended: the repair is temporary`;
}

/** "3, 4" as typed; also "3-4" and "0 3". Null where it is none of these. */
export function readPieces(typed: string): number[] | null {
  const parts = typed.split(/[\s,]+/).filter(Boolean);
  const numbers = parts.flatMap((part) => {
    const range = /^(\d+)-(\d+)$/.exec(part);
    if (!range) return [/^\d+$/.test(part) ? Number(part) : NaN];
    const [first, last] = [Number(range[1]), Number(range[2])];
    return first <= last && last - first < 20
      ? Array.from({ length: last - first + 1 }, (_, at) => first + at)
      : [NaN];
  });
  if (numbers.length === 0 || numbers.some(Number.isNaN)) return null;
  return [...new Set(numbers)].sort((a, b) => a - b);
}

/** How long a step takes, in the book's own measure. */
export function sayEstimate(step: Step): string {
  const { estimate } = step;
  if (!estimate) return step.kind === 'launch' ? 'on the lift slot' : 'a say-so';
  const hours = (minutes: number): string => `${Math.round(minutes / 6) / 10} h`;
  switch (estimate.by) {
    case 'count':
      return `by the count of ${estimate.count}`;
    case 'work':
      return `${hours(estimate.personMinutes.likely)} of work${estimate.each ? ` for each of ${estimate.each}` : ''}`;
    case 'time':
      return hours(estimate.minutes.likely);
  }
}

function listed(numbers: readonly number[]): string {
  if (numbers.length < 2) return numbers.join('');
  return `${numbers.slice(0, -1).join(', ')} and ${String(numbers[numbers.length - 1])}`;
}
