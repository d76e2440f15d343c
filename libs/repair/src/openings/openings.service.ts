import { Audit, permit, type Caller } from '@ribband/access';
import {
  type ConnectionOf,
  Database,
  expectVersion,
  instantToLocal,
  isDay,
  type PageArgs,
  paginate,
  RealClock,
  refuse,
  Revisions,
  YardClock,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { HullElement } from './hull-element.entity.js';
import { OpeningLimit } from './opening-limit.entity.js';

/** The hull's elements and how far it may be open. */
@Injectable()
export class Openings {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(YardClock) private readonly yardClock: YardClock,
  ) {}

  elements(caller: Caller, page: PageArgs): Promise<ConnectionOf<HullElement>> {
    const query = this.database.read
      .createQueryBuilder(HullElement, 'element')
      .where('element.organisationId = :organisationId', { organisationId: caller.organisationId });
    return paginate(query, page, ['id']);
  }

  /** At most 500. */
  limits(caller: Caller): Promise<OpeningLimit[]> {
    const { organisationId } = caller;
    return this.database.read.find(OpeningLimit, {
      where: { organisationId },
      order: { id: 'ASC' },
      take: 500,
    });
  }

  /**
   * The shipwright sets a limit aside with a written reason, or lets it hold again (null).
   * @param scope which elements it lets be open, and until when; all of them, and until it is taken back, unless given
   */
  async setAside(
    caller: Caller,
    id: string,
    version: number,
    reason: string | null,
    scope: { elementIds?: string[] | null; untilOn?: string | null } = {},
  ): Promise<OpeningLimit> {
    permit(caller, 'shipwright');
    const overrideReason = reason === null ? null : reason.trim();
    if (overrideReason !== null && (overrideReason.length < 10 || overrideReason.length > 1000))
      refuse('BAD_INPUT', 'A structural limit is set aside with a reason that others can follow.', {
        field: 'reason',
        remedy: 'Write what holds the hull instead, in 10 to 1000 characters.',
      });
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const limit =
        (await manager.findOneBy(OpeningLimit, { organisationId, id })) ??
        refuse('NOT_FOUND', 'There is no such limit.', { field: 'id', remedy: 'Read them again.' });
      expectVersion(limit, version);
      const { elementIds = null, untilOn = null } = overrideReason === null ? {} : scope;
      const haulOut = await haulOutInForce(manager, organisationId);
      const now = await this.yardClock.now(organisationId, manager);
      refuseScope(limit, elementIds, untilOn, instantToLocal(now, haulOut?.timeZone ?? 'UTC').day);
      const changes = {
        overrideBy: overrideReason === null ? null : caller.name,
        overrideReason,
        overriddenAt: overrideReason === null ? null : this.clock.now(),
        overrideElementIds: elementIds,
        overrideUntilOn: untilOn,
        version: version + 1,
      };
      await manager.update(OpeningLimit, { id }, changes);
      const operation = overrideReason === null ? 'restoreOpeningLimit' : 'overrideOpeningLimit';
      await this.revisions.requestPlan(manager, organisationId, `${operation}: ${limit.name}`);
      await this.audit.note(manager, caller, operation, id, { reason: overrideReason, elementIds, untilOn });
      return Object.assign(limit, changes);
    });
  }
}

function refuseScope(
  limit: OpeningLimit,
  elementIds: string[] | null,
  untilOn: string | null,
  today: string,
): void {
  if (
    elementIds !== null &&
    (elementIds.length === 0 || elementIds.some((id) => !limit.elementIds.includes(id)))
  )
    refuse('BAD_INPUT', `"${limit.name}" does not count all of these.`, {
      field: 'elementIds',
      remedy: 'Pieces that this limit counts, or none named for all of them.',
    });
  if (elementIds !== null && new Set(elementIds).size < elementIds.length)
    refuse('BAD_INPUT', 'A piece is named twice.', { field: 'elementIds', remedy: 'Each piece once.' });
  if (untilOn !== null && (!isDay(untilOn) || untilOn < today))
    refuse('BAD_INPUT', `${untilOn} is no day that is still to come.`, {
      field: 'untilOn',
      remedy: `A day such as ${today}, or one after it.`,
    });
}
