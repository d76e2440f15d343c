import { Inject, Injectable } from '@nestjs/common';
import { Nudges } from '../computing/nudges.js';
import { Database } from '../database/database.js';
import { log } from '../log/log.js';

/** Whether each thing that the server needs is there. */
export interface Readiness {
  ready: boolean;
  database: 'ok' | 'away' | 'not migrated';
  queue: 'ok' | 'away';
}

const patienceMillis = 2_000;

/** Asks the things that this process needs whether they are there. */
@Injectable()
export class Health {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Nudges) private readonly nudges: Nudges,
  ) {}

  async readiness(): Promise<Readiness> {
    const [database, queue] = await Promise.all([
      this.ask(async () => ((await this.database.isReady()) ? 'ok' : 'not migrated')),
      this.ask(async () => {
        await this.nudges.check();
        return 'ok' as const;
      }),
    ]);
    return { ready: database === 'ok' && queue === 'ok', database, queue };
  }

  private async ask<T>(question: () => Promise<T>): Promise<T | 'away'> {
    let timer: NodeJS.Timeout | undefined;
    try {
      const late = new Promise<never>((_resolve, reject) => {
        timer = setTimeout(() => {
          reject(new Error('no answer in time'));
        }, patienceMillis);
      });
      return await Promise.race([question(), late]);
    } catch (error) {
      log.warn({ error }, 'not ready');
      return 'away';
    } finally {
      clearTimeout(timer);
    }
  }
}
