import { Field, Int, ObjectType } from '@nestjs/graphql';

@ObjectType({ description: 'How far somebody has come in a skill.' })
export class SkillLevel {
  skillId!: string;

  @Field(() => Int, { description: '0 none, 1 learning, 2 works alone, 3 teaches, 4 may say so.' })
  level!: number;

  @Field(() => String, {
    nullable: true,
    description: 'Name of who signed it off; null when nobody wrote it down.',
  })
  signedOffBy!: string | null;
}
