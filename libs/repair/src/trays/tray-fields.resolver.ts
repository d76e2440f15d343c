import { CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { groupedBy, loader } from '@ribband/crew';
import { holeFate } from '@ribband/hull';
import { Database } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Context, Int, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { In } from 'typeorm';
import { Task } from '../tasks/task.entity.js';
import { HoleBook, type TrayHole } from './hole-book.service.js';
import { NewWood } from './new-wood.service.js';
import { PlankRepair } from './plank-repair.entity.js';
import { repairsWaiting } from './plank-repairs.service.js';
import { TrayEntryEntity } from './tray-entry.entity.js';
import { linesInWords } from './tray-line.js';
import { offInWords } from './lot-book.js';
import { newHolesIn, standingOf, type TrayStanding } from './tray-standing.js';
import { NewHoles, TrayBalanceType, TrayEntry, TrayFrame, TrayHoleType } from './tray.types.js';
import { Tray } from './tray.entity.js';

/** What follows from the entries of a tray. */
@Resolver(() => Tray)
export class TrayFieldsResolver {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(HoleBook) private readonly holeBook: HoleBook,
    @Inject(NewWood) private readonly newWood: NewWood,
  ) {}

  @ResolveField(() => TrayBalanceType, { description: 'What became of its fastenings.' })
  async balance(@Parent() tray: Tray, @Context() context: RequestContext): Promise<TrayBalanceType> {
    return (await this.standing(tray, context)).balance;
  }

  @ResolveField(() => [TrayFrame], {
    name: 'frames',
    description: 'By frame, forward first; at most 200, none where the hull’s outline does not say.',
  })
  async byFrame(@Parent() tray: Tray, @Context() context: RequestContext): Promise<TrayFrame[]> {
    const { frames } = await this.standing(tray, context);
    return frames.map(({ frame, balance }) => ({ ...balance, frame }));
  }

  @ResolveField(() => Int, {
    nullable: true,
    description: 'What the newest count found too many, below 0 too few; null before anybody counted.',
  })
  async countedOff(@Parent() tray: Tray, @Context() context: RequestContext): Promise<number | null> {
    return (await this.standing(tray, context)).off;
  }

  @ResolveField(() => [String], { description: 'What is missing or waits, as sentences; at most 10.' })
  async wanting(@Parent() tray: Tray, @Context() context: RequestContext): Promise<string[]> {
    const { balance, off } = await this.standing(tray, context);
    const waiting = await this.repairs(tray, context);
    const lines: string[] = [];
    if (off !== null && off !== 0) lines.push(`Counted ${offInWords(off)} of what should lie in it.`);
    if (balance.notGraded > 0) lines.push(`${balance.notGraded} to grade.`);
    if (balance.stubsWaiting > 0) lines.push(`${balance.stubsWaiting} stubs to punch or bore out.`);
    if (balance.lost > 0) lines.push(`${balance.lost} lost.`);
    if (waiting > 0) lines.push(`${waiting} came through the plank: the shipwright says what is done.`);
    return lines;
  }

  @ResolveField(() => Int, {
    description: 'Heads that came through the plank and of which the shipwright has not spoken yet.',
  })
  repairsWaiting(@Parent() tray: Tray, @Context() context: RequestContext): Promise<number> {
    return this.repairs(tray, context);
  }

  @ResolveField(() => [TrayEntry], { description: 'What was said of it, newest first; at most 200.' })
  async entries(
    @CurrentCaller() caller: Caller,
    @Parent() tray: Tray,
    @Context() context: RequestContext,
  ): Promise<TrayEntry[]> {
    const rows = await entriesLoader(context, this.database).load(tray.id);
    const corrections = new Map(rows.map((row) => [row.correctsId, row.id]));
    return rows
      .slice(-200)
      .reverse()
      .map((row) => entryShown(row, corrections.get(row.id) ?? null, caller));
  }

  @ResolveField(() => [TrayHoleType], {
    description: 'Its holes, forward first and from below; at most 2000, none without the hull’s outline.',
  })
  async holes(@Parent() tray: Tray, @Context() context: RequestContext): Promise<TrayHoleType[]> {
    const { holes: graded } = await this.standing(tray, context);
    const byKey = new Map(graded.map((hole) => [hole.key, hole]));
    const isNew = await this.newPieces(tray, context);
    const holes = await this.holeBook.holesOf(this.database.read, tray);
    return holes.map((hole) => {
      const found = byKey.get(hole.key) ?? null;
      const inNewWood = hole.piece !== null && isNew.has(hole.piece);
      return {
        key: hole.key,
        name: hole.name,
        frame: hole.frameNumber,
        nail: found?.nail ?? null,
        hole: found?.hole ?? null,
        plugTenths: found?.plugTenths ?? null,
        inNewWood,
        says: found && holeFate(found.nail === 'sound', found.hole === 'sound', inNewWood).says,
      };
    });
  }

  @ResolveField(() => NewHoles, { description: 'New holes in kept timber, as far as its holes are graded.' })
  async newHoles(@Parent() tray: Tray, @Context() context: RequestContext): Promise<NewHoles> {
    const { holes: graded } = await this.standing(tray, context);
    if (graded.length === 0) return { graded: 0, newHoles: 0, inNewWood: 0 };
    const isNew = await this.newPieces(tray, context);
    const pieces = new Map<string, TrayHole['piece']>(
      (await this.holeBook.holesOf(this.database.read, tray)).map((hole) => [hole.key, hole.piece]),
    );
    return newHolesIn(graded, (key) => isNew.has(pieces.get(key) ?? ''));
  }

  @ResolveField(() => Task, { nullable: true, description: 'The work at which its fastenings come out.' })
  pullTask(@Parent() tray: Tray, @Context() context: RequestContext): Promise<Task | null> {
    return this.task(tray.organisationId, tray.pullRef, context);
  }

  @ResolveField(() => Task, { nullable: true, description: 'The work at which they go back.' })
  driveTask(@Parent() tray: Tray, @Context() context: RequestContext): Promise<Task | null> {
    return this.task(tray.organisationId, tray.driveRef, context);
  }

  private task(organisationId: string, ref: string | null, context: RequestContext): Promise<Task | null> {
    if (ref === null) return Promise.resolve(null);
    return taskByRefLoader(context, this.database, organisationId).load(ref);
  }

  private async standing(tray: Tray, context: RequestContext): Promise<TrayStanding> {
    const standing = standingOf(tray, await entriesLoader(context, this.database).load(tray.id));
    if ('fault' in standing) throw new Error(`tray ${tray.id}: ${standing.fault.message}`);
    return standing;
  }

  private async repairs(tray: Tray, context: RequestContext): Promise<number> {
    const { balance } = await this.standing(tray, context);
    return repairsWaiting(balance.plankRepairs, await repairsLoader(context, this.database).load(tray.id));
  }

  private newPieces(tray: Tray, context: RequestContext): Promise<ReadonlySet<string>> {
    return loader(context, 'repair.newWood', (ids: readonly string[]) =>
      Promise.all(ids.map((id) => this.newWood.of(this.database.read, id))),
    ).load(tray.organisationId);
  }
}

function entryShown(row: TrayEntryEntity, correctedById: string | null, caller: Caller): TrayEntry {
  const isOwn = row.accountId === caller.accountId;
  const isStaff = caller.role !== 'volunteer';
  const counted = row.counted === null ? [] : [`counted ${row.counted}`];
  const holes = row.holes.length === 0 ? [] : [`${row.holes.length} holes graded`];
  const said = row.lines.length === 0 ? [] : [linesInWords(row.lines)];
  return {
    id: row.id,
    at: row.yardAt,
    words: [...said, ...holes, ...counted].join('; ') || 'nothing',
    frame: row.frame,
    lines: row.lines.map(({ kind, count, reason }) => ({ kind, count, reason: reason ?? null })),
    holes: row.holes.length,
    counted: row.counted,
    lotId: row.lotId,
    note: row.note,
    by: isStaff || isOwn ? row.enteredBy : null,
    correctsId: row.correctsId,
    correctedById,
    reason: row.reason,
    mayCorrect: correctedById === null && row.twinId === null && (isStaff || isOwn),
  };
}

const byTray =
  <T extends { id: string; trayId: string }>(name: string, entity: new () => T) =>
  (context: RequestContext, database: Database) =>
    loader(context, name, async (ids: readonly string[]) => {
      const where = { trayId: In([...ids]) } as never;
      const rows = await database.read.find(entity, { where, order: { id: 'ASC' } as never });
      return groupedBy(ids, rows, (row) => row.trayId);
    });
const entriesLoader = byTray('repair.trayEntries', TrayEntryEntity);
const repairsLoader = byTray('repair.plankRepairs', PlankRepair);

const taskByRefLoader = (context: RequestContext, database: Database, organisationId: string) =>
  loader(context, `repair.taskByRef.${organisationId}`, async (refs: readonly string[]) => {
    const rows = await database.read.findBy(Task, { organisationId, ref: In([...refs]) });
    const byRef = new Map(rows.map((task) => [task.ref, task]));
    return refs.map((ref) => byRef.get(ref) ?? null);
  });

/** The tray at which a task's work is told. */
@Resolver(() => Task)
export class TaskTrayResolver {
  constructor(@Inject(Database) private readonly database: Database) {}

  @ResolveField(() => Tray, {
    nullable: true,
    description: 'The tray at which its tallies are entered; null where it draws and drives nothing.',
  })
  async tray(@Parent() task: Task, @Context() context: RequestContext): Promise<Tray | null> {
    const { organisationId, ref } = task;
    return loader(context, `repair.trayOfTask.${organisationId}`, async (refs: readonly string[]) => {
      const named = In([...refs]);
      const rows = await this.database.read.findBy(Tray, [
        { organisationId, pullRef: named },
        { organisationId, driveRef: named },
      ]);
      return refs.map((one) => rows.find((tray) => tray.pullRef === one || tray.driveRef === one) ?? null);
    }).load(ref);
  }
}
