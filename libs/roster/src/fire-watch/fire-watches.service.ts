import { Audit, type Caller } from '@ribband/access';
import { volunteerOf } from '@ribband/crew';
import { Bus, Database, instantToLocal, localToInstant, newId, refuse, YardClock } from '@ribband/platform';
import { wordsOf, wordsOrNull } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { Between, type EntityManager } from 'typeorm';
import { Deeds } from '../deeds/deeds.service.js';
import { tellRoster } from '../roster-news.js';
import { wasHeld } from '../turnouts/call-off.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { FireWatchEntity } from './fire-watch.entity.js';
import { type Fire, firesAt, watchedFire } from './fires.js';

/** A day and a time of it at the yard. */
export interface LocalMoment {
  on: string;
  time: string;
}

export interface WatchDraft {
  turnoutId: string;
  taskId: string;
  /** The version that was read; 0 where nothing is written down. */
  version: number;
  watchId: string | null;
  notLit: string | null;
  lastSpark: LocalMoment | null;
  lookBy: string | null;
  lookDue: LocalMoment | null;
  looked: LocalMoment | null;
  found: string | null;
  reason: string | null;
}

type Said = Omit<
  FireWatchEntity,
  'id' | 'organisationId' | 'turnoutId' | 'taskId' | 'version' | 'writtenBy' | 'writtenAt'
>;

const lookBackMillis = 30 * 86_400_000;
/** Sparks may fly a little before and after a turnout's hours. */
const aroundMillis = 3 * 3_600_000;
/** A later look belongs to the same day or the next. */
const longestLookMillis = 48 * 3_600_000;

/** The watch over hot work at each turnout: who, since which spark, and the later look. */
@Injectable()
export class FireWatches {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(Deeds) private readonly deeds: Deeds,
  ) {}

  /**
   * The hot work of one turnout.
   * @param turnoutId null: what still waits for something to be written down, of today and the last thirty days
   */
  async list(caller: Caller, turnoutId: string | null): Promise<Fire[]> {
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const now = await this.clock.now(organisationId, manager);
      const turnouts = await manager.find(TurnoutEntity, {
        where: {
          organisationId,
          ...(turnoutId === null ? { startsAt: Between(now - lookBackMillis, now) } : { id: turnoutId }),
        },
        order: { startsAt: 'ASC' },
      });
      const all = await firesAt(manager, organisationId, turnouts.filter(wasHeld));
      const fires = all.map((fire) => asSeenBy(caller, fire));
      if (turnoutId !== null) return fires;
      return fires.filter((fire) => {
        const watched = watchedFire(fire);
        return watched !== null && watched.look !== 'taken';
      });
    });
  }

  /** Writes down how the watch stands, all of it anew. What was written before stays readable. */
  async write(caller: Caller, draft: WatchDraft, key: string | null = null): Promise<Fire> {
    const { organisationId } = caller;
    const work = async (manager: EntityManager) => {
      const id = await this.writeIn(manager, caller, draft);
      return { id, fire: await fireOf(manager, organisationId, draft) };
    };
    const again = async (manager: EntityManager, id: string) => ({
      id,
      fire: await fireOf(manager, organisationId, draft),
    });
    const asked = `writeFireWatch ${JSON.stringify(draft)}`;
    return asSeenBy(caller, (await this.deeds.once(caller, { key, asked, work, again })).fire);
  }

  private async writeIn(manager: EntityManager, caller: Caller, draft: WatchDraft): Promise<string> {
    const { organisationId } = caller;
    const { turnoutId, taskId } = draft;
    const now = await this.clock.now(organisationId, manager);
    const fire = await fireOf(manager, organisationId, draft);
    const [before] = fire.written;
    if (!mayWrite(caller, fire))
      refuse('NOT_PERMITTED', 'The watch is written down by the watch, or by who leads the turnout.', {
        field: 'input.taskId',
        remedy: 'Tell one of them.',
      });
    if ((before?.version ?? 0) !== draft.version)
      refuse('CHANGED_MEANWHILE', 'Somebody else wrote this watch down since you read it.', {
        field: 'input.version',
        ...(before ? { facts: { 'written by': before.writtenBy } } : {}),
        remedy: 'Read it again.',
      });
    const said = saidOf(draft, fire, now);
    if (said.watchId !== null) {
      await volunteerOf(manager, organisationId, said.watchId);
      if (!leads(caller) && said.watchId !== caller.volunteerId && said.watchId !== before?.watchId)
        refuse('NOT_PERMITTED', 'Who leads the turnout names somebody else as the watch.', {
          field: 'input.watchId',
          remedy: 'Name yourself, or ask the lead.',
        });
    }
    if (before && said.reason === null && takesBack(before, said))
      refuse('BAD_INPUT', 'This changes what was written down before.', {
        field: 'input.reason',
        remedy: 'Say why: what was written before stays readable.',
      });
    const row: FireWatchEntity = {
      ...{ id: newId('firewatch'), organisationId, turnoutId, taskId, version: draft.version + 1 },
      ...said,
      ...{ writtenBy: caller.name, writtenAt: now },
    };
    await manager.insert(FireWatchEntity, row);
    await this.audit.note(manager, caller, 'writeFireWatch', row.id, { turnoutId, taskId, ...said });
    tellRoster(this.bus, manager, organisationId, [turnoutId]);
    return row.id;
  }
}

/** Who calls a turnout leads it. */
const leads = ({ role }: Caller): boolean => role !== 'volunteer';

/** The lead of the turnout, the named watch, and who has a place on the work and a card for the watch. */
export function mayWrite(caller: Caller, { written: [now], couldWatch }: Fire): boolean {
  const { volunteerId } = caller;
  if (leads(caller)) return true;
  return volunteerId !== null && (volunteerId === now?.watchId || couldWatch.includes(volunteerId));
}

/** Whose card counts is for who leads; everybody else reads it of themselves only. */
function asSeenBy(caller: Caller, fire: Fire): Fire {
  if (leads(caller)) return fire;
  const { volunteerId } = caller;
  const isOwn = volunteerId !== null && volunteerId === fire.written[0]?.watchId;
  return {
    ...fire,
    couldWatch: fire.couldWatch.filter((id) => id === volunteerId),
    hasCard: isOwn ? fire.hasCard : null,
  };
}

async function fireOf(
  manager: EntityManager,
  organisationId: string,
  { turnoutId, taskId }: Pick<WatchDraft, 'turnoutId' | 'taskId'>,
): Promise<Fire> {
  const turnout = await manager.findOneBy(TurnoutEntity, { organisationId, id: turnoutId });
  if (!turnout || !wasHeld(turnout))
    return refuse('NOT_FOUND', 'There is no such turnout, or it was called off before it began.', {
      field: 'input.turnoutId',
      remedy: 'Look at the turnouts that were held.',
    });
  const fires = await firesAt(manager, organisationId, [turnout]);
  return (
    fires.find(({ task }) => task.id === taskId) ??
    refuse('NOT_FOUND', 'Nobody is down for such hot work at this turnout.', {
      field: 'input.taskId',
      remedy: 'Call the turnout with who works on it, or sign them on to it.',
    })
  );
}

/** Whether something that was written down is gone, or is less than it was: more sparks and a look that was taken are not. */
function takesBack(before: FireWatchEntity, now: Said): boolean {
  const lost = (is: string | null, was: string | null) => was !== null && is !== was;
  return (
    lost(now.watchId, before.watchId) ||
    lost(now.notLit, before.notLit) ||
    lost(now.found, before.found) ||
    (before.lookedAt !== null && (now.lookedAt !== before.lookedAt || now.lookBy !== before.lookBy)) ||
    (before.lastSparkAt !== null && (now.lastSparkAt ?? 0) < before.lastSparkAt)
  );
}

/** @throws RefusalError BAD_INPUT naming the field */
function saidOf(draft: WatchDraft, fire: Fire, now: number): Said {
  const { turnout, zone, minutes } = fire;
  const reason = wordsOrNull(draft.reason, 'input.reason', 500, 'The reason');
  const none = {
    watchId: null,
    lastSparkAt: null,
    lookBy: null,
    lookDueAt: null,
    lookedAt: null,
    found: null,
  };
  if (now < turnout.startsAt - aroundMillis)
    no('turnoutId', 'This turnout has not begun.', 'Write it down when it has.');
  const notLit = wordsOrNull(draft.notLit, 'input.notLit', 300, 'Why no hot work was done');
  if (notLit !== null) {
    if (draft.lastSpark ?? draft.lookDue ?? draft.looked)
      no('notLit', 'Either no hot work was done, or there was a last spark.', 'Leave one of them empty.');
    return { ...none, notLit, reason };
  }
  const watchId = draft.watchId ?? no('watchId', 'A watch has a name.', 'Say who watches.');
  const moment = (said: LocalMoment | null): number | null =>
    said && localToInstant(said.on, said.time, zone);
  const sayTime = (at: number) => {
    const { day, time } = instantToLocal(at, zone);
    return `${time} on ${day}`;
  };
  const past = (at: number | null, field: string) => {
    if (at !== null && at > now)
      no(field, `${sayTime(at)} is still to come.`, `It is ${sayTime(now)} at the yard.`);
    return at;
  };
  const lastSparkAt = past(moment(draft.lastSpark), 'lastSpark');
  if (lastSparkAt !== null && outside(lastSparkAt, turnout))
    no('lastSpark', `${sayTime(lastSparkAt)} is not at this turnout.`, 'Say a time within its hours.');
  const lookedAt = past(moment(draft.looked), 'looked');
  const lookDueAt = lookedAt === null ? moment(draft.lookDue) : null;
  const found = wordsOrNull(draft.found, 'input.found', 500, 'What was found');
  const until = lastSparkAt === null ? null : lastSparkAt + minutes * 60_000;
  for (const [at, field] of [
    [lookedAt, 'looked'],
    [lookDueAt, 'lookDue'],
  ] as const) {
    if (at === null) continue;
    if (until === null) no(field, 'A later look comes after a last spark.', 'Write down when that was.');
    else if (at < until || at > until + longestLookMillis)
      no(
        field,
        `The watch stays until ${sayTime(until)}; the later look comes after that.`,
        'Say a time after it, within two days.',
      );
  }
  if (lookedAt !== null && found === null)
    no('found', 'A later look has found something or nothing.', 'Write down what was seen and felt.');
  if (lookedAt === null && found !== null)
    no('looked', 'There is something found, and no time of the look.', 'Say when it was.');
  const isLook = lookedAt !== null || lookDueAt !== null;
  const lookBy = isLook ? wordsOf(draft.lookBy ?? '', 'input.lookBy', 200, 'Who looks again') : null;
  return { watchId, notLit: null, lastSparkAt, lookBy, lookDueAt, lookedAt, found, reason };
}

const outside = (at: number, { startsAt, endsAt }: TurnoutEntity): boolean =>
  at < startsAt - aroundMillis || at > endsAt + aroundMillis;

function no(field: string, message: string, remedy: string): never {
  return refuse('BAD_INPUT', message, { field: `input.${field}`, remedy });
}
