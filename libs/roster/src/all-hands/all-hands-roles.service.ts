import { Audit, permit, type Caller } from '@ribband/access';
import { Bus, Database, expectVersion, refuse, Revisions, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull, Not, type EntityManager } from 'typeorm';
import { RosterMessages } from '../news/roster-messages.js';
import { GateBook } from '../places/gate-book.js';
import { PlaceEntity } from '../places/place.entity.js';
import { tellRoster } from '../roster-news.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { asksTheSame, type ChangedRoles, changeRoles, type RoleChange } from './change-roles.js';
import { refuseStrange, saidRoles } from './said-roles.js';

/** A role as the day has it. */
export interface LaidRole {
  role: string;
  /** For how many. */
  count: number;
  /** How many of them are asked or have said yes. */
  held: number;
  skillId: string | null;
  level: number;
  cardKindId: string | null;
}

/** The roles of an all-hands day once it is laid on: read and changed. */
@Injectable()
export class AllHandsRoles {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(RosterMessages) private readonly messages: RosterMessages,
  ) {}

  /** The roles that a day has, in the order in which they were laid on. */
  async of(
    { organisationId }: Caller,
    turnoutId: string,
    manager: EntityManager = this.database.read,
  ): Promise<LaidRole[]> {
    const roles = new Map<string, LaidRole>();
    for (const place of await standingAt(manager, organisationId, turnoutId)) {
      const { role, skillId, level, cardKindId, volunteerId } = place;
      if (role === null) continue;
      const known = roles.get(role) ?? { role, count: 0, held: 0, skillId, level, cardKindId };
      const held = known.held + (volunteerId === null ? 0 : 1);
      roles.set(role, { ...known, count: known.count + 1, held });
    }
    return [...roles.values()];
  }

  /**
   * Gives a day that has not begun the roles that are named, all of them. Who has a place keeps it while the role stays
   * and its gates let them; who loses one, or has one that is called otherwise, is told in the same transaction.
   */
  async change(
    caller: Caller,
    turnoutId: string,
    version: number,
    wanted: readonly RoleChange[],
  ): Promise<TurnoutEntity> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    const roles = saidRoles(wanted);
    return this.database.write(async (manager) => {
      const day = await this.dayToBegin(manager, organisationId, turnoutId);
      expectVersion(day, version);
      await refuseStrange(manager, organisationId, roles);
      const standing = await standingAt(manager, organisationId, turnoutId);
      refuseUnknown(standing, roles);
      const [{ taskId, startsAt, endsAt } = await placeOf(manager, turnoutId)] = standing;
      const span = { organisationId, turnoutId, taskId, startsAt, endsAt };
      const changes = changeRoles(standing, roles, span);
      const stopped = await stoppedBy(manager, day, changes.change);
      await this.write(manager, day, changes, stopped);
      const gone = [...changes.remove, ...stopped].filter(({ volunteerId }) => volunteerId !== null);
      if (gone.length > 0)
        await this.revisions.requestPlan(manager, organisationId, 'the roles of an all-hands day changed');
      const left = await manager.save(TurnoutEntity, { ...day, version: day.version + 1 });
      await this.audit.note(manager, caller, 'changeAllHandsRoles', day.id, {
        roles: roles.map(({ was, role, count }) => ({ was, role, count })),
        lost: gone.length,
      });
      tellRoster(this.bus, manager, organisationId, [day.id]);
      return left;
    }, organisationId);
  }

  private async write(
    manager: EntityManager,
    { organisationId }: TurnoutEntity,
    { add, change, remove }: ChangedRoles,
    stopped: readonly PlaceEntity[],
  ): Promise<void> {
    await this.messages.lost(
      manager,
      organisationId,
      [...remove, ...stopped],
      'The roles of the day were changed.',
    );
    const free = new Set(stopped.map(({ id }) => id));
    for (const { now } of change)
      await manager.save(PlaceEntity, free.has(now.id) ? { ...now, ...openAgain } : now);
    await manager.delete(PlaceEntity, { id: In(remove.map(({ id }) => id)) });
    if (add.length > 0) await manager.insert(PlaceEntity, add);
    const renamed = change.filter(({ before, now }) => before.role !== now.role && !free.has(now.id));
    await this.messages.roleRenamed(
      manager,
      organisationId,
      renamed.map(({ now }) => now),
    );
  }

  private async dayToBegin(
    manager: EntityManager,
    organisationId: string,
    id: string,
  ): Promise<TurnoutEntity> {
    const now = await this.clock.now(organisationId, manager);
    const day = await manager.findOneBy(TurnoutEntity, { organisationId, id, kind: 'all-hands' });
    if (!day || day.cancelledAt !== null || day.startsAt <= now)
      return refuse('NOT_FOUND', 'There is no such all-hands day still to come.', {
        field: 'turnoutId',
        remedy: 'Choose one that is laid on and has not begun.',
      });
    return day;
  }
}

const openAgain = { volunteerId: null, state: 'posted', why: null, takenAt: null } as const;

const standingAt = (
  manager: EntityManager,
  organisationId: string,
  turnoutId: string,
): Promise<PlaceEntity[]> =>
  manager.find(PlaceEntity, {
    where: { organisationId, turnoutId, role: Not(IsNull()), state: In(['posted', 'taken']) },
    order: { id: 'ASC' },
  });

const placeOf = (manager: EntityManager, turnoutId: string): Promise<PlaceEntity> =>
  manager.findOneOrFail(PlaceEntity, { where: { turnoutId }, order: { id: 'ASC' } });

/** @throws RefusalError where a role is said to have been one that the day does not have, or two are said to have been one */
function refuseUnknown(standing: readonly PlaceEntity[], roles: readonly RoleChange[]): void {
  const seen = new Set<string>();
  for (const [i, { was }] of roles.entries()) {
    if (was === null) continue;
    if (!standing.some(({ role }) => role === was) || seen.has(was))
      refuse('BAD_INPUT', `The day has no role “${was}”, or it is named twice.`, {
        field: `roles[${i}].was`,
        remedy: 'Name each role of the day once, and none for a new one.',
      });
    seen.add(was);
  }
}

/** Those whom what their role asks for now keeps from it. */
async function stoppedBy(
  manager: EntityManager,
  { id, organisationId, heldOn }: TurnoutEntity,
  change: ChangedRoles['change'],
): Promise<PlaceEntity[]> {
  const asked = change.filter(({ before, now }) => now.volunteerId !== null && !asksTheSame(before, now));
  if (asked.length === 0) return [];
  const book = await GateBook.read(manager, organisationId, {
    volunteerIds: asked.flatMap(({ now }) => now.volunteerId ?? []),
    taskIds: asked.map(({ now }) => now.taskId),
    days: new Map([[id, heldOn]]),
  });
  return asked.flatMap(({ before, now }) =>
    book.ownFindings(now.volunteerId ?? '', now).some(({ weight }) => weight === 'stop') ? [before] : [],
  );
}
