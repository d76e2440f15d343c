import { Audit, type Caller } from '@ribband/access';
import { Bus, Database, instantToLocal, localToInstant, newId, refuse, YardClock } from '@ribband/platform';
import { wordsOf, wordsOrNull } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, type EntityManager } from 'typeorm';
import { Deeds } from '../deeds/deeds.service.js';
import { tellRoster } from '../roster-news.js';
import { wasHeld } from '../turnouts/call-off.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { yardDays } from '../turnouts/yard-days.js';
import { hasFigures, PumpEntryEntity } from './pump-entry.entity.js';
import { mayWriteLog, type PumpLog, pumpLogOf, watchNow } from './pump-log.records.js';

export interface PumpDraft {
  turnoutId: string;
  /** When somebody looked: a day and a time of it at the yard, or the instant, in epoch milliseconds. */
  read: { on: string; time: string } | number;
  depthMillimetres: number | null;
  strokes: number | null;
  minutes: number | null;
  doneBy: string;
  remark: string | null;
  /** In whose place it stands; without figures it strikes that out. */
  correctsId: string | null;
  reason: string | null;
}

type Said = Omit<PumpEntryEntity, 'id' | 'organisationId' | 'turnoutId' | 'writtenBy' | 'writtenAt'>;

/** Who comes on early and who hands over late. */
const aroundMillis = 3_600_000;
/** Every minute of the longest watch. */
const mostRounds = 500;
const minuteMillis = 60_000;

/** The pump log of watches afloat: rounds are written down and corrected, never erased. */
@Injectable()
export class PumpLogs {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(Deeds) private readonly deeds: Deeds,
  ) {}

  /**
   * @param turnoutId null: of the watch that goes on, or of the last that began
   * @returns null before the first watch
   */
  async of(caller: Caller, turnoutId: string | null): Promise<PumpLog | null> {
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const now = await this.clock.now(organisationId, manager);
      const watch =
        turnoutId === null
          ? await watchNow(manager, organisationId, now)
          : await watchOf(manager, organisationId, turnoutId, 'turnoutId');
      return watch && pumpLogOf(manager, caller, watch, now);
    });
  }

  /** Writes a round down, or one in the place of another. */
  async write(caller: Caller, draft: PumpDraft, key: string | null = null): Promise<PumpLog> {
    const { organisationId } = caller;
    const told = async (manager: EntityManager, id: string) => {
      const watch = await watchOf(manager, organisationId, draft.turnoutId, 'input.turnoutId');
      const now = await this.clock.now(organisationId, manager);
      return { id, log: await pumpLogOf(manager, caller, watch, now) };
    };
    const work = async (manager: EntityManager) => told(manager, await this.writeIn(manager, caller, draft));
    const asked = `writePumpEntry ${JSON.stringify(draft)}`;
    return (await this.deeds.once(caller, { key, asked, work, again: told })).log;
  }

  private async writeIn(manager: EntityManager, caller: Caller, draft: PumpDraft): Promise<string> {
    const { organisationId } = caller;
    const watch = await watchOf(manager, organisationId, draft.turnoutId, 'input.turnoutId');
    if (!(await mayWriteLog(manager, caller, watch.id)))
      refuse('NOT_PERMITTED', 'The pump log is written by who is on that watch, or by who leads.', {
        field: 'input.turnoutId',
        remedy: 'Tell one of them what you saw.',
      });
    if (draft.correctsId === null) await refuseMany(manager, watch);
    else await refuseCorrection(manager, watch, draft.correctsId);
    const now = await this.clock.now(organisationId, manager);
    const zone = (await yardDays(manager, organisationId))?.timeZone ?? 'UTC';
    const said = saidOf(draft, watch, now, zone);
    const row: PumpEntryEntity = {
      ...{ id: newId('pumpentry'), organisationId, turnoutId: watch.id },
      ...said,
      ...{ writtenBy: caller.name, writtenAt: now },
    };
    await manager.insert(PumpEntryEntity, row);
    await this.audit.note(manager, caller, 'writePumpEntry', row.id, { turnoutId: watch.id, ...said });
    tellRoster(this.bus, manager, organisationId, [watch.id]);
    return row.id;
  }
}

async function watchOf(
  manager: EntityManager,
  organisationId: string,
  turnoutId: string,
  field: string,
): Promise<TurnoutEntity> {
  const watch = await manager.findOneBy(TurnoutEntity, { organisationId, id: turnoutId, kind: 'watch' });
  if (!watch || !wasHeld(watch))
    return refuse('NOT_FOUND', 'There is no such watch, or it was called off before it began.', {
      field,
      remedy: 'Look at the watches that were laid on.',
    });
  return watch;
}

/** What is corrected counts once, so that any of them can be put right. @throws RefusalError where the log is full */
async function refuseMany(
  manager: EntityManager,
  { id: turnoutId, organisationId }: TurnoutEntity,
): Promise<void> {
  const rounds = await manager.countBy(PumpEntryEntity, { organisationId, turnoutId, correctsId: IsNull() });
  if (rounds >= mostRounds)
    no(
      'turnoutId',
      `A watch has ${mostRounds} rounds at most.`,
      'Correct the last one, and add what you saw to its remark.',
    );
}

/** @throws RefusalError where the entry is of no such watch, or somebody has corrected it already */
async function refuseCorrection(
  manager: EntityManager,
  { id: turnoutId, organisationId }: TurnoutEntity,
  correctsId: string,
): Promise<void> {
  if (!(await manager.existsBy(PumpEntryEntity, { organisationId, turnoutId, id: correctsId })))
    refuse('NOT_FOUND', 'There is no such entry on this watch.', {
      field: 'input.correctsId',
      remedy: 'Read the log again.',
    });
  const newer = await manager.findOneBy(PumpEntryEntity, { organisationId, correctsId });
  if (newer)
    refuse('CHANGED_MEANWHILE', 'Somebody else corrected this entry since you read it.', {
      field: 'input.correctsId',
      facts: { 'corrected by': newer.writtenBy },
      remedy: 'Read the log again.',
    });
}

/** @throws RefusalError BAD_INPUT naming the field */
function saidOf(draft: PumpDraft, { startsAt, endsAt }: TurnoutEntity, now: number, zone: string): Said {
  const { depthMillimetres, strokes, minutes, correctsId } = draft;
  const sayTime = (at: number) => {
    const { day, time } = instantToLocal(at, zone);
    return `${time} on ${day}`;
  };
  const isThen = (at: number) => at <= now && at >= startsAt - aroundMillis && at <= endsAt + aroundMillis;
  const readAt = readAtOf(draft.read, zone, isThen);
  if (readAt > now) no('read', `${sayTime(readAt)} is still to come.`, `It is ${sayTime(now)} at the yard.`);
  if (!isThen(readAt)) no('read', `${sayTime(readAt)} is not on this watch.`, 'Say a time within its hours.');
  within('depthMillimetres', 'The water in a bilge is 0 to 10,000 mm deep', depthMillimetres, 10_000);
  within('strokes', 'Strokes are 0 to 100,000', strokes, 100_000);
  within('minutes', 'A pump runs for 0 to 1,440 minutes', minutes, 1440);
  if (!hasFigures(draft) && correctsId === null)
    no(
      'depthMillimetres',
      'There is no figure.',
      'Write how deep the water was, how many strokes were pumped, or for how many minutes; 0 for none.',
    );
  const reason =
    correctsId === null
      ? null
      : wordsOf(draft.reason ?? '', 'input.reason', 500, 'Why it reads otherwise than before');
  return {
    ...{ readAt, depthMillimetres, strokes, minutes, correctsId, reason },
    doneBy: wordsOf(draft.doneBy, 'input.doneBy', 200, 'Who looked'),
    remark: wordsOrNull(draft.remark, 'input.remark', 500, 'The remark'),
  };
}

/** To the minute, as rounds are written; where the clocks went back, the later of two that can be meant. */
function readAtOf(read: PumpDraft['read'], zone: string, isThen: (at: number) => boolean): number {
  if (typeof read === 'number') return Math.floor(read / minuteMillis) * minuteMillis;
  const later = localToInstant(read.on, read.time, zone, 'later');
  return isThen(later) ? later : localToInstant(read.on, read.time, zone);
}

function within(field: string, what: string, value: number | null, most: number): void {
  if (value !== null && (value < 0 || value > most)) no(field, `${what}, not ${value}.`, `0 to ${most}.`);
}

function no(field: string, message: string, remedy: string): never {
  return refuse('BAD_INPUT', message, { field: `input.${field}`, remedy });
}
