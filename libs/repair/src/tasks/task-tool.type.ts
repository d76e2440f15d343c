import { Field, Int, ObjectType } from '@nestjs/graphql';

@ObjectType('TaskTool', { description: 'A tool that a task holds while it runs.' })
export class TaskToolType {
  toolId!: string;

  @Field(() => Int, { description: 'How many of it.' })
  count!: number;
}
