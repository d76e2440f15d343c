import { randomUUID } from 'node:crypto';
import type { IncomingMessage, Server } from 'node:http';
import type { Duplex } from 'node:stream';
import { hashOf, type LiveSession, type RequestContext, sessionEnded, type Sessions } from '@ribband/access';
import { type Bus, type Config, log } from '@ribband/platform';
import {
  type ExecutionArgs,
  getOperationAST,
  GraphQLError,
  type GraphQLSchema,
  OperationTypeNode,
  parse,
  specifiedRules,
  validate,
} from 'graphql';
import { CloseCode, type SubscribePayload } from 'graphql-ws';
import { useServer } from 'graphql-ws/use/ws';
import { type WebSocket, WebSocketServer } from 'ws';
import { isOurOrigin } from '../http/origin.js';
import { tokenIn } from '../http/session-cookie.js';
import { showErrors } from './errors.js';
import { limits, maxTokens } from './limits.js';

const maxMessageBytes = 64 * 1024;
const maxSubscriptionsASocket = 20;
const maxSocketsAnAddress = 100;
const sessionCheckMillis = 30_000;

type SocketExtra = Record<PropertyKey, unknown> & {
  socket: WebSocket;
  request: IncomingMessage;
};

/** What subscriptions need of the server. */
export interface SubscriptionParts {
  schema: GraphQLSchema;
  sessions: Sessions;
  bus: Bus;
  config: Config;
}

/**
 * Subscriptions over the WebSocket at /graphql (sub-protocol graphql-transport-ws), for our own page and for
 * programs, with the session cookie of the handshake. A socket lives no longer than its session.
 * @returns what ends them all
 */
export function serveSubscriptions(server: Server, parts: SubscriptionParts): () => Promise<void> {
  const { schema, sessions, bus, config } = parts;
  const sockets = new WebSocketServer({ noServer: true, maxPayload: maxMessageBytes });
  const counts = new Map<string, number>();

  const upgrade = (request: IncomingMessage, stream: Duplex, head: Buffer): void => {
    const path = (request.url ?? '').split('?')[0];
    const address = addressOf(request, config);
    if (path !== '/graphql') {
      turnAway(stream, 404, 'Not Found');
      return;
    }
    if (!isOurOrigin(config, request.headers)) {
      turnAway(stream, 403, 'Forbidden');
      return;
    }
    const count = counts.get(address) ?? 0;
    if (count >= maxSocketsAnAddress) {
      turnAway(stream, 429, 'Too Many Requests');
      return;
    }
    sockets.handleUpgrade(request, stream, head, (socket) => {
      counts.set(address, count + 1);
      socket.on('close', () => {
        const left = (counts.get(address) ?? 1) - 1;
        if (left > 0) counts.set(address, left);
        else counts.delete(address);
      });
      socket.on('error', (error) => {
        log.info({ error }, 'a socket broke');
      });
      sockets.emit('connection', socket, request);
    });
  };
  server.on('upgrade', upgrade);

  const graphql = useServer<Record<string, unknown>, SocketExtra>(
    {
      schema,
      connectionInitWaitTimeout: 5_000,
      async onConnect({ extra }) {
        const token = tokenIn(extra.request.headers.cookie);
        const session = token === null ? null : await sessions.find(token);
        if (token && session) endWithSession(extra.socket, { token, session }, sessions, bus);
        // Whoever is not signed in may connect; each operation says whom it lets in.
        return true;
      },
      async onSubscribe({ extra, subscriptions }, _id, payload) {
        if (Object.keys(subscriptions).length > maxSubscriptionsASocket) {
          return [clientError(`A socket carries at most ${maxSubscriptionsASocket} subscriptions.`)];
        }
        return prepare(schema, payload, await contextOf(extra.request, parts));
      },
      onError: (_context, _id, _payload, errors) => showErrors(errors),
      onNext(_context, _id, _payload, args, result) {
        // The next piece of news reads the records afresh.
        (args.contextValue as RequestContext).loaders.clear();
        return result.errors ? { ...result, errors: showErrors(result.errors) } : undefined;
      },
    },
    sockets,
  );

  return async () => {
    server.off('upgrade', upgrade);
    await graphql.dispose();
    sockets.close();
  };
}

/** Reads and checks a document as the HTTP side does. */
function prepare(
  schema: GraphQLSchema,
  payload: SubscribePayload,
  contextValue: RequestContext,
): ExecutionArgs | GraphQLError[] {
  let document;
  try {
    document = parse(payload.query, { maxTokens });
  } catch (error) {
    if (error instanceof GraphQLError) return [error];
    throw error;
  }
  const faults = validate(schema, document, [...specifiedRules, ...limits]);
  if (faults.length > 0) return [...faults];
  const operation = getOperationAST(document, payload.operationName);
  if (!operation) return [clientError('The document has no such operation.')];
  if (operation.operation !== OperationTypeNode.SUBSCRIPTION) {
    return [clientError('The WebSocket carries subscriptions; send queries and mutations by POST.')];
  }
  return {
    schema,
    document,
    contextValue,
    operationName: payload.operationName ?? null,
    variableValues: payload.variables ?? null,
  };
}

async function contextOf(
  request: IncomingMessage,
  { sessions, config }: SubscriptionParts,
): Promise<RequestContext> {
  const token = tokenIn(request.headers.cookie);
  const session = token === null ? null : await sessions.find(token);
  return {
    requestId: randomUUID(),
    caller: session?.caller ?? null,
    mustChangePassword: session?.mustChangePassword ?? false,
    sessionToken: session ? token : null,
    address: addressOf(request, config),
    setSessionCookie: () => {
      throw new Error('A subscription cannot set a cookie');
    },
    loaders: new Map(),
  };
}

/** Where a request comes from: as a proxy of ours says, or as the socket says. */
function addressOf(request: IncomingMessage, config: Config): string {
  const forwarded = config.trustProxy ? request.headers['x-forwarded-for'] : undefined;
  const last = typeof forwarded === 'string' ? forwarded.split(',').at(-1)?.trim() : undefined;
  return last ?? request.socket.remoteAddress ?? '';
}

/** Closes the socket when the session of its cookie ends, or its account becomes something else at the yard. */
function endWithSession(
  socket: WebSocket,
  began: { token: string; session: LiveSession },
  sessions: Sessions,
  bus: Bus,
): void {
  const close = (): void => {
    socket.close(CloseCode.Forbidden, 'The session is over');
  };
  const look = async (): Promise<void> => {
    try {
      const now = await sessions.find(began.token);
      if (now?.caller.role !== began.session.caller.role) close();
    } catch (error) {
      log.warn({ error }, 'could not ask whether a session is still there');
    }
  };
  const timer = setInterval(() => void look(), sessionCheckMillis);
  const ended = bus.listen<string>(sessionEnded);
  const tokenHash = hashOf(began.token);
  void (async () => {
    for await (const hash of ended) if (hash === tokenHash) close();
  })();
  socket.on('close', () => {
    clearInterval(timer);
    void ended.return?.();
  });
}

function clientError(message: string): GraphQLError {
  return new GraphQLError(message, { extensions: { code: 'BAD_REQUEST' } });
}

function turnAway(stream: Duplex, status: number, reason: string): void {
  stream.end(`HTTP/1.1 ${status} ${reason}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
}
