import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Field, ID, Mutation, ObjectType, Resolver } from '@nestjs/graphql';
import { CardKind } from '../cards/card-kind.entity.js';
import { Skill } from '../skills/skill.entity.js';
import { type CardPurpose, CardPurposeEnum, type SkillPurpose, SkillPurposeEnum } from './purposes.js';
import { Purposes } from './purposes.service.js';

@ObjectType({ description: 'The kind of card as it is now.' })
class CardKindPayload {
  @Field(() => CardKind, { description: 'The kind.' })
  cardKind!: CardKind;
}

@ObjectType({ description: 'The skill as it is now.' })
class SkillPayload {
  @Field(() => Skill, { description: 'The skill.' })
  skill!: Skill;
}

const SetCardPurposeResult = refusable('SetCardPurposeResult', () => CardKindPayload);
const SetSkillPurposeResult = refusable('SetSkillPurposeResult', () => SkillPayload);

@Resolver()
export class PurposesResolver {
  constructor(@Inject(Purposes) private readonly purposes: Purposes) {}

  @Allow('director')
  @Mutation(() => SetCardPurposeResult, { description: 'Says what a kind of card is taken for.' })
  async setCardPurpose(
    @CurrentCaller() caller: Caller,
    @Args('kindId', { type: () => ID, description: 'Which kind.' }) kindId: string,
    @Args('reason', { type: () => String, description: 'Why; 10 to 500 characters.' }) reason: string,
    @Args('purpose', {
      type: () => CardPurposeEnum,
      nullable: true,
      description: 'For what; leave it out for nothing that the gates go by.',
    })
    purpose: CardPurpose | null = null,
  ): Promise<CardKindPayload> {
    const cardKind = await this.purposes.ofCard(caller, kindId, purpose, reason);
    return Object.assign(new CardKindPayload(), { cardKind });
  }

  @Allow('director')
  @Mutation(() => SetSkillPurposeResult, { description: 'Says what a skill is taken for.' })
  async setSkillPurpose(
    @CurrentCaller() caller: Caller,
    @Args('skillId', { type: () => ID, description: 'Which skill.' }) skillId: string,
    @Args('reason', { type: () => String, description: 'Why; 10 to 500 characters.' }) reason: string,
    @Args('purpose', {
      type: () => SkillPurposeEnum,
      nullable: true,
      description: 'For what; leave it out for nothing that the gates go by.',
    })
    purpose: SkillPurpose | null = null,
  ): Promise<SkillPayload> {
    return Object.assign(new SkillPayload(), {
      skill: await this.purposes.ofSkill(caller, skillId, purpose, reason),
    });
  }
}
