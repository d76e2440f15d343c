import type { RequestContext } from '@ribband/access';
import { CardKind, cardKindLoader } from '@ribband/crew';
import { DateTime, Database } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Context, Float, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { cautionsOf, allCautionsOf, hazardsOf } from '../hazards/cautions.js';
import { safetyNotice } from '../hazards/hazard-catalogue.js';
import { Caution, Hazard, hazardOf } from '../hazards/hazard.type.js';
import { HullElement } from '../openings/hull-element.entity.js';
import {
  boardLoader,
  elementLoader,
  openingsLoader,
  seatsLoader,
  taskToolsLoader,
} from '../repair.loaders.js';
import { CountEstimate, EstimateType, TimeEstimate, WorkEstimate } from './estimate.type.js';
import type { Progress } from './progress.js';
import { Seat } from './seat.entity.js';
import type { TaskOpening } from './task-opening.entity.js';
import { estimateOf } from './task-row.js';
import { TaskToolType } from './task-tool.type.js';
import { TaskStateEnum, type TaskState } from './task-words.js';
import { Task } from './task.entity.js';
import { YardBoard, type Board } from './yard-board.js';

/** What is shown of a task besides its own columns. */
@Resolver(() => Task)
export class TaskFieldsResolver {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardBoard) private readonly board: YardBoard,
  ) {}

  @ResolveField(() => TaskStateEnum, { description: 'How it stands; it follows from the records.' })
  async state(@Parent() task: Task, @Context() context: RequestContext): Promise<TaskState> {
    const board = await this.boardOf(task, context);
    return board.standing.get(task.id)?.state ?? 'waiting';
  }

  @ResolveField(() => DateTime, { nullable: true, description: 'When it began; null while it has not.' })
  async begunAt(@Parent() task: Task, @Context() context: RequestContext): Promise<number | null> {
    return (await this.boardOf(task, context)).standing.get(task.id)?.begunAt ?? null;
  }

  @ResolveField(() => DateTime, { nullable: true, description: 'When it was done; null while it is not.' })
  async doneAt(@Parent() task: Task, @Context() context: RequestContext): Promise<number | null> {
    return (await this.boardOf(task, context)).standing.get(task.id)?.doneAt ?? null;
  }

  @ResolveField(() => EstimateType, { nullable: true, description: 'How long it takes; null for a say-so.' })
  async estimate(
    @Parent() task: Task,
    @Context() context: RequestContext,
  ): Promise<CountEstimate | WorkEstimate | TimeEstimate | null> {
    const estimate = estimateOf(task);
    if (estimate?.by !== 'count') return estimate;
    const progress = await this.progressOf(task, context);
    return {
      unit: estimate.unit,
      count: estimate.count,
      countDone: progress?.countDone ?? 0,
      countLeft: progress?.countLeft ?? estimate.count,
      perPersonHour: estimate.perPersonHour,
    };
  }

  @ResolveField(() => Float, {
    nullable: true,
    description: 'Person-minutes still to do, most likely; null where the task is no work.',
  })
  async workLeftPersonMinutes(
    @Parent() task: Task,
    @Context() context: RequestContext,
  ): Promise<number | null> {
    return (await this.progressOf(task, context))?.workLeft?.likely ?? null;
  }

  @ResolveField(() => [Seat], { description: 'Seats that ask for a skill; at most 20.' })
  seats(@Parent() task: Task, @Context() context: RequestContext): Promise<Seat[]> {
    return seatsLoader(context, this.database.read).load(task.id);
  }

  @ResolveField(() => [CardKind], { description: 'Cards that everyone on it must hold; at most 20.' })
  async cards(@Parent() task: Task, @Context() context: RequestContext): Promise<CardKind[]> {
    return Promise.all(task.cardKindIds.map((id) => cardKindLoader(context, this.database.read).load(id)));
  }

  @ResolveField(() => [TaskToolType], { description: 'Tools that it holds while it runs; at most 20.' })
  tools(@Parent() task: Task, @Context() context: RequestContext): Promise<TaskToolType[]> {
    return taskToolsLoader(context, this.database.read).load(task.id);
  }

  @ResolveField(() => [HullElement], { description: 'What is open from its start; at most 200.' })
  opens(@Parent() task: Task, @Context() context: RequestContext): Promise<HullElement[]> {
    return this.elements(task, 'opens', context);
  }

  @ResolveField(() => [HullElement], { description: 'What is shut at its end; at most 200.' })
  closes(@Parent() task: Task, @Context() context: RequestContext): Promise<HullElement[]> {
    return this.elements(task, 'closes', context);
  }

  @ResolveField(() => [Hazard], {
    description: 'What can hurt someone in it, ticked or brought along by the kind of work; at most 17.',
  })
  hazards(@Parent() task: Task): Hazard[] {
    return hazardsOf(task).map(hazardOf);
  }

  @ResolveField(() => [String], {
    description:
      'Lines to read before starting: the shipwright’s own and what follows from the work; at most 30.',
  })
  async cautions(@Parent() task: Task, @Context() context: RequestContext): Promise<string[]> {
    return cautionsOf(await this.cautioned(task, context)).map((line) => line.words);
  }

  @ResolveField(() => [Caution], {
    description: 'All cautions of the task, those of its hazards as well, each with its source; at most 50.',
  })
  async cautionLines(@Parent() task: Task, @Context() context: RequestContext): Promise<Caution[]> {
    return allCautionsOf(await this.cautioned(task, context));
  }

  @ResolveField(() => String, { description: 'Who decides: shown with the cautions, always.' })
  safetyNotice(): string {
    return safetyNotice;
  }

  private boardOf(task: Task, context: RequestContext): Promise<Board> {
    return boardLoader(context, this.database.read, this.board).load(task.organisationId);
  }

  private async progressOf(task: Task, context: RequestContext): Promise<Progress | undefined> {
    return (await this.boardOf(task, context)).progress.get(task.id);
  }

  private async elements(
    task: Task,
    does: TaskOpening['does'],
    context: RequestContext,
  ): Promise<HullElement[]> {
    const openings = await openingsLoader(context, this.database.read).load(task.id);
    const ids = openings.filter((one) => one.does === does).map((one) => one.elementId);
    return Promise.all(ids.map((id) => elementLoader(context, this.database.read).load(id)));
  }

  private async cautioned(task: Task, context: RequestContext) {
    const openings = await openingsLoader(context, this.database.read).load(task.id);
    return { ...cautionedOf(task), opens: openings.filter((one) => one.does === 'opens').length };
  }
}

/** A task as the cautions look at it, but for what it opens. */
const cautionedOf = (task: Task) => ({
  title: task.title,
  kind: task.kind,
  hazards: task.hazards,
  cautions: task.ownCautions,
  crewMin: task.crewMin,
});
