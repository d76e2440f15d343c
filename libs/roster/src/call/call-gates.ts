import { carriersFor, type Finding, mostCarriers, openingFindings } from '@ribband/crew';
import { OpeningGate, Seat } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { overridesAt } from '../overrides/overrides.records.js';
import type { StopOverride } from '../overrides/stop-override.entity.js';
import { GateBook, type SeatedAt } from '../places/gate-book.js';
import type { TaskJob } from '../places/task-jobs.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import {
  type CalledSeat,
  type LeastCrew,
  type SeatRules,
  settleSeats,
  type SettledSeats,
} from './called-seats.js';

/** Everything that is asked of a called roster, read at one moment. */
export interface CallRules extends SeatRules {
  book: GateBook;
  /** What is set aside at the turnout. */
  overrides: StopOverride[];
}

/** When work is done at the turnout. */
export type WorkSpan = Pick<SeatedAt, 'taskId' | 'startsAt' | 'endsAt'>;

/** Asks every gate, the hull and the least crews of the seats of a called turnout, as on the day itself. */
@Injectable()
export class CallGates {
  constructor(@Inject(OpeningGate) private readonly openings: OpeningGate) {}

  /** @param presentIds who is there: they have signed in, and nobody else works */
  async rules(
    manager: EntityManager,
    turnout: TurnoutEntity,
    presentIds: readonly string[],
    spans: readonly WorkSpan[],
  ): Promise<CallRules> {
    const { organisationId } = turnout;
    const ids = [...new Set(spans.map(({ taskId }) => taskId))];
    const book = await GateBook.read(
      manager,
      organisationId,
      { volunteerIds: presentIds, taskIds: ids, days: new Map([[turnout.id, turnout.heldOn]]) },
      new Map([[turnout.id, presentIds]]),
    );
    const works = ids.map((taskId) => ({ taskId, startsAt: turnout.startsAt }));
    const waits = await this.openings.stops(manager, organisationId, works);
    const overrides = await overridesAt(manager, organisationId, [turnout.id]);
    const { id: turnoutId, startsAt, endsAt } = turnout;
    const ofTurnout = book.turnoutFindings({ turnoutId, startsAt, endsAt }, presentIds);
    const stops = ids.map((taskId, i): [string, Finding[]] => {
      const findings = [
        ...openingFindings(
          (waits[i] ?? []).map(({ message, remedy }) => ({ message, remedy: remedy ?? null })),
        ),
        ...everywhere(
          spans
            .filter((span) => span.taskId === taskId)
            .map((span) => book.workFindings({ turnoutId, ...span })),
        ),
        ...ofTurnout,
      ];
      // Where a rule is set aside for somebody there, it is asked of each of them and closes the work for nobody else.
      const asked = new Set(overrides.flatMap((row) => (row.taskId === taskId ? [row.rule] : [])));
      return [taskId, findings.filter(({ rule, weight }) => weight === 'stop' && !asked.has(rule))];
    });
    const seats = await manager.findBy(Seat, { organisationId, taskId: In(ids) });
    return {
      book,
      overrides,
      stops: new Map(stops.filter(([, findings]) => findings.length > 0)),
      least: new Map(
        ids.map((id): [string, LeastCrew] => [
          id,
          {
            hands: book.job(id)?.task.crewMin ?? 1,
            carriers: carriersOf(book.job(id)),
            seats: seats.filter(({ taskId }) => taskId === id),
          },
        ]),
      ),
    };
  }

  async settle(
    manager: EntityManager,
    turnout: TurnoutEntity,
    seats: readonly CalledSeat[],
    presentIds: readonly string[],
  ): Promise<SettledSeats & { rules: CallRules }> {
    const rules = await this.rules(manager, turnout, presentIds, seats);
    return { ...settleSeats(seats, rules), rules };
  }
}

/** The findings of the first of some spans, where each of them is stopped; none where work can go on at one of them. */
const everywhere = (bySpan: readonly Finding[][]): Finding[] =>
  bySpan.every((findings) => findings.some(({ weight }) => weight === 'stop')) ? (bySpan[0] ?? []) : [];

/** How many carry the heaviest piece; 1 where gear does, or no weight is known. */
function carriersOf(job: TaskJob | undefined): number {
  const lift = job?.job.lift ?? null;
  const carriers = lift === null || lift.isHigh ? 1 : carriersFor(lift.pounds);
  return carriers > mostCarriers ? 1 : carriers;
}
