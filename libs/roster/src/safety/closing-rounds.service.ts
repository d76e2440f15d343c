import { Audit, permit, type Caller } from '@ribband/access';
import { FamilyNews, knownIds, mayClose, Volunteer } from '@ribband/crew';
import { Bus, Database, newId, refuse, YardClock } from '@ribband/platform';
import { wordsOf, wordsOrNull } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { Between, In } from 'typeorm';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { leftByRoll } from '../attendance/attendance.records.js';
import { closeFires, type FireSetAside, firesToClose } from './close-fires.js';
import { endedAt } from '../hours/hour.records.js';
import { SignOns, theRoll } from '../hours/sign-ons.service.js';
import { tellRoster } from '../roster-news.js';
import { wasHeld } from '../turnouts/call-off.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { ClosingListEntity, ClosingRoundEntity, type RoundItem, usualRound } from './closing-round.entity.js';

/** What a round asks: the list, and who is still there by the book. */
export interface RoundToDo {
  turnout: TurnoutEntity;
  items: string[];
  fires: { taskId: string; words: string; mayOverride: boolean }[];
  there: { volunteerId: string; name: string; arrivedAt: number }[];
}

const mostItems = 40;
const lookBackMillis = 30 * 86_400_000;

/** The round that ends each turnout, by a named person. */
@Injectable()
export class ClosingRounds {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(SignOns) private readonly signOns: SignOns,
    @Inject(FamilyNews) private readonly family: FamilyNews,
  ) {}

  /** What is to be looked at, in the organisation's words. */
  async items({ organisationId }: Caller): Promise<string[]> {
    const own = await this.database.read.findOneBy(ClosingListEntity, { organisationId });
    return own?.items ?? usualRound;
  }

  /** Sets the organisation's list; none: back to the usual one. */
  async setItems(caller: Caller, items: readonly string[]): Promise<string[]> {
    permit(caller, 'director', 'coordinator');
    if (items.length > mostItems)
      refuse('BAD_INPUT', 'The list is too long.', {
        field: 'items',
        remedy: `At most ${mostItems} things.`,
      });
    const words = items.map((item) => wordsOf(item, 'items', 200, 'Each thing of the list'));
    const { organisationId } = caller;
    await this.database.write(async (manager) => {
      if (words.length === 0) await manager.delete(ClosingListEntity, { organisationId });
      else await manager.upsert(ClosingListEntity, { organisationId, items: words }, ['organisationId']);
      await this.audit.note(manager, caller, 'setClosingList', organisationId, { items: words.length });
    });
    return this.items(caller);
  }

  /**
   * Turnouts of today and the last thirty days that people came to and that have no round, oldest first. One watch hands
   * over to the next: the yard is not gone round after it, but whoever the book still has there once it is over is to be
   * accounted for.
   */
  async toDo(caller: Caller): Promise<RoundToDo[]> {
    const { organisationId } = caller;
    const now = await this.clock.now(organisationId);
    const listed = await this.items(caller);
    const { read } = this.database;
    const begun = await read.find(TurnoutEntity, {
      where: { organisationId, startsAt: Between(now - lookBackMillis, now) },
      order: { startsAt: 'ASC' },
    });
    const turnouts = begun.filter(wasHeld);
    const ids = turnouts.map((turnout) => turnout.id);
    const done = new Set(
      (await read.findBy(ClosingRoundEntity, { turnoutId: In(ids) })).map((round) => round.turnoutId),
    );
    const came = await read.find(AttendanceEntity, {
      where: { turnoutId: In(ids) },
      order: { arrivedAt: 'ASC', id: 'ASC' },
    });
    const people = await read.findBy(Volunteer, { id: In([...new Set(came.map((one) => one.volunteerId))]) });
    const names = new Map(people.map((person) => [person.id, person.name]));
    const fires = await firesToClose(read, caller, turnouts, now);
    return turnouts.flatMap((turnout) => {
      const here = came.filter((one) => one.turnoutId === turnout.id);
      if (done.has(turnout.id) || here.length === 0) return [];
      const there = here
        .filter((one) => one.leftAt === null)
        .map(({ volunteerId, arrivedAt }) => ({
          volunteerId,
          arrivedAt,
          name: names.get(volunteerId) ?? '',
        }));
      const items = isWatch(turnout) ? [] : listed;
      const todo = { turnout, items, there, fires: fires(turnout.id) };
      const isOver = turnout.endsAt <= now && there.length + todo.fires.length > 0;
      return isWatch(turnout) && !isOver ? [] : [todo];
    });
  }

  /**
   * Ends a turnout: each thing of the list is seen to or says why not, and everybody who was there is accounted for.
   * Whoever is still signed on is signed off.
   */
  async close(
    caller: Caller,
    turnoutId: string,
    items: readonly RoundItem[],
    accountedIds: readonly string[],
    setAside: readonly FireSetAside[] = [],
  ): Promise<ClosingRoundEntity> {
    const { organisationId } = caller;
    const list = await this.items(caller);
    return this.database.write(async (manager) => {
      const turnout = await manager.findOneBy(TurnoutEntity, { organisationId, id: turnoutId });
      if (!turnout || !wasHeld(turnout))
        return refuse('NOT_FOUND', 'There is no such turnout, or it was called off before it began.', {
          field: 'turnoutId',
          remedy: 'Look at the turnouts that have no round.',
        });
      const now = await this.clock.now(organisationId, manager);
      if (now < turnout.startsAt)
        refuse('BAD_INPUT', 'This turnout has not begun.', {
          field: 'turnoutId',
          remedy: 'Close it when it ends.',
        });
      const other = await manager.findOneBy(ClosingRoundEntity, { turnoutId });
      if (other)
        refuse('CHANGED_MEANWHILE', 'The round was made already.', {
          field: 'turnoutId',
          facts: { 'made by': other.closedBy },
        });
      const came = await manager.findBy(AttendanceEntity, { turnoutId });
      refuseStranger(caller, came);
      const known = await knownIds(manager, Volunteer, organisationId, accountedIds);
      if (accountedIds.some((id) => !known.has(id)))
        refuse('NOT_FOUND', 'There is no such person in the crew.', {
          field: 'accountedIds',
          remedy: 'Look again at who is there by the book.',
        });
      const said = (isWatch(turnout) ? [] : list).map((words) => saidOf(words, items));
      const missing = came.filter((one) => one.leftAt === null && !accountedIds.includes(one.volunteerId));
      if (missing.length > 0) {
        const ids = missing.map((one) => one.volunteerId);
        const people = await manager.find(Volunteer, { where: { id: In(ids) }, order: { name: 'ASC' } });
        const notAccountedFor = [people.map((person) => person.name).join(', ')];
        for (const { words, remedy, basis } of mayClose({ now, notAccountedFor, fires: [] }))
          refuse('NOT_SEEN', words, { field: 'accountedIds', remedy: remedy ?? '', facts: { basis } });
      }
      const fires = await closeFires(manager, caller, turnout, { now, setAside });
      const left = leftByRoll(turnout, now);
      const stillOn = await this.signOns.closeAtRoll(
        manager,
        turnout,
        (volunteerId) => came.find((one) => one.volunteerId === volunteerId)?.leftAt ?? left,
      );
      const gone = (await endedAt(manager, organisationId, turnoutId)).filter(
        ({ endedBy }) => endedBy !== theRoll,
      );
      for (const one of came) {
        if (one.leftAt !== null) continue;
        const leftAt = Math.max(one.arrivedAt, left);
        await manager.update(AttendanceEntity, { id: one.id }, { leftAt });
        const { volunteerId } = one;
        const entryId = stillOn.get(volunteerId);
        // Of whom the roll finds already signed off, the family was told then.
        if (entryId !== undefined || !gone.some((other) => other.volunteerId === volunteerId))
          await this.family.tell(manager, organisationId, {
            ...{ volunteerId, what: 'left', at: leftAt, key: entryId ?? turnoutId },
            cameAs: [turnoutId, ...(entryId === undefined ? [] : [entryId])],
          });
      }
      const round: ClosingRoundEntity = {
        id: newId('closinground'),
        organisationId,
        turnoutId,
        items: [...said, ...fires],
        accountedIds: came.map((one) => one.volunteerId),
        closedBy: caller.name,
        closedAt: now,
      };
      await manager.insert(ClosingRoundEntity, round);
      await this.audit.note(manager, caller, 'closeTurnout', turnoutId, { there: came.length });
      tellRoster(this.bus, manager, organisationId, [turnoutId]);
      return round;
    });
  }
}

/** @throws RefusalError NOT_PERMITTED for a volunteer who was not there */
function refuseStranger(caller: Caller, came: readonly AttendanceEntity[]): void {
  if (caller.role !== 'volunteer' || came.some((one) => one.volunteerId === caller.volunteerId)) return;
  refuse('NOT_PERMITTED', 'The round is made by somebody who was there, or by who leads.', {
    field: 'turnoutId',
    remedy: 'Sign on first if you are there; else ask one of those who are.',
  });
}

const isWatch = ({ kind }: TurnoutEntity): boolean => kind === 'watch';

/** @throws RefusalError BAD_INPUT where a thing of the list is neither seen to nor says why not */
function saidOf(words: string, items: readonly RoundItem[]): RoundItem {
  const item = items.find((one) => one.words === words);
  const note = wordsOrNull(item?.note, 'items', 300, 'The note');
  if (!item?.isDone && note === null)
    refuse('BAD_INPUT', `"${words}" is neither seen to, nor said why not.`, {
      field: 'items',
      remedy: 'Tick it, or write down why it is as it is and who knows.',
    });
  return { words, isDone: item?.isDone ?? false, note };
}
