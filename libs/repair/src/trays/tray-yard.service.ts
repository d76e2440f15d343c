import { Audit, permit, type Caller } from '@ribband/access';
import { freeRef, insertAll, YardDay } from '@ribband/crew';
import { Database, isDay, newId, refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import { Task } from '../tasks/task.entity.js';
import { wordsOf } from '../words.js';
import { takeOverTallies } from './follow-tally.js';
import { HoleBook } from './hole-book.service.js';
import { Lot } from './lot.entity.js';
import { standInsOf } from '../methods/stand-ins.js';
import { traysFor } from './set-up-trays.js';
import { Tray } from './tray.entity.js';

export type LotDraft = Omit<Lot, 'id' | 'organisationId' | 'ref'>;

const mostLots = 1000;
/** As a yard document has it. */
const mostCents = 10_000_000;

/** Setting up trays, and what is bought for them. */
@Injectable()
export class TrayYard {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(HoleBook) private readonly holes: HoleBook,
  ) {}

  /** A tray for each element whose fastenings some task draws; what was tallied already becomes its first entries. */
  async setUp(caller: Caller): Promise<Tray[]> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const tasks = await manager.find(Task, {
        where: { organisationId, droppedAt: IsNull() },
        order: { id: 'ASC' },
      });
      const there = new Set((await manager.findBy(Tray, { organisationId })).map((tray) => tray.elementKey));
      const hull = await this.holes.hullOf(manager, organisationId);
      const trays = traysFor(organisationId, tasks, hull, there, await standInsOf(manager, organisationId));
      await insertAll(manager, Tray, trays);
      const byRef = new Map(tasks.map((task) => [task.ref, task]));
      for (const tray of trays)
        for (const ref of [tray.pullRef, tray.driveRef]) {
          const task = ref === null ? undefined : byRef.get(ref);
          if (task) await takeOverTallies(manager, tray, task);
        }
      await this.audit.note(manager, caller, 'setUpTrays', null, { trays: trays.length });
      return trays;
    });
  }

  async addLot(caller: Caller, draft: LotDraft): Promise<Lot> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    const { organisationId } = caller;
    const { count, priceCents, cameOn } = draft;
    const words = (field: 'name' | 'fastening' | 'size' | 'source', what: string) =>
      wordsOf(draft[field], field, 120, what);
    if (!Number.isInteger(count) || count < 1 || count > 1_000_000)
      refuse('BAD_INPUT', `${count} is no count.`, { field: 'count', remedy: 'A whole number, 1 or more.' });
    if (priceCents !== null && !(Number.isInteger(priceCents) && priceCents >= 0 && priceCents <= mostCents))
      refuse('BAD_INPUT', `${priceCents} cents is no price of a lot.`, {
        field: 'priceCents',
        remedy: `Whole cents, at most ${mostCents}, or nothing.`,
      });
    return this.database.write(async (manager) => {
      const today = await this.yardDay.today(organisationId, manager);
      if (!isDay(cameOn) || cameOn > today)
        refuse('BAD_INPUT', `${cameOn} is no day that is past.`, {
          field: 'cameOn',
          remedy: `${today} or an earlier day: a lot is written down when it is there.`,
        });
      if ((await manager.countBy(Lot, { organisationId })) >= mostLots)
        refuse('BAD_INPUT', `A yard has at most ${mostLots} lots.`, { remedy: 'Put deliveries together.' });
      const name = words('name', 'What they are');
      const fastening = words('fastening', 'Which fastenings they match');
      const kinds = [
        ...new Set((await manager.findBy(Tray, { organisationId })).map((tray) => tray.fastening)),
      ];
      if (kinds.length > 0 && !kinds.includes(fastening))
        refuse('BAD_INPUT', `No tray holds ${fastening}.`, {
          field: 'fastening',
          remedy: `One of: ${kinds.sort().join(', ')}.`,
        });
      const lot: Lot = {
        id: newId('lot'),
        organisationId,
        ref: await freeRef(manager, Lot, organisationId, name),
        name,
        fastening,
        size: words('size', 'The size'),
        source: words('source', 'Where they come from'),
        count,
        priceCents,
        cameOn,
      };
      await manager.insert(Lot, lot);
      await this.audit.note(manager, caller, 'addLot', lot.id, { count });
      return lot;
    });
  }
}
