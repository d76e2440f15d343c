import { Audit, permit, type Caller } from '@ribband/access';
import {
  buildHull,
  compareExpansions,
  type ExpansionChange,
  type HullOutline,
  needBook,
} from '@ribband/hull';
import { Database, newId, RealClock, refuse, Revisions, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { HullRecord } from '../hull/hull.entity.js';
import { refusingAs } from '../hull/hull-refusals.js';
import { refuseAnyCircle } from '../links/links.service.js';
import { RosterView } from '../roster-view/roster-view.js';
import { needChoices, scopeOf, type ScopeFound } from '../survey/scope.js';
import { SurveyRecord } from '../survey/survey.entity.js';
import { YardBoard } from '../tasks/yard-board.js';
import { StockHolds } from '../timber/stock-holds.service.js';
import { followOutline } from '../trays/follow-outline.js';
import { MethodsRecord } from './methods.entity.js';
import { yardNamesOf } from './names-of.js';
import { refuseLeavingOpen } from './leaving-open.js';
import type { WorkChange } from './work-change.js';
import { type Made, workOut } from './work-out.js';
import {
  bookOf,
  nothingMade,
  recordsOf,
  wantedOf,
  workRecords,
  type WorkRecords,
  type WorkWanted,
} from './work-records.js';
import { writeMade } from './write-made.js';

/** What a change would do, before anything is done. */
export interface WorkPreview {
  outline: HullOutline | null;
  /** Null where there is no survey. */
  scope: ScopeFound | null;
  before: Made;
  after: Made;
  change: ExpansionChange;
}

/** Outline, survey and methods, and the tasks that follow from them: changed together or not at all. */
@Injectable()
export class Work {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RosterView) private readonly roster: RosterView,
    @Inject(YardBoard) private readonly board: YardBoard,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(StockHolds) private readonly stockHolds: StockHolds,
  ) {}

  /** The three records as they stand; none before a haul-out. */
  async records(caller: Caller): Promise<Omit<WorkRecords, 'haulOut'>> {
    const haulOut = await haulOutInForce(this.database.read, caller.organisationId);
    if (!haulOut) return { hull: null, survey: null, methods: null };
    return recordsOf(this.database.read, haulOut.id);
  }

  /** What the survey in force comes to; null where there is no outline or no survey. */
  async scope(caller: Caller): Promise<ScopeFound | null> {
    const { hull, survey, methods } = await this.records(caller);
    if (!hull || !survey) return null;
    return refusingAs('', () =>
      scopeOf(buildHull(hull.outline), survey.survey, bookOf(methods?.methods ?? null)),
    );
  }

  /** Works a change out without making it. @throws RefusalError as `apply` does, but for limits and open pieces */
  async preview(caller: Caller, change: WorkChange): Promise<WorkPreview> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const records = await workRecords(this.database.read, caller.organisationId);
    const wanted = wantedOf(records, change, caller.name);
    return this.workOut(this.database.read, caller.organisationId, records, wanted);
  }

  /**
   * Makes a change, and with it of the tasks whatever follows from it, in one transaction; a plan is asked for.
   * @throws RefusalError BAD_INPUT naming the field that does not hold, CHANGED_MEANWHILE, OPENING_LIMIT_REACHED where
   * the shipwright's written word is wanted first, STILL_IN_USE where a piece is open now and nothing would close it
   */
  async apply(caller: Caller, change: WorkChange): Promise<WorkRecords> {
    permit(caller, 'shipwright', 'director');
    return this.database.write((manager) => this.applyIn(manager, caller, change));
  }

  /** The same, within somebody else's transaction. */
  async applyIn(manager: EntityManager, caller: Caller, change: WorkChange): Promise<WorkRecords> {
    const { organisationId } = caller;
    const records = await workRecords(manager, organisationId);
    const wanted = wantedOf(records, change, caller.name);
    const worked = await this.workOut(manager, organisationId, records, wanted);
    if (worked.scope && wanted.methods) refuseWithoutWord(worked.scope);
    refuseLeavingOpen(await this.board.of(manager, organisationId), worked);
    const done = await writeMade(manager, worked.before, worked.after, {
      organisationId,
      roster: this.roster,
      now: await this.yardClock.now(organisationId, manager),
      dropReason: `Asked for no longer: ${change.reason ?? 'the survey has changed'}`,
    });
    await refuseAnyCircle(manager, organisationId);
    await this.write(manager, caller, { records, wanted, change, made: worked.after });
    if (change.outline && wanted.outline)
      await followOutline(manager, organisationId, buildHull(wanted.outline));
    await this.audit.note(manager, caller, 'applyWork', records.haulOut.id, {
      parts: (['outline', 'survey', 'methods'] as const).filter((part) => change[part]),
      reason: change.reason,
      methods: wanted.methodsChanged,
      added: done.added.length,
      changed: done.changed.length,
      dropped: done.dropped.length,
    });
    await this.stockHolds.settle(manager, organisationId);
    await this.revisions.requestPlan(manager, organisationId, 'the work on the hull was worked out anew');
    return workRecords(manager, organisationId);
  }

  private async workOut(
    manager: EntityManager,
    organisationId: string,
    records: WorkRecords,
    { outline, survey, methods }: WorkWanted,
  ): Promise<WorkPreview> {
    const before = records.methods?.made ?? nothingMade;
    const yard = await yardNamesOf(manager, organisationId);
    const hull = outline && refusingAs('outline', () => buildHull(outline));
    if (methods)
      refusingAs('methods.book', () => {
        needBook(methods.book);
      });
    if (!survey)
      return {
        outline,
        scope: null,
        before,
        after: nothingMade,
        change: compareExpansions(before, nothingMade),
      };
    if (!hull)
      return refuse('BAD_INPUT', 'The hull is not written down yet.', {
        field: 'survey',
        remedy: 'Enter her outline first.',
      });
    return refusingAs('', () => {
      if (!methods) {
        const scope = scopeOf(hull, survey, bookOf(null));
        needChoices(hull, scope, survey);
        return { outline, scope, before, after: before, change: compareExpansions(before, before) };
      }
      const found = workOut(hull, survey, methods, yard);
      needChoices(hull, found, survey);
      return {
        outline,
        scope: found,
        before,
        after: found.made,
        change: compareExpansions(before, found.made),
      };
    });
  }

  private async write(
    manager: EntityManager,
    caller: Caller,
    one: { records: WorkRecords; wanted: WorkWanted; change: WorkChange; made: Made },
  ): Promise<void> {
    const { records, wanted, change, made } = one;
    const row = (old: { id: string; version: number } | null, word: string) => ({
      id: old?.id ?? newId(word),
      organisationId: caller.organisationId,
      haulOutId: records.haulOut.id,
      version: (old?.version ?? 0) + 1,
      changedBy: caller.name,
      changedAt: this.clock.now(),
    });
    if (change.outline && wanted.outline)
      await manager.save(HullRecord, { ...row(records.hull, 'hull'), outline: wanted.outline });
    if (change.survey && wanted.survey)
      await manager.save(SurveyRecord, { ...row(records.survey, 'survey'), survey: wanted.survey });
    if (change.methods && wanted.methods)
      await manager.save(MethodsRecord, {
        ...row(records.methods, 'methods'),
        methods: wanted.methods,
        made,
      });
    else if (records.methods) await manager.update(MethodsRecord, { id: records.methods.id }, { made });
  }
}

/** What this scope must open together is more than the limits allow, and nobody has set them aside. */
function refuseWithoutWord({ overridesNeeded }: ScopeFound): void {
  if (overridesNeeded.length === 0) return;
  refuse(
    'OPENING_LIMIT_REACHED',
    'No order of work keeps these limits; the shipwright’s written word is wanted.',
    {
      field: 'survey.choices.openings',
      remedy: 'Choose another opening, or change the limit in writing, with what holds the hull instead.',
      facts: overridesNeeded.slice(0, 50).map(({ limit, frames }) => ({
        name: limit.name,
        value: frames.join(', '),
      })),
    },
  );
}
