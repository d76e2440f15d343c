import { DateTime, JSONDocument } from '@ribband/platform';
import { Field, Float, InputType, Int, ObjectType } from '@nestjs/graphql';
import { ScopeType } from '../survey/survey.types.js';

@ObjectType('Methods', {
  description: 'How work on the hull is done at this yard, and how it fits into the yard’s own list.',
})
export class MethodsType {
  @Field(() => Int, { description: 'Raised by every change; changes carry the one that was read.' })
  version!: number;

  @Field(() => JSONDocument, { description: 'Rates and methods with their steps, as in the yard document.' })
  methods!: unknown;

  @Field(() => String, { description: 'Who changed it last.' })
  changedBy!: string;

  @Field(() => DateTime, { description: 'When.' })
  changedAt!: number;
}

@InputType({
  description:
    'New outline, survey or methods, each with the version that was read. What is absent stays as it is.',
})
export class WorkChangeInput {
  @Field(() => JSONDocument, { nullable: true, description: 'The outline, whole.' })
  outline?: unknown;

  @Field(() => Int, { nullable: true, description: 'Version of the outline; null when there was none.' })
  outlineVersion?: number | null;

  @Field(() => JSONDocument, { nullable: true, description: 'Causes, findings and choices, whole.' })
  survey?: unknown;

  @Field(() => Int, { nullable: true, description: 'Version of the survey; null when there was none.' })
  surveyVersion?: number | null;

  @Field(() => JSONDocument, { nullable: true, description: 'The methods, whole.' })
  methods?: unknown;

  @Field(() => Int, { nullable: true, description: 'Version of the methods; null when there were none.' })
  methodsVersion?: number | null;

  @Field(() => String, { nullable: true, description: 'Why; wanted where methods change.' })
  reason?: string | null;
}

@ObjectType({ description: 'A task that a change would touch.' })
export class TaskTouched {
  @Field(() => String, { description: 'Its name for ever: the element’s key and the step’s.' })
  ref!: string;

  @Field(() => String, { description: 'What is to be done.' })
  title!: string;

  @Field(() => [String], {
    description: 'What of it would change, in words; empty where all of it is new or goes.',
  })
  fields!: string[];
}

@ObjectType('WorkPreview', {
  description: 'What a change of outline, survey or methods would do; nothing is done yet.',
})
export class WorkPreviewType {
  @Field(() => ScopeType, { nullable: true, description: 'What would be opened; null without a survey.' })
  scope!: ScopeType | null;

  @Field(() => [TaskTouched], { description: 'Tasks that would come; at most 5000.' })
  added!: TaskTouched[];

  @Field(() => [TaskTouched], {
    description: 'Tasks that would be other than they are, keeping tallies and places; at most 5000.',
  })
  changed!: TaskTouched[];

  @Field(() => [TaskTouched], {
    description: 'Tasks that would be dropped, none erased: what was done on them stays; at most 5000.',
  })
  dropped!: TaskTouched[];

  @Field(() => Int, { description: 'Tasks that stay as they are.' })
  kept!: number;

  @Field(() => Int, { description: 'Links that would come.' })
  linksAdded!: number;

  @Field(() => Int, { description: 'Links that would go.' })
  linksDropped!: number;

  @Field(() => Float, { description: 'Likely hours of work that the methods make now.' })
  hoursBefore!: number;

  @Field(() => Float, { description: 'Likely hours of work that they would make.' })
  hoursAfter!: number;
}

@ObjectType({ description: 'The change was made, and a plan is asked for.' })
export class WorkPayload {
  @Field(() => Int, { nullable: true, description: 'Version of the outline now.' })
  outlineVersion!: number | null;

  @Field(() => Int, { nullable: true, description: 'Version of the survey now.' })
  surveyVersion!: number | null;

  @Field(() => Int, { nullable: true, description: 'Version of the methods now.' })
  methodsVersion!: number | null;
}
