import { type Refusal, RefusalError } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { TaskOpening } from '../tasks/task-opening.entity.js';
import { HullDay } from './hull-today.js';
import { stopsFor, type WorkStart } from './opening-stops.js';

/** Asked before work that opens or closes the hull is posted, taken or passed. */
@Injectable()
export class OpeningGate {
  constructor(@Inject(HullDay) private readonly days: HullDay) {}

  /** Why each of some pieces of work must wait, in the order of the pieces. */
  async stops(
    manager: EntityManager,
    organisationId: string,
    works: readonly WorkStart[],
  ): Promise<Refusal[][]> {
    const taskIds = [...new Set(works.map((work) => work.taskId))];
    const touching = await manager.findBy(TaskOpening, { organisationId, taskId: In(taskIds) });
    if (touching.length === 0) return works.map(() => []);
    const today = await this.days.of(manager, organisationId);
    return works.map((work) => stopsFor(today, work));
  }

  /** Refuses with the first reason why a piece of work must wait and names the others. */
  async refuseStopped(manager: EntityManager, organisationId: string, work: WorkStart): Promise<void> {
    const [stops] = await this.stops(manager, organisationId, [work]);
    const [first, ...more] = stops ?? [];
    if (!first) return;
    first.facts.push(...more.map((stop) => ({ name: 'also', value: stop.message })));
    throw new RefusalError(first);
  }
}
