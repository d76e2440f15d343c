import { type Caller } from '@ribband/access';
import { addDays } from '@ribband/platform';
import { capital, FasteningKinds, type StockOrders, StockToOrder, Task, Tray } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { orderWords } from '../fastenings/kind-plan.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { listOf } from '../words/days.js';
import type { Due } from './decisions.js';

/** Days from order to delivery of fastenings, unless somebody says otherwise. Common practice, no source. */
const fasteningDays = 21;
const mostNamed = 3;

/** What has to be ordered, and by when: stock that is wanting, and fastenings that will be. */
@Injectable()
export class OrdersDue {
  constructor(
    @Inject(StockToOrder) private readonly stock: StockToOrder,
    @Inject(FasteningKinds) private readonly kinds: FasteningKinds,
  ) {}

  async of(manager: EntityManager, told: ToldPlan, today: string): Promise<Due[]> {
    const { organisationId } = told.entity;
    const stock = await this.stock.of(manager, organisationId);
    return [
      ...(stock ? stockDue(stock, told, today) : []),
      ...(await this.fastenings(manager, { organisationId }, told, today)),
    ];
  }

  private async fastenings(
    manager: EntityManager,
    { organisationId }: Pick<Caller, 'organisationId'>,
    told: ToldPlan,
    today: string,
  ): Promise<Due[]> {
    const trays = await manager.findBy(Tray, { organisationId });
    const refs = trays.flatMap(({ driveRef }) => driveRef ?? []);
    const tasks = await manager.findBy(Task, { organisationId, ref: In(refs) });
    const startOf = new Map(tasks.flatMap(({ ref, id }) => plannedDay(told, id).map((on) => [ref, on])));
    const kinds = await this.kinds.all({ organisationId }, manager);
    return fasteningsDue(kinds, trays, startOf, today, (day) => told.days.weekday(day));
  }
}

/**
 * By when fastenings must be ordered of which some will be wanting nine times in ten.
 * @param startOf the local day on which the driving of a tray is planned to begin, by the task's ref
 */
export function fasteningsDue(
  kinds: readonly { fastening: string; nineInTenShort: number }[],
  trays: readonly Pick<Tray, 'fastening' | 'driveRef'>[],
  startOf: ReadonlyMap<string, string>,
  today: string,
  inWords: (day: string) => string,
): Due[] {
  return kinds.flatMap(({ fastening, nineInTenShort }): Due[] => {
    const own = trays.filter((tray) => tray.fastening === fastening);
    const days = own.flatMap(({ driveRef }) => startOf.get(driveRef ?? '') ?? []).sort();
    const { on, words } = orderWords(nineInTenShort, days[0] ?? null, fasteningDays, today, inWords);
    return on === null ? [] : [{ on, words: `${capital(fastening)}: ${words}`, isLate: on < today }];
  });
}

/** By when stock must be ordered so that the work that first cuts it need not wait. */
export function stockDue({ leadDays, wanted, pieces }: StockOrders, told: ToldPlan, today: string): Due[] {
  const dated = (wanted ?? pieces).flatMap(({ name, taskId }) =>
    plannedDay(told, taskId).map((on) => ({ name, on })),
  );
  const usual = `finding stock usually takes ${String(leadDays)} days`;
  if (wanted === null) {
    const first = dated.map(({ on }) => on).sort()[0];
    if (first === undefined) return [];
    const on = addDays(first, -leadDays);
    const words = `Lay the patterns up on the stock and keep it, so that what is wanting is known: the first is cut on ${told.days.weekday(first)}, and ${usual}.`;
    return [{ on, words, isLate: on < today }];
  }
  const byDay = new Map<string, string[]>();
  for (const { name, on } of dated) byDay.set(on, [...(byDay.get(on) ?? []), name]);
  return [...byDay].map(([cutOn, names]): Due => {
    const on = addDays(cutOn, -leadDays);
    const more = names.length - mostNamed;
    const which =
      more > 0 ? `${names.slice(0, mostNamed).join(', ')} and ${String(more)} more` : listOf(names);
    return {
      on,
      words: `Order stock for ${which}: cut on ${told.days.weekday(cutOn)}, and ${usual}.`,
      isLate: on < today,
    };
  });
}

/** The day on which a task is planned to begin; none where it is done, or not planned. */
function plannedDay(told: ToldPlan, taskId: string): string[] {
  const index = told.indexOf(taskId) ?? -1;
  const task = told.problem.tasks[index];
  const times = told.plan?.tasks[index];
  if (!task || !times || task.progress.kind !== 'waiting') return [];
  return [told.days.dayOf(told.instant(times.start))];
}
