import { elementStateAt, type ElementState, type Hull, type OpeningTimes } from '@ribband/hull';
import { instantToLocal } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { HoldPoint } from '../hold-points/hold-point.entity.js';
import { HullRecords } from '../hull/hull-records.service.js';
import { stepKeeping, writtenFirst } from '../methods/step-keeping.js';
import { Marks, type MarkToday } from '../marks/marks.service.js';
import { type PlannedSpans, PlanView } from '../plan-view/plan-view.js';
import { TaskOpening } from '../tasks/task-opening.entity.js';
import { type Board, YardBoard } from '../tasks/yard-board.js';
import { ElementReport } from './element-report.entity.js';
import { type Change, courseOf, isOpenIn, plannedOnward, realTimes } from './element-state.js';
import { HullElement } from './hull-element.entity.js';
import { HullSupport } from './hull-support.entity.js';
import { OpeningLimit } from './opening-limit.entity.js';

/** A piece of the hull as it is now and as the plan has it later. */
export interface ElementToday {
  element: HullElement;
  /** Tasks that open and that close it; null where none does. */
  openerId: string | null;
  closerId: string | null;
  state: ElementState;
  isOpen: boolean;
  report: ElementReport | null;
  /** Recorded times, the plan's where nothing is recorded yet; null for what nothing opens. */
  times: OpeningTimes | null;
  course: Change[];
}

/** Everything that says whether she may be opened further. */
export interface HullToday {
  board: Board;
  /** The yard's day. */
  today: string;
  /** Null before her outline was entered. */
  hull: Hull | null;
  elements: ReadonlyMap<string, ElementToday>;
  limits: OpeningLimit[];
  supports: HullSupport[];
  holdPoints: HoldPoint[];
  marks: MarkToday[];
  planned: PlannedSpans;
}

/** Reads how the hull stands at the yard's present minute. */
@Injectable()
export class HullDay {
  constructor(
    @Inject(YardBoard) private readonly boards: YardBoard,
    @Inject(PlanView) private readonly plan: PlanView,
    @Inject(HullRecords) private readonly hulls: HullRecords,
    @Inject(Marks) private readonly marks: Marks,
  ) {}

  /** @param board where the caller has laid it out already */
  async of(manager: EntityManager, organisationId: string, board?: Board): Promise<HullToday> {
    const inOrder = { where: { organisationId }, order: { id: 'ASC' } } as const;
    const laid = board ?? (await this.boards.of(manager, organisationId));
    const haulOut = await haulOutInForce(manager, organisationId);
    const planned = await this.plan.spans(manager, organisationId);
    const steps = await stepKeeping(manager, organisationId, laid.tasks);
    const elements = elementsToday(
      await manager.find(HullElement, inOrder),
      await manager.find(TaskOpening, inOrder),
      await manager.find(ElementReport, inOrder),
      laid,
      planned,
    );
    return {
      board: laid,
      today: instantToLocal(laid.now, laid.timeZone).day,
      hull: haulOut && (await this.hulls.hullOf(manager, haulOut.id)),
      elements: new Map(elements.map((one) => [one.element.id, one])),
      limits: await manager.find(OpeningLimit, inOrder),
      supports: writtenFirst(await manager.find(HullSupport, inOrder), steps.supports),
      holdPoints: writtenFirst(await manager.find(HoldPoint, inOrder), steps.holdPoints),
      marks: await this.marks.read(manager, organisationId),
      planned,
    };
  }
}

function elementsToday(
  elements: readonly HullElement[],
  openings: readonly TaskOpening[],
  reports: readonly ElementReport[],
  board: Board,
  planned: PlannedSpans,
): ElementToday[] {
  const lastReport = new Map(reports.map((report) => [report.elementId, report]));
  const taskFor = { opens: new Map<string, string>(), closes: new Map<string, string>() };
  for (const { elementId, taskId, does } of openings) {
    const standing = board.standing.get(taskId);
    // Work that was dropped before it began opens nothing.
    if (!standing || (standing.state === 'dropped' && standing.begunAt === null)) continue;
    taskFor[does].set(elementId, taskId);
  }
  return elements.map((element) => {
    const openerId = taskFor.opens.get(element.id) ?? null;
    const closerId = taskFor.closes.get(element.id) ?? null;
    const report = lastReport.get(element.id) ?? null;
    const timesOf = (taskId: string | null) =>
      taskId === null ? null : (board.standing.get(taskId) ?? null);
    const spanOf = (taskId: string | null) => (taskId === null ? null : (planned.get(taskId) ?? null));
    const real = realTimes({ opener: timesOf(openerId), closer: timesOf(closerId), report });
    const state = elementStateAt(real, board.now);
    const times =
      real && plannedOnward(real, { opener: spanOf(openerId), closer: spanOf(closerId) }, board.now);
    return {
      element,
      openerId,
      closerId,
      state,
      isOpen: isOpenIn(state),
      report,
      times,
      course: courseOf(times),
    };
  });
}

/** Ids of the elements that are open at an instant: really so up to now, by the plan after it. */
export const openAt = (today: HullToday, at: number): Set<string> =>
  new Set(
    [...today.elements.values()]
      .filter((one) => (at <= today.board.now ? one.isOpen : isOpenIn(elementStateAt(one.times, at))))
      .map((one) => one.element.id),
  );

/** How an element is called on the staging: 'frame 12', 'strake 9 plank 2 starboard'. */
export const calledOf = (element: Pick<HullElement, 'name' | 'kind' | 'frame'>): string =>
  element.kind === 'frame' && element.frame !== null
    ? `frame ${element.frame}`
    : element.name.charAt(0).toLowerCase() + element.name.slice(1);

/** The hull's own key of an element, where the hull knows it. */
export function hullKeyOf(hull: Hull, element: HullElement): string | null {
  const { ref, kind, side, frame } = element;
  if (hull.frames.some((one) => one.key === ref) || hull.planks.some((one) => one.key === ref)) return ref;
  if (kind !== 'frame') return null;
  return hull.frames.find((one) => one.side === side && one.number === frame)?.key ?? null;
}
