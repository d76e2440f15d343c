import type { Care } from '@ribband/hull';
import { DateTime } from '@ribband/platform';
import { Field, Float, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { ThreePointType } from '../tasks/estimate.type.js';
import { TrayBalanceType } from './tray.types.js';

export const CareEnum = { SAVE_ALL: 'save all', SAVE_SOUND: 'save sound ones', RENEW: 'renew' } as const;
registerEnumType(CareEnum, {
  name: 'FasteningCare',
  description: 'How carefully fastenings are treated.',
  valuesMap: {
    SAVE_ALL: { description: 'Each is coaxed out, straightened and used again where it can be.' },
    SAVE_SOUND: { description: 'Those that come out sound are used again.' },
    RENEW: { description: 'Heads are cut, stubs punched, all are renewed.' },
  },
});

@ObjectType({ description: 'How the fastenings of one kind stand in all their trays together.' })
export class FasteningKind {
  @Field(() => String, { description: 'What they are, such as plank nails.' })
  fastening!: string;

  @Field(() => TrayBalanceType, { description: 'The sum of their trays.' })
  balance!: TrayBalanceType;

  @Field(() => Int, { description: 'How many are to be driven in all.' })
  toDrive!: number;

  @Field(() => Int, { description: 'Bought, and in no tray yet.' })
  inLots!: number;

  @Field(() => Float, { description: 'Share thought to be scrap by what was graded so far, 0 to 1.' })
  scrapShare!: number;

  @Field(() => Int, { description: 'How many will likely be wanting when no more are bought.' })
  likelyShort!: number;

  @Field(() => Int, { description: 'No more than this will be wanting in nine cases of ten.' })
  nineInTenShort!: number;

  @Field(() => [String], { description: 'What is missing or waits, as sentences; at most 100.' })
  wanting!: string[];
}

@ObjectType({ description: 'One level of care, beside the others.' })
export class CareLevel {
  @Field(() => CareEnum, { description: 'Which.' })
  care!: Care;

  @Field(() => Float, {
    description: 'Hours of pulling or cutting, grading and driving, of all hands together.',
  })
  personHours!: number;

  @Field(() => Int, { description: 'Old fastenings that go back.' })
  oldNailsKept!: number;

  @Field(() => Int, { description: 'How many have to be bought.' })
  toBuy!: number;

  @Field(() => Int, { description: 'New holes in timber that is kept.' })
  newHolesInKept!: number;

  @Field(() => ThreePointType, { description: 'How many come out in an hour for one person.' })
  perPersonHour!: ThreePointType;
}

@ObjectType({ description: 'What the shipwright chose, and why.' })
export class CareChosen {
  @Field(() => CareEnum, { description: 'Which level.' })
  care!: Care;

  @Field(() => String, { description: 'Who chose it.' })
  chosenBy!: string;

  @Field(() => String, { description: 'Why.' })
  reason!: string;

  @Field(() => DateTime, { description: 'When, by the yard’s clock.' })
  yardAt!: number;

  @Field(() => Int, { description: 'How many tasks got another rate by it.' })
  tasksChanged!: number;
}

@ObjectType({ description: 'Levels of care for the fastenings of one kind, side by side.' })
export class CareSideBySide {
  @Field(() => String, { description: 'What they are.' })
  fastening!: string;

  @Field(() => Int, { description: 'Fastenings that nobody has begun to draw: the choice is about these.' })
  count!: number;

  @Field(() => [CareLevel], { description: 'The three levels.' })
  choices!: CareLevel[];

  @Field(() => CareChosen, { nullable: true, description: 'The newest choice; null before there was one.' })
  chosen!: CareChosen | null;
}

@ObjectType({ description: 'A choice of care was recorded.' })
export class CarePayload {
  @Field(() => CareChosen, { description: 'The choice.' })
  chosen!: CareChosen;
}
