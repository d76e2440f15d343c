import { type HullOutline, STARTING_BOOK } from '@ribband/hull';
import { expectVersion, refuse } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import type { HaulOut } from '../haul-out/haul-out.entity.js';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { HullRecord } from '../hull/hull.entity.js';
import type { SurveyDocument } from '../survey/survey-shape.js';
import { SurveyRecord } from '../survey/survey.entity.js';
import type { MethodsDocument } from './methods-shape.js';
import { MethodsRecord } from './methods.entity.js';
import { changedBook, readMethods, readOutline, readSurvey, type WorkChange } from './work-change.js';
import type { Made } from './work-out.js';

/** The three records from which work follows, as they stand. */
export interface WorkRecords {
  haulOut: HaulOut;
  hull: HullRecord | null;
  survey: SurveyRecord | null;
  methods: MethodsRecord | null;
}

/** The same three as they are to be. */
export interface WorkWanted {
  outline: HullOutline | null;
  survey: SurveyDocument | null;
  methods: MethodsDocument | null;
  /** What differs in the methods, in words. */
  methodsChanged: string[];
}

export const nothingMade: Made = { tasks: [], links: [], elements: [], openingLimits: [] };

export async function workRecords(manager: EntityManager, organisationId: string): Promise<WorkRecords> {
  const haulOut =
    (await haulOutInForce(manager, organisationId)) ??
    refuse('NOT_FOUND', 'No haul-out has been entered yet.', { remedy: 'Read a yard in first.' });
  return { haulOut, ...(await recordsOf(manager, haulOut.id)) };
}

export async function recordsOf(
  manager: EntityManager,
  haulOutId: string,
): Promise<Omit<WorkRecords, 'haulOut'>> {
  const where = { haulOutId };
  return {
    hull: await manager.findOneBy(HullRecord, where),
    survey: await manager.findOneBy(SurveyRecord, where),
    methods: await manager.findOneBy(MethodsRecord, where),
  };
}

/**
 * What stands, with the change in it.
 * @throws RefusalError CHANGED_MEANWHILE, or BAD_INPUT naming the field that has no right shape
 */
export function wantedOf(records: WorkRecords, change: WorkChange, by: string): WorkWanted {
  const given = (part: 'survey' | 'methods' | 'outline', row: { version: number } | null): boolean => {
    const wish = change[part];
    if (!wish) return false;
    expectVersion({ version: row?.version ?? 0 }, wish.version ?? 0);
    return true;
  };
  const { hull, survey, methods } = records;
  const wanted: WorkWanted = {
    outline: given('outline', hull) ? readOutline(change.outline?.value) : (hull?.outline ?? null),
    survey: given('survey', survey) ? readSurvey(change.survey?.value) : (survey?.survey ?? null),
    methods: methods?.methods ?? null,
    methodsChanged: [],
  };
  if (!given('methods', methods)) return wanted;
  const read = readMethods(change.methods?.value);
  const reason = change.reason?.trim() ?? '';
  const { book, changed } = changedBook(methods?.methods.book ?? null, read.book, { by, reason });
  if (changed.length > 0 && (reason.length < 10 || reason.length > 1000))
    refuse('BAD_INPUT', 'A method is changed with a reason that others can follow.', {
      field: 'reason',
      remedy: 'Write why, in 10 to 1000 characters.',
      facts: { changed: changed.join('; ') },
    });
  return { ...wanted, methods: { ...read, book }, methodsChanged: changed };
}

/** By which book hours are reckoned while the yard has none of its own. */
export const bookOf = (methods: MethodsDocument | null) => methods?.book ?? STARTING_BOOK;
