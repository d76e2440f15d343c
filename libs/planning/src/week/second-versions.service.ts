import { Audit, type Caller, permit } from '@ribband/access';
import { crewHands, type CrewHand, NamedHand } from '@ribband/crew';
import { Database, refuse, YardClock } from '@ribband/platform';
import { GateBook, PlaceEntity, Places, RosterMessages, swingAt, TurnoutEntity } from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, type EntityManager } from 'typeorm';
import { type Coming, comingOf, whoCame } from '../beliefs/coming.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { staffRoles } from '../plans/plans.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { hingeOf, seatedAt, withoutCrew } from './crews.js';
import { stayAt } from './presence.js';
import { type SecondVersion, withoutHand } from './second-version.js';

/** A second version in words. */
export interface SecondVersionTold {
  without: NamedHand;
  changes: string[];
  ring: { hand: NamedHand; why: string }[];
}

interface PostedTurnout {
  turnout: TurnoutEntity;
  told: ToldPlan | null;
  places: PlaceEntity[];
  hands: CrewHand[];
  coming: Coming;
  expectedIds: Set<string>;
  swingIds: Set<string>;
  book: GateBook;
}

/** What a posted turnout looks like without somebody, worked out when it is asked for, and made so by one press. */
@Injectable()
export class SecondVersions {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Places) private readonly places: Places,
    @Inject(RosterMessages) private readonly messages: RosterMessages,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /**
   * The turnout without somebody, or without the person whose absence would lose most work.
   * @returns null where nobody is posted, or nobody's absence would lose any work
   */
  async of(caller: Caller, turnoutId: string, volunteerId: string | null): Promise<SecondVersionTold | null> {
    permit(caller, ...staffRoles);
    return this.database.snapshot(async (manager) => {
      const posted = await this.read(manager, caller.organisationId, turnoutId);
      if (volunteerId !== null && !posted.hands.some(({ id }) => id === volunteerId))
        refuse('NOT_FOUND', 'There is no such person in the crew.', {
          field: 'volunteerId',
          remedy: 'Choose somebody of the crew.',
        });
      const without = volunteerId ?? scarcest(posted);
      return without === null ? null : inWords(posted, withoutHand(without, posted));
    });
  }

  /** Leaves somebody's places for them and asks those who step in, all at once. Nothing counts against anybody. */
  async goWithout(caller: Caller, turnoutId: string, volunteerId: string): Promise<TurnoutEntity> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const posted = await this.read(manager, organisationId, turnoutId);
      const version = withoutHand(volunteerId, posted);
      if (version.places.length === 0)
        refuse('PLACE_NOT_OPEN', 'They have no place at this turnout.', {
          field: 'volunteerId',
          remedy: 'Choose somebody who has.',
        });
      const name = nameOf(posted, volunteerId);
      const asked: PlaceEntity[] = [];
      for (const { place, instead } of version.places) {
        await this.places.leaveIn(manager, caller, place.id, { volunteerId, asksStandIns: instead === null });
        if (instead === null) continue;
        const open = await openBeside(manager, place);
        const row = {
          ...open,
          volunteerId: instead,
          why: `Steps in for ${name}.`,
          version: open.version + 1,
        };
        asked.push(await manager.save(PlaceEntity, row));
      }
      await this.messages.posted(manager, organisationId, asked);
      await this.audit.note(manager, caller, 'goWithout', turnoutId, { volunteerId, asked: asked.length });
      return posted.turnout;
    });
  }

  private async read(
    manager: EntityManager,
    organisationId: string,
    turnoutId: string,
  ): Promise<PostedTurnout> {
    const turnout = await manager.findOneBy(TurnoutEntity, { id: turnoutId, organisationId });
    if (!turnout) return refuse('NOT_FOUND', 'There is no such turnout.', { field: 'turnoutId' });
    const places = await manager.find(PlaceEntity, {
      where: { organisationId, turnoutId },
      order: { startsAt: 'ASC', id: 'ASC' },
    });
    const hands = await crewHands(manager, organisationId);
    const swing = await swingAt(manager, organisationId, [turnoutId]);
    const record = await whoCame(manager, organisationId, await this.clock.now(organisationId, manager));
    const told = await this.shelf.inForce(organisationId, manager);
    const w = told?.problem.turnouts.findIndex(({ id }) => id === turnoutId) ?? -1;
    const expected = told?.problem.people.filter((person) => stayAt(person, w) !== undefined) ?? [];
    const book = await GateBook.read(manager, organisationId, {
      volunteerIds: hands.map((hand) => hand.id),
      taskIds: places.map((place) => place.taskId),
      days: new Map([[turnout.id, turnout.heldOn]]),
    });
    return {
      ...{ turnout, told, places, hands, book },
      coming: comingOf(hands, record),
      expectedIds: new Set(expected.map(({ id }) => id)),
      swingIds: new Set(swing.flatMap((row) => (row.leftAt === null ? [row.volunteerId] : []))),
    };
  }
}

function scarcest(posted: PostedTurnout): string | null {
  const { told } = posted;
  const { places, swingIds, coming } = posted;
  const at = told && seatedAt(told, posted.turnout.id, { places, standingBy: [...swingIds], coming });
  return at ? hingeOf(told, at) : null;
}

/** The open place that a place left behind it. */
function openBeside(manager: EntityManager, place: PlaceEntity): Promise<PlaceEntity> {
  const { organisationId, turnoutId, taskId, startsAt, endsAt, level } = place;
  return manager.findOneOrFail(PlaceEntity, {
    where: {
      ...{ organisationId, turnoutId, taskId, startsAt, endsAt, level, state: 'posted' },
      skillId: place.skillId ?? IsNull(),
      volunteerId: IsNull(),
    },
    order: { id: 'DESC' },
  });
}

function inWords(posted: PostedTurnout, version: SecondVersion): SecondVersionTold {
  const { told, turnout, places, coming } = posted;
  const name = (id: string) => nameOf(posted, id);
  const title = (taskId: string) => `“${posted.book.job(taskId)?.task.title ?? ''}”`;
  const after = places.flatMap((place) => {
    const change = version.places.find((one) => one.place.id === place.id);
    return change ? [{ ...place, volunteerId: change.instead }] : [place];
  });
  const at = told && seatedAt(told, turnout.id, { places: after, standingBy: [], coming });
  const seatedNow = new Set(version.places.map(({ place }) => place.taskId));
  const emptied = [...seatedNow].filter((id) => !at?.seated.some((one) => one.taskId === id));
  const falls = at ? [...emptied, ...withoutCrew(told, at)] : [];
  return {
    without: { volunteerId: version.volunteerId, name: name(version.volunteerId) },
    changes: [
      ...version.places.map(({ place, instead }) =>
        instead === null
          ? `Nobody who is expected can step in on ${title(place.taskId)}: the place stands open.`
          : `${name(instead)} steps in on ${title(place.taskId)}.`,
      ),
      ...version.leftAlone.map(
        ({ volunteerId, taskId, words }) =>
          `${name(volunteerId)} can’t stay on ${title(taskId)}: ${words.join(' ')}`,
      ),
      ...[...new Set(falls)].map((id) => `${title(id)} has no whole crew then and waits.`),
    ],
    ring: version.ring.map(({ volunteerId, taskIds, saysTheyCome, standsBy }) => ({
      hand: { volunteerId, name: name(volunteerId) },
      why: `May do ${taskIds.map(title).join(' and ')}; ${standsBy ? 'stands by that day' : saysTheyCome ? 'comes that day and has no place then' : 'has not said that they come'}.`,
    })),
  };
}

const nameOf = ({ hands }: Pick<PostedTurnout, 'hands'>, id: string): string =>
  hands.find((hand) => hand.id === id)?.name ?? '';
