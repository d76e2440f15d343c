import { useCallback, useEffect, useState } from 'react';
import { useQuery, type AnyVariables, type CombinedError, type TypedDocumentNode } from 'urql';
import { useFresh } from './news.js';

export interface Answered<Data> {
  fetching: boolean;
  data: Data | undefined;
  error: CombinedError | undefined;
}

/**
 * Asks the server, and again whenever news of the kind named comes in. What was last answered stays on the page while
 * it is asked again, and when the line is down.
 */
export function useAsk<Data, Variables extends AnyVariables>(
  query: TypedDocumentNode<Data, Variables>,
  variables: Variables,
  news: 'plan' | 'roster' | 'either' | 'none' = 'none',
): [Answered<Data>, () => void] {
  // The hook asks for variables only where the question has some; here they are always given.
  const [state, ask] = useQuery<Data>({ query, variables });
  const again = useCallback(() => {
    ask({ requestPolicy: 'network-only' });
  }, [ask]);
  useFresh(news, again);
  const [kept, setKept] = useState<Data | undefined>(undefined);
  useEffect(() => {
    if (state.data !== undefined) setKept(state.data);
  }, [state.data]);
  return [{ fetching: state.fetching, data: state.data ?? kept, error: state.error }, again];
}
