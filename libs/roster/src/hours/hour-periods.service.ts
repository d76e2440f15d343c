import { Audit, permit, type Caller } from '@ribband/access';
import { YardDay } from '@ribband/crew';
import { Bus, Database, newId, RealClock, refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { LessThanOrEqual, MoreThanOrEqual } from 'typeorm';
import { tellRoster } from '../roster-news.js';
import { entriesBetween } from './hour.records.js';
import { HourPeriodEntity } from './hour-period.entity.js';

/** Closing days of the hours book for good. */
@Injectable()
export class HourPeriods {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
  ) {}

  /** Closed periods, newest first; at most 200. */
  list(caller: Caller): Promise<HourPeriodEntity[]> {
    permit(caller, 'director', 'coordinator');
    return this.database.read.find(HourPeriodEntity, {
      where: { organisationId: caller.organisationId },
      order: { fromOn: 'DESC' },
      take: 200,
    });
  }

  /** Closes days that are over; nobody may still be signed on in them. */
  async close(caller: Caller, from: string, to: string): Promise<HourPeriodEntity> {
    permit(caller, 'director', 'coordinator');
    const { organisationId } = caller;
    if (to < from)
      refuse('BAD_INPUT', 'The last day is before the first.', {
        field: 'to',
        remedy: `Name ${from} or a later day.`,
      });
    return this.database.write(async (manager) => {
      const today = await this.yardDay.today(organisationId, manager);
      if (to >= today)
        refuse('BAD_INPUT', `${to} is not over yet.`, {
          field: 'to',
          remedy: `Close up to a day before ${today}.`,
        });
      const other = await manager.findOneBy(HourPeriodEntity, {
        organisationId,
        fromOn: LessThanOrEqual(to),
        toOn: MoreThanOrEqual(from),
      });
      if (other)
        refuse('PERIOD_CLOSED', `${other.fromOn} to ${other.toOn} are closed already.`, {
          field: 'from',
          remedy: 'Choose days beside those.',
          facts: { 'closed by': other.closedBy },
        });
      const open = await entriesBetween(manager, organisationId, from, to)
        .andWhere('entry.minutes IS NULL')
        .getCount();
      if (open > 0)
        refuse(
          'STILL_IN_USE',
          `${open === 1 ? 'One sign-on is' : `${open} sign-ons are`} still open in these days.`,
          {
            field: 'from',
            remedy: 'Sign those people off first, with the time at which they stopped.',
          },
        );
      const period: HourPeriodEntity = {
        id: newId('hourperiod'),
        organisationId,
        fromOn: from,
        toOn: to,
        closedBy: caller.name,
        closedAt: this.realClock.now(),
      };
      await manager.insert(HourPeriodEntity, period);
      await this.audit.note(manager, caller, 'closeHours', period.id, { from, to });
      tellRoster(this.bus, manager, organisationId, []);
      return period;
    });
  }
}
