import { Audit, permit, type Caller } from '@ribband/access';
import { Database, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { Tool } from './tool.entity.js';

const mostAtOnce = 100;

/** What the yard has to work with. */
@Injectable()
export class Tools {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** There are more of a tool from now on. */
  async addMore(caller: Caller, id: string, more: number): Promise<Tool> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const tool =
        (await manager.findOneBy(Tool, { organisationId, id })) ??
        refuse('NOT_FOUND', 'There is no such tool.', {
          field: 'toolId',
          remedy: 'Choose one from the list.',
        });
      const capacity = tool.capacity + more;
      if (!Number.isInteger(more) || more < 1 || capacity > mostAtOnce)
        refuse('BAD_INPUT', `${String(more)} more is no number of tools.`, {
          field: 'more',
          remedy: `A whole number from 1, up to ${String(mostAtOnce)} of them in all.`,
        });
      const changed = await manager.save(Tool, { ...tool, capacity });
      await this.revisions.requestPlan(manager, organisationId, `changeTool: ${tool.name}`);
      await this.audit.note(manager, caller, 'changeTool', id, { before: tool.capacity, capacity });
      return changed;
    });
  }
}
