import { Audit, type Caller, permit } from '@ribband/access';
import { Database, newId, RealClock, refuse, Revisions } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { PinnedPace } from './pinned-pace.entity.js';
import { kindOf } from './read-experience.js';

/** More pieces than this in an hour are a slip of the pen. */
const most = 10_000;

/** Paces that the shipwright sets by hand. */
@Injectable()
export class Paces {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** @param pace pieces a person-hour; null lets it be learned again */
  async pin(caller: Caller, kind: string, pace: number | null, reason: string): Promise<void> {
    permit(caller, 'shipwright');
    const { organisationId } = caller;
    if (reason.trim() === '' || reason.length > 500)
      refuse('BAD_INPUT', 'A pace that is set by hand has a reason.', {
        field: 'reason',
        remedy: 'Say why, in a sentence.',
      });
    if (pace !== null && !(pace > 0 && pace <= most))
      refuse('BAD_INPUT', pace > most ? `Nobody does ${pace} pieces in an hour.` : 'A pace is above 0.', {
        field: 'pace',
        remedy: `Pieces that one person does in an hour: above 0, up to ${most}.`,
      });
    await this.database.write(async (manager) => {
      const known = (await manager.findBy(Task, { organisationId })).some(
        (task) => kindOf(task)?.key === kind,
      );
      if (!known) refuse('NOT_FOUND', 'No work of that kind is counted here.', { field: 'kind' });
      const old = await manager.findOneBy(PinnedPace, { organisationId, kind });
      if (old) await manager.delete(PinnedPace, { id: old.id });
      if (pace !== null)
        await manager.insert(PinnedPace, {
          id: newId('pace'),
          organisationId,
          kind,
          pace,
          reason: reason.trim(),
          pinnedBy: caller.name,
          pinnedAt: this.clock.now(),
        });
      await this.audit.note(manager, caller, 'pinPace', null, {
        words: pace === null ? 'a pace was left to the tallies again' : 'a pace was set by hand',
      });
      await this.revisions.request(manager, 'forecast', organisationId, 'a pace was set by hand');
    });
  }
}
