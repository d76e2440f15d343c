import type { Caller } from '@ribband/access';
import {
  missingSupports,
  prerequisitesOf,
  SIDES,
  shellMap,
  type Skin,
  WHO_DECIDES,
  type Hull,
} from '@ribband/hull';
import { addDays, Database, instantToLocal, refuse, startOfWeek } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { type StandIn, standInsOf } from '../methods/stand-ins.js';
import type { Side } from '../openings/hull-element.entity.js';
import { type ElementToday, type HullToday, HullDay, hullKeyOf } from '../openings/hull-today.js';
import { standingAt, stopsFor } from '../openings/opening-stops.js';
import { workedElement } from '../pieces/element-words.js';
import { Piece } from '../pieces/piece.entity.js';
import type { ElementStanding, HullPiece, Shell, ShellSide } from './shell.types.js';

const mostWeeks = 200;

/** The shell unrolled, with what every piece is now and will be by the plan. */
@Injectable()
export class Shells {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(HullDay) private readonly days: HullDay,
  ) {}

  /** Null before the hull's outline was entered. */
  async shell(caller: Caller): Promise<Shell | null> {
    return this.database.snapshot(async (manager) => {
      const today = await this.days.of(manager, caller.organisationId);
      const haulOut = await haulOutInForce(manager, caller.organisationId);
      const { hull } = today;
      if (!hull || !haulOut) return null;
      const placed = placedOn(hull, today);
      const sides = SIDES.map((side) => sideOf(hull, side, placed));
      const shown = new Set(placed.values());
      return {
        now: today.board.now,
        weeks: weeksOf(today, haulOut.hauledOutOn),
        sides: sides.sort((a, b) => workOn(b) - workOn(a)),
        elsewhere: [...today.elements.values()].filter((one) => !shown.has(one)).map(standingOf),
      };
    });
  }

  /** One piece, by the hull's key or the yard's. */
  async piece(caller: Caller, key: string): Promise<HullPiece> {
    return this.database.snapshot(async (manager) => {
      const today = await this.days.of(manager, caller.organisationId);
      const { hull, board } = today;
      const one =
        (hull && placedOn(hull, today).get(key)) ??
        [...today.elements.values()].find(({ element }) => element.ref === key) ??
        null;
      const name =
        one?.element.name ??
        hull?.planks.find((plank) => plank.key === key)?.name ??
        hull?.frames.find((frame) => frame.key === key)?.name ??
        refuse('NOT_FOUND', 'The hull has no such piece.', {
          field: 'key',
          remedy: 'Choose one from the map.',
        });
      const taskOf = (id: string | null | undefined) => (id ? (board.task.get(id) ?? null) : null);
      const opener = taskOf(one?.openerId);
      return {
        key,
        name,
        standing: one && standingOf(one),
        seen: one && seenWords(one, board.timeZone),
        opensBy: opener,
        closesBy: taskOf(one?.closerId),
        work: one
          ? workOnPiece(one, today, await standInsOf(manager, caller.organisationId)).slice(0, 50)
          : [],
        waits:
          opener && one?.state === 'standing'
            ? stopsFor(today, { taskId: opener.id, startsAt: board.now })
                .slice(0, 50)
                .map(({ message, remedy }) => ({ says: message, remedy }))
            : [],
        supports: hull ? supportsFor(hull, key, today) : [],
        limits: one
          ? today.limits.filter(({ elementIds }) => elementIds.includes(one.element.id)).slice(0, 50)
          : [],
        tags: await tagsOn(manager, caller.organisationId, [key, one?.element.ref ?? key]),
        whoDecides: WHO_DECIDES,
      };
    });
  }
}

/** Pieces that are the element or came out of it: a frame's futtocks hang on its key. */
async function tagsOn(manager: EntityManager, organisationId: string, keys: string[]): Promise<Piece[]> {
  const pieces = await manager.find(Piece, { where: { organisationId }, order: { tagNumber: 'ASC' } });
  return pieces
    .filter(({ elementKey }) => elementKey !== null && keys.includes(workedElement(elementKey)))
    .slice(0, 50);
}

export const standingOf = ({ element, state, course }: ElementToday): ElementStanding => ({
  element,
  state,
  changes: course,
});

/** Elements by the hull's key of the frame or plank that they are. */
function placedOn(hull: Hull, { elements }: HullToday): Map<string, ElementToday> {
  return new Map(
    [...elements.values()].flatMap((one): [string, ElementToday][] => {
      const key = hullKeyOf(hull, one.element);
      return key === null ? [] : [[key, one]];
    }),
  );
}

function sideOf(hull: Hull, side: Side, placed: ReadonlyMap<string, ElementToday>): ShellSide {
  const standing = (key: string): ElementStanding | null => {
    const one = placed.get(key);
    return one ? standingOf(one) : null;
  };
  const skin = (of: Skin) =>
    shellMap(hull, side, of).planks.map((plank) => ({ ...plank, standing: standing(plank.key) }));
  const map = shellMap(hull, side);
  return {
    side,
    length: map.length,
    height: map.height,
    planks: skin('planking'),
    frames: map.frames.map((frame) => ({ ...frame, standing: standing(frame.key) })),
    ceiling: skin('ceiling'),
  };
}

const workOn = ({ planks, frames }: ShellSide): number =>
  [...planks, ...frames].filter((cell) => cell.standing !== null).length;

function weeksOf({ board, elements }: HullToday, hauledOutOn: string): string[] {
  const changes = [...elements.values()].flatMap((one) => one.course.map(({ at }) => at));
  const last = startOfWeek(instantToLocal(Math.max(board.now, ...changes), board.timeZone).day);
  const weeks: string[] = [];
  for (let week = startOfWeek(hauledOutOn); week <= last && weeks.length < mostWeeks; week = addDays(week, 7))
    weeks.push(week);
  return weeks;
}

function seenWords({ report }: ElementToday, timeZone: string): string | null {
  if (!report) return null;
  const { day, time } = instantToLocal(report.yardAt, timeZone);
  const what = `seen ${report.isOpen ? 'open' : 'shut'} by ${report.seenBy} on ${day} at ${time}`;
  return report.note ? `${what}: ${report.note}` : what;
}

/** Work whose key begins with the element's or stands for a step on it, and what opens and shuts it. */
function workOnPiece(one: ElementToday, { board, elements }: HullToday, standIns: readonly StandIn[]) {
  const refs = [...elements.values()].map(({ element }) => element.ref);
  const ownerOf = (ref: string): string | undefined =>
    refs.filter((other) => ref.startsWith(`${other}-`)).sort((a, b) => b.length - a.length)[0];
  return board.tasks.filter(
    (task) =>
      task.droppedAt === null &&
      (task.id === one.openerId ||
        task.id === one.closerId ||
        ownerOf(task.ref) === one.element.ref ||
        standIns.some(({ ref, element }) => ref === task.ref && element === one.element.ref)),
  );
}

function supportsFor(hull: Hull, key: string, today: HullToday): HullPiece['supports'] {
  const isSkin =
    hull.planks.some((plank) => plank.key === key) || hull.frames.some((frame) => frame.key === key);
  if (!isSkin) return [];
  const open = [...today.elements.values()]
    .filter((one) => one.isOpen)
    .flatMap((one) => hullKeyOf(hull, one.element) ?? []);
  const wanted = prerequisitesOf(hull, key, open);
  const missing = new Set(missingSupports(wanted, standingAt(today, today.board.now)));
  return wanted.map((one) => ({ says: one.says, stands: !missing.has(one) }));
}
