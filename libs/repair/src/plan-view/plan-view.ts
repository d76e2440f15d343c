import { Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';

/** When a task begins and ends by the plan, in epoch milliseconds. */
export interface PlannedSpan {
  startsAt: number;
  endsAt: number;
  /** Whether she is ready later when this is. */
  isOnLaunchChain?: boolean;
}

/** By task id. What the plan leaves out is not in it. */
export type PlannedSpans = ReadonlyMap<string, PlannedSpan>;

/** What this room asks of the plan in force, which a room above keeps. */
export type PlanSource = (manager: EntityManager, organisationId: string) => Promise<PlannedSpans>;

/** The way up to the plan, which connects itself when it starts. Where no room plans there is no plan yet. */
@Injectable()
export class PlanView {
  private source: PlanSource = () => Promise.resolve(new Map());
  private isConnected = false;

  connect(source: PlanSource): void {
    if (this.isConnected) throw new Error('Two rooms say that they keep the plan');
    this.source = source;
    this.isConnected = true;
  }

  /** Empty before the first plan. */
  spans(manager: EntityManager, organisationId: string): Promise<PlannedSpans> {
    return this.source(manager, organisationId);
  }
}
