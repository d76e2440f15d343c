import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import type { Care } from '@ribband/hull';
import { refusable } from '@ribband/platform';
import { CareEnum, CareSideBySide } from '@ribband/repair';
import { Inject } from '@nestjs/common';
import { Field, Float, Int, Mutation, ObjectType, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { oddsWords } from '../words/odds-words.js';
import type { CareOddsEntity } from './care-odds.entity.js';
import { CareOddsDesk } from './care-odds.service.js';

@ObjectType({ description: 'How likely the gate is made at a level of care, by the plan in force.' })
export class CareOdds {
  @Field(() => CareEnum, { description: 'Which level.' })
  care!: Care;

  @Field(() => Boolean, { description: 'Whether it is still being worked out.' })
  isWaiting!: boolean;

  @Field(() => Float, { nullable: true, description: 'Odds of the gate, 0 to 1; null until they are known.' })
  gateOdds!: number | null;

  @Field(() => String, { description: 'The odds as one says them, or why there are none.' })
  words!: string;
}

@ObjectType({ description: 'The odds are being worked out.' })
export class CareOddsPayload {
  @Field(() => Int, { description: 'How many levels were asked for; 0 where all are known or asked for.' })
  asked!: number;
}

const CareOddsAsked = refusable('AskCareOddsResult', () => CareOddsPayload);

/** The odds of the gate beside the hours of each level of care. */
@Resolver(() => CareSideBySide)
export class CareOddsResolver {
  constructor(@Inject(CareOddsDesk) private readonly desk: CareOddsDesk) {}

  @ResolveField(() => [CareOdds], {
    description: 'What is known of the odds by the plan in force; empty before somebody asked.',
  })
  async odds(
    @Parent() { fastening }: CareSideBySide,
    @CurrentCaller() { organisationId }: Caller,
  ): Promise<CareOdds[]> {
    const rows = await this.desk.known(organisationId);
    return rows.filter((row) => row.fastening === fastening).map(modelOf);
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Mutation(() => CareOddsAsked, {
    description: 'Has the odds of the gate worked out for each level of care that can be chosen now.',
  })
  async askCareOdds(@CurrentCaller() caller: Caller): Promise<CareOddsPayload> {
    return Object.assign(new CareOddsPayload(), { asked: await this.desk.ask(caller) });
  }
}

function modelOf({ care, state, gate, message }: CareOddsEntity): CareOdds {
  const words = gate ? oddsWords(gate.odds) : (message ?? 'Being worked out');
  return { care, isWaiting: state === 'waiting', gateOdds: gate?.odds ?? null, words };
}
