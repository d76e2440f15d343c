import type { Caller } from '@ribband/access';
import { Database, RealClock, Refusal, refuse, RefusalError } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { LessThan, type EntityManager } from 'typeorm';
import { DeedEntity } from './deed.entity.js';

/** A phone that was off the line for longer than this asks anew. */
const keptDays = 60;
const mostKeyLength = 100;

export interface Deed<T> {
  /** The caller's own key for this press; null where it is not asked again. */
  key: string | null;
  /** What is asked, whole, in words of our own. */
  asked: string;
  work: (manager: EntityManager) => Promise<T & { id: string }>;
  /** The answer to the same key once more: what the row is now. */
  again: (manager: EntityManager, id: string) => Promise<T & { id: string }>;
}

/** Does what is asked once, however often and at however many doors it is asked with the same key. */
@Injectable()
export class Deeds {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
  ) {}

  /** One transaction, in its turn among those of the same yard. @throws RefusalError, the same one for the same key */
  async once<T>(caller: Caller, deed: Deed<T>): Promise<T & { id: string }> {
    const { key, asked, work, again } = deed;
    const { organisationId, accountId } = caller;
    if (key === null) return this.database.write(work, organisationId);
    if (key.trim() === '' || key.length > mostKeyLength)
      refuse('BAD_INPUT', `A key has 1 to ${mostKeyLength} characters.`, { field: 'key' });
    const id = `${accountId} ${key}`;
    const result = await this.database.write(async (manager) => {
      const known = await manager.findOneBy(DeedEntity, { id });
      if (known) {
        if (known.asked !== asked)
          refuse('BAD_INPUT', 'This key was used for something else.', {
            field: 'key',
            remedy: 'Use a new key for each thing that you ask.',
          });
        if ('refusal' in known.answer) return Object.assign(new Refusal(), known.answer.refusal);
        return again(manager, known.answer.id);
      }
      const done = await heldBack(manager, work);
      const askedAt = this.clock.now();
      const answer = done instanceof Refusal ? { refusal: done } : { id: done.id };
      await manager.insert(DeedEntity, { id, organisationId, asked, askedAt, answer });
      await manager.delete(DeedEntity, {
        organisationId,
        askedAt: LessThan(askedAt - keptDays * 86_400_000),
      });
      return done;
    }, organisationId);
    if (result instanceof Refusal) throw new RefusalError(result);
    return result;
  }
}

/** What the work gives, or its refusal with nothing of it left in the transaction. */
async function heldBack<T>(
  manager: EntityManager,
  work: (manager: EntityManager) => Promise<T>,
): Promise<T | Refusal> {
  await manager.query('SAVEPOINT deed');
  try {
    return await work(manager);
  } catch (error) {
    if (!(error instanceof RefusalError)) throw error;
    await manager.query('ROLLBACK TO SAVEPOINT deed');
    return error.refusal;
  }
}
