import { Audit, type Caller, permit } from '@ribband/access';
import {
  Bus,
  Database,
  expectVersion,
  instantToLocal,
  newId,
  refuse,
  Revisions,
  YardClock,
} from '@ribband/platform';
import { FamilyNews, highestLevel, knownIds, Skill, Volunteer } from '@ribband/crew';
import { haulOutInForce, Task, wordsOf } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import type { AttendanceWay } from '../attendance/attendance.entity.js';
import { attendanceOf, noteArrival } from '../attendance/attendance.records.js';
import { Deeds } from '../deeds/deeds.service.js';
import { aroundMillis } from '../hours/turnout-at.js';
import { learnersAt, learnersWithoutTeacher } from '../places/learners.js';
import { PlaceEntity } from '../places/place.entity.js';
import { tellRoster } from '../roster-news.js';
import { overlap } from '../turnouts/relay-out.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import type { TurnoutCall } from './call.types.js';
import { AbsenceEntity } from './absence.entity.js';
import { CallGates } from './call-gates.js';
import type { CalledSeat, Lost } from './called-seats.js';
import { lostWords } from './lost-words.js';
import { replacePlaces } from './replace-places.js';
import { type FallenWork, TurnoutCallEntity } from './turnout-call.entity.js';

/** A called turnout as somebody confirms it. */
export interface CallGiven {
  turnoutId: string;
  /** Version of the call that was read; 0 where the turnout was not called yet. */
  version: number;
  present: { volunteerId: string; how: AttendanceWay; arrivedAt: number | null }[];
  absent: { volunteerId: string; saidSo: boolean }[];
  visitors: string[];
  seats: Omit<CalledSeat, 'turnoutId'>[];
  fallen: FallenWork[];
}

export interface Called {
  id: string;
  call: TurnoutCallEntity;
  turnout: TurnoutEntity;
}

/** Kept mornings are settled as long as this after the turnout; later is for corrections of the hours. */
const settleDays = 7;
const mostVisitors = 50;

/** Puts the roster of the morning in the place of the posted one. */
@Injectable()
export class Calling {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(Deeds) private readonly deeds: Deeds,
    @Inject(CallGates) private readonly gates: CallGates,
    @Inject(FamilyNews) private readonly family: FamilyNews,
  ) {}

  /** The newest call of a turnout, or null. */
  newest(turnoutId: string, manager: EntityManager = this.database.read): Promise<TurnoutCallEntity | null> {
    return manager.findOne(TurnoutCallEntity, { where: { turnoutId }, order: { version: 'DESC' } });
  }

  /** The newest call of a turnout, as it is told. */
  async told(caller: Caller, turnoutId: string): Promise<TurnoutCall | null> {
    permit(caller, 'coordinator', 'director', 'shipwright');
    const { organisationId } = caller;
    const call = await this.database.read.findOne(TurnoutCallEntity, {
      where: { turnoutId, organisationId },
      order: { version: 'DESC' },
    });
    return call && this.tell(call);
  }

  async tell(call: TurnoutCallEntity): Promise<TurnoutCall> {
    const { read } = this.database;
    const { turnoutId, version, calledAt, calledBy, visitors, turnedAway } = call;
    const came = await attendanceOf(read, call.organisationId, turnoutId);
    const absent = await read.find(AbsenceEntity, { where: { turnoutId }, order: { id: 'ASC' } });
    const tasks = await read.findBy(Task, { id: In(call.fallen.map(({ taskId }) => taskId)) });
    const byId = new Map(tasks.map((task) => [task.id, task]));
    return {
      version,
      calledAt,
      calledBy,
      visitors,
      turnedAway,
      presentIds: came.flatMap(({ volunteerId, leftAt }) => (leftAt === null ? [volunteerId] : [])),
      absentIds: absent.map(({ volunteerId }) => volunteerId),
      fallen: call.fallen.flatMap(({ taskId, why }) => {
        const task = byId.get(taskId);
        return task ? [{ task, why }] : [];
      }),
    };
  }

  /**
   * Confirms a called turnout: who came and who did not is kept, the called roster stands in the place of the posted
   * one, every gate is asked again. A seat that a gate does not give is not given, and is told; attendance is kept
   * whatever becomes of the seats, for it is a fact.
   */
  async confirm(caller: Caller, given: CallGiven, key: string | null): Promise<Called> {
    permit(caller, 'coordinator', 'director', 'shipwright');
    const work = (manager: EntityManager) => this.confirmIn(manager, caller, given);
    const again = async (manager: EntityManager, id: string): Promise<Called> => {
      const call = await manager.findOneByOrFail(TurnoutCallEntity, { id });
      const turnout = await manager.findOneByOrFail(TurnoutEntity, { id: call.turnoutId });
      return { id, call, turnout };
    };
    return this.deeds.once(caller, { key, asked: `call ${JSON.stringify(given)}`, work, again });
  }

  private async confirmIn(manager: EntityManager, caller: Caller, asked: CallGiven): Promise<Called> {
    const { organisationId } = caller;
    const given = inWords(asked);
    const turnout = await this.callable(manager, organisationId, given.turnoutId);
    const last = await this.newest(turnout.id, manager);
    expectVersion({ version: last?.version ?? 0 }, given.version);
    checkShape(given, turnout);
    await checkNamed(manager, organisationId, given);
    const now = await this.clock.now(organisationId, manager);
    refuseArrivals(given, turnout, now);
    const seats = await withRoles(manager, turnout.id, given.seats);
    const ids = given.present.map(({ volunteerId }) => volunteerId);
    const { kept, lost, rules } = await this.gates.settle(manager, turnout, seats, ids);
    const stranger = ids.find((id) => !rules.book.hand(id));
    if (stranger !== undefined)
      refuse('NOT_FOUND', 'There is no such person in the crew.', { field: 'input.present' });
    // Whoever came and has gone home again was not absent.
    const came = await attendanceOf(manager, organisationId, turnout.id);
    const absent = given.absent.filter((one) => !came.some((row) => row.volunteerId === one.volunteerId));
    const settled = { ...given, absent };
    const arrived = await keepAttendance(manager, caller, turnout, settled, now);
    for (const { volunteerId, at } of arrived)
      await this.family.tell(manager, organisationId, { volunteerId, what: 'came', at, key: turnout.id });
    const learners = await learnersAt(manager, turnout.id);
    const over = await learnersWithoutTeacher(manager, learners, kept, ids);
    const replaced = await replacePlaces(manager, turnout, settled, { kept, learners }, now);
    const title = (taskId: string) => rules.book.job(taskId)?.task.title ?? '';
    const call: TurnoutCallEntity = {
      id: newId('call'),
      organisationId,
      turnoutId: turnout.id,
      version: given.version + 1,
      calledAt: now,
      calledBy: caller.name,
      visitors: given.visitors,
      fallen: [...given.fallen, ...fallenOf(lost, kept)],
      turnedAway: [
        ...lost.map((one) => lostWords(one, rules.book.hand(one.seat.volunteerId)?.name ?? '', title)),
        ...over,
      ],
      replaced,
    };
    await manager.insert(TurnoutCallEntity, call);
    await this.audit.note(manager, caller, 'callTurnout', turnout.id, {
      version: call.version,
      came: ids.length,
      missing: absent.length,
      seats: kept.length,
    });
    await this.revisions.requestPlan(manager, organisationId, 'a turnout was called');
    tellRoster(this.bus, manager, organisationId, [turnout.id]);
    return { id: call.id, call, turnout };
  }

  /** A turnout that may be called: on its own day, or some days after by a phone that was off the line. */
  async callable(manager: EntityManager, organisationId: string, turnoutId: string): Promise<TurnoutEntity> {
    const turnout = await manager.findOneBy(TurnoutEntity, { id: turnoutId, organisationId });
    if (!turnout) return refuse('NOT_FOUND', 'There is no such turnout.', { field: 'turnoutId' });
    const now = await this.clock.now(organisationId, manager);
    if (turnout.cancelledAt !== null || turnout.endsAt + settleDays * 86_400_000 <= now)
      refuse('TURNOUT_OVER', 'This turnout is over or was called off.', { field: 'turnoutId' });
    const zone = (await haulOutInForce(manager, organisationId))?.timeZone ?? 'UTC';
    if (instantToLocal(now, zone).day < turnout.heldOn)
      refuse('BAD_INPUT', 'A turnout is called on its own day, by who came.', {
        field: 'turnoutId',
        remedy: `Call it on ${turnout.heldOn}.`,
      });
    return turnout;
  }
}

/** Whom and what the call names in words, as they are kept. */
const inWords = (given: CallGiven): CallGiven => ({
  ...given,
  visitors: given.visitors.map((name) => wordsOf(name, 'input.visitors', 200, 'A visitor’s name')),
  fallen: given.fallen.map(({ taskId, why }) => ({
    taskId,
    why: wordsOf(why, 'input.fallen', 2000, 'Why work is not done'),
  })),
});

/** Seats at a turnout, with the roles that their people have on the work. */
async function withRoles(
  manager: EntityManager,
  turnoutId: string,
  seats: CallGiven['seats'],
): Promise<CalledSeat[]> {
  const places = await manager.findBy(PlaceEntity, { turnoutId, state: In(['posted', 'taken']) });
  return seats.map((seat): CalledSeat => {
    const own = places.find(
      ({ taskId, volunteerId }) => taskId === seat.taskId && volunteerId === seat.volunteerId,
    );
    return { ...seat, turnoutId, role: own?.role ?? null, cardKindId: own?.cardKindId ?? null };
  });
}

function checkShape({ present, absent, visitors, seats }: CallGiven, turnout: TurnoutEntity): void {
  const came = new Set(present.map(({ volunteerId }) => volunteerId));
  if (came.size !== present.length)
    refuse('BAD_INPUT', 'Somebody is ticked twice.', { field: 'input.present', remedy: 'Once is enough.' });
  if (absent.some(({ volunteerId }) => came.has(volunteerId)))
    refuse('BAD_INPUT', 'Somebody is both there and not.', { field: 'input.absent' });
  if (visitors.length > mostVisitors)
    refuse('BAD_INPUT', 'There are more than 50 visitors.', {
      field: 'input.visitors',
      remedy: 'Name at most 50.',
    });
  for (const seat of seats) {
    if (seat.level < 0 || seat.level > highestLevel)
      refuse('BAD_INPUT', `A level is 0 to ${highestLevel}, not ${seat.level}.`, {
        field: 'input.seats',
        remedy: '0 for a hand, else the least level of the skill.',
      });
    if (!came.has(seat.volunteerId))
      refuse('BAD_INPUT', 'A place was given to somebody who is not there.', { field: 'input.seats' });
    if (seat.startsAt < turnout.startsAt || seat.endsAt > turnout.endsAt || seat.startsAt >= seat.endsAt)
      refuse('BAD_INPUT', 'A place lies outside its turnout.', { field: 'input.seats' });
    if (
      seats.some((other) => other !== seat && other.volunteerId === seat.volunteerId && overlap(other, seat))
    )
      refuse('ALREADY_ELSEWHERE', 'Somebody would be in two places at once.', { field: 'input.seats' });
  }
}

/** @throws RefusalError NOT_FOUND where a person, work or a skill is named that is not there */
async function checkNamed(
  manager: EntityManager,
  organisationId: string,
  { absent, seats, fallen }: CallGiven,
): Promise<void> {
  const lists = [
    [Volunteer, 'input.absent', 'person in the crew', absent.map((one) => one.volunteerId)],
    [Task, 'input.seats', 'work', seats.map((one) => one.taskId)],
    [Skill, 'input.seats', 'skill', seats.flatMap((one) => one.skillId ?? [])],
    [Task, 'input.fallen', 'work', fallen.map((one) => one.taskId)],
  ] as const;
  for (const [entity, field, what, ids] of lists) {
    const there = await knownIds(manager, entity, organisationId, ids);
    if (ids.some((id) => !there.has(id)))
      refuse('NOT_FOUND', `There is no such ${what}.`, { field, remedy: 'Read the morning again.' });
  }
}

/** Who comes early counts as at the turnout as soon as they could sign on there. */
function refuseArrivals({ present }: CallGiven, { startsAt, endsAt }: TurnoutEntity, now: number): void {
  for (const { arrivedAt } of present) {
    if (arrivedAt === null) continue;
    if (arrivedAt > now)
      refuse('BAD_INPUT', 'An arrival is still to come.', {
        field: 'input.present',
        remedy: 'Tick people when they are there.',
      });
    if (arrivedAt < startsAt - aroundMillis || arrivedAt > endsAt)
      refuse('BAD_INPUT', 'An arrival does not lie within the turnout.', {
        field: 'input.present',
        remedy: 'From three hours before it starts until it ends; leave it out for now.',
      });
  }
}

async function keepAttendance(
  manager: EntityManager,
  caller: Caller,
  turnout: TurnoutEntity,
  { present, absent }: CallGiven,
  now: number,
): Promise<{ volunteerId: string; at: number }[]> {
  const { organisationId, id: turnoutId } = turnout;
  const arrived: { volunteerId: string; at: number }[] = [];
  for (const { volunteerId, how, arrivedAt } of present) {
    const at = arrivedAt ?? Math.min(Math.max(now, turnout.startsAt), turnout.endsAt);
    const came = { organisationId, turnoutId, volunteerId, how, arrivedAt: at, enteredBy: caller.name };
    if (await noteArrival(manager, came)) arrived.push({ volunteerId, at });
  }
  // Called again: who came late is there after all.
  await manager.delete(AbsenceEntity, { turnoutId, volunteerId: In(present.map((one) => one.volunteerId)) });
  for (const { volunteerId, saidSo } of absent) {
    const absence = await manager.findOneBy(AbsenceEntity, { turnoutId, volunteerId });
    const id = absence?.id ?? newId('absence');
    await manager.save(AbsenceEntity, { id, organisationId, turnoutId, volunteerId, saidSo });
  }
  return arrived;
}

/** Work that lost all of its seats at the gates. */
function fallenOf(lost: readonly Lost[], kept: readonly CalledSeat[]): FallenWork[] {
  const on = new Set(kept.map(({ taskId }) => taskId));
  const first = new Map<string, string>();
  for (const one of lost) {
    const { taskId } = one.seat;
    if (on.has(taskId) || first.has(taskId)) continue;
    first.set(taskId, one.kind === 'gate' ? (one.findings[0]?.words ?? '') : one.words);
  }
  return [...first].map(([taskId, why]) => ({ taskId, why }));
}
