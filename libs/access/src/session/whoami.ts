import { Inject, Injectable } from '@nestjs/common';
import { Database } from '@ribband/platform';
import { Account } from '../account/account.entity.js';
import type { Caller } from '../caller.js';
import { Organisations } from '../organisation/organisations.js';
import type { Me } from './sessions.types.js';

/** Tells callers who they are. */
@Injectable()
export class Whoami {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Organisations) private readonly organisations: Organisations,
  ) {}

  async describe(caller: Caller, mustChangePassword: boolean): Promise<Me> {
    const [{ id, name, email }, organisation] = await Promise.all([
      this.database.read.findOneByOrFail(Account, { id: caller.accountId }),
      this.organisations.own(caller),
    ]);
    return {
      account: { id, name, email },
      role: caller.role,
      organisation,
      mustChangePassword,
      volunteerId: caller.volunteerId,
    };
  }
}
