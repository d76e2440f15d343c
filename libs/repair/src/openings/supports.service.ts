import { Audit, permit, type Caller } from '@ribband/access';
import { freeRef } from '@ribband/crew';
import { Database, newId, refuse, Revisions, expectVersion } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { Side } from './hull-element.entity.js';
import { HullDay } from './hull-today.js';
import { standsAt } from './opening-stops.js';
import { HullSupport, type SupportKind } from './hull-support.entity.js';
import { wordsGiven } from '../words.js';

/** What holds her shape while she is open, seen by a named person. */
@Injectable()
export class Supports {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(HullDay) private readonly days: HullDay,
  ) {}

  /** At most 500; what work has yet to set is among them. */
  list(caller: Caller): Promise<{ support: HullSupport; stands: boolean }[]> {
    return this.database.snapshot(async (manager) => {
      const today = await this.days.of(manager, caller.organisationId);
      return today.supports
        .slice(0, 500)
        .map((support) => ({ support, stands: standsAt(support, today, today.board.now) }));
    });
  }

  /** Says that a support stands over some frames, and who saw it. */
  async stands(
    caller: Caller,
    draft: { kind: SupportKind; side: Side; firstFrame: number; lastFrame: number; seenBy: string },
  ): Promise<HullSupport> {
    permit(caller, 'shipwright');
    const seenBy = wordsGiven(draft.seenBy, 'seenBy', 2, 200, 'The name of who saw it stand.');
    const { kind, side, firstFrame, lastFrame } = draft;
    if (!Number.isInteger(firstFrame) || firstFrame < 1)
      refuse('BAD_INPUT', 'Frames count from 1.', { field: 'firstFrame', remedy: 'A frame of her.' });
    if (!Number.isInteger(lastFrame) || lastFrame < firstFrame || lastFrame > 500)
      refuse('BAD_INPUT', 'It ends before it begins.', {
        field: 'lastFrame',
        remedy: `Frame ${firstFrame} or one aft of it.`,
      });
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const { today } = await this.days.of(manager, organisationId);
      const title = `${kind} ${side} ${firstFrame} to ${lastFrame}`;
      const support: HullSupport = {
        id: newId('support'),
        organisationId,
        ref: await freeRef(manager, HullSupport, organisationId, title),
        version: 1,
        kind,
        side,
        firstFrame,
        lastFrame,
        taskId: null,
        seenOn: today,
        seenBy,
        struckOn: null,
        struckBy: null,
      };
      await manager.insert(HullSupport, support);
      await this.revisions.requestPlan(manager, organisationId, `supportStands: ${title}`);
      await this.audit.note(manager, caller, 'supportStands', support.id, { title, seenBy });
      return support;
    });
  }

  /** Says that a support was taken away. */
  async strike(caller: Caller, id: string, version: number): Promise<HullSupport> {
    permit(caller, 'shipwright');
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const today = await this.days.of(manager, organisationId);
      const support =
        today.supports.find((one) => one.id === id) ??
        refuse('NOT_FOUND', 'There is no such support.', { field: 'id', remedy: 'Read them again.' });
      expectVersion(support, version);
      if (support.struckOn !== null)
        refuse('BAD_INPUT', 'It was struck already.', { field: 'id', remedy: 'Read them again.' });
      if (!standsAt(support, today, today.board.now))
        refuse('BAD_INPUT', 'It does not stand yet: the work that sets it is not done.', {
          field: 'id',
          remedy: 'Only what stands is struck.',
        });
      const changes = {
        struckOn: today.today,
        struckBy: caller.name,
        version: version + 1,
      };
      await manager.save(HullSupport, { ...support, ...changes });
      await this.revisions.requestPlan(manager, organisationId, `strikeSupport: ${support.kind}`);
      await this.audit.note(manager, caller, 'strikeSupport', id, {});
      return { ...support, ...changes };
    });
  }
}
