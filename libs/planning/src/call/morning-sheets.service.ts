import { type Caller, permit } from '@ribband/access';
import {
  adultAge,
  ageOn,
  cardCountsOn,
  crewHands,
  type CrewHand,
  NamedHand,
  Skill,
  type YardFacts,
} from '@ribband/crew';
import { Database, refuse, Revisions, YardClock } from '@ribband/platform';
import { Seat, Task } from '@ribband/repair';
import {
  CallGates,
  Calling,
  type CallRules,
  closedWords,
  PlaceEntity,
  RosterSettings,
  swingAt,
  TurnoutEntity,
} from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { In, Not, type EntityManager } from 'typeorm';
import { setAsideWords } from './set-aside-words.js';
import { badgeCodes, badgeSquare } from './badges.js';
import type {
  Badge,
  MorningPerson,
  MorningSheet,
  MorningVerdict,
  MorningWatch,
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
      const swing = await swingAt(manager, organisationId, [turnoutId]);
      const expected = [
        ...places.flatMap((place) => place.volunteerId ?? []),
        ...swing.flatMap((row) => (row.leftAt === null ? [row.volunteerId] : [])),
      ];
      const ids = hands.map(({ id }) => id);
      const rules = await this.gates.rules(manager, turnout, ids, places);
      const { staleHours } = await this.settings.of(organisationId, manager);
      const last = await this.calling.newest(turnoutId, manager);
      return {
        turnout,
        madeAt: await this.clock.now(organisationId, manager),
        revision: await this.revisions.current(manager, organisationId),
        staleHours,
        asksFirstAider: rules.book.factsOf(turnout.id).firstAidKinds.size > 0,
        callVersion: last?.version ?? 0,
        people: peopleOf(turnout, hands, new Set(expected), rules.book.factsOf(turnout.id).firstAidKinds),
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

function peopleOf(
  turnout: TurnoutEntity,
  hands: readonly CrewHand[],
  expected: ReadonlySet<string>,
  firstAid: ReadonlySet<string>,
): MorningPerson[] {
  const codes = badgeCodes(hands.map(({ id }) => id));
  // Those who are expected stand first, and keep their numbers on the printed sheet.
  return [...hands]
    .sort((a, b) => Number(expected.has(b.id)) - Number(expected.has(a.id)) || a.name.localeCompare(b.name))
    .map((hand, i): MorningPerson => {
      const age = hand.bornOn === null ? null : ageOn(hand.bornOn, turnout.heldOn);
      return {
        hand: Object.assign(new NamedHand(), { volunteerId: hand.id, name: hand.name }),
        number: i + 1,
        code: codes.get(hand.id) ?? '',
        expected: expected.has(hand.id),
        isKnownAdult: age !== null && age >= adultAge,
        isMinor: age !== null && age < adultAge,
        isFirstAider: holds(hand, firstAid, turnout.heldOn),
      };
    });
}

const holds = (hand: CrewHand, kinds: ReadonlySet<string>, on: string): boolean =>
  hand.cards.some((card) => kinds.has(card.kindId) && cardCountsOn(card, on));

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
        closed: job.closed ?? closedWords(rules.stops.get(taskId)) ?? null,
        cautions: job.cautions,
        setAside: setAsideWords(rules, taskId),
        postedIds: [...new Set(at.flatMap(({ volunteerId }) => volunteerId ?? []))],
        roles: at
          .flatMap(({ role, volunteerId }) => (role === null ? [] : [{ role, volunteerId }]))
          .sort((a, b) => a.role.localeCompare(b.role)),
        seats: ofTask.map(({ skillId, level, count }) => {
          return { skillId, skillName: skills.get(skillId)?.name ?? '', level, count };
        }),
        carriers: rules.least.get(taskId)?.carriers ?? 1,
        watch: watchOf(job.job.hazards, ofTask, rules.book.factsOf(turnout.id)),
        verdicts: hands.map((hand) => verdictOf(hand, { turnout, rules, taskId, seats: ofTask })),
      },
    ];
  });
}

/** On which seats of hot work somebody may be the watch; null where the work is not hot. */
function watchOf(
  hazards: readonly string[],
  seats: readonly Seat[],
  { fireWatchKinds, fireWatchSkills }: Pick<YardFacts, 'fireWatchKinds' | 'fireWatchSkills'>,
): MorningWatch | null {
  if (!hazards.includes('hot-work')) return null;
  return {
    seats: seats.flatMap(({ skillId, cardKindIds }, i) =>
      fireWatchSkills.has(skillId) || cardKindIds.some((id) => fireWatchKinds.has(id)) ? [i] : [],
    ),
  };
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
    learns:
      best === 1 &&
      !rules.book.isSetAside('learner-alone', {
        ...span,
        taskId,
        skillId: null,
        level: 0,
        volunteerId: hand.id,
      }),
    worksAlone: best >= 2,
    mayWatch: holds(hand, rules.book.factsOf(turnout.id).fireWatchKinds, turnout.heldOn),
  };
}
