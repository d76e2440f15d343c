import { Audit, type Caller, Organisation, permit } from '@ribband/access';
import { Database, instantToLocal, localToInstant, refuse, Revisions, YardClock } from '@ribband/platform';
import { HoldPoints, Marks, SaySos, Tallies, Task, Tray, YardBoard } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { type Renewal, Renewals } from './renewals.service.js';

/** Before the first hand comes. */
const morning = '08:00';

/** Lets the demo yard's days go by as its plan has them, entered through the services that people use. */
@Injectable()
export class PlayOn {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Tallies) private readonly tallies: Tallies,
    @Inject(SaySos) private readonly saySos: SaySos,
    @Inject(HoldPoints) private readonly holdPoints: HoldPoints,
    @Inject(Marks) private readonly marks: Marks,
    @Inject(YardBoard) private readonly boards: YardBoard,
    @Inject(Renewals) private readonly renewals: Renewals,
  ) {}

  /**
   * Enters all that the plan in force has until the morning of a day: work finished at the pace of the book, holds
   * passed, readings that show no change, and anew what would run out by then. The clock goes along; where something
   * is refused, it stands there, and what came before it is done.
   */
  async until(caller: Caller, day: string): Promise<Organisation> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const { organisationId } = caller;
    const organisation = await this.database.read.findOneByOrFail(Organisation, { id: organisationId });
    if (!organisation.isDemo)
      refuse('DEMO_ONLY', 'Only the demo yard’s days go by as planned: at this one they go by as they do.');
    const told = await this.shelf.inForce(organisationId);
    if (!told?.plan)
      return refuse('NO_PLAN', 'There is no plan to go by yet.', { remedy: 'Wait until it is reckoned.' });
    const zone = told.input.timeZone;
    const now = await this.clock.now(organisationId);
    const last = told.days.dayOf(told.instant(told.plan.ready));
    const until = localToInstant(day, morning, zone);
    if (until <= now || day > last)
      refuse('BAD_INPUT', 'The plan has nothing until then.', {
        field: 'to',
        remedy: `A day after ${instantToLocal(now, zone).day}, up to ${last}, when she is ready.`,
      });
    const shipwright: Caller = { ...caller, role: 'shipwright' };
    await this.readBaselines(shipwright, now, zone);
    const due = await this.renewals.due(shipwright, { now, until: day, zone, morning });
    await this.work(shipwright, told, { until, due });
    await this.renew(organisationId, due, until);
    await this.goTo(organisationId, until);
    await this.readAgain(shipwright, day);
    await this.database.write(async (manager) => {
      await this.audit.note(manager, caller, 'playDemoOn', organisationId, { to: day });
      await this.revisions.requestPlan(manager, organisationId, 'the demo yard’s days went by');
    });
    return organisation;
  }

  /** Enters what is due by an instant, each at its own, and takes it off the list. */
  private async renew(organisationId: string, due: Renewal[], until: number): Promise<void> {
    while (due[0] && due[0].at <= until) {
      const [{ at, enter }] = due.splice(0, 1) as [Renewal];
      await this.goTo(organisationId, at);
      await enter();
    }
  }

  private async work(
    shipwright: Caller,
    told: ToldPlan,
    { until, due }: { until: number; due: Renewal[] },
  ): Promise<void> {
    const { organisationId } = shipwright;
    const { problem, plan } = told;
    const tasks = new Map(
      (await this.database.read.findBy(Task, { organisationId })).map((task) => [task.id, task]),
    );
    // What is driven must have been sorted first, hole by hole: at the end the work counts as finished without a count.
    const trays = await this.database.read.findBy(Tray, { organisationId });
    const driven = new Set(trays.map(({ driveRef }) => driveRef));
    const points = new Map((await this.holdPoints.list(shipwright)).map((one) => [one.task.id, one.point]));
    const { progress } = await this.boards.of(this.database.read, organisationId);
    const inOrder = (plan?.tasks ?? [])
      .map(({ start, end }, index) => ({ index, start, end: told.instant(end) }))
      .filter(({ index, end }) => end <= until && problem.tasks[index]?.progress.kind !== 'done')
      .sort((a, b) => a.end - b.end || a.start - b.start);
    for (const { index, end } of inOrder) {
      const task = tasks.get(told.taskId(index));
      // Time passes by itself.
      if (!task || task.droppedAt !== null || task.kind === 'elapsed' || task.kind === 'launch') continue;
      await this.renew(organisationId, due, end);
      await this.goTo(organisationId, end);
      const on = instantToLocal(end, told.input.timeZone).day;
      if (task.kind === 'hold') {
        const point = points.get(task.id);
        if (point?.seenOn === null)
          await this.holdPoints.seen(shipwright, [task.id], { on, by: 'Odalys Brenn', note: null });
        await this.saySos.pass(shipwright, task.id, null);
        continue;
      }
      const counted = task.estimateBy === 'count' && !driven.has(task.ref);
      const left = (problem.tasks[index]?.effort as { personMinutes?: number }).personMinutes ?? 0;
      await this.tallies.enter(shipwright, {
        taskId: task.id,
        volunteerId: null,
        turnoutId: null,
        on,
        count: counted ? (progress.get(task.id)?.countLeft ?? null) : null,
        minutes: Math.round(left),
        finished: true,
        note: null,
      });
    }
  }

  /** Where nobody has read since blocking: as she lay afloat. */
  private async readBaselines(shipwright: Caller, now: number, zone: string): Promise<void> {
    const on = instantToLocal(now, zone).day;
    for (const { mark, readings, state } of await this.marks.list(shipwright))
      if (state.drift.kind === 'no baseline')
        await this.marks.enter(
          shipwright,
          mark.id,
          twice('after blocking', on, readings.at(-1)?.millimetres ?? 0),
          'read after blocking, before anything is opened',
        );
  }

  private async readAgain(shipwright: Caller, on: string): Promise<void> {
    for (const { mark, readings, state } of await this.marks.list(shipwright))
      if (state.due !== null)
        await this.marks.enter(shipwright, mark.id, twice('later', on, readings.at(-1)?.millimetres ?? 0));
  }

  private goTo(organisationId: string, instant: number): Promise<void> {
    return this.database.write((manager) => this.clock.set(manager, organisationId, instant));
  }
}

const twice = (time: 'after blocking' | 'later', on: string, millimetres: number) =>
  ['Odalys Brenn', 'Emeric Holloran'].flatMap((reader) => {
    const reading = { on, time, reader, millimetres };
    return [reading, reading];
  });
