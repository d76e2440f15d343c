import { Allow, AllowSignedIn, CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { Database, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Int, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { skillLoader, volunteerLoader } from '../crew.loaders.js';
import { VolunteerPayload } from '../volunteers/volunteer.payload.js';
import { inWords } from './levels.js';
import { SkillLevel } from './skill-level.type.js';
import { Skill } from './skill.entity.js';
import { Skills } from './skills.service.js';

const SetSkillLevelResult = refusable('SetSkillLevelResult', () => VolunteerPayload);

@Resolver(() => SkillLevel)
export class SkillsResolver {
  constructor(
    @Inject(Skills) private readonly lists: Skills,
    @Inject(Database) private readonly database: Database,
  ) {}

  @AllowSignedIn()
  @Query(() => [Skill], { description: 'The yard’s skills; at most 100.' })
  skills(@CurrentCaller() caller: Caller): Promise<Skill[]> {
    return this.lists.list(caller);
  }

  @Allow('shipwright', 'coordinator')
  @Mutation(() => SetSkillLevelResult, {
    description: 'Signs somebody off at a level of a skill, in your name.',
  })
  async setSkillLevel(
    @CurrentCaller() caller: Caller,
    @Args('volunteerId', { type: () => ID, description: 'Who.' }) volunteerId: string,
    @Args('skillId', { type: () => ID, description: 'In what.' }) skillId: string,
    @Args('level', {
      type: () => Int,
      description: '0 none, 1 learning, 2 works alone, 3 teaches, 4 may say so.',
    })
    level: number,
    @Context() context: RequestContext,
  ): Promise<VolunteerPayload> {
    const id = await this.lists.setLevel(caller, volunteerId, skillId, level);
    const volunteer = await volunteerLoader(context, this.database.read).load(id);
    return Object.assign(new VolunteerPayload(), { volunteer });
  }

  @ResolveField(() => Skill, { description: 'Which skill.' })
  skill(@Parent() held: SkillLevel, @Context() context: RequestContext): Promise<Skill> {
    return skillLoader(context, this.database.read).load(held.skillId);
  }

  @ResolveField(() => String, { description: 'The level in words, such as "works alone".' })
  levelWords(@Parent() held: SkillLevel): string {
    return inWords(held.level);
  }
}
