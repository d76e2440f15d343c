import { type Network, network, type Plan, WorkCalendar } from '@ribband/engine';
import { instantToLocal } from '@ribband/platform';
import { DayWords } from '../words/days.js';
import type { Told } from '../words/hold.js';
import type { PlanInput } from './plan-input.js';
import type { PlanEntity } from './plan.entity.js';

/** A kept plan, ready to be spoken of. Built once a plan; what costs something is worked out when first asked for. */
export class ToldPlan {
  readonly days: DayWords;
  readonly #taskIndex: ReadonlyMap<string, number>;
  readonly #linkIndex: ReadonlyMap<number, string>;
  #network: Network | null | undefined;
  #calendar: WorkCalendar | undefined;

  constructor(
    readonly entity: PlanEntity,
    readonly input: PlanInput,
  ) {
    const now = input.epochAt + input.problem.now * 60_000;
    this.days = new DayWords(input.timeZone, instantToLocal(now, input.timeZone).day.slice(0, 4));
    this.#taskIndex = new Map(input.problem.tasks.map(({ id }, i) => [id, i]));
    this.#linkIndex = new Map(input.linkIds.map((id, i) => [i, id]));
  }

  get problem() {
    return this.input.problem;
  }

  /** The engine's plan, or null where none exists. */
  get plan(): Plan | null {
    return this.entity.outcome.kind === 'plan' ? this.entity.outcome.plan : null;
  }

  /** What the sentences are made from; null where there is no plan. */
  get told(): Told | null {
    const { plan } = this;
    return plan ? { problem: this.problem, plan, epochAt: this.input.epochAt, days: this.days } : null;
  }

  get calendar(): WorkCalendar {
    this.#calendar ??= new WorkCalendar(this.problem.turnouts);
    return this.#calendar;
  }

  /** Early and late dates with people unlimited; null where the links run in a circle. */
  get network(): Network | null {
    if (this.#network === undefined) {
      const pass = network(this.problem);
      this.#network = pass.kind === 'network' ? pass : null;
    }
    return this.#network;
  }

  get longestTurnout(): number {
    return this.calendar.longest;
  }

  /** Index of a task in the problem, or undefined where the plan leaves it out. */
  indexOf(taskId: string): number | undefined {
    return this.#taskIndex.get(taskId);
  }

  taskId(index: number): string {
    return this.problem.tasks[index]?.id ?? '';
  }

  /** The record behind a link of the problem. */
  linkId(index: number): string | null {
    return this.#linkIndex.get(index) ?? null;
  }

  /** Epoch milliseconds of a minute of the plan. */
  instant(minute: number): number {
    return this.input.epochAt + minute * 60_000;
  }
}
