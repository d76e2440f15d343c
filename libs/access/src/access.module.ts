import { Global, Inject, Module, type OnModuleInit } from '@nestjs/common';
import { APP_GUARD, DiscoveryModule } from '@nestjs/core';
import { Accounts } from './account/accounts.js';
import { AccountsResolver } from './account/accounts.resolver.js';
import { Passwords } from './account/passwords.js';
import { Audit } from './audit/audit.js';
import { LeaveGuard } from './leave/leave.guard.js';
import { WhoMay } from './leave/who-may.js';
import { NodeRegistry } from './node/node-registry.js';
import { NodeResolver } from './node/node.resolver.js';
import { Organisations } from './organisation/organisations.js';
import { OrganisationsResolver } from './organisation/organisations.resolver.js';
import { Sessions } from './session/sessions.js';
import { SessionsResolver } from './session/sessions.resolver.js';
import { Tries } from './session/tries.js';
import { Whoami } from './session/whoami.js';

/** Accounts, sessions, who may do what, and the trail of who did. */
@Global()
@Module({
  imports: [DiscoveryModule],
  providers: [
    { provide: APP_GUARD, useClass: LeaveGuard },
    Accounts,
    AccountsResolver,
    Audit,
    NodeRegistry,
    NodeResolver,
    Organisations,
    OrganisationsResolver,
    Passwords,
    Sessions,
    SessionsResolver,
    Tries,
    WhoMay,
    Whoami,
  ],
  exports: [Accounts, Audit, NodeRegistry, Organisations, Passwords, Sessions, WhoMay],
})
export class AccessModule implements OnModuleInit {
  constructor(
    @Inject(NodeRegistry) private readonly nodes: NodeRegistry,
    @Inject(Organisations) private readonly organisations: Organisations,
  ) {}

  onModuleInit(): void {
    this.nodes.register('organisation', 'Organisation', async (ids, caller) =>
      ids.includes(caller.organisationId) ? [await this.organisations.own(caller)] : [],
    );
  }
}
