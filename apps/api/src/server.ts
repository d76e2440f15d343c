import { randomUUID } from 'node:crypto';
import { fastifyCookie } from '@fastify/cookie';
import { NestFactory } from '@nestjs/core';
import { GraphQLSchemaHost } from '@nestjs/graphql';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { Sessions, WhoMay } from '@ribband/access';
import { Bus, type Computing, type Config } from '@ribband/platform';
import type { GraphQLSchema } from 'graphql';
import { AppModule } from './app.module.js';
import { serveSubscriptions } from './graphql/subscriptions.js';
import { addHooks } from './http/hooks.js';
import { lookUpWhoAsks } from './http/who-asks.js';
import { builtPage, servePage } from './http/page.js';
import { nestLog } from './nest-log.js';

const maxBodyBytes = 4 * 1024 * 1024;

/** A server that has been built but does not listen yet. */
export interface Server {
  app: NestFastifyApplication;
  schema: GraphQLSchema;
  /** @returns the address, such as http://127.0.0.1:3000 */
  listen(): Promise<string>;
  /** Ends subscriptions and computing, answers what is under way, and lets go of the database. */
  close(): Promise<void>;
}

/**
 * Builds the server: opens and migrates the database, checks that every operation says who may call it.
 * @param page the folder of the built page
 */
export async function buildServer(config: Config, computing: Computing, page = builtPage): Promise<Server> {
  const adapter = new FastifyAdapter({
    bodyLimit: maxBodyBytes,
    // One proxy: the address is the one that it saw, not one that the client has made up.
    trustProxy: config.trustProxy ? (_address, hop) => hop === 0 : false,
    genReqId: () => randomUUID(),
    forceCloseConnections: 'idle',
    logger: false,
  });
  const app = await NestFactory.create<NestFastifyApplication>(
    AppModule.forRoot(config, computing),
    adapter,
    {
      logger: nestLog,
      abortOnError: false,
    },
  );
  const fastify = adapter.getInstance();
  addHooks(fastify, config);
  await fastify.register(fastifyCookie);
  lookUpWhoAsks(fastify, config, () => app.get(Sessions), ['/pictures/']);
  servePage(fastify, page);
  await app.init();
  const { schema } = app.get(GraphQLSchemaHost);
  try {
    app.get(WhoMay).check(schema);
  } catch (error) {
    await app.close();
    throw error;
  }
  const endSubscriptions = serveSubscriptions(app.getHttpServer(), {
    schema,
    config,
    sessions: app.get(Sessions),
    bus: app.get(Bus),
  });
  return {
    app,
    schema,
    async listen() {
      await app.listen(config.port, config.host);
      return (await app.getUrl()).replace('[::1]', 'localhost');
    },
    async close() {
      await endSubscriptions();
      await app.close();
    },
  };
}
