import { type CanActivate, type ExecutionContext, Injectable } from '@nestjs/common';
import { refuse } from '@ribband/platform';
import { type Leave, leaveKey } from './allow.js';
import { requestContext } from './current-caller.js';

/** Lets in whom the operation has declared, and nobody where it has declared nothing. */
@Injectable()
export class LeaveGuard implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    const leave = Reflect.getMetadata(leaveKey, context.getHandler()) as Leave | undefined;
    if (leave === undefined) throw new Error(`${context.getHandler().name} does not say who may call it`);
    if (leave.who === 'anyone') return true;
    const { caller, mustChangePassword } = requestContext(context);
    if (!caller) refuse('NOT_SIGNED_IN', 'Sign in first.');
    if (mustChangePassword && !leave.evenWithOneTimePassword) {
      refuse('NOT_PERMITTED', 'Choose a password of your own first.', { remedy: 'Call changePassword.' });
    }
    if (leave.who === 'signed in' || leave.who.includes(caller.role)) return true;
    return refuse('NOT_PERMITTED', `As ${caller.role} you may not do this.`, {
      remedy: `Ask a ${leave.who.join(' or a ')} of your yard.`,
    });
  }
}
