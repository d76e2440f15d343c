import { Audit, permitOwn, type Caller } from '@ribband/access';
import { Database, expectVersion, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { writeAvailability } from '../document/write-crew.js';
import { refuseFaults } from '../faults.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import { volunteerOf } from '../volunteers/volunteers.service.js';
import { YardDay } from '../yard/yard-day.js';
import { AvailabilityExceptionEntity } from './availability-exception.entity.js';
import { availabilityFaults } from './availability-faults.js';
import { AvailabilityRuleEntity } from './availability-rule.entity.js';
import type { ComingException, ComingRule } from './availability.types.js';

/** When people can come. */
@Injectable()
export class Availability {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  /** Puts a whole new set in the place of the old one: the coordinator for anybody, everybody for themselves. */
  async set(
    caller: Caller,
    volunteerId: string,
    version: number,
    rules: ComingRule[],
    exceptions: ComingException[],
  ): Promise<Volunteer> {
    permitOwn(caller, volunteerId, 'coordinator');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const volunteer = await volunteerOf(manager, organisationId, volunteerId);
      expectVersion(volunteer, version);
      refuseFaults(availabilityFaults(rules, exceptions, await this.yardDay.zone(organisationId, manager)));
      const before = await manager.findBy(AvailabilityExceptionEntity, { volunteerId, canCome: false });
      const ruled = await manager.findBy(AvailabilityRuleEntity, { volunteerId });
      await manager.delete(AvailabilityRuleEntity, { volunteerId });
      await manager.delete(AvailabilityExceptionEntity, { volunteerId });
      await writeAvailability(manager, { organisationId, volunteerId }, { rules, exceptions });
      volunteer.version += 1;
      await manager.update(Volunteer, { id: volunteerId }, { version: volunteer.version });
      await this.revisions.requestPlan(manager, organisationId, `when ${volunteer.name} can come`);
      await this.audit.note(manager, caller, 'setAvailability', volunteerId, {
        rules: rules.length,
        exceptions: exceptions.length,
        away: newlyAway(before, exceptions),
        ...(lastDay(rules) === lastDay(ruled) ? {} : { leavesOn: lastDay(rules) }),
      });
      return volunteer;
    });
  }
}

/** Spans of days on which somebody said before that they come, or nothing. */
function newlyAway(
  before: readonly { fromOn: string; toOn: string }[],
  now: readonly ComingException[],
): { fromOn: string; toOn: string }[] {
  return now.flatMap(({ fromOn, toOn, canCome }) => {
    const isKnown = before.some((one) => one.fromOn === fromOn && one.toOn === toOn);
    return canCome || isKnown ? [] : [{ fromOn, toOn }];
  });
}

/** The last day on which somebody comes by their rules; null where one of them has no end, or there is none. */
function lastDay(rules: readonly { untilOn: string | null }[]): string | null {
  const ends = rules.map(({ untilOn }) => untilOn);
  return ends.includes(null) ? null : (ends.sort().at(-1) ?? null);
}
