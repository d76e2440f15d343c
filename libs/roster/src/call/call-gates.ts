import { OpeningGate, Seat } from '@ribband/repair';
import type { Refusal } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { GateBook } from '../places/gate-book.js';
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
}

/** Asks every gate, the hull and the least crews of the seats of a called turnout. */
@Injectable()
export class CallGates {
  constructor(@Inject(OpeningGate) private readonly openings: OpeningGate) {}

  async rules(
    manager: EntityManager,
    turnout: TurnoutEntity,
    volunteerIds: readonly string[],
    taskIds: readonly string[],
  ): Promise<CallRules> {
    const { organisationId } = turnout;
    const ids = [...new Set(taskIds)];
    const book = await GateBook.read(manager, organisationId, {
      volunteerIds,
      taskIds: ids,
      days: new Map([[turnout.id, turnout.heldOn]]),
    });
    const works = ids.map((taskId) => ({ taskId, startsAt: turnout.startsAt }));
    const stops = await this.openings.stops(manager, organisationId, works);
    const seats = await manager.findBy(Seat, { organisationId, taskId: In(ids) });
    return {
      book,
      stops: new Map(
        ids.flatMap((id, i): [string, Refusal[]][] => (stops[i]?.length ? [[id, stops[i]]] : [])),
      ),
      least: new Map(
        ids.map((id): [string, LeastCrew] => [
          id,
          {
            hands: book.job(id)?.task.crewMin ?? 1,
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
    volunteerIds: readonly string[],
  ): Promise<SettledSeats & { rules: CallRules }> {
    const rules = await this.rules(
      manager,
      turnout,
      volunteerIds,
      seats.map(({ taskId }) => taskId),
    );
    return { ...settleSeats(seats, rules), rules };
  }
}
