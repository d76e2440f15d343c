import { randomUUID } from 'node:crypto';
import { log, RefusalError, requestIds } from '@ribband/platform';
import { GraphQLError, type GraphQLFormattedError } from 'graphql';

/** Faults of the document or its variables, whose message helps the one who wrote it and tells nothing of ours. */
const shownCodes = new Set([
  'BAD_REQUEST',
  'BAD_USER_INPUT',
  'GRAPHQL_PARSE_FAILED',
  'GRAPHQL_VALIDATION_FAILED',
  'OPERATION_RESOLUTION_FAILURE',
  'PERSISTED_QUERY_NOT_FOUND',
  'PERSISTED_QUERY_NOT_SUPPORTED',
]);

/** What happened first, below the wrappings of GraphQL. */
function causeOf(error: unknown): unknown {
  return error instanceof GraphQLError && error.originalError ? causeOf(error.originalError) : error;
}

/**
 * What is shown of an error: a refusal with all that it says, a fault of the document as it is, and of a fault of
 * ours nothing but the id under which the log has it.
 */
export function showError(formatted: GraphQLFormattedError, error: unknown): GraphQLFormattedError {
  const place = {
    ...(formatted.locations ? { locations: formatted.locations } : {}),
    ...(formatted.path ? { path: formatted.path } : {}),
  };
  const cause = causeOf(error);
  if (cause instanceof RefusalError) {
    const { code, message, field, remedy, facts } = cause.refusal;
    return { message, ...place, extensions: { code, field, remedy, facts } };
  }
  const code = formatted.extensions?.['code'];
  if (typeof code === 'string' && shownCodes.has(code)) {
    return { message: formatted.message, ...place, extensions: { code } };
  }
  const requestId = requestIds.getStore() ?? randomUUID();
  log.error({ error: cause, path: formatted.path, faultId: requestId }, 'a fault of ours');
  return {
    message: `Something went wrong on our side. The server's log has it under ${requestId}.`,
    ...place,
    extensions: { code: 'INTERNAL_SERVER_ERROR', requestId },
  };
}

/** The same for errors that have not passed Apollo: those of subscriptions. */
export function showErrors(errors: readonly GraphQLError[]): GraphQLFormattedError[] {
  return errors.map((error) => {
    const formatted = error.toJSON();
    // Without a cause of its own it comes from the grammar, the validation or the variables.
    const isOfDocument = !error.originalError && formatted.extensions?.['code'] === undefined;
    const code = isOfDocument
      ? { ...formatted, extensions: { code: 'GRAPHQL_VALIDATION_FAILED' } }
      : formatted;
    return showError(code, error);
  });
}
