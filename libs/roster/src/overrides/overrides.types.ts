import type { GateRuleName } from '@ribband/crew';
import { Field, ID, InputType, ObjectType } from '@nestjs/graphql';
import { GateRule } from './gate-rule.js';
import { StopOverride } from './stop-override.entity.js';

@ObjectType({ description: 'What stops somebody on a task at a turnout.' })
export class FoundStopType {
  @Field(() => GateRule, { description: 'By which rule.' })
  rule!: GateRuleName;

  @Field(() => String, { description: 'In words.' })
  words!: string;

  @Field(() => String, { nullable: true, description: 'What would open the gate.' })
  remedy!: string | null;

  @Field(() => String, { description: 'Who may set it aside, in words.' })
  setAsideBy!: string;

  @Field(() => Boolean, { description: 'Whether you may.' })
  mayOverride!: boolean;
}

@InputType({ description: 'A stop to be set aside.' })
export class OverrideStopInput {
  @Field(() => ID, { description: 'At which turnout.' })
  turnoutId!: string;

  @Field(() => ID, { description: 'On which task.' })
  taskId!: string;

  @Field(() => ID, { description: 'For whom; never for yourself.' })
  volunteerId!: string;

  @Field(() => GateRule, { description: 'Which rule.' })
  rule!: GateRuleName;

  @Field(() => String, { description: 'Why it may be, and what is done instead; 10 to 500 characters.' })
  reason!: string;
}

@ObjectType({ description: 'The override as it is on record.' })
export class StopOverridePayload {
  @Field(() => StopOverride, { description: 'The override.' })
  override!: StopOverride;
}
