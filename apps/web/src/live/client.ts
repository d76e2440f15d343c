import { createClient as createSocketClient } from 'graphql-ws';
import { cacheExchange, Client, fetchExchange, mapExchange, subscriptionExchange } from 'urql';
import { keptFetch } from './kept-fetch.js';

export interface Line {
  client: Client;
  /** Hangs up the socket; used when the session ends. */
  close: () => void;
}

interface Calls {
  /** The socket came back after it was lost: news may have been missed meanwhile. */
  returned: () => void;
  /** The session has ended on the server's side. */
  sessionEnded: () => void;
}

/**
 * One line to the API for one session: queries over HTTP, news over a WebSocket that rings back for ever. */
export function openLine({ returned, sessionEnded }: Calls): Line {
  const address = new URL('/graphql', window.location.href);
  address.protocol = address.protocol === 'https:' ? 'wss:' : 'ws:';
  const socket = createSocketClient({
    url: address.href,
    retryAttempts: Infinity,
    shouldRetry: () => true,
    retryWait: (retries) => new Promise((done) => setTimeout(done, Math.min(1000 * 2 ** retries, 15_000))),
    on: {
      connected: (_socket, _payload, wasRetry) => {
        if (wasRetry) returned();
      },
    },
  });
  const client = new Client({
    url: '/graphql',
    fetch: keptFetch,
    preferGetMethod: false,
    fetchOptions: { credentials: 'same-origin' },
    requestPolicy: 'cache-and-network',
    exchanges: [
      mapExchange({
        onError: (error) => {
          if (error.graphQLErrors.some((each) => each.extensions['code'] === 'NOT_SIGNED_IN')) sessionEnded();
        },
      }),
      cacheExchange,
      fetchExchange,
      subscriptionExchange({
        forwardSubscription: (request) => ({
          subscribe: (sink) => ({
            unsubscribe: socket.subscribe({ ...request, query: request.query ?? '' }, sink),
          }),
        }),
      }),
    ],
  });
  return { client, close: () => void socket.dispose() };
}
