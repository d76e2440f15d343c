import { ELEMENT_STATES, type ElementState } from '@ribband/hull';
import { DateTime, LocalDate } from '@ribband/platform';
import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { HullElement, type Side, SideEnum } from '../openings/hull-element.entity.js';
import { OpeningLimit } from '../openings/opening-limit.entity.js';
import { Piece } from '../pieces/piece.entity.js';
import { Task } from '../tasks/task.entity.js';

export const ElementStateEnum = Object.fromEntries(
  ELEMENT_STATES.map((state) => [state.toUpperCase(), state]),
) as Record<string, ElementState>;
registerEnumType(ElementStateEnum, {
  name: 'HullElementState',
  description: 'What a piece of the hull is: the one set of words, used everywhere.',
  valuesMap: {
    STANDING: { description: 'Nobody has touched it.' },
    OPENING: { description: 'Work that takes it off or out has begun.' },
    OPEN: { description: 'It is off or out.' },
    CLOSING: { description: 'Work that puts it back has begun.' },
    CLOSED: { description: 'It is back.' },
  },
});

@ObjectType({ description: 'A change of what a piece is: it has been so, or will be by the plan.' })
export class ElementChange {
  @Field(() => DateTime, { description: 'When.' })
  at!: number;

  @Field(() => ElementStateEnum, { description: 'What it is from then on.' })
  state!: ElementState;
}

@ObjectType({ description: 'What a piece is now, was and will be by the plan.' })
export class ElementStanding {
  @Field(() => HullElement, { description: 'The piece as the yard keeps it.' })
  element!: HullElement;

  @Field(() => ElementStateEnum, { description: 'What it really is now.' })
  state!: ElementState;

  @Field(() => [ElementChange], {
    description:
      'All its changes in order of time, the plan’s after now; standing before the first. At most 10.',
  })
  changes!: ElementChange[];
}

@ObjectType({ description: 'A plank of the unrolled shell, in millimetres: forward at 0, the rabbet at 0.' })
export class ShellPlank {
  @Field(() => ID, { description: 'The hull’s own key of it.' })
  key!: string;

  @Field(() => String, { description: 'Its name.' })
  name!: string;

  @Field(() => Int, { description: 'Its strake, counted from the keel.' })
  strake!: number;

  @Field(() => Float, { description: 'Forward end.' })
  left!: number;

  @Field(() => Float, { description: 'After end.' })
  right!: number;

  @Field(() => Float, { description: 'Lower edge along the girth.' })
  low!: number;

  @Field(() => Float, { description: 'Upper edge along the girth.' })
  high!: number;

  @Field(() => ElementStanding, {
    nullable: true,
    description: 'Null where no work is on it and nobody saw it open.',
  })
  standing!: ElementStanding | null;
}

@ObjectType({ description: 'A frame of the unrolled shell.' })
export class ShellFrame {
  @Field(() => ID, { description: 'The hull’s own key of it.' })
  key!: string;

  @Field(() => String, { description: 'Its name.' })
  name!: string;

  @Field(() => Int, { description: 'Its number, counted from the stem.' })
  number!: number;

  @Field(() => Float, { description: 'Its place, in millimetres from the first frame.' })
  x!: number;

  @Field(() => Float, { description: 'Where it ends above, in millimetres along the girth.' })
  head!: number;

  @Field(() => ElementStanding, {
    nullable: true,
    description: 'Null where no work is on it and nobody saw it out.',
  })
  standing!: ElementStanding | null;
}

@ObjectType({ description: 'One side of her, unrolled flat.' })
export class ShellSide {
  @Field(() => SideEnum, { description: 'Which.' })
  side!: Side;

  @Field(() => Float, { description: 'Millimetres from the first frame to the last.' })
  length!: number;

  @Field(() => Float, { description: 'Millimetres from the rabbet to the sheer along the girth.' })
  height!: number;

  @Field(() => [ShellPlank], { description: 'Planks of the outer skin; at most 1000.' })
  planks!: ShellPlank[];

  @Field(() => [ShellFrame], { description: 'Frames from forward; at most 500.' })
  frames!: ShellFrame[];

  @Field(() => [ShellPlank], { description: 'Ceiling, the inner skin; at most 1000.' })
  ceiling!: ShellPlank[];
}

@ObjectType({ description: 'The whole shell: what every piece is now and will be.' })
export class Shell {
  @Field(() => DateTime, { description: 'The yard’s present minute.' })
  now!: number;

  @Field(() => [LocalDate], {
    description: 'Mondays of the weeks from the haul-out to the last planned change; at most 200.',
  })
  weeks!: string[];

  @Field(() => [ShellSide], { description: 'Both sides, the one with more work first.' })
  sides!: ShellSide[];

  @Field(() => [ElementStanding], { description: 'Pieces that the shell does not show; at most 500.' })
  elsewhere!: ElementStanding[];
}

@ObjectType({ description: 'Why a piece must wait, and what to do.' })
export class PieceWait {
  @Field(() => String, { description: 'Why.' })
  says!: string;

  @Field(() => String, { nullable: true, description: 'What to do.' })
  remedy!: string | null;
}

@ObjectType({ description: 'What must stand before a piece is opened.' })
export class WantedSupport {
  @Field(() => String, { description: 'What, and where.' })
  says!: string;

  @Field(() => Boolean, { description: 'Whether it is on record as standing.' })
  stands!: boolean;
}

@ObjectType({ description: 'One piece of the hull with its work and what stands against opening it.' })
export class HullPiece {
  @Field(() => ID, { description: 'The hull’s own key, or the yard’s.' })
  key!: string;

  @Field(() => String, { description: 'Its name.' })
  name!: string;

  @Field(() => ElementStanding, {
    nullable: true,
    description: 'Null where no work is on it and nobody saw it open.',
  })
  standing!: ElementStanding | null;

  @Field(() => String, { nullable: true, description: 'What was last seen at the yard, by whom and when.' })
  seen!: string | null;

  @Field(() => Task, { nullable: true, description: 'The work that opens it.' })
  opensBy!: Task | null;

  @Field(() => Task, { nullable: true, description: 'The work that shuts it.' })
  closesBy!: Task | null;

  @Field(() => [Task], { description: 'All work on it; at most 50.' })
  work!: Task[];

  @Field(() => [PieceWait], { description: 'Why it can’t be opened today; at most 50.' })
  waits!: PieceWait[];

  @Field(() => [WantedSupport], { description: 'What must stand before it is opened; at most 20.' })
  supports!: WantedSupport[];

  @Field(() => [OpeningLimit], { description: 'Limits that count it; at most 50.' })
  limits!: OpeningLimit[];

  @Field(() => [Piece], { description: 'Tagged pieces of it, by their tags; at most 50.' })
  tags!: Piece[];

  @Field(() => String, { description: 'Whose word counts, shown with every opening.' })
  whoDecides!: string;
}
