import { log } from '../log/log.js';
import type { EntityManager, QueryRunner } from 'typeorm';

type Isolation = Parameters<QueryRunner['startTransaction']>[0];

const bookkeeping = new Set(['COMMIT', 'ROLLBACK']);

/**
 * Runs one transaction on a query runner that is used for nothing else, and lets no statement slip in behind its
 * end: when one part of the work fails while others are under way, or when somebody forgot to await a promise,
 * the stragglers would otherwise write on their own, or into the next transaction.
 */
export async function oneTransaction<T>(
  runner: QueryRunner,
  isolation: Isolation,
  work: (manager: EntityManager) => Promise<T>,
): Promise<T> {
  const end = closable(runner);
  await runner.startTransaction(isolation);
  let result: T;
  try {
    result = await work(runner.manager);
    await end();
    await runner.commitTransaction();
  } catch (error) {
    await end();
    try {
      await runner.rollbackTransaction();
    } catch (second) {
      // A full disk or a lost connection has ended it already; what broke first is what matters.
      log.warn({ error: second }, 'a transaction could not be rolled back by name');
    }
    throw error;
  }
  return result;
}

/** Makes the runner closable. @returns what closes it: no more statements in, and waits for those under way */
function closable(runner: QueryRunner): () => Promise<void> {
  const send = runner.query.bind(runner) as (...statement: unknown[]) => Promise<unknown>;
  const underWay = new Set<Promise<unknown>>();
  let isOver = false;
  runner.query = (sql: string, ...rest: unknown[]) => {
    if (isOver && !bookkeeping.has(sql)) {
      return Promise.reject(new Error('This transaction is over: something in it was not awaited'));
    }
    const answer = send(sql, ...rest);
    underWay.add(answer);
    const done = (): void => void underWay.delete(answer);
    answer.then(done, done);
    return answer;
  };
  return async () => {
    isOver = true;
    await Promise.allSettled(underWay);
  };
}
