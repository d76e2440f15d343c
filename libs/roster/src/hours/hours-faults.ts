import { generalWork } from './work-kind.entity.js';
import { hashOfReport } from './grant-reports.service.js';
import { claimsOf, type HoursDocument } from './hours-document.js';

type Add = (path: string, message: string, wouldBeRight: string) => void;

/** Says of a key of the document whether it is there, and notes a fault at the path where it is not. */
export interface NamedThere {
  check(list: 'volunteers' | 'tasks' | 'skills', ref: string, path: string): boolean;
  turnout(turnout: { on: string; startTime: string }, path: string): void;
  watch(turnout: { on: string; startTime: string }, path: string): void;
}

type Entry = HoursDocument['entries'][number];

/** What is wrong within the hours book of a document whose shape is right. */
export function hoursFaults(hours: HoursDocument, named: NamedThere, add: Add): void {
  const kinds = namesOf(hours.kinds, 'kinds', add);
  const grants = namesOf(hours.grants, 'grants', add);
  const kindAt = (kind: string, path: string) => {
    if (!kinds.has(kind))
      add(
        path,
        `there is no kind of work "${kind}"`,
        `a name of hours.kinds, such as ${[...kinds][0] ?? generalWork}`,
      );
  };
  const grantAt = (grant: string, path: string) => {
    if (!grants.has(grant)) add(path, `there is no grant "${grant}"`, 'a name of hours.grants');
  };
  hours.kinds.forEach(({ skill }, i) => {
    if (skill !== null) named.check('skills', skill, `hours.kinds[${i}].skill`);
  });
  hours.grants.forEach(({ from, to, kinds: counted }, i) => {
    inOrder(from, to, `hours.grants[${i}].to`, add);
    counted.forEach((kind, k) => {
      kindAt(kind, `hours.grants[${i}].kinds[${k}]`);
    });
  });
  hours.rates.forEach(({ kind, grant }, i) => {
    if (kind !== null) kindAt(kind, `hours.rates[${i}].kind`);
    if (grant !== null) grantAt(grant, `hours.rates[${i}].grant`);
  });
  entryFaults(hours.entries, named, kindAt, add);
  periodFaults(hours, add);
  reportFaults(hours, grantAt, add);
}

function entryFaults(
  entries: readonly Entry[],
  named: NamedThere,
  kindAt: (kind: string, path: string) => void,
  add: Add,
): void {
  const seen = new Map<string, Entry>();
  const corrected = new Set<string>();
  entries.forEach((entry, i) => {
    const path = `hours.entries[${i}]`;
    const { id, volunteer, task, turnout, kind, corrects, adjusts } = entry;
    if (seen.has(id)) add(`${path}.id`, `${id} comes twice`, 'each entry once');
    named.check('volunteers', volunteer, `${path}.volunteer`);
    if (task !== null) named.check('tasks', task, `${path}.task`);
    if (turnout) named.turnout(turnout, `${path}.turnout`);
    kindAt(kind, `${path}.kind`);
    if (corrects !== null) {
      if (seen.get(corrects)?.volunteer !== volunteer || corrected.has(corrects))
        add(
          `${path}.corrects`,
          'corrects no entry that stands',
          'an earlier entry of the same person that no other corrects, or null',
        );
      corrected.add(corrects);
    }
    if (adjusts !== null && seen.get(adjusts)?.volunteer !== volunteer)
      add(`${path}.adjusts`, 'adjusts no entry that stands', 'an earlier entry of the same person, or null');
    if ((entry.way === 'adjustment') !== (adjusts !== null))
      add(
        `${path}.adjusts`,
        'does not go with how it was entered',
        'an entry where the way is adjustment, else null',
      );
    timeFault(entry, path, add);
    seen.set(id, entry);
  });
  overlaps(entries, corrected, add);
}

function timeFault({ way, startsAt, endsAt, minutes }: Entry, path: string, add: Add): void {
  if (way === 'adjustment') {
    if (startsAt !== null || endsAt !== null || minutes === null)
      add(`${path}.startsAt`, 'an adjustment has minutes and no times', 'null, with minutes more or fewer');
    return;
  }
  if (startsAt === null) add(`${path}.startsAt`, 'has no start', 'when it began');
  else if (endsAt === null) return;
  else if (endsAt < startsAt) add(`${path}.endsAt`, 'is over before it began', `${startsAt} or later`);
  else {
    const lasted = (Date.parse(endsAt) - Date.parse(startsAt)) / 60_000;
    if (minutes === null || Math.abs(minutes - lasted) > 1)
      add(`${path}.minutes`, 'are not those from start to end', String(Math.round(lasted)));
  }
}

/** Nobody was at two pieces of work at once. */
function overlaps(entries: readonly Entry[], corrected: ReadonlySet<string>, add: Add): void {
  const counting = entries
    .map((entry, i) => ({ ...entry, i }))
    .filter(({ id, isVoid, startsAt }) => !isVoid && startsAt !== null && !corrected.has(id))
    .sort((a, b) => (a.startsAt ?? '').localeCompare(b.startsAt ?? ''));
  const until = new Map<string, string>();
  for (const { volunteer, startsAt, endsAt, i } of counting) {
    const before = until.get(volunteer);
    if (before !== undefined && (startsAt ?? '') < before)
      add(`hours.entries[${i}].startsAt`, `${volunteer} has other hours at that time`, `${before} or later`);
    const end = endsAt ?? '9999';
    if (before === undefined || end > before) until.set(volunteer, end);
  }
}

function periodFaults({ periods }: HoursDocument, add: Add): void {
  periods.forEach(({ from, to }, i) => {
    inOrder(from, to, `hours.periods[${i}].to`, add);
    if (periods.slice(0, i).some((other) => from <= other.to && other.from <= to))
      add(`hours.periods[${i}].from`, 'its days are closed already', 'days that no other period has');
  });
}

function reportFaults(
  { reports, entries }: HoursDocument,
  grantAt: (grant: string, path: string) => void,
  add: Add,
): void {
  const known = new Set(entries.map(({ id }) => id));
  const claimed = new Set<string>();
  reports.forEach((report, i) => {
    const { grant, document, csv, hash, claims, withdrawn } = report;
    const path = `hours.reports[${i}]`;
    grantAt(grant, `${path}.grant`);
    if (hashOfReport(document, csv) !== hash)
      add(
        `${path}.hash`,
        'is not that of this report: something in it was changed since it was made',
        'the report as it was taken out',
      );
    const wanted = withdrawn ? 0 : document.lines.length;
    if (claims && claims.length !== wanted)
      add(
        `${path}.claims`,
        'are not one for each of its lines',
        withdrawn ? 'none: it is withdrawn' : `${wanted}, in the order of its lines`,
      );
    claimsOf(report).forEach((entry, k) => {
      const at = claims ? `${path}.claims[${k}]` : `${path}.document.lines[${k}].entry`;
      if (!known.has(entry)) add(at, `there is no entry ${entry}`, 'the id of an entry');
      if (claimed.has(entry)) add(at, 'another report in force claims these hours', 'hours that count once');
      claimed.add(entry);
    });
  });
}

function inOrder(from: string, to: string, path: string, add: Add): void {
  if (to < from) add(path, 'is before the first day', `${from} or later`);
}

/** The names of a list; one that comes twice is a fault. */
function namesOf(rows: readonly { name: string }[], list: string, add: Add): Set<string> {
  const names = new Set<string>();
  rows.forEach(({ name }, i) => {
    if (names.has(name)) add(`hours.${list}[${i}].name`, `"${name}" comes twice`, 'each name once');
    names.add(name);
  });
  return names;
}
