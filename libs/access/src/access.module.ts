import { Global, Module } from '@nestjs/common';
import { Audit } from './audit/audit.js';
import { NodeRegistry } from './node/node-registry.js';

/** Accounts, sessions, who may do what, and the trail of who did. */
@Global()
@Module({ providers: [Audit, NodeRegistry], exports: [Audit, NodeRegistry] })
export class AccessModule {}
