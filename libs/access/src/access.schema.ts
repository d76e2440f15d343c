import type { SchemaClass } from '@ribband/platform';
import { Account } from './account/account.entity.js';
import { Membership } from './account/membership.entity.js';
import { AuditEntry } from './audit/audit-entry.entity.js';
import { Access1764000001000 } from './migrations/1764000001000-access.js';
import { Organisation } from './organisation/organisation.entity.js';
import { LoginSession } from './session/login-session.entity.js';

export const accessEntities: SchemaClass[] = [Organisation, Account, Membership, LoginSession, AuditEntry];
export const accessMigrations: SchemaClass[] = [Access1764000001000];
