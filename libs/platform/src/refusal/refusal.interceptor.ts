import { type CallHandler, type ExecutionContext, Injectable, type NestInterceptor } from '@nestjs/common';
import { type GqlContextType, GqlExecutionContext } from '@nestjs/graphql';
import { getNamedType, type GraphQLResolveInfo, isUnionType } from 'graphql';
import { catchError, type Observable, of, throwError } from 'rxjs';
import { RefusalError } from './refusal.js';

/**
 * Hands a refusal over as a value where the operation's result has room for one. Everywhere else it stays an
 * error, which the API shows with the refusal's code.
 */
@Injectable()
export class RefusalInterceptor implements NestInterceptor {
  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    if (context.getType<GqlContextType>() !== 'graphql') return next.handle();
    const info = GqlExecutionContext.create(context).getInfo<GraphQLResolveInfo>();
    const type = getNamedType(info.returnType);
    const hasRoom = isUnionType(type) && type.getTypes().some((member) => member.name === 'Refusal');
    return next
      .handle()
      .pipe(
        catchError((error: unknown) =>
          hasRoom && error instanceof RefusalError ? of(error.refusal) : throwError(() => error),
        ),
      );
  }
}
