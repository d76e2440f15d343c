import { costLimitRule } from '@escape.tech/graphql-armor-cost-limit';
import { maxAliasesRule } from '@escape.tech/graphql-armor-max-aliases';
import { maxDepthRule } from '@escape.tech/graphql-armor-max-depth';
import { GraphQLError, type ValidationContext, type ValidationRule } from 'graphql';

/** The longest document, in words of the grammar. */
export const maxTokens = 4_000;

/** How deep a document may reach, fields counted from the top. */
const maxDepth = 12;

/** How many fields may be asked for under another name. */
const maxAliases = 15;

/**
 * The most that a document may cost: a field 1, an object 2, each times 1.5 for every step down, times `first`
 * where the document itself says so. The page's dearest document costs about a tenth of it.
 */
const maxCost = 100_000;

/** Reports through the validation, as any other fault of a document: a thrown error would be taken for ours. */
function reportAs(message: string): {
  onReject: [(context: ValidationContext | null) => void];
  propagateOnRejection: false;
} {
  return {
    onReject: [(context) => context?.reportError(new GraphQLError(message))],
    propagateOnRejection: false,
  };
}

/** Rules for documents beside those of the GraphQL specification; for HTTP and WebSocket alike. */
export const limits = [
  maxDepthRule({ n: maxDepth, ...reportAs(`A document may be at most ${maxDepth} fields deep.`) }),
  maxAliasesRule({ n: maxAliases, ...reportAs(`A document may have at most ${maxAliases} aliases.`) }),
  costLimitRule({ maxCost, ...reportAs('The document asks for too much at once; ask for smaller pages.') }),
] as unknown as ValidationRule[];
