import { Allow, type Caller, CurrentCaller, type RequestContext } from '@ribband/access';
import { skillLoader } from '@ribband/crew';
import { Database } from '@ribband/platform';
import { rosterTaskLoader } from '@ribband/roster';
import { Inject } from '@nestjs/common';
import { Args, Context, ID, Query, Resolver } from '@nestjs/graphql';
import { Badge, MorningSheet } from './morning-sheet.types.js';
import { MorningSheets } from './morning-sheets.service.js';
import { setAsideWords } from './set-aside-words.js';
import { type CalledWorkModel, MorningModel } from './morning.types.js';
import { type Morning, Mornings } from './mornings.service.js';

@Resolver()
export class CallResolver {
  constructor(
    @Inject(Mornings) private readonly mornings: Mornings,
    @Inject(MorningSheets) private readonly sheets: MorningSheets,
    @Inject(Database) private readonly database: Database,
  ) {}

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => MorningModel, {
    description: 'The best permitted set of work for exactly the people who came. Nothing is changed.',
  })
  async morning(
    @CurrentCaller() caller: Caller,
    @Context() context: RequestContext,
    @Args('turnoutId', { type: () => ID, description: 'Which turnout.' }) turnoutId: string,
    @Args('presentIds', { type: () => [ID], description: 'Who came; at most 300.' }) presentIds: string[],
  ): Promise<MorningModel> {
    const morning = await this.mornings.propose(caller, turnoutId, presentIds);
    const tasks = rosterTaskLoader(context, this.database.read);
    return {
      turnout: morning.turnout,
      version: morning.version,
      readyAt: morning.readyAt,
      idle: morning.idle,
      learners: morning.learners,
      work: await this.work(context, morning),
      fallen: await Promise.all(
        morning.fallen.map(async ({ taskId, why }) => ({ task: await tasks.load(taskId), why })),
      ),
    };
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => MorningSheet, {
    description: 'Who is expected and what is posted, with what the gates say of everybody on each task.',
  })
  morningSheet(
    @CurrentCaller() caller: Caller,
    @Args('turnoutId', { type: () => ID, description: 'Which turnout.' }) turnoutId: string,
  ): Promise<MorningSheet> {
    return this.sheets.of(caller, turnoutId);
  }

  @Allow('director', 'coordinator', 'shipwright')
  @Query(() => [Badge], { description: 'The badges of the crew, by name; at most 300.' })
  badges(@CurrentCaller() caller: Caller): Promise<Badge[]> {
    return this.sheets.badges(caller);
  }

  private work(context: RequestContext, morning: Morning): Promise<CalledWorkModel[]> {
    const { read } = this.database;
    const skills = skillLoader(context, read);
    const taskIds = [...new Set(morning.seats.map(({ taskId }) => taskId))];
    return Promise.all(
      taskIds.map(async (taskId) => ({
        task: await rosterTaskLoader(context, read).load(taskId),
        cautions: (morning.rules.book.job(taskId)?.cautions ?? []).map(({ words }) => words).slice(0, 50),
        setAside: setAsideWords(morning.rules, taskId, (id) =>
          morning.seats.some((seat) => seat.taskId === taskId && seat.volunteerId === id),
        ),
        crew: await Promise.all(
          morning.seats
            .filter((seat) => seat.taskId === taskId)
            .map(async ({ volunteerId, skillId, level, role = null, how, startsAt, endsAt }) => ({
              hand: { volunteerId, name: morning.names.get(volunteerId) ?? '' },
              skill: skillId === null ? null : await skills.load(skillId),
              level,
              role,
              how,
              startsAt,
              endsAt,
            })),
        ),
      })),
    );
  }
}
