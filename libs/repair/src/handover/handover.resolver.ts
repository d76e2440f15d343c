import { Allow, CurrentCaller, type Caller } from '@ribband/access';
import { DateTime } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Field, ID, Int, ObjectType, Query, Resolver } from '@nestjs/graphql';
import { Piece } from '../pieces/piece.entity.js';
import { StoryLineType } from '../pieces/piece.types.js';
import { NewHoles, TrayBalanceType } from '../trays/tray.types.js';
import { Handover } from './handover.service.js';

@ObjectType('TimberHistory', {
  description: 'What was done to one timber, for whoever opens her next. Volunteers are not named in it.',
})
export class TimberHistoryType {
  @Field(() => ID, { description: 'Key of the hull’s element.' })
  key!: string;

  @Field(() => String, { description: 'Which timber, in words.' })
  name!: string;

  @Field(() => [String], { description: 'What the survey found, as sentences; at most 100.' })
  found!: string[];

  @Field(() => [String], { description: 'By which methods it was repaired; at most 20.' })
  methods!: string[];

  @Field(() => [StoryLineType], {
    description: 'What was done and who passed it, oldest first; at most 500.',
  })
  story!: StoryLineType[];

  @Field(() => Int, { description: 'Person-minutes of all hands together.' })
  minutes!: number;

  @Field(() => TrayBalanceType, {
    nullable: true,
    description: 'What became of its fastenings; null without a tray.',
  })
  fastenings!: TrayBalanceType | null;

  @Field(() => NewHoles, {
    nullable: true,
    description: 'Holes that the repair makes in kept timber; null without a tray.',
  })
  newHoles!: NewHoles | null;

  @Field(() => DateTime, { nullable: true, description: 'When it was opened; null where it was not.' })
  openedAt!: number | null;

  @Field(() => DateTime, { nullable: true, description: 'When it was shut again; null while it is not.' })
  shutAt!: number | null;

  @Field(() => [Piece], { description: 'Its pieces, with their stories and pictures; at most 100.' })
  pieces!: Piece[];
}

@Resolver(() => TimberHistoryType)
export class HandoverResolver {
  constructor(@Inject(Handover) private readonly handover_: Handover) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => [TimberHistoryType], {
    description: 'The history of each timber that the repair touched, for the next crew; at most 500.',
  })
  handover(@CurrentCaller() caller: Caller): Promise<TimberHistoryType[]> {
    return this.handover_.all(caller);
  }
}
