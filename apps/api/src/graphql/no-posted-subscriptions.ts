import type { ApolloServerPlugin } from '@apollo/server';
import { GraphQLError, OperationTypeNode } from 'graphql';

/** Tells whoever sends a subscription over HTTP that it belongs on the WebSocket. */
export const noPostedSubscriptions: ApolloServerPlugin = {
  requestDidStart: () =>
    Promise.resolve({
      didResolveOperation({ operation }) {
        if (operation?.operation !== OperationTypeNode.SUBSCRIPTION) return Promise.resolve();
        throw new GraphQLError(
          'Subscriptions go over the WebSocket (graphql-transport-ws) at the same address.',
          {
            extensions: { code: 'BAD_REQUEST', http: { status: 400 } },
          },
        );
      },
    }),
};
