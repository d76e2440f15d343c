import { AllowSignedIn, type Caller, CurrentCaller } from '@ribband/access';
import { mayClose, Volunteer } from '@ribband/crew';
import { Database, refusable, YardClock } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { In } from 'typeorm';
import { FireWatchInput, FireWatchPayload, FireWatchType } from './fire-watch.types.js';
import { FireWatches, mayWrite } from './fire-watches.service.js';
import { type Fire, staysUntil, watchedFire } from './fires.js';

const WriteFireWatchResult = refusable('WriteFireWatchResult', () => FireWatchPayload);

/** The watch over hot work. */
@Resolver()
export class FireWatchResolver {
  constructor(
    @Inject(FireWatches) private readonly watches: FireWatches,
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
  ) {}

  @AllowSignedIn()
  @Query(() => [FireWatchType], {
    description:
      'The hot work of a turnout and its watches; without one, all of the last thirty days that wait for a later look or for anything else to be written down. At most 100.',
  })
  async fireWatches(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, nullable: true, description: 'Which turnout.' })
    turnoutId: string | null = null,
  ): Promise<FireWatchType[]> {
    return this.told(caller, (await this.watches.list(caller, turnoutId)).slice(0, 100));
  }

  @AllowSignedIn()
  @Mutation(() => WriteFireWatchResult, {
    description: 'Writes down how a watch stands: for the watch itself, and for who leads the turnout.',
  })
  async writeFireWatch(
    @CurrentCaller() caller: Caller,
    @Args('input', { description: 'All of it.' }) input: FireWatchInput,
  ): Promise<FireWatchPayload> {
    const { turnoutId, taskId, version } = input;
    const { watchId = null, notLit = null, lastSpark = null, lookBy = null } = input;
    const { lookDue = null, looked = null, found = null, reason = null } = input;
    const draft = { turnoutId, taskId, version, watchId, notLit, lastSpark, lookBy };
    const fire = await this.watches.write(
      caller,
      { ...draft, lookDue, looked, found, reason },
      input.key ?? null,
    );
    const [fireWatch] = await this.told(caller, [fire]);
    return Object.assign(new FireWatchPayload(), { fireWatch });
  }

  private async told(caller: Caller, fires: readonly Fire[]): Promise<FireWatchType[]> {
    const ids = fires.flatMap(({ couldWatch, written }) => [
      ...couldWatch,
      ...written.flatMap(({ watchId }) => watchId ?? []),
    ]);
    const people = await this.database.read.findBy(Volunteer, { id: In([...new Set(ids)]) });
    const named = (id: string) => ({
      volunteerId: id,
      name: people.find((person) => person.id === id)?.name ?? '',
    });
    const now = await this.clock.now(caller.organisationId);
    return fires.map((fire) => {
      const { turnout, task, minutes, hasCard, couldWatch, written } = fire;
      const watched = watchedFire(fire);
      const [finding] = watched ? mayClose({ now, notAccountedFor: [], fires: [watched] }) : [];
      return {
        ...{
          turnout,
          task,
          minutes,
          hasCard,
          staysUntil: staysUntil(fire),
          mayWrite: mayWrite(caller, fire),
        },
        couldWatch: couldWatch.slice(0, 20).map(named),
        missing: finding?.words ?? null,
        written: written.slice(0, 50).map(({ watchId, ...row }) => ({
          ...row,
          watch: watchId === null ? null : named(watchId),
        })),
      };
    });
  }
}
