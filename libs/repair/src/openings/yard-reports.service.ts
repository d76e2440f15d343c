import { Audit, permit, type Caller } from '@ribband/access';
import { brokenAmong, type Hull } from '@ribband/hull';
import { Database, newId, RealClock, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { countedOn } from './counted.js';
import { ElementReport } from './element-report.entity.js';
import { HullElement } from './hull-element.entity.js';
import { type HullToday, HullDay } from './hull-today.js';
import { layLimits } from './limit-rows.js';
import type { OpeningLimit } from './opening-limit.entity.js';
import { wordsGiven } from '../words.js';

/** A limit that is broken by what is open now, whatever the plan says. */
export interface BrokenLimit {
  limit: OpeningLimit;
  open: HullElement[];
}

export interface ReportDraft {
  /** Id of an element, or the hull's own key of a frame or plank that no work was planned on. */
  element: string;
  isOpen: boolean;
  seenBy: string;
  note: string | null;
}

/** What people see at the yard: what is really open, whether or not the plan knew. */
@Injectable()
export class YardReports {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(HullDay) private readonly days: HullDay,
  ) {}

  /** Everybody may say that something is open; that it is shut again only the shipwright says, for it frees work. */
  async report(caller: Caller, draft: ReportDraft): Promise<ElementReport> {
    if (!draft.isOpen) permit(caller, 'shipwright');
    const seenBy = wordsGiven(draft.seenBy, 'seenBy', 2, 200, 'The name of who saw it.');
    const note = draft.note?.trim() ? wordsGiven(draft.note, 'note', 1, 500, 'A remark.') : null;
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const today = await this.days.of(manager, organisationId);
      const element = await this.elementOf(manager, organisationId, today, draft.element);
      const report: ElementReport = {
        id: newId('report'),
        organisationId,
        elementId: element.id,
        isOpen: draft.isOpen,
        seenBy,
        yardAt: today.board.now,
        enteredAt: this.clock.now(),
        enteredBy: caller.name,
        note,
      };
      await manager.insert(ElementReport, report);
      const operation = 'reportElement';
      await this.revisions.requestPlan(manager, organisationId, `${operation}: ${element.name}`);
      await this.audit.note(manager, caller, operation, element.id, { isOpen: draft.isOpen, seenBy });
      return report;
    });
  }

  /** Limits that are broken now by what is really open, overrides of today taken into account. */
  async broken(caller: Caller): Promise<BrokenLimit[]> {
    return this.database.snapshot(async (manager) =>
      brokenNow(await this.days.of(manager, caller.organisationId)),
    );
  }

  private async elementOf(
    manager: EntityManager,
    organisationId: string,
    { elements, hull }: HullToday,
    named: string,
  ): Promise<HullElement> {
    const known =
      elements.get(named)?.element ??
      [...elements.values()].find((one) => one.element.ref === named)?.element;
    if (known) return known;
    const made = hull && elementOfHull(hull, named, organisationId);
    if (!made)
      return refuse('NOT_FOUND', 'The hull has no such piece.', {
        field: 'element',
        remedy: 'Choose a frame or a plank from the shell map.',
      });
    await manager.insert(HullElement, made);
    await layLimits(manager, organisationId, hull, this.clock.now());
    return made;
  }
}

export function brokenNow({ elements, limits, today }: HullToday): BrokenLimit[] {
  const open = new Set([...elements.values()].filter((one) => one.isOpen).map((one) => one.element.id));
  const counting = limits.map((limit) => ({
    limit,
    atMost: limit.atMost,
    elements: countedOn(limit, today),
  }));
  return brokenAmong(counting, open).map(({ limit, elements: counted }) => ({
    limit,
    open: counted.filter((id) => open.has(id)).flatMap((id) => elements.get(id)?.element ?? []),
  }));
}

/** A frame or plank of the hull as an element on record; null where the hull has none of that key. */
function elementOfHull(hull: Hull, key: string, organisationId: string): HullElement | null {
  const base = { id: newId('element'), organisationId, ref: key };
  const frame = hull.frames.find((one) => one.key === key);
  if (frame)
    return { ...base, name: frame.name, kind: 'frame', side: frame.side, frame: frame.number, strake: null };
  const plank = hull.planks.find((one) => one.key === key);
  if (!plank) return null;
  const { name, skin, side, firstFrame, strake } = plank;
  const kind = skin === 'planking' ? 'plank' : 'ceiling';
  return { ...base, name, kind, side, frame: firstFrame, strake };
}
