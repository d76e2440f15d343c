import { createClient as createSocketClient } from 'graphql-ws';
import { cacheExchange, Client, fetchExchange, subscriptionExchange } from 'urql';

export interface Line {
  client: Client;
  /** Hangs up the socket; used when the session ends. */
  close: () => void;
}

/**
 * One line to the API for one session: queries over HTTP, news over a WebSocket that rings back for ever.
 * `onReturn` is called when the socket comes back after it was lost, since news may have been missed meanwhile.
 */
export function openLine(onReturn: () => void): Line {
  const address = new URL('/graphql', window.location.href);
  address.protocol = address.protocol === 'https:' ? 'wss:' : 'ws:';
  const socket = createSocketClient({
    url: address.href,
    retryAttempts: Infinity,
    shouldRetry: () => true,
    retryWait: (retries) => new Promise((done) => setTimeout(done, Math.min(1000 * 2 ** retries, 15_000))),
    on: {
      connected: (_socket, _payload, wasRetry) => {
        if (wasRetry) onReturn();
      },
    },
  });
  const client = new Client({
    url: '/graphql',
    preferGetMethod: false,
    fetchOptions: { credentials: 'same-origin' },
    requestPolicy: 'cache-and-network',
    exchanges: [
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
