import { Audit, type Caller, permitOwn } from '@ribband/access';
import { Bus, Database, newId, refuse, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull, type EntityManager } from 'typeorm';
import { Deeds } from '../deeds/deeds.service.js';
import { RosterMessages } from '../news/roster-messages.js';
import { tellRoster } from '../roster-news.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { SwingHandEntity } from './swing-hand.entity.js';
import { swingAt } from './swing.records.js';

/** Somebody who shall stand by at a turnout. */
export interface SwingToPost {
  turnoutId: string;
  volunteerId: string;
}

const mostTold = 100;

/** Those who stand by: told with the week, asked first when somebody leaves, free to say no. */
@Injectable()
export class SwingHands {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(Deeds) private readonly deeds: Deeds,
    @Inject(RosterMessages) private readonly messages: RosterMessages,
  ) {}

  /** Where the caller stands by, soonest first. */
  async mine(caller: Caller): Promise<SwingHandEntity[]> {
    const { organisationId, volunteerId } = caller;
    if (volunteerId === null) return [];
    const { read } = this.database;
    const now = await this.clock.now(organisationId);
    const rows = await read.findBy(SwingHandEntity, { organisationId, volunteerId, leftAt: IsNull() });
    const turnouts = (await this.toCome(read, organisationId, rows, now)).sort(
      (a, b) => a.startsAt - b.startsAt,
    );
    return turnouts.flatMap(({ id }) => rows.filter(({ turnoutId }) => turnoutId === id)).slice(0, mostTold);
  }

  /**
   * Brings who stands by at some turnouts in line with a week that is posted, in the caller's transaction. Who said no
   * is not asked again; turnouts that are over or called off are left as they are.
   */
  async post(
    manager: EntityManager,
    organisationId: string,
    turnoutIds: readonly string[],
    wanted: readonly SwingToPost[],
  ): Promise<{ added: number; withdrawn: number }> {
    const now = await this.clock.now(organisationId, manager);
    const asked = turnoutIds.map((turnoutId) => ({ turnoutId }));
    const turnouts = await this.toCome(manager, organisationId, asked, now);
    const there = new Set(turnouts.map(({ id }) => id));
    const known = await swingAt(manager, organisationId, [...there]);
    const isSame = (a: SwingToPost, b: SwingToPost) =>
      a.turnoutId === b.turnoutId && a.volunteerId === b.volunteerId;
    const fresh = wanted.filter((one) => there.has(one.turnoutId) && !known.some((row) => isSame(row, one)));
    const gone = known.filter((row) => row.leftAt === null && !wanted.some((one) => isSame(row, one)));
    const rows = fresh.map(({ turnoutId, volunteerId }): SwingHandEntity => ({
      ...{ id: newId('swing'), organisationId, turnoutId, volunteerId, postedAt: now, leftAt: null },
    }));
    if (rows.length > 0) await manager.insert(SwingHandEntity, rows);
    if (gone.length > 0) await manager.delete(SwingHandEntity, { id: In(gone.map(({ id }) => id)) });
    await this.messages.standBy(manager, organisationId, rows, turnouts);
    await this.messages.standNoMore(manager, organisationId, gone, turnouts);
    if (rows.length + gone.length > 0) tellRoster(this.bus, manager, organisationId, [...there]);
    return { added: rows.length, withdrawn: gone.length };
  }

  /**
   * "I can't stand by": somebody for themselves, or the coordinator for them. No reason is asked, and nothing else of
   * theirs changes.
   * @param key the caller's own for this press: asked again with it, the answer is the same
   */
  async leave(caller: Caller, id: string, key: string | null = null): Promise<SwingHandEntity> {
    const work = (manager: EntityManager) => this.leaveIn(manager, caller, id);
    const again = (manager: EntityManager) => manager.findOneByOrFail(SwingHandEntity, { id });
    return this.deeds.once(caller, { key, asked: `leave swing ${id}`, work, again });
  }

  private async leaveIn(manager: EntityManager, caller: Caller, id: string): Promise<SwingHandEntity> {
    const { organisationId } = caller;
    const row = await manager.findOneBy(SwingHandEntity, { id, organisationId });
    if (!row || (caller.role === 'volunteer' && row.volunteerId !== caller.volunteerId))
      return refuse('NOT_FOUND', 'Nobody is asked to stand by there.', { field: 'swingHandId' });
    permitOwn(caller, row.volunteerId, 'coordinator', 'director');
    const now = await this.clock.now(organisationId, manager);
    if ((await this.toCome(manager, organisationId, [row], now)).length === 0)
      refuse('TURNOUT_OVER', 'This turnout is over or was called off.', { field: 'swingHandId' });
    if (row.leftAt !== null) return row;
    const left = await manager.save(SwingHandEntity, { ...row, leftAt: now });
    const { volunteerId } = row;
    await this.audit.note(manager, caller, 'leaveSwing', row.turnoutId, { volunteerId });
    tellRoster(this.bus, manager, organisationId, [row.turnoutId]);
    return left;
  }

  private async toCome(
    manager: EntityManager,
    organisationId: string,
    rows: readonly { turnoutId: string }[],
    now: number,
  ): Promise<TurnoutEntity[]> {
    const ids = [...new Set(rows.map(({ turnoutId }) => turnoutId))];
    const turnouts = await manager.findBy(TurnoutEntity, {
      organisationId,
      id: In(ids),
      cancelledAt: IsNull(),
    });
    return turnouts.filter(({ endsAt }) => endsAt > now);
  }
}
