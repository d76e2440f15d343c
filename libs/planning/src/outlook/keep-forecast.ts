import type { Forecast } from '@ribband/engine';
import { newId } from '@ribband/platform';
import { In, Not, type EntityManager } from 'typeorm';
import { PlanEntity } from '../plans/plan.entity.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { ForecastEntity } from './forecast.entity.js';
import { OutlookMark } from './outlook-mark.entity.js';
import { recordedEvents } from './recorded-events.js';

/**
 * Keeps a forecast with its plan, and marks how things look today. A later forecast of the same day takes the place of
 * its mark; what was recorded since the day before stays its reason.
 */
export async function keepForecast(
  manager: EntityManager,
  told: ToldPlan,
  forecast: Forecast,
  { beliefs, before, lookedAt, madeAt }: Pick<ForecastEntity, 'beliefs' | 'before' | 'lookedAt' | 'madeAt'>,
): Promise<void> {
  const { organisationId, id: planId, revision } = told.entity;
  await manager.upsert(
    ForecastEntity,
    { organisationId, planId, revision, madeAt, lookedAt, before, document: forecast, beliefs },
    ['planId'],
  );
  const plans = await manager.find(PlanEntity, { select: { id: true }, where: { organisationId } });
  await manager.delete(ForecastEntity, { organisationId, planId: Not(In(plans.map(({ id }) => id))) });
  await mark(manager, told, forecast, lookedAt ?? madeAt);
}

async function mark(
  manager: EntityManager,
  told: ToldPlan,
  forecast: Forecast,
  lookedAt: number,
): Promise<void> {
  const { organisationId, revision } = told.entity;
  const dayOf = (minute: number | null) => (minute === null ? null : told.days.dayOf(told.instant(minute)));
  const markedOn = told.days.dayOf(told.instant(told.problem.now));
  const marks = await manager.find(OutlookMark, { where: { organisationId }, order: { markedOn: 'ASC' } });
  const today = marks.find((one) => one.markedOn === markedOn);
  if (today && today.revision > revision) return;
  const before = marks.findLast((one) => one.markedOn < markedOn);
  await manager.upsert(
    OutlookMark,
    {
      id: today?.id ?? newId('mark'),
      organisationId,
      markedOn,
      revision,
      madeAt: lookedAt,
      evenOn: dayOf(forecast.ready.p50.minute),
      likelyOn: dayOf(forecast.ready.p80.minute),
      gateOn: dayOf(told.problem.aim.gate) ?? markedOn,
      gateOdds: forecast.gate.odds,
      reasons: await recordedEvents(manager, organisationId, before?.madeAt ?? 0, lookedAt),
    },
    ['id'],
  );
}
