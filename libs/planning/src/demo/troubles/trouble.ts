import type { Caller } from '@ribband/access';
import type { Availability, Cards } from '@ribband/crew';
import { refuse } from '@ribband/platform';
import {
  type FasteningKinds,
  type Links,
  type Marks,
  type SafetyRecords,
  Task,
  type Tasks,
  type Trays,
} from '@ribband/repair';
import type { Calling, Places } from '@ribband/roster';
import type { EntityManager } from 'typeorm';
import type { Mornings } from '../../call/mornings.service.js';
import type { PlanShelf } from '../../plans/plan-shelf.service.js';
import type { Weeks } from '../../week/weeks.service.js';

/** The services that troubles go through: the same ones that people use. */
export interface YardServices {
  read: EntityManager;
  tasks: Tasks;
  links: Links;
  availability: Availability;
  cards: Cards;
  marks: Marks;
  trays: Trays;
  kinds: FasteningKinds;
  safety: SafetyRecords;
  places: Places;
  calling: Calling;
  mornings: Mornings;
  weeks: Weeks;
  shelf: PlanShelf;
}

/** Something that goes wrong at the demo yard, as it would be entered there. */
export interface Trouble {
  key: string;
  title: string;
  /** What happens, and what it is expected to do to the date. */
  story: string;
  /** What is told of it as the reason of a trend; null where it is stopped before it happens. */
  reason: string | null;
  /** What must have come first, by refs of the demo's records; nothing where it can happen any day. */
  waitsFor?: { kind: 'done'; tasks: string[] } | { kind: 'runs'; tool: string; crew: number };
  /** Whether it moves the date, so that the page can say so honestly. */
  moves: 'later' | 'later or not at all' | 'not at all';
  /**
   * Enters it.
   * @param caller whoever plays it, in the role of whose job it is
   * @returns what the yard answered, in sentences: cautions, stops, work that must wait
   */
  play(services: YardServices, caller: Caller, today: string): Promise<string[]>;
}

/** Whoever plays, as the one whose job it would be. */
export const as = (caller: Caller, role: Caller['role']): Caller => ({ ...caller, role });

export async function taskBy(read: EntityManager, organisationId: string, ref: string): Promise<Task> {
  const task = await read.findOneBy(Task, { organisationId, ref });
  return task ?? notThere(`the task ${ref}`);
}

/** A yard on which a trouble was played is not the one that it began as. */
export const afresh = 'Set the demo yard up afresh.';

export function notThere(what: string): never {
  return refuse('NOT_FOUND', `The demo yard no longer has ${what}.`, { field: 'key', remedy: afresh });
}

/** It belongs to a later day of the work. @param remedy how to get there */
export function notYet(what: string, remedy: string): never {
  return refuse('TASK_NOT_READY', what, { field: 'key', remedy });
}
