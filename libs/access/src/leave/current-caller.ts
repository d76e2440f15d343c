import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import { type GqlContextType, GqlExecutionContext } from '@nestjs/graphql';
import { refuse } from '@ribband/platform';
import type { Caller } from '../caller.js';

/** What the API puts into the context of each GraphQL operation. */
export interface RequestContext {
  requestId: string;
  /** Null when nobody is signed in. */
  caller: Caller | null;
  /** Whether the caller has yet to change the password that the server made. */
  mustChangePassword: boolean;
  /** The token of the session, to end it; null without one. */
  sessionToken: string | null;
  /** The address that the request came from. */
  address: string;
  /** Sets (a token) or removes (null) the session cookie of the answer; not available to subscriptions. */
  setSessionCookie: (token: string | null, expiresAt: number) => void;
  /** Holds DataLoaders of this request, by whoever made them. */
  loaders: Map<unknown, unknown>;
}

/** Who asks, in a GraphQL operation or on a route; on a route the API has looked it up (`whoAsks`). */
export function requestContext(
  context: ExecutionContext,
): Pick<RequestContext, 'caller' | 'mustChangePassword'> {
  if (context.getType<GqlContextType>() === 'graphql')
    return GqlExecutionContext.create(context).getContext<RequestContext>();
  const { whoAsks } = context.switchToHttp().getRequest<{ whoAsks?: RequestContext }>();
  return whoAsks ?? { caller: null, mustChangePassword: false };
}

/** The caller, in an operation that is not for anyone. */
export const CurrentCaller = createParamDecorator((_data: unknown, context: ExecutionContext): Caller => {
  return requestContext(context).caller ?? refuse('NOT_SIGNED_IN', 'Sign in first.');
});

/** The caller or null, in an operation that is for anyone. */
export const CallerIfAny = createParamDecorator(
  (_data: unknown, context: ExecutionContext): Caller | null => requestContext(context).caller,
);
