import { CardKind, Skill } from '@ribband/crew';
import { LocalDate, LocalTime } from '@ribband/platform';
import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

@ObjectType({ description: 'A role with which an all-hands day is proposed.' })
class UsualRoleModel {
  @Field(() => String, { description: 'What its holder does.' })
  role!: string;

  @Field(() => Int, { description: 'For how many.' })
  count!: number;

  @Field(() => Boolean, { description: 'Whether it asks for the skill that the work asks for.' })
  asksSkill!: boolean;

  @Field(() => CardKind, { nullable: true, description: 'The card that it asks for; null for none.' })
  card!: CardKind | null;
}

@ObjectType({ description: 'A day that takes all hands, with the roles that it usually has.' })
export class UsualAllHands {
  @Field(() => String, { description: 'What it is called.' })
  title!: string;

  @Field(() => [UsualRoleModel], { description: 'Its roles, to be changed; at most 30.' })
  roles!: UsualRoleModel[];
}

@InputType({ description: 'A role at an all-hands day.' })
class AllHandsRoleInput {
  @Field(() => String, { description: 'What its holder does.' })
  role!: string;

  @Field(() => Int, { description: 'For how many: 1 to 20.' })
  count!: number;

  @Field(() => ID, { nullable: true, description: 'The skill that it asks for; left out for a hand.' })
  skillId?: string | null;

  @Field(() => Int, { description: 'At least at this level, 1 to 4; 0 for a hand.' })
  level!: number;

  @Field(() => ID, {
    nullable: true,
    description: 'The card that it asks for besides those of the work; left out for none.',
  })
  cardKindId?: string | null;
}

@InputType({ description: 'A day that takes all hands.' })
export class AllHandsInput {
  @Field(() => ID, { description: 'The work that is done.' })
  taskId!: string;

  @Field(() => String, { description: 'What the day is called, such as “Launch day”.' })
  title!: string;

  @Field(() => LocalDate, { description: 'The day.' })
  on!: string;

  @Field(() => LocalTime, { description: 'When it starts.' })
  startTime!: string;

  @Field(() => LocalTime, { description: 'When it ends, on the same day.' })
  endTime!: string;

  @Field(() => [AllHandsRoleInput], { description: 'The roles, 1 to 30; at most 60 places.' })
  roles!: AllHandsRoleInput[];
}

@ObjectType({ description: 'A role as an all-hands day has it.' })
export class AllHandsRole {
  @Field(() => String, { description: 'What its holder does.' })
  role!: string;

  @Field(() => Int, { description: 'For how many.' })
  count!: number;

  @Field(() => Int, { description: 'How many of them are asked or have said yes.' })
  held!: number;

  @Field(() => Skill, { nullable: true, description: 'The skill that it asks for; null for a hand.' })
  skill!: Skill | null;

  @Field(() => Int, { description: 'At least at this level; 0 for a hand.' })
  level!: number;

  @Field(() => CardKind, { nullable: true, description: 'The card that it asks for; null for none.' })
  card!: CardKind | null;
}

@InputType({ description: 'A role as an all-hands day is to have it.' })
export class AllHandsRoleChangeInput extends AllHandsRoleInput {
  @Field(() => String, {
    nullable: true,
    description: 'What it is called so far: its people keep their places. Left out for a new role.',
  })
  was?: string | null;
}

@ObjectType({ description: 'An all-hands day as it was laid on.' })
export class AllHandsPayload {
  @Field(() => TurnoutEntity, { description: 'The day, its places open.' })
  turnout!: TurnoutEntity;
}
