import { type CustomDecorator, SetMetadata } from '@nestjs/common';
import type { Role } from '../caller.js';

/** Who may call an operation. */
export interface Leave {
  who: 'anyone' | 'signed in' | readonly Role[];
  /** Also those who have not yet changed the password that the server made for them. */
  evenWithOneTimePassword: boolean;
}

export const leaveKey = 'ribband:leave';

/** For these roles. */
export function Allow(first: Role, ...others: Role[]): CustomDecorator {
  return declare({ who: [first, ...others], evenWithOneTimePassword: false });
}

/** For everybody who is signed in. */
export function AllowSignedIn(options: { evenWithOneTimePassword?: boolean } = {}): CustomDecorator {
  return declare({ who: 'signed in', evenWithOneTimePassword: options.evenWithOneTimePassword ?? false });
}

/** For everybody, signed in or not. */
export function AllowAnyone(): CustomDecorator {
  return declare({ who: 'anyone', evenWithOneTimePassword: true });
}

function declare(leave: Leave): CustomDecorator {
  return SetMetadata<string, Leave>(leaveKey, leave);
}
