import { type Caller, permit } from '@ribband/access';
import { Database, instantToLocal, newId, RealClock, refuse, Revisions, YardClock } from '@ribband/platform';
import { haulOutInForce } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { OddsDesk, wentWrong } from '../outlook/odds-desk.service.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { staffRoles } from '../plans/plans.service.js';
import { DayWords } from '../words/days.js';
import { oddsWords } from '../words/odds-words.js';
import { refuseUnsound } from './refuse-unsound.js';
import type { Look, Supposed } from './supposed.js';
import { byHandWords, namesOf, supposedWords } from './supposed-words.js';
import { WhatIfEntity } from './what-if.entity.js';
import { whatIfSentence } from './what-if-sentence.js';
import type { LookModel, SupposedInput, WhatIf } from './what-if.types.js';

/** What-ifs that are kept; the oldest go. */
const mostKept = 30;

/** Changes that people think of. They are reckoned on a copy; the plan in force goes on. */
@Injectable()
export class WhatIfs {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(OddsDesk) private readonly desk: OddsDesk,
  ) {}

  async list(caller: Caller): Promise<WhatIf[]> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    const kept = await this.database.read.find(WhatIfEntity, {
      where: { organisationId },
      order: { id: 'DESC' },
      take: mostKept,
    });
    return Promise.all(kept.map((one) => this.told(one)));
  }

  /** A what-if as it is shown. */
  async told(row: WhatIfEntity, manager: EntityManager = this.database.read): Promise<WhatIf> {
    const { organisationId } = row;
    const zone = (await haulOutInForce(manager, organisationId))?.timeZone ?? 'UTC';
    const names = await namesOf(manager, organisationId, row.changes);
    const days = new DayWords(
      zone,
      instantToLocal(await this.yardClock.now(organisationId, manager), zone).day.slice(0, 4),
    );
    const inForce = await this.shelf.inForce(organisationId, manager);
    const isOfPlan =
      row.result !== null &&
      inForce?.entity.id === row.result.planId &&
      (await this.shelf.isNewest(inForce, manager));
    const isLost = row.state === 'waiting' && !(await this.desk.isAtWork(manager, organisationId, 'what-if'));
    return modelOf(isLost ? { ...row, state: 'failed', message: wentWrong } : row, {
      zone,
      isOfPlan,
      changes: row.changes.map((change) => supposedWords(change, names, days)),
    });
  }

  /** Has it reckoned once more, against the plan that is in force by then. */
  async again(caller: Caller, id: string): Promise<WhatIf> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const row = await manager.findOneBy(WhatIfEntity, { organisationId, id });
      if (!row) return refuse('NOT_FOUND', 'There is no such what-if.', { field: 'id' });
      if (row.applied)
        return refuse('ALREADY_EXISTS', `${row.applied.by} has applied this already.`, {
          field: 'id',
          remedy: 'Ask anew for what you have in mind now.',
        });
      const waiting: WhatIfEntity = { ...row, state: 'waiting', result: null, message: null };
      await manager.save(WhatIfEntity, waiting);
      await this.revisions.request(
        manager,
        'what-if',
        organisationId,
        `${caller.name} asked again: what if?`,
      );
      return this.told(waiting, manager);
    });
  }

  async ask(caller: Caller, name: string, inputs: readonly SupposedInput[]): Promise<WhatIf> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    if (name.trim() === '' || name.length > 120)
      refuse('BAD_INPUT', 'A what-if has a name.', {
        field: 'name',
        remedy: 'A few words, such as “a second sawyer in May”.',
      });
    if (inputs.length === 0 || inputs.length > 10)
      refuse('BAD_INPUT', 'Say what would be different.', {
        field: 'changes',
        remedy: 'One to ten changes.',
      });
    const changes = inputs.map(supposed);
    return this.database.write(async (manager) => {
      await refuseUnsound(manager, organisationId, changes);
      const row: WhatIfEntity = {
        id: newId('whatif'),
        organisationId,
        name: name.trim(),
        changes,
        askedBy: caller.name,
        askedAt: this.clock.now(),
        state: 'waiting',
        result: null,
        applied: null,
        message: null,
      };
      await manager.insert(WhatIfEntity, row);
      const kept = await manager.find(WhatIfEntity, { where: { organisationId }, order: { id: 'DESC' } });
      for (const { id } of kept.slice(mostKept)) await manager.delete(WhatIfEntity, { id });
      await this.revisions.request(manager, 'what-if', organisationId, `${caller.name} asked: what if?`);
      return this.told(row, manager);
    });
  }

  async forget(caller: Caller, id: string): Promise<void> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    await this.database.write(async (manager) => {
      const known = await manager.existsBy(WhatIfEntity, { organisationId, id });
      if (!known) refuse('NOT_FOUND', 'There is no such what-if.', { field: 'id' });
      await manager.delete(WhatIfEntity, { organisationId, id });
    });
  }
}

function supposed(input: SupposedInput, index: number): Supposed {
  const wanting = (field: string, remedy: string): never =>
    refuse('BAD_INPUT', 'The change is not said whole.', {
      field: `changes.${String(index)}.${field}`,
      remedy,
    });
  const { taskIds, weekdays, fromOn, untilOn, skillId, level, days } = input;
  const { toolId, more, volunteerId, trainerId } = input;
  const learnt = () =>
    level && level >= 1 && level <= 4 ? level : wanting('level', '1 learning to 4 may say so.');
  const those = () =>
    taskIds && taskIds.length > 0 && taskIds.length <= 500 ? taskIds : wanting('taskIds', 'Name the work.');
  const span = () => {
    if (!fromOn || !untilOn || untilOn < fromOn)
      return wanting('untilOn', 'A first and a last day, the last one later.');
    return { fromOn, untilOn };
  };
  const onDays = () =>
    weekdays && weekdays.length > 0 && weekdays.every((one) => one >= 1 && one <= 7)
      ? weekdays
      : wanting('weekdays', 'Weekdays from 1, Monday, to 7, Sunday.');
  switch (input.kind) {
    case 'drop':
      return { kind: 'drop', taskIds: those() };
    case 'late':
    case 'sooner':
      if (!days || days < 1 || days > 365) return wanting('days', '1 to 365 days.');
      return { kind: input.kind, taskIds: those(), days };
    case 'tool':
      if (!toolId) return wanting('toolId', 'Which tool.');
      if (!more || more < 1 || more > 10) return wanting('more', '1 to 10 more of it.');
      return { kind: 'tool', toolId, more };
    case 'train':
      if (!skillId) return wanting('skillId', 'Which skill is taught.');
      if (!volunteerId) return wanting('volunteerId', 'Who learns.');
      if (!trainerId || trainerId === volunteerId) return wanting('trainerId', 'Who teaches; somebody else.');
      return { kind: 'train', volunteerId, trainerId, skillId, level: learnt() };
    case 'turnouts':
      return { kind: 'turnouts', weekday: onDays()[0] ?? 7, ...span() };
    case 'recruit':
      if (!skillId) return wanting('skillId', 'Which skill they have.');
      return { kind: 'recruit', skillId, level: learnt(), weekdays: onDays(), ...span() };
  }
}

function modelOf(
  row: WhatIfEntity,
  { zone, isOfPlan, changes }: { zone: string; isOfPlan: boolean; changes: string[] },
): WhatIf {
  const { id, name, askedBy, askedAt, state, message, result, applied } = row;
  return {
    id,
    name,
    askedBy,
    askedAt,
    changes,
    isOfPlan,
    applied,
    canBeEntered: row.changes.some((change) => byHandWords(change) === null),
    byHand: [...new Set(row.changes.flatMap((change) => byHandWords(change) ?? []))],
    isWaiting: state === 'waiting',
    message,
    sentence: result ? whatIfSentence(result, zone) : null,
    now: result ? lookModel(result.now, zone) : null,
    then: result ? lookModel(result.then, zone) : null,
  };
}

function lookModel(look: Look, zone: string): LookModel {
  const day = (instant: number | null) => (instant === null ? null : instantToLocal(instant, zone).day);
  return {
    readyOn: day(look.readyAt),
    evenOn: day(look.evenAt),
    likelyOn: day(look.likelyAt),
    gateOdds: look.gate.odds,
    oddsWords: oddsWords(look.gate.odds),
    spread: look.spread.flatMap((instant) => day(instant) ?? []),
  };
}
