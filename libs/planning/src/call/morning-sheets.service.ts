import { type Caller, permit } from '@ribband/access';
import {
  adultAge,
  ageOn,
  CardKind,
  cardCountsOn,
  crewHands,
  type CrewHand,
  NamedHand,
  Skill,
} from '@ribband/crew';
import { Database, refuse, Revisions, YardClock } from '@ribband/platform';
import { Seat, Task } from '@ribband/repair';
import {
  CallGates,
  Calling,
  type CallRules,
  PlaceEntity,
  RosterSettings,
  TurnoutEntity,
} from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { In, Not, type EntityManager } from 'typeorm';
import { badgeCodes, badgeSquare } from './badges.js';
import type {
  Badge,
  MorningPerson,
  MorningSheet,
  MorningVerdict,
  MorningWork,
} from './morning-sheet.types.js';

/** What a phone keeps of a morning, so that the turnout can be called without a line. */
@Injectable()
export class MorningSheets {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Calling) private readonly calling: Calling,
    @Inject(CallGates) private readonly gates: CallGates,
    @Inject(RosterSettings) private readonly settings: RosterSettings,
  ) {}

  /** Any turnout that is to come or goes on, also days ahead: the sheet is printed the evening before. */
  async of(caller: Caller, turnoutId: string): Promise<MorningSheet> {
    permit(caller, 'coordinator', 'director', 'shipwright');
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const turnout = await manager.findOneBy(TurnoutEntity, { id: turnoutId, organisationId });
      if (!turnout) return refuse('NOT_FOUND', 'There is no such turnout.', { field: 'turnoutId' });
      const hands = await crewHands(manager, organisationId);
      const places = await manager.find(PlaceEntity, {
        where: { turnoutId, state: Not('left') },
        order: { startsAt: 'ASC', id: 'ASC' },
      });
      const taskIds = [...new Set(places.map(({ taskId }) => taskId))];
      const ids = hands.map(({ id }) => id);
      const rules = await this.gates.rules(manager, turnout, ids, taskIds);
      const { staleHours } = await this.settings.of(organisationId, manager);
      const last = await this.calling.newest(turnoutId, manager);
      return {
        turnout,
        madeAt: await this.clock.now(organisationId, manager),
        revision: await this.revisions.current(manager, organisationId),
        staleHours,
        callVersion: last?.version ?? 0,
        people: await peopleOf(manager, organisationId, turnout, hands, places),
        work: await workOf(manager, organisationId, { turnout, hands, places, rules }),
      };
    });
  }

  /** The badges of the crew, by name. */
  async badges(caller: Caller): Promise<Badge[]> {
    permit(caller, 'coordinator', 'director', 'shipwright');
    const hands = await crewHands(this.database.read, caller.organisationId);
    const codes = badgeCodes(hands.map(({ id }) => id));
    return hands
      .map(({ id, name }) => {
        const code = codes.get(id) ?? '';
        return { hand: { volunteerId: id, name }, code, square: badgeSquare(code) };
      })
      .sort((a, b) => a.hand.name.localeCompare(b.hand.name));
  }
}

async function peopleOf(
  manager: EntityManager,
  organisationId: string,
  turnout: TurnoutEntity,
  hands: readonly CrewHand[],
  places: readonly PlaceEntity[],
): Promise<MorningPerson[]> {
  const codes = badgeCodes(hands.map(({ id }) => id));
  const kinds = await manager.findBy(CardKind, { organisationId });
  const firstAid = new Set(kinds.flatMap(({ id, name }) => (/first[\s-]?aid/i.test(name) ? [id] : [])));
  const posted = new Set(places.flatMap(({ volunteerId }) => volunteerId ?? []));
  // Those who are expected stand first, and keep their numbers on the printed sheet.
  return [...hands]
    .sort((a, b) => Number(posted.has(b.id)) - Number(posted.has(a.id)) || a.name.localeCompare(b.name))
    .map((hand, i): MorningPerson => {
      const age = hand.bornOn === null ? null : ageOn(hand.bornOn, turnout.heldOn);
      return {
        hand: Object.assign(new NamedHand(), { volunteerId: hand.id, name: hand.name }),
        number: i + 1,
        code: codes.get(hand.id) ?? '',
        expected: posted.has(hand.id),
        isKnownAdult: age !== null && age >= adultAge,
        isMinor: age !== null && age < adultAge,
        isFirstAider: hand.cards.some(
          (card) => firstAid.has(card.kindId) && cardCountsOn(card, turnout.heldOn),
        ),
      };
    });
}

interface SheetParts {
  turnout: TurnoutEntity;
  hands: readonly CrewHand[];
  places: readonly PlaceEntity[];
  rules: CallRules;
}

async function workOf(
  manager: EntityManager,
  organisationId: string,
  { turnout, hands, places, rules }: SheetParts,
): Promise<MorningWork[]> {
  const taskIds = [...new Set(places.map(({ taskId }) => taskId))];
  const tasks = new Map((await manager.findBy(Task, { id: In(taskIds) })).map((task) => [task.id, task]));
  const skills = new Map((await manager.findBy(Skill, { organisationId })).map((skill) => [skill.id, skill]));
  const seats = await manager.find(Seat, {
    where: { organisationId, taskId: In(taskIds) },
    order: { id: 'ASC' },
  });
  return taskIds.flatMap((taskId): MorningWork[] => {
    const task = tasks.get(taskId);
    const job = rules.book.job(taskId);
    if (!task || !job) return [];
    const ofTask = seats.filter((seat) => seat.taskId === taskId);
    const at = places.filter((place) => place.taskId === taskId);
    return [
      {
        task,
        startsAt: Math.min(...at.map(({ startsAt }) => startsAt)),
        endsAt: Math.max(...at.map(({ endsAt }) => endsAt)),
        closed: job.closed ?? rules.stops.get(taskId)?.[0]?.message ?? null,
        cautions: job.cautions,
        postedIds: [...new Set(at.flatMap(({ volunteerId }) => volunteerId ?? []))],
        seats: ofTask.map(({ skillId, level, count }) => {
          return { skillId, skillName: skills.get(skillId)?.name ?? '', level, count };
        }),
        verdicts: hands.map((hand) => verdictOf(hand, { turnout, rules, taskId, seats: ofTask })),
      },
    ];
  });
}

/** What the gates say of one person on one task before it is known who else is there. */
function verdictOf(
  hand: CrewHand,
  {
    turnout,
    rules,
    taskId,
    seats,
  }: Pick<SheetParts, 'turnout' | 'rules'> & { taskId: string; seats: Seat[] },
): MorningVerdict {
  const span = { turnoutId: turnout.id, startsAt: turnout.startsAt, endsAt: turnout.endsAt };
  const stops = (skillId: string | null, level: number) =>
    rules.book
      .ownFindings(hand.id, { ...span, taskId, skillId, level, volunteerId: hand.id })
      .filter(({ weight }) => weight === 'stop');
  const asHand = stops(null, 0);
  const best = Math.max(0, ...seats.map(({ skillId }) => hand.levels.get(skillId) ?? 0));
  return {
    volunteerId: hand.id,
    mayAsHand: asHand.length === 0,
    seats: seats.flatMap(({ skillId, level }, i) => (stops(skillId, level).length === 0 ? [i] : [])),
    why: asHand[0]?.words ?? null,
    learns: best === 1,
    worksAlone: best >= 2,
  };
}
