import { Audit, type Caller, permit } from '@ribband/access';
import { CardKind, crewHands, type NamedHand } from '@ribband/crew';
import { addDays, Database, instantToLocal, refuse, startOfWeek, YardClock } from '@ribband/platform';
import { haulOutInForce, Task } from '@ribband/repair';
import {
  GateBook,
  jobsOf,
  PlaceEntity,
  type Posted,
  Posting,
  type TurnedAway,
  TurnoutEntity,
} from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { Between, In, IsNull, MoreThan, Not, type EntityManager } from 'typeorm';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { staffRoles } from '../plans/plans.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { proposeWeek, type TurnoutProposal, type WeekRecords } from './week-book.js';
import { seatsToPost } from './seats.js';

/** A week as it is proposed, with what the page shows beside it. */
export interface Week {
  /** Its Monday. */
  weekOf: string;
  told: ToldPlan | null;
  turnouts: TurnoutProposal[];
  isPosted: boolean;
  names: ReadonlyMap<string, NamedHand>;
  /** What to read before starting, by task. */
  cautions: ReadonlyMap<string, string[]>;
}

export interface PostedWeek {
  turnouts: TurnoutEntity[];
  /** Whom a gate did not let in, in sentences. */
  turnedAway: string[];
  /** Work that was not posted because the hull must wait, in sentences. */
  waits: string[];
}

/** The coming week: what the plan proposes, and posting it. */
@Injectable()
export class Weeks {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Posting) private readonly posting: Posting,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** @param day any day of the week; the week of the next turnout when null */
  async propose(caller: Caller, day: string | null): Promise<Week> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const weekOf = startOfWeek(day ?? (await this.nextDay(manager, organisationId)));
      const turnouts = await turnoutsOfWeek(manager, organisationId, weekOf);
      const told = await this.shelf.inForce(organisationId, manager);
      const records = await weekRecords(manager, organisationId, told, turnouts);
      const proposals = proposeWeek(records);
      await addClosedGates(manager, organisationId, records, proposals);
      const jobs = await jobsOf(
        manager,
        organisationId,
        proposals.flatMap(({ work }) => work.map(({ taskId }) => taskId)),
      );
      return {
        weekOf,
        told,
        turnouts: proposals,
        isPosted: records.places.some((place) => place.state !== 'left'),
        names: new Map(records.hands.map(({ id, name }) => [id, { volunteerId: id, name }])),
        cautions: new Map([...jobs].map(([id, job]) => [id, job.cautions.map(({ words }) => words)])),
      };
    });
  }

  /** Posts the plan's week. @throws RefusalError PLAN_OUTDATED when records have changed since it was made */
  async post(caller: Caller, day: string, planId: string): Promise<PostedWeek> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const told = await this.shelf.inForce(organisationId, manager);
      if (!told) refuse('NO_PLAN', 'There is no plan yet.', { remedy: 'Wait until the first one is there.' });
      if (told.entity.id !== planId || !(await this.shelf.isNewest(told, manager)))
        refuse('PLAN_OUTDATED', 'Something has changed since this plan was made.', {
          field: 'planId',
          remedy: 'Look at the week as the newest plan proposes it, and post that.',
        });
      const turnouts = await turnoutsOfWeek(manager, organisationId, startOfWeek(day));
      const ids = turnouts.map((turnout) => turnout.id);
      const seats = seatsToPost(told, new Set(ids), await droppedIds(manager, organisationId));
      const posted = await this.posting.post(manager, organisationId, ids, seats, planId);
      await this.audit.note(manager, caller, 'postWeek', planId, {
        weekOf: startOfWeek(day),
        added: posted.added,
        withdrawn: posted.withdrawn,
      });
      return {
        turnouts,
        turnedAway: posted.turnedAway.map((one) => turnedAwaySentence(told, one)),
        waits: waitSentences(told, posted.waits),
      };
    });
  }

  /** The day of the next turnout, or today where none is to come. */
  private async nextDay(manager: EntityManager, organisationId: string): Promise<string> {
    const now = await this.clock.now(organisationId, manager);
    const next = await manager.findOne(TurnoutEntity, {
      where: { organisationId, endsAt: MoreThan(now), cancelledAt: IsNull() },
      order: { startsAt: 'ASC' },
    });
    if (next) return next.heldOn;
    const haulOut = await haulOutInForce(manager, organisationId);
    return instantToLocal(now, haulOut?.timeZone ?? 'UTC').day;
  }
}

function turnoutsOfWeek(
  manager: EntityManager,
  organisationId: string,
  monday: string,
): Promise<TurnoutEntity[]> {
  return manager.find(TurnoutEntity, {
    where: { organisationId, heldOn: Between(monday, addDays(monday, 6)) },
    order: { startsAt: 'ASC' },
    take: 50,
  });
}

async function weekRecords(
  manager: EntityManager,
  organisationId: string,
  told: ToldPlan | null,
  turnouts: TurnoutEntity[],
): Promise<WeekRecords> {
  const kinds = await manager.findBy(CardKind, { organisationId });
  return {
    told,
    turnouts,
    places: await manager.find(PlaceEntity, {
      where: { organisationId, turnoutId: In(turnouts.map((turnout) => turnout.id)) },
      order: { id: 'ASC' },
    }),
    hands: await crewHands(manager, organisationId),
    firstAidIds: new Set(kinds.filter((kind) => /first[\s-]?aid/i.test(kind.name)).map((kind) => kind.id)),
    droppedIds: await droppedIds(manager, organisationId),
  };
}

async function droppedIds(manager: EntityManager, organisationId: string): Promise<Set<string>> {
  const dropped = await manager.find(Task, {
    select: { id: true },
    where: { organisationId, droppedAt: Not(IsNull()) },
  });
  return new Set(dropped.map((task) => task.id));
}

/** Says of places that stand which gate is closed by now: a card that lapsed, a teacher who left. */
async function addClosedGates(
  manager: EntityManager,
  organisationId: string,
  records: WeekRecords,
  proposals: TurnoutProposal[],
): Promise<void> {
  const standing = records.places.filter((place) => place.state !== 'left' && place.volunteerId !== null);
  const book = await GateBook.read(manager, organisationId, {
    volunteerIds: standing.flatMap((place) => place.volunteerId ?? []),
    taskIds: standing.map((place) => place.taskId),
    days: new Map(records.turnouts.map((turnout) => [turnout.id, turnout.heldOn])),
  });
  for (const place of standing) {
    const stops = book
      .findings(place.volunteerId ?? '', place, standing)
      .filter((finding) => finding.weight === 'stop');
    const proposal = proposals.find(({ turnout }) => turnout.id === place.turnoutId);
    const name = book.hand(place.volunteerId ?? '')?.name ?? '';
    const job = book.job(place.taskId);
    const title = job?.task.title ?? '';
    if (job?.closed) proposal?.notices.push(`${name} has a place, but ${job.closed}`);
    for (const finding of stops) proposal?.notices.push(`${name} on “${title}”: ${finding.words}`);
  }
}

/** One for each piece of work, however many seats it has. */
function waitSentences(told: ToldPlan, waits: Posted['waits']): string[] {
  const sentences = waits.map(({ seat, stops }) => {
    const title = told.problem.tasks.find(({ id }) => id === seat.taskId)?.name ?? '';
    return `“${title}”: ${stops.map(({ message }) => message).join(' ')}`;
  });
  return [...new Set(sentences)];
}

function turnedAwaySentence(told: ToldPlan, { seat, findings }: TurnedAway): string {
  const name = told.problem.people.find(({ id }) => id === seat.volunteerId)?.name ?? '';
  const title = told.problem.tasks.find(({ id }) => id === seat.taskId)?.name ?? '';
  return `${name} on “${title}”: ${findings.map((finding) => finding.words).join(' ')} The place stands open.`;
}
