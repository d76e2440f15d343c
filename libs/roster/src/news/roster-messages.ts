import { instantToLocal, Messages, type Wording } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { Task } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';
import type { SwingHandEntity } from '../swing/swing-hand.entity.js';
import { PlaceEntity } from '../places/place.entity.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { swingAt } from '../swing/swing.records.js';
import { yardDays } from '../turnouts/yard-days.js';
import {
  calledOffWords,
  lessonOverWords,
  placeLostWords,
  placeWantedWords,
  roleRenamedWords,
  rosterPostedWords,
  standByWords,
  standNoMoreWords,
  type ToldPlace,
  withRole,
} from './roster-words.js';

type Seat = Pick<PlaceEntity, 'id' | 'taskId' | 'role' | 'volunteerId' | 'startsAt' | 'endsAt'>;
type VersionedSeat = Seat & Pick<PlaceEntity, 'version'>;

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

  /** To those whose place is theirs no more. @param places as they were held */
  async lost(
    manager: EntityManager,
    organisationId: string,
    places: readonly VersionedSeat[],
    why = 'The roster was posted anew.',
  ): Promise<void> {
    await this.changed(manager, organisationId, places, (place, line) => ({
      // Who takes the same place back and loses it again is told again.
      key: `lost ${place.id} ${place.version}`,
      ...placeLostWords(line, why),
    }));
  }

  /** To those whose role at an all-hands day is called otherwise now. */
  async roleRenamed(
    manager: EntityManager,
    organisationId: string,
    places: readonly VersionedSeat[],
  ): Promise<void> {
    await this.changed(manager, organisationId, places, (place, line) => ({
      key: `role ${place.id} ${place.version}`,
      ...roleRenamedWords(line),
    }));
  }

  /** To those who would have learned beside somebody who is not on the work any more. */
  async lessonsOver(manager: EntityManager, organisationId: string, places: readonly Seat[]): Promise<void> {
    await this.changed(manager, organisationId, places, (place, line) => ({
      key: `lesson over ${place.id}`,
      ...lessonOverWords(line),
    }));
  }

  /** To those who could step in at a place that has come free. */
  async wanted(
    manager: EntityManager,
    organisationId: string,
    place: Seat,
    volunteerIds: readonly string[],
    standBy: ReadonlySet<string> = new Set(),
  ): Promise<void> {
    const line = (await this.told(manager, organisationId, [place])).get(place.id);
    if (!line) return;
    for (const isFirst of [true, false])
      await this.messages.post(manager, {
        organisationId,
        to: volunteerIds.filter((id) => standBy.has(id) === isFirst),
        kind: 'place-wanted',
        key: `wanted ${place.id}`,
        ...placeWantedWords(line, isFirst),
      });
  }

  /** To each who stands by at turnouts that were posted. */
  async standBy(
    manager: EntityManager,
    organisationId: string,
    rows: readonly SwingHandEntity[],
    turnouts: readonly TurnoutEntity[],
  ): Promise<void> {
    for (const volunteerId of new Set(rows.map((row) => row.volunteerId))) {
      const theirs = rows.filter((row) => row.volunteerId === volunteerId);
      await this.messages.post(manager, {
        organisationId,
        to: [volunteerId],
        kind: 'roster-posted',
        key: `stand by ${theirs[0]?.id ?? ''}`,
        ...standByWords(turnoutsOf(theirs, turnouts)),
      });
    }
  }

  /** To each who is wanted as a swing hand no more. */
  async standNoMore(
    manager: EntityManager,
    organisationId: string,
    rows: readonly SwingHandEntity[],
    turnouts: readonly TurnoutEntity[],
  ): Promise<void> {
    for (const row of rows)
      await this.messages.post(manager, {
        organisationId,
        to: [row.volunteerId],
        kind: 'place-changed',
        key: `stand no more ${row.id}`,
        ...standNoMoreWords(turnoutsOf([row], turnouts)),
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
    const swing = await swingAt(manager, organisationId, [turnout.id]);
    const standing = swing.flatMap((row) => (row.leftAt === null ? [row.volunteerId] : []));
    await this.messages.post(manager, {
      organisationId,
      to: [...places.flatMap((place) => place.volunteerId ?? []), ...standing],
      kind: 'turnout-called-off',
      // One that is held after all and called off again is news again.
      key: `called off ${turnout.id} ${turnout.version}`,
      evenAtNight: turnout.startsAt - now < nearMillis,
      ...calledOffWords({
        on: turnout.heldOn,
        from: turnout.startTime,
        kind: turnout.kind,
        reason: turnout.cancelReason ?? 'no reason was written down.',
      }),
    });
  }

  /** To each who has one of the places, what has changed about it. */
  private async changed<Place extends Seat>(
    manager: EntityManager,
    organisationId: string,
    places: readonly Place[],
    said: (place: Place, line: ToldPlace) => Wording & { key: string },
  ): Promise<void> {
    const told = await this.told(manager, organisationId, places);
    for (const place of places) {
      const line = told.get(place.id);
      if (place.volunteerId === null || !line) continue;
      await this.messages.post(manager, {
        organisationId,
        to: [place.volunteerId],
        kind: 'place-changed',
        ...said(place, line),
      });
    }
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
            task: withRole(titles.get(place.taskId) ?? 'work at the yard', place.role),
            on: from.day,
            from: from.time,
            to: instantToLocal(place.endsAt, zone).time,
          },
        ];
      }),
    );
  }
}

const turnoutsOf = (rows: readonly SwingHandEntity[], turnouts: readonly TurnoutEntity[]): TurnoutEntity[] =>
  turnouts
    .filter(({ id }) => rows.some(({ turnoutId }) => turnoutId === id))
    .sort((a, b) => a.startsAt - b.startsAt);

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
