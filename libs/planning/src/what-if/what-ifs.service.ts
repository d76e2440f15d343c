import { type Caller, permit } from '@ribband/access';
import { Database, instantToLocal, newId, RealClock, refuse, Revisions } from '@ribband/platform';
import { haulOutInForce } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { staffRoles } from '../plans/plans.service.js';
import { DayWords } from '../words/days.js';
import { oddsWords } from '../words/odds-words.js';
import type { Look, Supposed } from './supposed.js';
import { WhatIfEntity } from './what-if.entity.js';
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
  ) {}

  async list(caller: Caller): Promise<WhatIf[]> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    const kept = await this.database.read.find(WhatIfEntity, {
      where: { organisationId },
      order: { id: 'DESC' },
      take: mostKept,
    });
    const zone = (await haulOutInForce(this.database.read, organisationId))?.timeZone ?? 'UTC';
    return kept.map((one) => modelOf(one, zone));
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
      const row: WhatIfEntity = {
        id: newId('whatif'),
        organisationId,
        name: name.trim(),
        changes,
        askedBy: caller.name,
        askedAt: this.clock.now(),
        state: 'waiting',
        result: null,
        message: null,
      };
      await manager.insert(WhatIfEntity, row);
      const kept = await manager.find(WhatIfEntity, { where: { organisationId }, order: { id: 'DESC' } });
      for (const { id } of kept.slice(mostKept)) await manager.delete(WhatIfEntity, { id });
      await this.revisions.request(manager, 'what-if', organisationId, `${caller.name} asked: what if?`);
      return modelOf(row, 'UTC');
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
      if (!days || days < 1 || days > 365) return wanting('days', '1 to 365 days.');
      return { kind: 'late', taskIds: those(), days };
    case 'turnouts':
      return { kind: 'turnouts', weekday: onDays()[0] ?? 7, ...span() };
    case 'recruit':
      if (!skillId) return wanting('skillId', 'Which skill they have.');
      if (!level || level < 1 || level > 4) return wanting('level', '1 learning to 4 may say so.');
      return { kind: 'recruit', skillId, level, weekdays: onDays(), ...span() };
  }
}

function modelOf(row: WhatIfEntity, zone: string): WhatIf {
  const { id, name, askedBy, askedAt, state, message, result } = row;
  return {
    id,
    name,
    askedBy,
    askedAt,
    isWaiting: state === 'waiting',
    message,
    sentence: result ? sentenceOf(result.now, result.then, zone) : null,
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

/** '9 in 10 instead of 6 in 10; ready in 8 of 10 by 3 Oct instead of 14 Oct.' */
function sentenceOf(now: Look, then: Look, zone: string): string {
  const [before, after] = [oddsWords(now.gate.odds), oddsWords(then.gate.odds)];
  const odds = before === after ? `Still ${after}` : `${after} instead of ${before}`;
  const year = instantToLocal(now.readyAt ?? then.readyAt ?? 0, zone).day.slice(0, 4);
  const days = new DayWords(zone, year);
  const at = (instant: number | null) => (instant === null ? 'no day that is known' : days.at(instant));
  return `${odds} to make the gate; ready in 8 futures of 10 by ${at(then.likelyAt)} instead of ${at(now.likelyAt)}.`;
}
