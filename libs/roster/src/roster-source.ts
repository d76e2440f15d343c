import type { RosterSource, TurnoutSpan } from '@ribband/repair';
import { IsNull, MoreThan, type EntityManager } from 'typeorm';
import { PlaceEntity } from './places/place.entity.js';
import { TurnoutEntity } from './turnouts/turnout.entity.js';

/** What the room of the vessel's work asks about turnouts and places; a watch is no turnout to work at. */
export const rosterSource: RosterSource = {
  async turnouts(manager: EntityManager, organisationId: string): Promise<TurnoutSpan[]> {
    const rows = await manager.find(TurnoutEntity, {
      select: { id: true, heldOn: true, startsAt: true, endsAt: true },
      where: { organisationId, kind: IsNull(), cancelledAt: IsNull() },
      order: { startsAt: 'ASC' },
    });
    return rows.map(({ id, heldOn, startsAt, endsAt }) => ({ id, on: heldOn, startsAt, endsAt }));
  },

  async takenTasks(
    manager: EntityManager,
    organisationId: string,
    now: number,
  ): Promise<ReadonlySet<string>> {
    const rows = await manager.find(PlaceEntity, {
      select: { id: true, taskId: true },
      where: { organisationId, state: 'taken', endsAt: MoreThan(now) },
    });
    return new Set(rows.map((row) => row.taskId));
  },
};
