import type { LiftSlot } from '@ribband/repair';
import { daysFromTo } from '../words/days.js';
import { bottleneckSentence, boundSentence, gapPercent, readySentence } from '../words/plan-sentences.js';
import { PlanModel } from './plan.types.js';
import type { ToldPlan } from './told-plan.js';

/**
 * A plan as GraphQL shows it.
 * @param slots the lift slots that it was made for, by id
 */
export function planModel(told: ToldPlan, slots: ReadonlyMap<string, LiftSlot>): PlanModel {
  const { entity, input, plan } = told;
  const slot = (index: number): LiftSlot | null => slots.get(input.slots[index]?.id ?? '') ?? null;
  const gate = slot(input.slots.findIndex((one) => one.kind === 'gate'));
  if (!gate) throw new Error(`Plan ${entity.id} was made for a gate that is gone`);
  const bound = plan ? told.instant(plan.bound.ready) : null;
  const sentences = told.told;
  return Object.assign(new PlanModel(), {
    told,
    id: entity.id,
    revision: entity.revision,
    madeAt: entity.madeAt,
    readyAt: entity.readyAt,
    readyOn: entity.readyAt === null ? null : told.days.dayOf(entity.readyAt),
    launchSlot: plan?.slot === null || plan?.slot === undefined ? null : slot(plan.slot),
    gateSlot: gate,
    daysToSpare: entity.readyAt === null ? 0 : daysFromTo(told.days, entity.readyAt, gate.startsAt),
    sentence: sentenceOf(told),
    boundReadyAt: bound,
    boundKind: plan?.bound.kind ?? null,
    bottleneckSentence: sentences ? bottleneckSentence(sentences) : null,
    boundSentence: sentences ? boundSentence(sentences) : null,
    gapPercent: sentences ? gapPercent(sentences) : null,
    proved: plan?.proved ?? false,
    postingsChanged: plan?.postingsChanged ?? 0,
    schedules: entity.schedules,
    notices: entity.notices.slice(0, 100),
  });
}

/** The plan in one sentence. */
export function sentenceOf(told: ToldPlan): string {
  const sentences = told.told;
  return sentences
    ? readySentence(sentences, told.input.slots)
    : 'No plan exists: some wishes can’t all hold.';
}
