import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import type { ButtFault } from '@ribband/hull';
import { refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { type Side, SideEnum } from '../openings/hull-element.entity.js';
import { forgetRead } from '../repair.loaders.js';
import { Planking, type PlankingToday, type Proposal } from './planking.service.js';
import {
  LayoutChoicePayload,
  LayoutProposal,
  PlankButtFault,
  PlankButtInput,
  PlankingType,
} from './planking.types.js';

const ChoosePlankLayoutResult = refusable('ChoosePlankLayoutResult', () => LayoutChoicePayload);

const faultsTold = (faults: ButtFault[]): PlankButtFault[] =>
  faults.slice(0, 200).map(({ says, weight }) => ({ says, guide: weight === 'guide' }));

const told = ({ choice, faults, choiceFaults, waits, ...side }: PlankingToday): PlankingType => ({
  ...side,
  faults: faultsTold(faults),
  choice: choice && { ...choice, faults: faultsTold(choiceFaults) },
  waits: waits.map(({ plank, frames }) => ({
    plank: plank.element,
    frames: frames.map(({ frame, stands }) => ({ frame: frame.element, stands })),
  })),
});

function proposalTold({ kind, butts, faults, planks }: Proposal): LayoutProposal {
  const says = {
    found: `${planks} planks; every butt rule is kept${faults.length > 0 ? ', a guide is not' : ''}.`,
    none: 'No layout within these lengths keeps every rule: longer planks, or a butt less that stays.',
    'gave up': 'None was found in the time that the search takes: try other lengths.',
  }[kind];
  return { says, butts, faults: faultsTold(faults) };
}

@Resolver(() => PlankingType)
export class PlankingResolver {
  constructor(@Inject(Planking) private readonly planks: Planking) {}

  @AllowSignedIn()
  @Query(() => PlankingType, {
    nullable: true,
    description: 'Closing her up on one side; null before the hull’s outline is entered.',
  })
  async planking(
    @CurrentCaller() caller: Caller,
    @Args('side', { type: () => SideEnum, description: 'Which side.' }) side: Side,
  ): Promise<PlankingType | null> {
    const today = await this.planks.side(caller, side);
    return today && told(today);
  }

  @Allow('shipwright', 'director')
  @Query(() => LayoutProposal, { description: 'Proposes butts for the strakes that are hung anew.' })
  async proposedLayout(
    @CurrentCaller() caller: Caller,
    @Args('side', { type: () => SideEnum, description: 'Which side.' }) side: Side,
    @Args('longest', { type: () => Int, description: 'Frames that the longest plank of the stock crosses.' })
    longest: number,
  ): Promise<LayoutProposal> {
    return proposalTold(await this.planks.propose(caller, side, longest));
  }

  @Allow('shipwright', 'director')
  @Query(() => [PlankButtFault], {
    description: 'What the butt rules say of a layout that somebody thought out; at most 200.',
  })
  async layoutFaults(
    @CurrentCaller() caller: Caller,
    @Args('side', { type: () => SideEnum, description: 'Which side.' }) side: Side,
    @Args('butts', { type: () => [PlankButtInput], description: 'The butts; at most 500.' })
    butts: PlankButtInput[],
  ): Promise<PlankButtFault[]> {
    return faultsTold(await this.planks.tryOut(caller, side, butts));
  }

  @Allow('shipwright', 'director')
  @Query(() => [String], {
    description:
      'What stands against renewing a plank over some of its frames only; none: it may be. At most 50.',
  })
  replacementFaults(
    @CurrentCaller() caller: Caller,
    @Args('plank', { type: () => ID, description: 'The hull’s key of the plank.' }) plank: string,
    @Args('firstFrame', { type: () => Int, description: 'First frame of the new wood.' }) firstFrame: number,
    @Args('lastFrame', { type: () => Int, description: 'Last frame of the new wood.' }) lastFrame: number,
  ): Promise<string[]> {
    return this.planks.replacement(caller, plank, firstFrame, lastFrame);
  }

  @Allow('shipwright')
  @Mutation(() => ChoosePlankLayoutResult, { description: 'Writes down where the butts shall lie, and why.' })
  async choosePlankLayout(
    @CurrentCaller() caller: Caller,
    @Args('side', { type: () => SideEnum, description: 'Which side.' }) side: Side,
    @Args('butts', { type: () => [PlankButtInput], description: 'The butts; at most 500.' })
    butts: PlankButtInput[],
    @Args('reason', { type: () => String, description: 'Why this layout.' }) reason: string,
    @Context() context: RequestContext,
  ): Promise<LayoutChoicePayload> {
    forgetRead(context);
    await this.planks.choose(caller, side, butts, reason);
    return Object.assign(new LayoutChoicePayload(), { planking: await this.planking(caller, side) });
  }
}
