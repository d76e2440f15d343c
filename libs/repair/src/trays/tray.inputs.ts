import { LocalDate } from '@ribband/platform';
import { Field, ID, InputType, Int } from '@nestjs/graphql';
import type { TrayWords } from './tray-draft.js';
import type { GradedHole } from './tray-line.js';
import type { TrayWork } from './trays.service.js';
import { HoleGradeEnum, NailGradeEnum } from './tray.types.js';

const optional = (description: string) => Field(() => Int, { nullable: true, description });

@InputType({ description: 'A hole and its nail, graded.' })
export class GradedHoleInput {
  @Field(() => ID, { description: 'Key of the hole, from the tray’s list.' })
  key!: string;

  @Field(() => NailGradeEnum, { description: 'The nail that came out of it.' })
  nail!: GradedHole['nail'];

  @Field(() => HoleGradeEnum, { description: 'The hole.' })
  hole!: GradedHole['hole'];

  @optional('Width of its plug in tenths of a millimetre, where the hole is enlarged.')
  plugTenths?: number | null;
}

@InputType({ description: 'What is said of a tray; counts that are left out say nothing.' })
export class TrayWordsInput {
  @optional('At which frame, where that is known.') frame?: number | null;
  @optional('Came out whole.') drawn?: number | null;
  @optional('Heads that came through the plank.') pulledThrough?: number | null;
  @optional('Heads that came off or were cut off.') cut?: number | null;
  @optional('Stubs punched out.') punched?: number | null;
  @optional('Stubs bored out.') boredOut?: number | null;
  @optional('Stubs that stay.') leftInPlace?: number | null;
  @optional('Graded sound.') sound?: number | null;
  @optional('Graded scrap.') scrapped?: number | null;
  @optional('Not found again.') lost?: number | null;
  @optional('Put in from a lot.') bought?: number | null;
  @optional('Driven back.') driven?: number | null;
  @optional('How many lie in the tray when they are counted.') counted?: number | null;

  @Field(() => String, { nullable: true, description: 'Why stubs stay.' })
  leftReason?: string | null;

  @Field(() => String, { nullable: true, description: 'What is known of those that are lost.' })
  lostReason?: string | null;

  @Field(() => ID, { nullable: true, description: 'The lot that bought ones come from.' })
  lotId?: string | null;

  @Field(() => [GradedHoleInput], { nullable: true, description: 'Holes graded one by one; at most 500.' })
  holes?: GradedHoleInput[] | null;

  @Field(() => String, { nullable: true, description: 'Anything to know about it.' })
  note?: string | null;
}

@InputType({ description: 'Who worked and how long, for the tally that goes with an entry.' })
export class TrayWorkInput {
  @optional('Person-minutes, those of all hands together.')
  minutes?: number | null;

  @Field(() => Boolean, {
    nullable: true,
    description: 'Whether the pulling or driving is finished with it.',
  })
  finished?: boolean | null;

  @Field(() => ID, { nullable: true, description: 'Who did it: volunteers enter their own.' })
  volunteerId?: string | null;

  @Field(() => ID, { nullable: true, description: 'At which turnout.' })
  turnoutId?: string | null;

  @Field(() => LocalDate, {
    nullable: true,
    description: 'On which day, where no turnout is named; else today.',
  })
  on?: string | null;
}

@InputType({ description: 'A lot of fastenings that was bought.' })
export class LotInput {
  @Field(() => String, { description: 'What they are.' })
  name!: string;

  @Field(() => String, { description: 'Which fastenings they match, such as plank nails.' })
  fastening!: string;

  @Field(() => String, { description: 'Their size, as the trade says it.' })
  size!: string;

  @Field(() => Int, { description: 'How many.' })
  count!: number;

  @Field(() => String, { description: 'Where they come from.' })
  source!: string;

  @optional('What all of them cost, in cents.')
  priceCents?: number | null;

  @Field(() => LocalDate, { description: 'The day on which they came.' })
  cameOn!: string;
}

export const wordsFrom = (input: TrayWordsInput): TrayWords => ({
  frame: input.frame ?? null,
  counts: {
    drawn: input.drawn ?? 0,
    'pulled through': input.pulledThrough ?? 0,
    cut: input.cut ?? 0,
    punched: input.punched ?? 0,
    'bored out': input.boredOut ?? 0,
    'left in place': input.leftInPlace ?? 0,
    sound: input.sound ?? 0,
    scrapped: input.scrapped ?? 0,
    lost: input.lost ?? 0,
    bought: input.bought ?? 0,
    driven: input.driven ?? 0,
  },
  leftReason: input.leftReason ?? null,
  lostReason: input.lostReason ?? null,
  holes: (input.holes ?? []).map((hole) => ({
    key: hole.key,
    nail: hole.nail,
    hole: hole.hole,
    plugTenths: hole.plugTenths ?? null,
  })),
  counted: input.counted ?? null,
  lotId: input.lotId ?? null,
  note: input.note ?? null,
});

export const workFrom = (input: TrayWorkInput | null | undefined): TrayWork => ({
  minutes: input?.minutes ?? 0,
  finished: input?.finished ?? false,
  volunteerId: input?.volunteerId ?? null,
  turnoutId: input?.turnoutId ?? null,
  on: input?.on ?? null,
});
