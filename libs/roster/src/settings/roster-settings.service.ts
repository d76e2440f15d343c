import { Audit, type Caller, permit } from '@ribband/access';
import { Database, expectVersion, refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { RosterSettingsEntity, usualSettings } from './roster-settings.entity.js';

export interface RosterSettingsEdit {
  version: number;
  lateHours: number;
  staleHours: number;
}

/** How a yard keeps its roster. */
@Injectable()
export class RosterSettings {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  async of(
    organisationId: string,
    manager: EntityManager = this.database.read,
  ): Promise<RosterSettingsEntity> {
    const row = await manager.findOneBy(RosterSettingsEntity, { organisationId });
    return row ?? Object.assign(new RosterSettingsEntity(), { organisationId, version: 0, ...usualSettings });
  }

  async set(caller: Caller, edit: RosterSettingsEdit): Promise<RosterSettingsEntity> {
    permit(caller, 'director', 'coordinator');
    const { organisationId } = caller;
    const { lateHours, staleHours } = edit;
    within('lateHours', lateHours, 0, 14 * 24);
    within('staleHours', staleHours, 1, 24);
    return this.database.write(async (manager) => {
      const known = await this.of(organisationId, manager);
      expectVersion(known, edit.version);
      const row = { organisationId, version: known.version + 1, lateHours, staleHours };
      await manager.upsert(RosterSettingsEntity, row, ['organisationId']);
      await this.audit.note(manager, caller, 'setRosterSettings', null, { lateHours, staleHours });
      return Object.assign(new RosterSettingsEntity(), row);
    });
  }
}

function within(field: string, hours: number, least: number, most: number): void {
  if (hours >= least && hours <= most) return;
  refuse('BAD_INPUT', `${hours} hours make no sense here.`, {
    field: `input.${field}`,
    remedy: `Choose ${least} to ${most} hours.`,
  });
}
