import type { RequestContext } from '@ribband/access';
import { groupedBy, inOrderOf, loader } from '@ribband/crew';
import type { EntityManager } from 'typeorm';
import { In } from 'typeorm';
import { type StandIn, standInsOf } from './methods/stand-ins.js';
import { HullElement } from './openings/hull-element.entity.js';
import { SaySo } from './tallies/say-so.entity.js';
import { TallyEntity } from './tallies/tally.entity.js';
import { Seat } from './tasks/seat.entity.js';
import { TaskOpening } from './tasks/task-opening.entity.js';
import { TaskTool } from './tasks/task-tool.entity.js';
import type { Board, YardBoard } from './tasks/yard-board.js';
import { Tool } from './tools/tool.entity.js';

type Context = Pick<RequestContext, 'loaders'>;

/** How the tasks of an organisation stand: laid out once a request, until something in it is changed. */
export const boardLoader = (context: Context, read: EntityManager, board: YardBoard) =>
  loader(context, 'repair.board', (organisationIds: readonly string[]): Promise<Board[]> =>
    Promise.all(organisationIds.map((id) => board.of(read, id))),
  );

/** Tasks of an organisation's own that stand for steps of its methods. */
export const standInsLoader = (context: Context, read: EntityManager) =>
  loader(context, 'repair.standIns', (organisationIds: readonly string[]): Promise<StandIn[][]> =>
    Promise.all(organisationIds.map((id) => standInsOf(read, id))),
  );

/** Called after a change: whatever this request has read before is read again. */
export function forgetRead(context: Context): void {
  context.loaders.clear();
}

const byTask =
  <T extends { id: string; taskId: string }>(
    name: string,
    entity: new () => T,
  ): ((context: Context, read: EntityManager) => ReturnType<typeof loader<string, T[]>>) =>
  (context, read) =>
    loader(context, name, async (ids: readonly string[]) => {
      const found = await read.find(entity, {
        where: { taskId: In([...ids]) } as never,
        order: { id: 'ASC' } as never,
      });
      return groupedBy(ids, found, (row) => row.taskId);
    });

export const seatsLoader = byTask('repair.seats', Seat);
export const taskToolsLoader = byTask('repair.taskTools', TaskTool);
export const openingsLoader = byTask('repair.openings', TaskOpening);
export const talliesLoader = byTask('repair.tallies', TallyEntity);
export const saySosLoader = byTask('repair.saySos', SaySo);

export const toolLoader = (context: Context, read: EntityManager) =>
  loader(context, 'repair.tool', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(Tool, { id: In([...ids]) })),
  );

export const elementLoader = (context: Context, read: EntityManager) =>
  loader(context, 'repair.element', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(HullElement, { id: In([...ids]) })),
  );
