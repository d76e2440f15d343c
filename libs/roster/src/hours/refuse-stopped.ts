import type { Finding } from '@ribband/crew';
import { refuse } from '@ribband/platform';
import { type OpeningGate, Seat } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';
import { GateBook, type SeatedAt, type UnderWay } from '../places/gate-book.js';
import { PlaceEntity } from '../places/place.entity.js';
import { refuseClosed } from '../places/refuse-closed.js';
import type { TaskJob } from '../places/task-jobs.js';
import { underWay, withoutCrewSize } from '../places/under-way.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { entriesThatCount, type YardNow } from './hour.records.js';

/** Somebody who begins on a named piece of work. */
interface Beginning {
  volunteerId: string;
  taskId: string;
  turnout: TurnoutEntity | null;
  startsAt: number;
}

const waysOut = {
  field: 'taskId',
  remedy: 'Sign on without naming work, or ask the coordinator for a place.',
};
/** How long work counts as going on that is at no turnout. */
const aWhile = 3_600_000;

/**
 * Asks the gates of somebody who signs on to a named piece of work. Whose place it is was asked about company when the
 * roster was made: of them only what hangs on the person and the seat is asked again. Of everybody else all that is
 * asked of who takes a place.
 * @throws RefusalError with the first stop
 */
export async function refuseStopped(
  manager: EntityManager,
  openings: OpeningGate,
  organisationId: string,
  beginning: Beginning,
  { now, today }: Pick<YardNow, 'now' | 'today'>,
): Promise<void> {
  const { volunteerId, taskId, turnout, startsAt } = beginning;
  const turnoutId = turnout?.id ?? '';
  const places = await manager.findBy(PlaceEntity, {
    organisationId,
    turnoutId,
    state: In(['posted', 'taken']),
  });
  const onWork = places.filter((place) => place.taskId === taskId);
  const lastEnd = Math.max(...onWork.map(({ endsAt }) => endsAt));
  const end = onWork.length > 0 ? lastEnd : (turnout?.endsAt ?? startsAt + aWhile);
  const span = { turnoutId, taskId, startsAt, endsAt: Math.max(end, startsAt + 60_000) };
  const others = [...places, ...(await signedOnAt(manager, organisationId, places, span))];
  const book = await GateBook.read(
    manager,
    organisationId,
    {
      volunteerIds: [volunteerId, ...others.flatMap((other) => other.volunteerId ?? [])],
      taskIds: [taskId],
      days: new Map([[turnoutId, turnout?.heldOn ?? today]]),
    },
    turnout ? withThem(await underWay(manager, [turnout], now), volunteerId) : new Map(),
  );
  const job = book.job(taskId);
  if (!job) throw new Error(`The book was not read for ${taskId}`);
  if (job.closed !== null) refuse('TASK_NOT_READY', job.closed, waysOut);
  const own = onWork.filter((place) => place.volunteerId === volunteerId);
  const findings =
    own.length > 0
      ? own.map((place) => book.ownFindings(volunteerId, place))
      : (await seatsToAsk(manager, organisationId, job)).map((seat) =>
          withoutNumbers(book.findings(volunteerId, { ...span, ...seat, volunteerId }, others)),
        );
  const isOpen = (some: readonly Finding[]) => some.every(({ weight }) => weight !== 'stop');
  refuseClosed(findings.find(isOpen) ?? findings[0] ?? [], waysOut);
  if (own.length > 0) return;
  const [[waits, ...more] = []] = await openings.stops(manager, organisationId, [span]);
  const facts = more.map(({ message }) => ({ name: 'also', value: message }));
  if (waits) refuse(waits.code, waits.message, { ...waysOut, facts });
}

/** Who is on work at the turnout by having signed on to it, without a place on it. */
async function signedOnAt(
  manager: EntityManager,
  organisationId: string,
  places: readonly PlaceEntity[],
  { turnoutId, endsAt }: Pick<SeatedAt, 'turnoutId' | 'endsAt'>,
): Promise<SeatedAt[]> {
  const open = await entriesThatCount(manager, organisationId)
    .andWhere('entry.turnoutId = :turnoutId', { turnoutId })
    .andWhere('entry.minutes IS NULL')
    .getMany();
  return open.flatMap(({ taskId, volunteerId, startsAt }) => {
    const isPlaced = places.some((one) => one.taskId === taskId && one.volunteerId === volunteerId);
    if (taskId === null || startsAt === null || isPlaced) return [];
    return [{ turnoutId, taskId, volunteerId, skillId: null, level: 0, startsAt, endsAt }];
  });
}

/** A plain hand's where the work has room for one, which asks least; else each of its seats. */
async function seatsToAsk(
  manager: EntityManager,
  organisationId: string,
  { task }: TaskJob,
): Promise<Pick<SeatedAt, 'skillId' | 'level'>[]> {
  const seats = await manager.find(Seat, {
    where: { organisationId, taskId: task.id },
    order: { id: 'ASC' },
  });
  const skilled = seats.reduce((sum, { count }) => sum + count, 0);
  return task.crewMax > skilled || seats.length === 0 ? [{ skillId: null, level: 0 }] : seats;
}

/** The yard fills one by one as well: somebody is the first. */
const withoutNumbers = (findings: readonly Finding[]): Finding[] =>
  withoutCrewSize(findings).filter(({ rule }) => rule !== 'two-persons');

/** Who signs on is on the roll by that. */
const withThem = (turnouts: UnderWay, volunteerId: string): UnderWay =>
  new Map([...turnouts].map(([id, signedIn]) => [id, signedIn && [...signedIn, volunteerId]]));
