import {
  type Case,
  type CrewHand,
  crewHands,
  type Finding,
  type Hand,
  mayDo,
  mayDoOnTheDay,
} from '@ribband/crew';
import { refuse, type RefusalCode } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { overlap } from '../turnouts/relay-out.js';
import { jobsOf, type TaskJob } from './task-jobs.js';

/** Somebody's seat, as far as the gates look at it. */
export interface SeatedAt {
  turnoutId: string;
  taskId: string;
  skillId: string | null;
  level: number;
  volunteerId: string | null;
  startsAt: number;
  endsAt: number;
}

/**
 * Everything that the gates ask for, read once for a handful of turnouts: who the people are, what the work is, and
 * who else is there.
 */
export class GateBook {
  private constructor(
    private readonly hands: ReadonlyMap<string, CrewHand>,
    private readonly jobs: ReadonlyMap<string, TaskJob>,
    /** Local day of each turnout. */
    private readonly days: ReadonlyMap<string, string>,
  ) {}

  static async read(
    manager: EntityManager,
    organisationId: string,
    wanted: { volunteerIds: Iterable<string>; taskIds: Iterable<string>; days: ReadonlyMap<string, string> },
  ): Promise<GateBook> {
    const hands = await crewHands(manager, organisationId, [...new Set(wanted.volunteerIds)]);
    const jobs = await jobsOf(manager, organisationId, [...new Set(wanted.taskIds)]);
    return new GateBook(new Map(hands.map((hand) => [hand.id, hand])), jobs, wanted.days);
  }

  hand(volunteerId: string): CrewHand | undefined {
    return this.hands.get(volunteerId);
  }

  job(taskId: string): TaskJob | undefined {
    return this.jobs.get(taskId);
  }

  /**
   * What closes for somebody on a seat.
   * @param others everybody who is posted to or has taken a place at the same turnout
   */
  findings(volunteerId: string, seat: SeatedAt, others: readonly SeatedAt[]): Finding[] {
    const given = this.caseOf(volunteerId, seat, others);
    return given ? mayDo(given).findings : [];
  }

  /** As `findings`, without looking at who else is there: what can be known before the others are. */
  ownFindings(volunteerId: string, seat: SeatedAt): Finding[] {
    const given = this.caseOf(volunteerId, seat, []);
    return given ? mayDoOnTheDay({ ...given, on: given.occasion.on }).findings : [];
  }

  private caseOf(volunteerId: string, seat: SeatedAt, others: readonly SeatedAt[]): Case | null {
    const hand = this.hands.get(volunteerId);
    const job = this.jobs.get(seat.taskId);
    const on = this.days.get(seat.turnoutId);
    if (!hand || !job || on === undefined) return null;
    const there = others.filter(
      (other) =>
        other.turnoutId === seat.turnoutId && other.volunteerId !== null && other.volunteerId !== volunteerId,
    );
    const alongside = there.filter((other) => other.taskId === seat.taskId && overlap(other, seat));
    return {
      hand,
      job: job.job,
      seat: job.seatFor(seat.skillId, seat.level),
      occasion: { on, alongside: this.named(alongside), atTurnout: this.named(there) },
    };
  }

  private named(seats: readonly SeatedAt[]): Hand[] {
    const ids = new Set(seats.flatMap((seat) => seat.volunteerId ?? []));
    return [...ids].flatMap((id) => this.hands.get(id) ?? []);
  }
}

/** The refusal that a finding is to somebody who wants a place. */
function codeOf(finding: Finding, hand: CrewHand): RefusalCode {
  switch (finding.rule) {
    case 'skill':
      return 'SKILL_MISSING';
    case 'card':
    case 'card-lapses-soon':
      return hand.cards.length > 0 && finding.words.includes('lapsed') ? 'CARD_EXPIRED' : 'CARD_MISSING';
    case 'age-unknown':
    case 'least-age':
    case 'age-for-hazard':
    case 'teardown':
    case 'visits-only':
      return 'TOO_YOUNG';
    case 'kept-in-sight':
    case 'adult-alongside':
    case 'two-adults':
    case 'learner-alone':
      return 'NEEDS_SUPERVISOR';
  }
}

/** Refuses with the first gate that is closed and names the others. Does nothing when all are open. */
export function refuseClosed(findings: readonly Finding[], hand: CrewHand): void {
  const [first, ...more] = findings.filter((finding) => finding.weight === 'stop');
  if (!first) return;
  refuse(codeOf(first, hand), first.words, {
    ...(first.remedy === null ? {} : { remedy: first.remedy }),
    facts: [
      { name: 'basis', value: first.basis },
      ...more.map((finding) => ({ name: finding.rule, value: finding.words })),
    ],
  });
}
