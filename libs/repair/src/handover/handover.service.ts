import { permit, type Caller } from '@ribband/access';
import { lotBalance, type TrayBalance } from '@ribband/hull';
import { Database } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { Not, type EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { standInsOf } from '../methods/stand-ins.js';
import { TaskOrigin } from '../methods/task-origin.entity.js';
import { type ElementToday, type HullToday, HullDay } from '../openings/hull-today.js';
import { elementWords, workedElement } from '../pieces/element-words.js';
import { type StoryLine, tasksOfElement, workStory } from '../pieces/piece-story.js';
import { Piece } from '../pieces/piece.entity.js';
import { type Found, settledFindings } from '../survey/settled.js';
import { SurveyRecord } from '../survey/survey.entity.js';
import { SaySo } from '../tallies/say-so.entity.js';
import { YardBoard } from '../tasks/yard-board.js';
import { HoleBook, holesIn } from '../trays/hole-book.service.js';
import { NewWood } from '../trays/new-wood.service.js';
import { TrayEntryEntity } from '../trays/tray-entry.entity.js';
import { entriesThatCount, newHolesIn, standingOf } from '../trays/tray-standing.js';
import { Tray } from '../trays/tray.entity.js';

/** What was done to one timber, for whoever opens her next. Of volunteers it says how long they worked, not who. */
export interface TimberHistory {
  key: string;
  name: string;
  /** What the survey found. */
  found: string[];
  /** By which methods, as the yard calls them. */
  methods: string[];
  story: StoryLine[];
  /** Person-minutes of all hands. */
  minutes: number;
  fastenings: TrayBalance | null;
  /** Holes that the repair makes in kept timber, as far as they are graded; null without a tray. */
  newHoles: { graded: number; newHoles: number; inNewWood: number } | null;
  /** When it was opened and shut again, as it really was; null where it was not. Epoch milliseconds. */
  openedAt: number | null;
  shutAt: number | null;
  pieces: Piece[];
}

const most = 500;

/** The history of each timber that the repair touched. */
@Injectable()
export class Handover {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardBoard) private readonly boards: YardBoard,
    @Inject(HoleBook) private readonly holes: HoleBook,
    @Inject(NewWood) private readonly newWood: NewWood,
    @Inject(HullDay) private readonly days: HullDay,
  ) {}

  async all(caller: Caller): Promise<TimberHistory[]> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const where = { organisationId };
      const board = await this.boards.of(manager, organisationId);
      const saySos = await manager.find(SaySo, { where, order: { id: 'ASC' } });
      const origins = await manager.findBy(TaskOrigin, { organisationId, element: Not('vessel') });
      const pieces = await manager.find(Piece, { where, order: { id: 'ASC' } });
      const findings = await this.findings(manager, organisationId);
      const standIns = await standInsOf(manager, organisationId);
      const isNew = await this.newWood.of(manager, organisationId);
      const today = await this.days.of(manager, organisationId, board);
      const { hull } = today;
      const trays = await traysOf(manager, organisationId, (tray) => {
        const pieces = new Map(
          (hull ? holesIn(hull, tray.elementKey) : []).map((hole) => [hole.key, hole.piece ?? '']),
        );
        return (hole) => isNew.has(pieces.get(hole) ?? '');
      });
      const times = new Map(
        [...today.elements.values()].map((one) => [one.element.ref, openTimes(one, today)]),
      );
      const keys = new Set(
        [
          ...findings.map(({ element }) => element),
          ...origins.map(({ element }) => element),
          ...pieces.flatMap(({ elementKey }) => elementKey ?? []),
        ].map(workedElement),
      );
      return [...keys].slice(0, most).map((key) => {
        const tasks = tasksOfElement(board, key, standIns);
        const own = trays.filter((tray) => tray.key === key);
        return {
          key,
          name: elementWords(key),
          found: findings.filter(({ element }) => workedElement(element) === key).map(foundInWords),
          methods: [...new Set(origins.filter((one) => one.element === key).map(methodInWords))],
          story: workStory(board, tasks, saySos).sort((a, b) => a.at - b.at),
          minutes: tasks.reduce((sum, task) => sum + (board.progress.get(task.id)?.minutesDone ?? 0), 0),
          fastenings: own.length > 0 ? lotBalance(own.map(({ balance }) => balance)) : null,
          newHoles: own.length > 0 ? added(own.map(({ newHoles }) => newHoles)) : null,
          openedAt: times.get(key)?.openedAt ?? null,
          shutAt: times.get(key)?.shutAt ?? null,
          pieces: pieces.filter(
            (piece) => piece.elementKey !== null && workedElement(piece.elementKey) === key,
          ),
        };
      });
    });
  }

  private async findings(manager: EntityManager, organisationId: string): Promise<Found[]> {
    const haulOut = await haulOutInForce(manager, organisationId);
    const hull = await this.holes.hullOf(manager, organisationId);
    const record = haulOut && (await manager.findOneBy(SurveyRecord, { haulOutId: haulOut.id }));
    return hull && record ? settledFindings(hull, record.survey) : [];
  }
}

type NewHoles = ReturnType<typeof newHolesIn>;

const added = (all: NewHoles[]): NewHoles =>
  all.reduce((sum, one) => ({
    graded: sum.graded + one.graded,
    newHoles: sum.newHoles + one.newHoles,
    inNewWood: sum.inNewWood + one.inNewWood,
  }));

/** When it was first opened and last shut, up to now: what the plan has ahead is no history. */
function openTimes({ course, state }: ElementToday, { board }: HullToday) {
  const past = course.filter(({ at }) => at <= board.now);
  return {
    openedAt: past.find((one) => one.state !== 'standing')?.at ?? null,
    shutAt: state === 'closed' ? (past.findLast((one) => one.state === 'closed')?.at ?? null) : null,
  };
}

async function traysOf(
  manager: EntityManager,
  organisationId: string,
  isNewIn: (tray: Tray) => (hole: string) => boolean,
): Promise<{ key: string; balance: TrayBalance; newHoles: NewHoles }[]> {
  const trays = await manager.find(Tray, { where: { organisationId }, order: { id: 'ASC' } });
  const rows = await manager.find(TrayEntryEntity, { where: { organisationId }, order: { id: 'ASC' } });
  return trays.map((tray) => {
    const own = rows.filter((row) => row.trayId === tray.id);
    const standing = standingOf(tray, own);
    if ('fault' in standing)
      throw new Error(
        `tray ${tray.id} with ${entriesThatCount(own).length} entries: ${standing.fault.message}`,
      );
    const newHoles = newHolesIn(standing.holes, isNewIn(tray));
    return { key: tray.elementKey, balance: standing.balance, newHoles };
  });
}

function foundInWords({ element, finding }: Found): string {
  const note = finding.note === null ? '' : ` ${finding.note}`;
  return `${elementWords(element)}: ${finding.condition}, ${finding.by} on ${finding.on}.${note}`;
}

const methodInWords = ({ methodKey, methodVersion }: TaskOrigin): string =>
  `${elementWords(methodKey)}, version ${methodVersion}`;
