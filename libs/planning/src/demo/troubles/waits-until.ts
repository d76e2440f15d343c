import { addDays } from '@ribband/platform';
import { Task, Tool } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';
import type { ToldPlan } from '../../plans/told-plan.js';
import type { Trouble } from './trouble.js';

/**
 * The first day on which a trouble can happen by the plan; null where that is today, or not to be foreseen. The plan may
 * have been made before the days that went by.
 */
export async function waitsUntil(
  read: EntityManager,
  { waitsFor }: Pick<Trouble, 'waitsFor'>,
  told: ToldPlan,
  today: string,
): Promise<string | null> {
  const { plan, problem, days } = told;
  if (!waitsFor || !plan) return null;
  const { organisationId } = told.entity;
  const dayOf = (minute: number) => days.dayOf(told.instant(minute));
  if (waitsFor.kind === 'done') {
    const rows = await read.findBy(Task, { organisationId, ref: In(waitsFor.tasks) });
    const ends = rows.flatMap(({ id }) => {
      const index = told.indexOf(id) ?? -1;
      const isOpen = problem.tasks[index] && problem.tasks[index].progress.kind !== 'done';
      return isOpen ? (plan.tasks[index]?.end ?? []) : [];
    });
    return ends.length === 0 ? null : toCome(addDays(dayOf(Math.max(...ends)), 1), today);
  }
  const tool = await read.findOneBy(Tool, { organisationId, ref: waitsFor.tool });
  const index = problem.tools.findIndex(({ id }) => id === tool?.id);
  const starts = plan.segments.flatMap(({ task, start, turnout }) => {
    const { tools, crew } = problem.tasks[task] ?? { tools: [], crew: { min: 0 } };
    const runs = crew.min >= waitsFor.crew && tools.some((one) => one.tool === index);
    return runs && turnout !== null && dayOf(start) >= today ? [start] : [];
  });
  return starts.length === 0 ? null : toCome(dayOf(Math.min(...starts)), today);
}

const toCome = (day: string, today: string): string | null => (day > today ? day : null);
