import {
  type Case,
  type CrewHand,
  crewHands,
  type Finding,
  type GateRuleName,
  type Hand,
  mayDo,
  mayDoOnTheDay,
  type Occasion,
  type SeatOnJob,
  type Shift,
  turnoutFindings,
  workFindings,
  type YardFacts,
} from '@ribband/crew';
import { In, type EntityManager } from 'typeorm';
import { setAsideAt, type SetAsideFor } from '../overrides/overrides.records.js';
import { overlap } from '../turnouts/relay-out.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { placesDuring } from './elsewhere.js';
import { yardFactsOn } from './facts.js';
import type { PlaceEntity } from './place.entity.js';
import { monthOf, type OtherTurnouts, otherTurnouts } from './other-turnouts.js';
import { jobsOf, type TaskJob } from './task-jobs.js';

/** Somebody's seat, as far as the gates look at it. */
export interface SeatedAt {
  turnoutId: string;
  taskId: string;
  skillId: string | null;
  level: number;
  /** The card that the role asks for; nothing for none. */
  cardKindId?: string | null;
  volunteerId: string | null;
  startsAt: number;
  endsAt: number;
}

interface TurnoutOfBook {
  on: string;
  /** Null for a turnout that is not on record. */
  endsAt: number | null;
  isWatch: boolean;
  yard: YardFacts;
  asked: 'ahead' | 'on the day';
  /** Who is there, whether or not they have a place; nobody while that is not known. */
  present: readonly string[];
}

/** Turnouts that go on, each with who has signed in; null where nobody keeps a roll. */
export type UnderWay = ReadonlyMap<string, readonly string[] | null>;

/**
 * Everything that the gates ask for, read once for a handful of turnouts: who the people are, what the work is, and
 * who else is there.
 */
export class GateBook {
  private constructor(
    private readonly hands: ReadonlyMap<string, CrewHand>,
    private readonly jobs: ReadonlyMap<string, TaskJob>,
    private readonly turnouts: ReadonlyMap<string, TurnoutOfBook>,
    /** What people do at other turnouts nearby. */
    private readonly elsewhere: readonly SeatedAt[],
    /** Of those who come only so often a month, where else they have places. */
    private readonly months: OtherTurnouts,
    private readonly setAside: SetAsideFor,
  ) {}

  /** @param underWay turnouts that are asked as on the day itself: what could be put right until then is a stop */
  static async read(
    manager: EntityManager,
    organisationId: string,
    wanted: { volunteerIds: Iterable<string>; taskIds: Iterable<string>; days: ReadonlyMap<string, string> },
    underWay: UnderWay = new Map(),
  ): Promise<GateBook> {
    const present = [...underWay.values()].flatMap((ids) => ids ?? []);
    const volunteerIds = [...new Set([...wanted.volunteerIds, ...present])];
    const hands = await crewHands(manager, organisationId, volunteerIds);
    const months = await otherTurnouts(manager, organisationId, hands, wanted.days);
    const rows = await manager.findBy(TurnoutEntity, { organisationId, id: In([...wanted.days.keys()]) });
    const elsewhere = await placesAround(manager, organisationId, volunteerIds, rows);
    const taskIds = [...wanted.taskIds, ...elsewhere.map((place) => place.taskId)];
    const jobs = await jobsOf(manager, organisationId, [...new Set(taskIds)]);
    const facts = await yardFactsOn(manager, organisationId, [...new Set(wanted.days.values())]);
    const byId = new Map(rows.map((row) => [row.id, row]));
    const turnouts = new Map(
      [...wanted.days].map(([id, on]): [string, TurnoutOfBook] => [
        id,
        {
          on,
          endsAt: byId.get(id)?.endsAt ?? null,
          isWatch: byId.get(id)?.kind === 'watch',
          ...(underWay.has(id)
            ? onTheDay(facts(on), underWay.get(id) ?? null)
            : { yard: facts(on), asked: 'ahead', present: [] }),
        },
      ]),
    );
    return new GateBook(
      new Map(hands.map((hand) => [hand.id, hand])),
      jobs,
      turnouts,
      elsewhere,
      months,
      await setAsideAt(manager, organisationId, [...wanted.days.keys()]),
    );
  }

  hand(volunteerId: string): CrewHand | undefined {
    return this.hands.get(volunteerId);
  }

  job(taskId: string): TaskJob | undefined {
    return this.jobs.get(taskId);
  }

  /** How things stand at the yard on the day of a turnout that was read. */
  factsOf(turnoutId: string): YardFacts {
    const turnout = this.turnouts.get(turnoutId);
    if (!turnout) throw new Error(`The book was not read for the turnout ${turnoutId}`);
    return turnout.yard;
  }

  /**
   * What closes for somebody on a seat.
   * @param others everybody who is posted to or has taken a place at the same turnout; once it is under way and a roll
   *   is kept, only who has signed in is company
   */
  findings(volunteerId: string, seat: SeatedAt, others: readonly SeatedAt[]): Finding[] {
    const given = this.caseOf(volunteerId, seat, others);
    return given ? mayDo(given).findings : [];
  }

  /** As `findings`, without looking at who else is there: what can be known before the others are. */
  ownFindings(volunteerId: string, seat: SeatedAt): Finding[] {
    const given = this.caseOf(volunteerId, seat, []);
    if (!given) return [];
    const { on, isWatch = false, yard, setAside } = given.occasion;
    return mayDoOnTheDay({ ...given, on, isWatch, yard, setAside }).findings;
  }

  /** What closes work at a turnout whoever would be on it. */
  workFindings(seat: Pick<SeatedAt, 'turnoutId' | 'taskId' | 'startsAt' | 'endsAt'>): Finding[] {
    const job = this.jobs.get(seat.taskId)?.job;
    const occasion = this.occasionOf(seat);
    return job && occasion ? workFindings({ job, occasion }) : [];
  }

  /** What closes a turnout for exactly those people, whatever they would do. */
  turnoutFindings(
    span: Pick<SeatedAt, 'turnoutId' | 'startsAt' | 'endsAt'>,
    ids: readonly string[],
  ): Finding[] {
    const occasion = this.occasionOf(span);
    return occasion ? turnoutFindings(this.handsOf(ids), occasion) : [];
  }

  /** Whether a named authority has set a rule aside for somebody on a seat. */
  isSetAside(rule: GateRuleName, seat: SeatedAt & { volunteerId: string }): boolean {
    return this.setAside(seat).some((one) => one.rule === rule);
  }

  private caseOf(volunteerId: string, seat: SeatedAt, others: readonly SeatedAt[]): Case | null {
    const hand = this.hands.get(volunteerId);
    const job = this.jobs.get(seat.taskId);
    const turnout = this.turnouts.get(seat.turnoutId);
    const occasion = this.occasionOf(seat);
    if (!hand || !job || !turnout || !occasion) return null;
    // Where a roll is kept, who has not signed in is no company, whatever they are posted to.
    const signedIn = turnout.yard.checkedIn;
    const there = others.filter(
      (other) =>
        other.turnoutId === seat.turnoutId &&
        other.volunteerId !== null &&
        other.volunteerId !== volunteerId &&
        (signedIn?.has(other.volunteerId) ?? true),
    );
    const alongside = there.filter((other) => other.taskId === seat.taskId && overlap(other, seat));
    const isOwn = (other: SeatedAt) => other.volunteerId === volunteerId && !overlap(other, seat);
    return {
      hand,
      job: job.job,
      seat: job.seatFor(seat.skillId, seat.level, seat.cardKindId),
      occasion: {
        ...occasion,
        alongside: this.named(alongside).map((other) => ({
          hand: other,
          seat: this.seatOf(other.id, alongside, job),
        })),
        atTurnout: this.handsOf([
          ...there.flatMap((other) => other.volunteerId ?? []),
          ...turnout.present.filter((id) => id !== volunteerId),
        ]),
        turnoutsThatMonth: this.turnoutsThatMonth(volunteerId, seat, others),
        shifts: [
          ...others.filter(isOwn),
          ...this.elsewhere.filter((other) => isOwn(other) && !this.turnouts.has(other.turnoutId)),
        ].map((other) => this.shiftOf(other)),
        setAside: this.setAside({ ...seat, volunteerId }),
      },
    };
  }

  /** A turnout without anybody at it. */
  private occasionOf({
    turnoutId,
    startsAt,
    endsAt,
  }: Pick<SeatedAt, 'turnoutId' | 'startsAt' | 'endsAt'>): Occasion | null {
    const turnout = this.turnouts.get(turnoutId);
    if (!turnout) return null;
    const { on, asked, yard, isWatch } = turnout;
    return {
      ...{ on, startsAt, endsAt, asked, yard, isWatch },
      turnoutEndsAt: turnout.endsAt ?? endsAt,
      alongside: [],
      atTurnout: [],
      shifts: [],
      setAside: [],
    };
  }

  /** At how many other turnouts of the seat's month somebody has a place, those of the others given included. */
  private turnoutsThatMonth(volunteerId: string, seat: SeatedAt, others: readonly SeatedAt[]): number {
    const month = (turnoutId: string) => monthOf(this.turnouts.get(turnoutId)?.on ?? '');
    const own = month(seat.turnoutId);
    const ids = new Set(this.months.get(`${volunteerId} ${own}`));
    for (const other of others)
      if (
        other.volunteerId === volunteerId &&
        other.turnoutId !== seat.turnoutId &&
        month(other.turnoutId) === own
      )
        ids.add(other.turnoutId);
    return ids.size;
  }

  private seatOf(volunteerId: string, seats: readonly SeatedAt[], job: TaskJob): SeatOnJob {
    const seat = seats.find((one) => one.volunteerId === volunteerId);
    return job.seatFor(seat?.skillId ?? null, seat?.level ?? 0, seat?.cardKindId);
  }

  private shiftOf({ taskId, startsAt, endsAt }: SeatedAt): Shift {
    const job = this.jobs.get(taskId)?.job;
    return {
      startsAt,
      endsAt,
      isMachine: job?.hazards.includes('machine') ?? false,
      noiseDba: job?.noiseDba ?? null,
    };
  }

  private named(seats: readonly SeatedAt[]): Hand[] {
    return this.handsOf(seats.flatMap((seat) => seat.volunteerId ?? []));
  }

  private handsOf(ids: readonly string[]): Hand[] {
    return [...new Set(ids)].flatMap((id) => this.hands.get(id) ?? []);
  }
}

/** A turnout that goes on: who has signed in is there, and nobody else works. */
function onTheDay(
  yard: YardFacts,
  signedIn: readonly string[] | null,
): Pick<TurnoutOfBook, 'yard' | 'asked' | 'present'> {
  const checkedIn = signedIn === null ? null : new Set(signedIn);
  return { yard: { ...yard, checkedIn }, asked: 'on the day', present: signedIn ?? [] };
}

/** How far around a turnout hours and rest are looked at: a shift, the rest after it, and the next. */
const around = 36 * 3_600_000;

/** The places that people have within a day and a half of some turnouts. */
async function placesAround(
  manager: EntityManager,
  organisationId: string,
  volunteerIds: readonly string[],
  turnouts: readonly Pick<TurnoutEntity, 'startsAt' | 'endsAt'>[],
): Promise<PlaceEntity[]> {
  if (turnouts.length === 0 || volunteerIds.length === 0) return [];
  const from = Math.min(...turnouts.map((turnout) => turnout.startsAt)) - around;
  const to = Math.max(...turnouts.map((turnout) => turnout.endsAt)) + around;
  return placesDuring(manager, organisationId, volunteerIds, { startsAt: from, endsAt: to });
}
