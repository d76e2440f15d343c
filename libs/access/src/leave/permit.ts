import { refuse } from '@ribband/platform';
import type { Caller, Role } from '../caller.js';

/** Stands on the first line of a use case: goes on only for these roles. @throws RefusalError NOT_PERMITTED */
export function permit(caller: Caller, ...allowed: Role[]): void {
  if (allowed.includes(caller.role)) return;
  refuse('NOT_PERMITTED', `As ${caller.role} you may not do this.`, {
    remedy: `Ask a ${allowed.join(' or a ')} of your yard.`,
  });
}

/** Goes on for these roles, and for a volunteer about their own entry. @throws RefusalError NOT_PERMITTED */
export function permitOwn(caller: Caller, volunteerId: string, ...allowed: Role[]): void {
  if (caller.volunteerId !== null && caller.volunteerId === volunteerId) return;
  permit(caller, ...allowed);
}
