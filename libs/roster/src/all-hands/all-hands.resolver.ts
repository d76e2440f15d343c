import { Allow, type Caller, CurrentCaller } from '@ribband/access';
import { CardKind, Skill } from '@ribband/crew';
import { Database, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { In } from 'typeorm';
import { AllHandsRoles } from './all-hands-roles.service.js';
import { AllHands } from './all-hands.service.js';
import {
  AllHandsInput,
  AllHandsPayload,
  AllHandsRole,
  AllHandsRoleChangeInput,
  UsualAllHands,
} from './all-hands.types.js';

const LayOnAllHandsResult = refusable('LayOnAllHandsResult', () => AllHandsPayload);
const ChangeAllHandsRolesResult = refusable('ChangeAllHandsRolesResult', () => AllHandsPayload);

@Resolver()
export class AllHandsResolver {
  constructor(
    @Inject(AllHands) private readonly book: AllHands,
    @Inject(AllHandsRoles) private readonly roles: AllHandsRoles,
    @Inject(Database) private readonly database: Database,
  ) {}

  @Allow('director', 'coordinator')
  @Query(() => [UsualAllHands], {
    description: 'Days that take all hands, with their usual roles; at most 10.',
  })
  async usualAllHands(@CurrentCaller() caller: Caller): Promise<UsualAllHands[]> {
    const { days, firstAid } = await this.book.usual(caller);
    return days.map(({ title, roles }) => ({
      title,
      roles: roles.map(({ role, count, needs }) => ({
        ...{ role, count, asksSkill: needs === 'skill of the work' },
        card: needs === 'first-aid card' ? firstAid : null,
      })),
    }));
  }

  @Allow('director', 'coordinator')
  @Mutation(() => LayOnAllHandsResult, {
    description: 'Lays a day on that takes all hands, each role with its places open.',
  })
  async layOnAllHands(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'When, for which work, with which roles.' }) input: AllHandsInput,
  ): Promise<AllHandsPayload> {
    const roles = input.roles.map(({ skillId = null, cardKindId = null, ...rest }) => {
      return { ...rest, skillId, cardKindId };
    });
    const turnout = await this.book.layOn(caller, { ...input, roles });
    return Object.assign(new AllHandsPayload(), { turnout });
  }

  @Allow('director', 'coordinator')
  @Query(() => [AllHandsRole], { description: 'The roles of an all-hands day; at most 30.' })
  async allHandsRoles(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'Which day.' }) turnoutId: string,
  ): Promise<AllHandsRole[]> {
    const { organisationId } = caller;
    const laid = await this.roles.of(caller, turnoutId);
    const skills = await this.database.read.findBy(Skill, {
      organisationId,
      id: In(laid.flatMap(({ skillId }) => skillId ?? [])),
    });
    const cards = await this.database.read.findBy(CardKind, {
      organisationId,
      id: In(laid.flatMap(({ cardKindId }) => cardKindId ?? [])),
    });
    return laid.map(({ skillId, cardKindId, ...role }) => ({
      ...role,
      skill: skills.find(({ id }) => id === skillId) ?? null,
      card: cards.find(({ id }) => id === cardKindId) ?? null,
    }));
  }

  @Allow('director', 'coordinator')
  @Mutation(() => ChangeAllHandsRolesResult, {
    description:
      'Gives an all-hands day other roles. Who has a place keeps it while the role stays; who loses one is told.',
  })
  async changeAllHandsRoles(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'Which day.' }) turnoutId: string,
    @Args('version', { type: () => Int, description: 'The version of the day that was read.' })
    version: number,
    @Args('roles', {
      type: () => [AllHandsRoleChangeInput],
      description: 'All roles, 1 to 30; at most 60 places. A role of before that no entry names goes.',
    })
    roles: AllHandsRoleChangeInput[],
  ): Promise<AllHandsPayload> {
    const wanted = roles.map(({ was = null, skillId = null, cardKindId = null, ...rest }) => {
      return { ...rest, was, skillId, cardKindId };
    });
    const turnout = await this.roles.change(caller, turnoutId, version, wanted);
    return Object.assign(new AllHandsPayload(), { turnout });
  }
}
