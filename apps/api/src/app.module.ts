import { ApolloDriver, type ApolloDriverConfig } from '@nestjs/apollo';
import { type DynamicModule, Module } from '@nestjs/common';
import { GraphQLModule } from '@nestjs/graphql';
import { Sessions } from '@ribband/access';
import { type Computing, Config, PlatformModule } from '@ribband/platform';
import { rooms, schema } from '@ribband/planning';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { contextOf } from './graphql/context.js';
import { showError } from './graphql/errors.js';
import { limits, maxTokens } from './graphql/limits.js';
import { noPostedSubscriptions } from './graphql/no-posted-subscriptions.js';
import { CalendarController } from './http/calendar.controller.js';
import { HealthController } from './http/health.controller.js';
import { PicturesController } from './http/pictures.controller.js';

/** The whole server. */
@Module({ controllers: [CalendarController, HealthController, PicturesController] })
export class AppModule {
  static forRoot(config: Config, computing: Computing): DynamicModule {
    return {
      module: AppModule,
      imports: [
        PlatformModule.forRoot({ config, schema, computing }),
        ...rooms,
        GraphQLModule.forRootAsync<ApolloDriverConfig>({
          driver: ApolloDriver,
          inject: [Sessions],
          useFactory: (sessions: Sessions): ApolloDriverConfig => ({
            path: '/graphql',
            autoSchemaFile: true,
            sortSchema: true,
            graphiql: false,
            introspection: true,
            csrfPrevention: true,
            allowBatchedHttpRequests: false,
            includeStacktraceInErrorResponses: false,
            parseOptions: { maxTokens },
            validationRules: limits,
            plugins: [noPostedSubscriptions],
            formatError: showError,
            autoTransformHttpErrors: false,
            stopOnTerminationSignals: false,
            context: (request: FastifyRequest, reply: FastifyReply) =>
              contextOf(sessions, config, request, reply),
          }),
        }),
      ],
    };
  }
}
