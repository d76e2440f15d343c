import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { Connection, type ConnectionOf, Database, PageArgs, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ArgsType, Context, Field, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { boardLoader, forgetRead } from '../repair.loaders.js';
import { listTasks, tasksById } from './task-list.js';
import { AddTaskInput, changesOf, draftFrom, EditTaskInput, seatDraftOf, SeatInput } from './task.inputs.js';
import { TaskPayload, taskPayload } from './task.payload.js';
import { TaskStateEnum, type TaskState } from './task-words.js';
import { Task } from './task.entity.js';
import { Tasks } from './tasks.service.js';
import { YardBoard } from './yard-board.js';

const TaskConnection = Connection('Task', () => Task);

const AddTaskResult = refusable('AddTaskResult', () => TaskPayload);
const EditTaskResult = refusable('EditTaskResult', () => TaskPayload);
const DropTaskResult = refusable('DropTaskResult', () => TaskPayload);
const SetSeatsResult = refusable('SetSeatsResult', () => TaskPayload);

@ArgsType()
export class TasksArgs extends PageArgs {
  @Field(() => String, { nullable: true, description: 'Only those whose position contains this.' })
  position?: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'Only those whose title and position together contain all of these words.',
  })
  words?: string | null;

  @Field(() => TaskStateEnum, { nullable: true, description: 'Only those that stand so.' })
  state?: TaskState | null;
}

@Resolver(() => Task)
export class TasksResolver {
  constructor(
    @Inject(Tasks) private readonly changes: Tasks,
    @Inject(Database) private readonly database: Database,
    @Inject(YardBoard) private readonly board: YardBoard,
  ) {}

  @AllowSignedIn()
  @Query(() => TaskConnection, { description: 'What is to be done, in the order in which it was entered.' })
  async tasks(
    @CurrentCaller() caller: Caller,
    @Args() args: TasksArgs,
    @Context() context: RequestContext,
  ): Promise<ConnectionOf<Task>> {
    const board = await boardLoader(context, this.database.read, this.board).load(caller.organisationId);
    return listTasks(board, args, args);
  }

  @AllowSignedIn()
  @Query(() => Task, { nullable: true, description: 'One task; null when there is none.' })
  async task(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
    @Context() context: RequestContext,
  ): Promise<Task | null> {
    const board = await boardLoader(context, this.database.read, this.board).load(caller.organisationId);
    return tasksById(board, [id], caller)[0] ?? null;
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => AddTaskResult, { description: 'Adds a task; links are added after it.' })
  async addTask(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'The task.' }) input: AddTaskInput,
    @Context() context: RequestContext,
  ): Promise<TaskPayload> {
    forgetRead(context);
    return taskPayload(await this.changes.add(caller, draftFrom(input)));
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => EditTaskResult, { description: 'Changes a task.' })
  async editTask(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
    @Args('version', { type: () => Int, description: 'The version that was read.' }) version: number,
    @Args('input', { description: 'What changes.' }) input: EditTaskInput,
    @Context() context: RequestContext,
  ): Promise<TaskPayload> {
    forgetRead(context);
    return taskPayload(await this.changes.edit(caller, id, version, changesOf(input)));
  }

  @Allow('director', 'shipwright')
  @Mutation(() => DropTaskResult, {
    description:
      'Takes a task out of the scope; its record stays. A say-so is taken out by the shipwright only, with a reason of some length.',
  })
  async dropTask(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Its id.' }) id: string,
    @Args('version', { type: () => Int, description: 'The version that was read.' }) version: number,
    @Args('reason', { type: () => String, description: 'Why, in words.' }) reason: string,
    @Context() context: RequestContext,
  ): Promise<TaskPayload> {
    forgetRead(context);
    return taskPayload(await this.changes.drop(caller, id, version, reason));
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => SetSeatsResult, { description: 'Says anew which skills a task asks for.' })
  async setSeats(
    @CurrentCaller() caller: Caller,
    @Args('taskId', { type: () => ID, description: 'Which task.' }) taskId: string,
    @Args('version', { type: () => Int, description: 'Its version that was read.' }) version: number,
    @Args('seats', { type: () => [SeatInput], description: 'The whole new set; at most 20.' })
    seats: SeatInput[],
    @Context() context: RequestContext,
  ): Promise<TaskPayload> {
    forgetRead(context);
    return taskPayload(await this.changes.setSeats(caller, taskId, version, seats.map(seatDraftOf)));
  }
}
