import { useCallback, useState } from 'react';
import { useClient, type AnyVariables, type CombinedError, type TypedDocumentNode } from 'urql';
import { graphql } from '../gql/gql.js';

/**
 * What every refusal says, wherever it comes from. Named in other documents, where the generator of types finds it.
 * @public
 */
export const Refused = graphql(`
  fragment Refused on Refusal {
    code
    message
    field
    remedy
    facts {
      name
      value
    }
  }
`);

export interface Refusal {
  code: string;
  message: string;
  field?: string | null;
  remedy?: string | null;
  facts: { name: string; value: string }[];
}

/** How something asked of the server came out: done, refused by the rules of the yard, or a fault of ours. */
export type Outcome<Done> =
  { kind: 'done'; done: Done } | { kind: 'refused'; refusal: Refusal } | { kind: 'fault'; words: string };

type Answer<Data> = Exclude<Data[Exclude<keyof Data, '__typename'>], undefined | null>;
export type Done<Data> = Exclude<Answer<Data>, { __typename: 'Refusal' }>;

/** A mutation with one field whose answer is a union of what was done and a refusal. */
export function useDeed<Data extends object, Variables extends AnyVariables>(
  document: TypedDocumentNode<Data, Variables>,
) {
  const client = useClient();
  const [busy, setBusy] = useState(false);
  const run = useCallback(
    async (variables: Variables): Promise<Outcome<Done<Data>>> => {
      setBusy(true);
      try {
        const result = await client.mutation(document, variables).toPromise();
        if (result.error) return { kind: 'fault', words: sayDeedFault(result.error) };
        const answer = Object.entries(result.data ?? {}).find(
          ([key]) => key !== '__typename',
        )?.[1] as Answer<Data>;
        return isRefusal(answer)
          ? { kind: 'refused', refusal: answer }
          : { kind: 'done', done: answer as Done<Data> };
      } finally {
        setBusy(false);
      }
    },
    [client, document],
  );
  return { run, busy };
}

function isRefusal(answer: unknown): answer is Refusal {
  return (answer as { __typename?: string } | null)?.__typename === 'Refusal';
}

/** A question that was not answered, in words: the line is down, or the server names the request for whoever looks it up. */
export function sayFault(error: CombinedError): string {
  if (error.networkError)
    return 'The yard’s server does not answer; your line may be down. Try again in a moment.';
  const first = error.graphQLErrors[0];
  const request = first?.extensions['requestId'];
  return `${first?.message ?? 'Something went wrong.'}${typeof request === 'string' ? ` (request ${request})` : ''}`;
}

/** The same of a deed: where the answer got lost, nobody here knows whether the deed did. */
export function sayDeedFault(error: CombinedError): string {
  if (!error.networkError) return sayFault(error);
  return 'No answer came from the yard’s server; your line may be down. What you asked may have arrived or not: when the line is back, open this page again and look before you press once more.';
}
