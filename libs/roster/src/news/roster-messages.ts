import { instantToLocal, Messages } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { Task } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';
import { PlaceEntity } from '../places/place.entity.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { yardDays } from '../turnouts/yard-days.js';
import {
  calledOffWords,
  placeLostWords,
  placeWantedWords,
  rosterPostedWords,
  type ToldPlace,
} from './roster-words.js';

type Seat = Pick<PlaceEntity, 'id' | 'taskId' | 'volunteerId' | 'startsAt' | 'endsAt'>;

/** A turnout that is so near is told of in the night as well. */
const nearMillis = 14 * 60 * 60_000;

/** Tells people what the roster has for them. Everything is written in the caller's transaction. */
@Injectable()
export class RosterMessages {
  constructor(@Inject(Messages) private readonly messages: Messages) {}

  /** One message to each person for all the places that a posting has for them. */
  async posted(manager: EntityManager, organisationId: string, places: readonly Seat[]): Promise<void> {
    const told = await this.told(manager, organisationId, places);
    for (const [volunteerId, theirs] of byPerson(places)) {
      const lines = theirs.flatMap((place) => told.get(place.id) ?? []);
      await this.messages.post(manager, {
        organisationId,
        to: [volunteerId],
        kind: 'roster-posted',
        key: `posted ${theirs[0]?.id ?? ''}`,
        ...rosterPostedWords(lines),
      });
    }
  }

  /** To those whose place is theirs no more. */
  async lost(manager: EntityManager, organisationId: string, places: readonly Seat[]): Promise<void> {
    const told = await this.told(manager, organisationId, places);
    for (const place of places) {
      const line = told.get(place.id);
      if (place.volunteerId === null || !line) continue;
      await this.messages.post(manager, {
        organisationId,
        to: [place.volunteerId],
        kind: 'place-changed',
        key: `lost ${place.id}`,
        ...placeLostWords(line),
      });
    }
  }

  /** To those who stand by for a place that has come free. */
  async wanted(
    manager: EntityManager,
    organisationId: string,
    place: Seat,
    volunteerIds: readonly string[],
  ): Promise<void> {
    const line = (await this.told(manager, organisationId, [place])).get(place.id);
    if (!line) return;
    await this.messages.post(manager, {
      organisationId,
      to: volunteerIds,
      kind: 'place-wanted',
      key: `wanted ${place.id}`,
      ...placeWantedWords(line),
    });
  }

  /** To everybody with a place at a turnout that was called off. */
  async calledOff(
    manager: EntityManager,
    organisationId: string,
    turnout: TurnoutEntity,
    now: number,
  ): Promise<void> {
    const places = await manager.findBy(PlaceEntity, {
      organisationId,
      turnoutId: turnout.id,
      state: In(['posted', 'taken']),
    });
    await this.messages.post(manager, {
      organisationId,
      to: places.flatMap((place) => place.volunteerId ?? []),
      kind: 'turnout-called-off',
      // One that is held after all and called off again is news again.
      key: `called off ${turnout.id} ${turnout.version}`,
      evenAtNight: turnout.startsAt - now < nearMillis,
      ...calledOffWords({
        on: turnout.heldOn,
        from: turnout.startTime,
        reason: turnout.cancelReason ?? 'no reason was written down.',
      }),
    });
  }

  private async told(
    manager: EntityManager,
    organisationId: string,
    places: readonly Seat[],
  ): Promise<Map<string, ToldPlace>> {
    const zone = (await yardDays(manager, organisationId))?.timeZone ?? 'UTC';
    const ids = [...new Set(places.map((place) => place.taskId))];
    const tasks = ids.length > 0 ? await manager.findBy(Task, { organisationId, id: In(ids) }) : [];
    const titles = new Map(tasks.map((task) => [task.id, task.title]));
    return new Map(
      places.map((place) => {
        const from = instantToLocal(place.startsAt, zone);
        return [
          place.id,
          {
            task: titles.get(place.taskId) ?? 'work at the yard',
            on: from.day,
            from: from.time,
            to: instantToLocal(place.endsAt, zone).time,
          },
        ];
      }),
    );
  }
}

function byPerson(places: readonly Seat[]): Map<string, Seat[]> {
  const groups = new Map<string, Seat[]>();
  for (const place of [...places].sort((a, b) => a.startsAt - b.startsAt)) {
    if (place.volunteerId === null) continue;
    const group = groups.get(place.volunteerId);
    if (group) group.push(place);
    else groups.set(place.volunteerId, [place]);
  }
  return groups;
}
