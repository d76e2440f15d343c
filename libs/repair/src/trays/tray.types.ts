import { DateTime } from '@ribband/platform';
import { Field, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import type { LineKind } from './tray-line.js';

const LineKindEnum = {
  RECEIVED: 'received',
  BOUGHT: 'bought',
  DRAWN: 'drawn',
  PULLED_THROUGH: 'pulled through',
  CUT: 'cut',
  PUNCHED: 'punched',
  BORED_OUT: 'bored out',
  LEFT_IN_PLACE: 'left in place',
  SOUND: 'sound',
  SCRAPPED: 'scrapped',
  LOST: 'lost',
  LENT: 'lent',
  DRIVEN: 'driven',
} as const satisfies Record<string, LineKind>;
registerEnumType(LineKindEnum, {
  name: 'TrayLineKind',
  description: 'What happened to fastenings.',
  valuesMap: {
    RECEIVED: { description: 'Came from another tray.' },
    BOUGHT: { description: 'Put in from a lot that was bought.' },
    DRAWN: { description: 'Came out whole.' },
    PULLED_THROUGH: { description: 'The head came through the plank, which has a repair to get.' },
    CUT: { description: 'The head came off or was cut off; a stub stays in the frame.' },
    PUNCHED: { description: 'Stubs that were punched out.' },
    BORED_OUT: { description: 'Stubs that were bored out.' },
    LEFT_IN_PLACE: { description: 'Stubs that stay, for a reason.' },
    SOUND: { description: 'Graded sound: to go back.' },
    SCRAPPED: { description: 'Graded scrap.' },
    LOST: { description: 'Drawn, and not found again.' },
    LENT: { description: 'Went into another tray.' },
    DRIVEN: { description: 'Driven back into the hull.' },
  },
});

const NailGradeEnum = { SOUND: 'sound', SCRAP: 'scrap', NONE: 'none' } as const;
registerEnumType(NailGradeEnum, {
  name: 'NailGrade',
  description: 'How a fastening was graded.',
  valuesMap: {
    SOUND: { description: 'It goes back.' },
    SCRAP: { description: 'It does not.' },
    NONE: { description: 'None was saved from this hole.' },
  },
});
const HoleGradeEnum = { SOUND: 'sound', ENLARGED: 'enlarged' } as const;
registerEnumType(HoleGradeEnum, {
  name: 'HoleGrade',
  description: 'How a hole was graded.',
  valuesMap: {
    SOUND: { description: 'It holds.' },
    ENLARGED: { description: 'It is plugged and bored anew.' },
  },
});
export { HoleGradeEnum, NailGradeEnum };

const int = (description: string) => Field(() => Int, { description });

@ObjectType({
  description:
    'In place = still in + drawn + pulled through + heads off; drawn + pulled through + received = sound + scrapped + ' +
    'lost + lent + not graded; sound + bought = driven + in the tray.',
})
export class TrayBalanceType {
  @int('Fastenings that there were.') inPlace!: number;
  @int('Still in the hull.') stillIn!: number;
  @int('Came out whole.') drawn!: number;
  @int('Their heads came through the plank.') pulledThrough!: number;
  @int('Their heads came off.') cut!: number;
  @int('Stubs of those that wait to be punched or bored out.') stubsWaiting!: number;
  @int('Came from another tray.') received!: number;
  @int('Went to another tray.') lent!: number;
  @int('Out and not graded yet.') notGraded!: number;
  @int('Graded sound.') sound!: number;
  @int('Graded scrap.') scrapped!: number;
  @int('Not found again.') lost!: number;
  @int('Put in from bought lots.') bought!: number;
  @int('Driven back.') driven!: number;
  @int('Sound or bought, and not driven yet.') inTray!: number;
}

@ObjectType({ description: 'The fastenings of a tray at one frame, from the entries that named it.' })
export class TrayFrame {
  @int('The frame, counted from forward.') frame!: number;
  @int('Fastenings that there were.') inPlace!: number;
  @int('Still in, as far as entries name this frame.') stillIn!: number;
  @int('Came out whole.') drawn!: number;
  @int('Their heads came through the plank.') pulledThrough!: number;
  @int('Their heads came off.') cut!: number;
}

@ObjectType({ description: 'One line of an entry.' })
export class TrayLineType {
  @Field(() => LineKindEnum, { description: 'What happened.' })
  kind!: LineKind;

  @int('To how many.')
  count!: number;

  @Field(() => String, { nullable: true, description: 'Why, where it wants a reason.' })
  reason!: string | null;
}

@ObjectType({ description: 'What was said of a tray at one time.' })
export class TrayEntry {
  @Field(() => ID, { description: 'Opaque.' })
  id!: string;

  @Field(() => DateTime, { description: 'When, by the yard’s clock.' })
  at!: number;

  @Field(() => String, { description: 'What was said, in words.' })
  words!: string;

  @Field(() => Int, { nullable: true, description: 'At which frame, where that was said.' })
  frame!: number | null;

  @Field(() => [TrayLineType], { description: 'Line by line; at most 13.' })
  lines!: TrayLineType[];

  @int('How many holes were graded with it.')
  holes!: number;

  @Field(() => Int, { nullable: true, description: 'How many a count of the tray found.' })
  counted!: number | null;

  @Field(() => ID, { nullable: true, description: 'The lot that bought ones came from.' })
  lotId!: string | null;

  @Field(() => String, { nullable: true, description: 'Anything to know about it.' })
  note!: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'Who entered it; null to volunteers when it was somebody else.',
  })
  by!: string | null;

  @Field(() => ID, { nullable: true, description: 'Id of the entry that it replaces.' })
  correctsId!: string | null;

  @Field(() => ID, {
    nullable: true,
    description: 'Id of the entry that replaces it: then it no longer counts.',
  })
  correctedById!: string | null;

  @Field(() => String, { nullable: true, description: 'Why it was corrected.' })
  reason!: string | null;

  @Field(() => Boolean, { description: 'Whether the caller may correct it.' })
  mayCorrect!: boolean;
}

@ObjectType({ description: 'A hole of the hole book, and what came out of it.' })
export class TrayHoleType {
  @Field(() => ID, { description: 'Key of the hole.' })
  key!: string;

  @Field(() => String, { description: 'Where it is, in words.' })
  name!: string;

  @int('At which frame.')
  frame!: number;

  @Field(() => NailGradeEnum, { nullable: true, description: 'How its nail was graded; null before it was.' })
  nail!: 'sound' | 'scrap' | 'none' | null;

  @Field(() => HoleGradeEnum, { nullable: true, description: 'How it was graded; null before it was.' })
  hole!: 'sound' | 'enlarged' | null;

  @Field(() => Int, { nullable: true, description: 'Width of its plug in tenths of a millimetre.' })
  plugTenths!: number | null;

  @Field(() => Boolean, { description: 'Whether the nail goes into a frame piece that is renewed.' })
  inNewWood!: boolean;

  @Field(() => String, {
    nullable: true,
    description: 'What to do when it is driven; null before it was graded.',
  })
  says!: string | null;
}

@ObjectType({
  description: 'Holes that the repair makes in timber that is kept, as far as holes are graded.',
})
export class NewHoles {
  @int('Holes that are graded.') graded!: number;
  @int('Of those, how many ask for a new hole in kept timber.') newHoles!: number;
  @int('Of those new ones, how many because the frame behind is new.') inNewWood!: number;
}
