import { Audit, permit, type Caller } from '@ribband/access';
import { Database, expectVersion, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { said, saidNumber } from './said.js';
import { settingsOf } from './settings.records.js';
import type { TimberSettingsInput } from './stock.inputs.js';
import { StockHolds } from './stock-holds.service.js';
import { TimberSettings } from './timber-settings.entity.js';

/** Least, most and unit of each setting. */
const limits = {
  fahrenheit: [0, 120, 'degrees Fahrenheit'],
  humidity: [0, 0.99, 'of 1'],
  plankingPercent: [4, 40, 'percent'],
  framesPercent: [0, 60, 'percent'],
  usableShare: [0.1, 1, 'of the diameter'],
  poundsACubicFoot: [10, 80, 'pounds a cubic foot'],
  sawMarginMillimetres: [0, 100, 'millimetres'],
  grainRunOut: [0.01, 1, '(0.125 is 1 in 8)'],
  leadDays: [1, 730, 'days'],
} as const satisfies Record<keyof TimberSettingsInput, readonly [number, number, string]>;

/** The book's defaults are changed by the shipwright, with a reason. */
@Injectable()
export class TimberRules {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(StockHolds) private readonly holds: StockHolds,
  ) {}

  async change(
    caller: Caller,
    version: number,
    input: TimberSettingsInput,
    reason: string,
  ): Promise<TimberSettings> {
    permit(caller, 'shipwright');
    const changedReason = said('reason', reason, 1000);
    const values = checked(input);
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const haulOut =
        (await haulOutInForce(manager, organisationId)) ??
        refuse('NOT_FOUND', 'There is no haul-out yet.', { remedy: 'Bring in a yard first.' });
      const settings = await settingsOf(manager, haulOut);
      expectVersion(settings, version);
      Object.assign(settings, values, { version: version + 1, changedBy: caller.name, changedReason });
      await manager.save(TimberSettings, settings);
      if (await this.holds.settle(manager, organisationId))
        await this.revisions.requestPlan(manager, organisationId, 'changeTimberSettings');
      await this.audit.note(manager, caller, 'changeTimberSettings', settings.id, {
        reason: changedReason,
        ...values,
      });
      return settings;
    });
  }
}

function checked(input: TimberSettingsInput): Partial<TimberSettings> {
  const given = Object.entries(limits).flatMap(([name, [least, most, unit]]) => {
    const value = input[name as keyof TimberSettingsInput];
    if (value === null || value === undefined) return [];
    return [[name, saidNumber(name, value, least, most, unit)] as const];
  });
  if (given.length === 0)
    refuse('BAD_INPUT', 'Nothing is to be changed.', { field: 'input', remedy: 'Name at least one value.' });
  const values: Partial<TimberSettings> = Object.fromEntries(given);
  if (values.framesPercent === 0) values.framesPercent = null;
  return values;
}
