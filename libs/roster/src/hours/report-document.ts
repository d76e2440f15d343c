import { type Cell, Figure, toCsv } from './csv.js';
import { rateFor, type RateOf, worth } from './rates.js';

/** One entry as a report tells it. */
export interface ReportLine {
  /** Id of the entry's first row. */
  entry: string;
  on: string;
  person: string;
  kind: string;
  /** Title of the task; null for work that was on none. */
  task: string | null;
  /** Local times; null for an adjustment. */
  start: string | null;
  end: string | null;
  minutes: number;
  centsAnHour: number;
  source: string;
  cents: number;
  /** Why it was corrected or adjusted. */
  reason: string | null;
}

interface Sum {
  name: string;
  minutes: number;
  cents: number;
}

/** Everything that a report says, in the order in which it says it. Frozen with the report. */
export interface ReportDocument {
  form: 1;
  organisation: string;
  grant: { name: string; funder: string; awardNumber: string | null };
  from: string;
  to: string;
  madeBy: string;
  madeOn: string;
  lines: ReportLine[];
  byKind: Sum[];
  byPerson: Sum[];
  byDay: Sum[];
  rates: { kind: string; centsAnHour: number; source: string }[];
  minutes: number;
  cents: number;
  /** Minutes of these days that the report does not count, and why not. */
  leftOut: { why: string; minutes: number }[];
}

/** An entry that might count. */
export interface Countable {
  entry: string;
  on: string;
  person: string;
  isVolunteer: boolean;
  kindId: string;
  kind: string;
  task: string | null;
  start: string | null;
  end: string | null;
  minutes: number;
  reason: string | null;
  /** The grant that it counts for already, or that the entry it adjusts counts for; null for none. */
  claimedBy: string | null;
  /** Whether a report of any grant has this very entry. */
  isReported: boolean;
}

export interface Rate extends RateOf {
  centsAnHour: number;
  source: string;
}

export interface ReportAbout {
  organisation: string;
  grant: ReportDocument['grant'] & { id: string; kindIds: readonly string[] };
  from: string;
  to: string;
  madeBy: string;
  madeOn: string;
}

/** A kind of work that no rate holds for on a day. */
export interface NoRate {
  kind: string;
  on: string;
}

/**
 * Lays a report out.
 * @returns it, or the first kind of work and day without a rate
 */
export function layOutReport(
  about: ReportAbout,
  entries: readonly Countable[],
  rates: readonly Rate[],
): ReportDocument | { noRate: NoRate } {
  const lines: ReportLine[] = [];
  const left = new Map<string, number>();
  for (const entry of entries) {
    const why = whyNot(entry, about);
    if (why !== null) {
      left.set(why, (left.get(why) ?? 0) + entry.minutes);
      continue;
    }
    const rate = rateFor(rates, { kindId: entry.kindId, grantId: about.grant.id, on: entry.on });
    if (!rate) return { noRate: { kind: entry.kind, on: entry.on } };
    const { centsAnHour, source } = rate;
    const { on, person, kind, task, start, end, minutes, reason } = entry;
    lines.push({
      entry: entry.entry,
      on,
      person,
      kind,
      task,
      start,
      end,
      minutes,
      centsAnHour,
      source,
      cents: worth(minutes, centsAnHour),
      reason,
    });
  }
  lines.sort((a, b) => key(a).localeCompare(key(b)));
  const { organisation, from, to, madeBy, madeOn } = about;
  const { name, funder, awardNumber } = about.grant;
  return {
    form: 1,
    organisation,
    grant: { name, funder, awardNumber },
    from,
    to,
    madeBy,
    madeOn,
    lines,
    byKind: sums(lines, (line) => line.kind),
    byPerson: sums(lines, (line) => line.person),
    byDay: sums(lines, (line) => line.on),
    rates: ratesUsed(lines),
    minutes: total(lines, 'minutes'),
    cents: total(lines, 'cents'),
    leftOut: [...left].map(([why, minutes]) => ({ why, minutes })),
  };
}

const key = (line: ReportLine): string => `${line.on} ${line.person} ${line.start ?? '~'} ${line.entry}`;

function whyNot(entry: Countable, { grant }: ReportAbout): string | null {
  if (!entry.isVolunteer) return 'hours of staff and of paid hands';
  if (entry.claimedBy !== null && entry.claimedBy !== grant.id) return 'hours that count for another award';
  if (entry.isReported) return 'hours that an earlier report of this grant has';
  if (grant.kindIds.length > 0 && !grant.kindIds.includes(entry.kindId))
    return 'kinds of work that this grant does not count';
  return null;
}

const total = (lines: readonly ReportLine[], field: 'minutes' | 'cents'): number =>
  lines.reduce((sum, line) => sum + line[field], 0);

function sums(lines: readonly ReportLine[], by: (line: ReportLine) => string): Sum[] {
  const found = new Map<string, Sum>();
  for (const line of lines) {
    const name = by(line);
    const sum = found.get(name) ?? { name, minutes: 0, cents: 0 };
    sum.minutes += line.minutes;
    sum.cents += line.cents;
    found.set(name, sum);
  }
  return [...found.values()].sort((a, b) => a.name.localeCompare(b.name));
}

function ratesUsed(lines: readonly ReportLine[]): ReportDocument['rates'] {
  const found = new Map<string, ReportDocument['rates'][number]>();
  for (const { kind, centsAnHour, source } of lines)
    found.set(`${kind} ${centsAnHour} ${source}`, { kind, centsAnHour, source });
  return [...found.values()].sort((a, b) => a.kind.localeCompare(b.kind) || a.centsAnHour - b.centsAnHour);
}

/** The report's lines as RFC 4180 text. Sums are not in it: whoever reads it makes their own. */
export function reportCsv(document: ReportDocument): string {
  const { grant } = document;
  const head = [
    'Day',
    'Person',
    'Kind of work',
    'Task',
    'From',
    'To',
    'Hours',
    'Rate per hour',
    'Value',
    'Source of the rate',
    'Corrected because',
    'Grant',
    'Award number',
    'Entry',
  ];
  const rows = document.lines.map((line): Cell[] => [
    line.on,
    line.person,
    line.kind,
    line.task,
    line.start,
    line.end,
    Figure.withTwoPlaces(line.minutes / 60),
    Figure.withTwoPlaces(line.centsAnHour / 100),
    Figure.withTwoPlaces(line.cents / 100),
    line.source,
    line.reason,
    grant.name,
    grant.awardNumber,
    line.entry,
  ]);
  return toCsv([head, ...rows]);
}
