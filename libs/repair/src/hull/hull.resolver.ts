import { Allow, AllowSignedIn, CurrentCaller, type Caller } from '@ribband/access';
import { JSONDocument, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { Work } from '../methods/work.service.js';
import { drawOutline } from './draw-outline.js';
import { HullRecords } from './hull-records.service.js';
import { OutlineDrawing } from './outline-drawing.types.js';
import { HullOutlinePayload, HullOutlineRecord } from './hull.types.js';

const DrawOutlineResult = refusable('DrawOutlineResult', () => OutlineDrawing);
const SetHullOutlineResult = refusable('SetHullOutlineResult', () => HullOutlinePayload);

@Resolver()
export class HullResolver {
  constructor(
    @Inject(HullRecords) private readonly hulls: HullRecords,
    @Inject(Work) private readonly work: Work,
  ) {}

  @AllowSignedIn()
  @Query(() => HullOutlineRecord, {
    nullable: true,
    description: 'How the hull ashore is built; null before it was entered.',
  })
  hullOutline(@CurrentCaller() caller: Caller): Promise<HullOutlineRecord | null> {
    return this.hulls.inForce(caller);
  }

  @AllowSignedIn()
  @Query(() => DrawOutlineResult, {
    description: 'What an outline would make, drawn to scale; nothing is kept.',
  })
  drawOutline(
    @Args('outline', { type: () => JSONDocument, description: 'The outline, whole.' }) outline: unknown,
  ): OutlineDrawing {
    return Object.assign(new OutlineDrawing(), drawOutline(outline));
  }

  @Allow('shipwright', 'director')
  @Mutation(() => SetHullOutlineResult, {
    description:
      'Enters how the hull is built, or puts another outline in its place, and with it whatever work follows from it.',
  })
  async setHullOutline(
    @CurrentCaller() caller: Caller,
    @Args('outline', { type: () => JSONDocument, description: 'The outline, whole.' }) outline: unknown,
    @Args('version', {
      type: () => Int,
      nullable: true,
      description: 'Its version that was read; null when there was none.',
    })
    version: number | null = null,
  ): Promise<HullOutlinePayload> {
    const change = { outline: { value: outline, version }, reason: 'the outline has changed' };
    const { hull } = await this.work.apply(caller, change);
    return Object.assign(new HullOutlinePayload(), { hullOutline: hull });
  }
}
