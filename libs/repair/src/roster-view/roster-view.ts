import { Inject, Injectable } from '@nestjs/common';
import { YardClock } from '@ribband/platform';
import type { EntityManager } from 'typeorm';

export interface TurnoutSpan {
  id: string;
  /** Local day. */
  on: string;
  /** Epoch milliseconds. */
  startsAt: number;
  endsAt: number;
}

/** What this room has to know about turnouts and places, which a room above keeps. */
export interface RosterSource {
  /** All turnouts of the organisation that are not called off, past ones included, in order of time. */
  turnouts(manager: EntityManager, organisationId: string): Promise<TurnoutSpan[]>;
  /** Ids of tasks on which somebody has taken a place at a turnout that ends after `now`. */
  takenTasks(manager: EntityManager, organisationId: string, now: number): Promise<ReadonlySet<string>>;
}

/** The way up to the roster, which connects itself when it starts. */
@Injectable()
export class RosterView implements RosterSource {
  private source: RosterSource | null = null;

  constructor(@Inject(YardClock) private readonly clock: YardClock) {}

  connect(source: RosterSource): void {
    if (this.source) throw new Error('Two rooms say that they keep the turnouts');
    this.source = source;
  }

  turnouts(manager: EntityManager, organisationId: string): Promise<TurnoutSpan[]> {
    return this.connected.turnouts(manager, organisationId);
  }

  takenTasks(manager: EntityManager, organisationId: string, now: number): Promise<ReadonlySet<string>> {
    return this.connected.takenTasks(manager, organisationId, now);
  }

  /** Minutes of the longest turnout that is not over, or null when none is to come. */
  async longestTurnoutMinutes(manager: EntityManager, organisationId: string): Promise<number | null> {
    const now = await this.clock.now(organisationId, manager);
    const toCome = (await this.turnouts(manager, organisationId)).filter((turnout) => turnout.endsAt > now);
    return toCome.length === 0 ? null : Math.max(...toCome.map(minutesOf));
  }

  private get connected(): RosterSource {
    if (!this.source) throw new Error('No room has said that it keeps the turnouts (RosterView.connect)');
    return this.source;
  }
}

const minutesOf = (turnout: TurnoutSpan): number => (turnout.endsAt - turnout.startsAt) / 60_000;

/** The length that most turnouts have, in minutes; null when there are none. */
export function usualMinutes(turnouts: readonly TurnoutSpan[]): number | null {
  const times = new Map<number, number>();
  for (const turnout of turnouts) times.set(minutesOf(turnout), (times.get(minutesOf(turnout)) ?? 0) + 1);
  const byFrequency = [...times].sort((a, b) => b[1] - a[1] || b[0] - a[0]);
  return byFrequency.at(0)?.[0] ?? null;
}
