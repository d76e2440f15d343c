import { type CustomDecorator, SetMetadata } from '@nestjs/common';
import type { Role } from '../caller.js';

/** Who may call an operation: anyone, anyone who is signed in, or those who have one of the roles. */
export type Leave = 'anyone' | 'signed in' | readonly Role[];

export const leaveKey = 'ribband:leave';

/** For these roles. */
export function Allow(first: Role, ...others: Role[]): CustomDecorator {
  return SetMetadata<string, Leave>(leaveKey, [first, ...others]);
}

/** For everybody who is signed in. */
export function AllowSignedIn(): CustomDecorator {
  return SetMetadata<string, Leave>(leaveKey, 'signed in');
}

/** For everybody, signed in or not. */
export function AllowAnyone(): CustomDecorator {
  return SetMetadata<string, Leave>(leaveKey, 'anyone');
}
