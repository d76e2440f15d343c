import { Field, ObjectType } from '@nestjs/graphql';
import { Task } from './task.entity.js';

@ObjectType({ description: 'The task as the change left it.' })
export class TaskPayload {
  @Field(() => Task, { description: 'The task.' })
  task!: Task;
}

export const taskPayload = (task: Task): TaskPayload => Object.assign(new TaskPayload(), { task });
