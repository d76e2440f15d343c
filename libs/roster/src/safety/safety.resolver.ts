import { Allow, AllowSignedIn, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { NamedHand, volunteerLoader } from '@ribband/crew';
import { Database, LocalDate, refusable } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Int, Mutation, Parent, Query, ResolveField, Resolver } from '@nestjs/graphql';
import { ClosingRounds } from './closing-rounds.service.js';
import type { IncidentEntity } from './incident.entity.js';
import { Incidents, mayReadWho } from './incidents.service.js';
import {
  ClosingListPayload,
  ClosingRoundPayload,
  FireSetAsideInput,
  Incident,
  IncidentInput,
  IncidentPayload,
  RoundItemInput,
  RoundToDoType,
} from './safety.types.js';

const ReportIncidentResult = refusable('ReportIncidentResult', () => IncidentPayload);
const AssignIncidentResult = refusable('AssignIncidentResult', () => IncidentPayload);
const CloseIncidentResult = refusable('CloseIncidentResult', () => IncidentPayload);
const CloseTurnoutResult = refusable('CloseTurnoutResult', () => ClosingRoundPayload);
const SetClosingListResult = refusable('SetClosingListResult', () => ClosingListPayload);

const payload = (incident: IncidentEntity): IncidentPayload =>
  Object.assign(new IncidentPayload(), { incident });

/** What happened or nearly did, and the round that ends each turnout. */
@Resolver(() => Incident)
export class SafetyRoundResolver {
  constructor(
    @Inject(Incidents) private readonly reports: Incidents,
    @Inject(ClosingRounds) private readonly rounds: ClosingRounds,
    @Inject(Database) private readonly database: Database,
  ) {}

  @AllowSignedIn()
  @Query(() => [Incident], {
    description: 'Open ones first; at most 200. Volunteers see those that they reported.',
  })
  incidents(@CurrentCaller() caller: Caller): Promise<IncidentEntity[]> {
    return this.reports.list(caller);
  }

  @AllowSignedIn()
  @Query(() => [RoundToDoType], {
    description:
      'Turnouts that people came to and that have no closing round, and watches that are over with people there by the book; at most 400.',
  })
  roundsToDo(@CurrentCaller() caller: Caller): Promise<RoundToDoType[]> {
    return this.rounds.toDo(caller);
  }

  @AllowSignedIn()
  @Query(() => [String], { description: 'What the closing round looks at; at most 40.' })
  closingList(@CurrentCaller() caller: Caller): Promise<string[]> {
    return this.rounds.items(caller);
  }

  @AllowSignedIn()
  @Mutation(() => ReportIncidentResult, { description: 'Reports what happened or nearly did.' })
  async reportIncident(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'What, where, and who.' }) input: IncidentInput,
  ): Promise<IncidentPayload> {
    const report = { ...input, who: input.who ?? null, picture: input.picture ?? null };
    return payload(await this.reports.report(caller, report));
  }

  @Allow('director', 'coordinator')
  @Mutation(() => AssignIncidentResult, {
    description: 'Gives an incident to somebody, with what is to be done.',
  })
  async assignIncident(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which one.' }) id: string,
    @Args('version', { type: () => Int, description: 'The version that was read.' }) version: number,
    @Args('ownerId', { type: () => ID, description: 'Who sees to it.' }) ownerId: string,
    @Args('followUp', { type: () => String, description: 'What is to be done.' }) followUp: string,
    @Args('dueOn', { type: () => LocalDate, description: 'Until when.' }) dueOn: string,
  ): Promise<IncidentPayload> {
    return payload(await this.reports.assign(caller, id, version, { ownerId, followUp, dueOn }));
  }

  @AllowSignedIn()
  @Mutation(() => CloseIncidentResult, { description: 'Closes an incident with what was done about it.' })
  async closeIncident(
    @CurrentCaller() caller: Caller,
    @Args('id', { type: () => ID, description: 'Which one.' }) id: string,
    @Args('version', { type: () => Int, description: 'The version that was read.' }) version: number,
    @Args('outcome', { type: () => String, description: 'What was done.' }) outcome: string,
  ): Promise<IncidentPayload> {
    return payload(await this.reports.close(caller, id, version, outcome));
  }

  @AllowSignedIn()
  @Mutation(() => CloseTurnoutResult, {
    description: 'Ends a turnout with its closing round: for who was there, and for who leads.',
  })
  async closeTurnout(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'Which turnout.' }) turnoutId: string,
    @Args('items', { type: () => [RoundItemInput], description: 'Each thing of the list.' })
    items: RoundItemInput[],
    @Args('accountedIds', { type: () => [ID], description: 'Who was seen or heard to leave.' })
    accountedIds: string[],
    @Args('setAside', {
      type: () => [FireSetAsideInput],
      defaultValue: [],
      description: 'Fire watches of which something is not written down; none of which the time is not over.',
    })
    setAside: FireSetAsideInput[],
  ): Promise<ClosingRoundPayload> {
    const said = items.map((item) => ({ ...item, note: item.note ?? null }));
    const { closedBy } = await this.rounds.close(caller, turnoutId, said, accountedIds, setAside);
    return Object.assign(new ClosingRoundPayload(), { turnoutId, closedBy });
  }

  @Allow('director', 'coordinator')
  @Mutation(() => SetClosingListResult, {
    description: 'Sets what the round looks at; nothing: the usual list.',
  })
  async setClosingList(
    @CurrentCaller() caller: Caller,
    @Args('items', { type: () => [String], description: 'What is looked at; at most 40.' }) items: string[],
  ): Promise<ClosingListPayload> {
    return Object.assign(new ClosingListPayload(), { items: await this.rounds.setItems(caller, items) });
  }

  @ResolveField(() => String, {
    nullable: true,
    description: 'Who was hurt or could have been: for director, coordinator and who reported it.',
  })
  who(@Parent() row: IncidentEntity, @CurrentCaller() caller: Caller): string | null {
    return mayReadWho(caller, row) ? row.who : null;
  }

  @ResolveField(() => String, {
    nullable: true,
    description:
      'The photograph as a data address, for director, coordinator and who reported it; null without.',
  })
  photograph(@Parent() row: IncidentEntity, @CurrentCaller() caller: Caller): string | null {
    if (row.picture === null || !mayReadWho(caller, row)) return null;
    return `data:${row.pictureType ?? 'image/jpeg'};base64,${row.picture}`;
  }

  @ResolveField(() => NamedHand, { nullable: true, description: 'Who sees to it.' })
  async owner(@Parent() row: Incident, @Context() context: RequestContext): Promise<NamedHand | null> {
    if (row.ownerId === null) return null;
    const { id, name } = await volunteerLoader(context, this.database.read).load(row.ownerId);
    return { volunteerId: id, name };
  }
}
