import {
  createContext,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useRef,
  useState,
  type ReactNode,
} from 'react';
import { stringifyDocument, useClient, type AnyVariables, type Client, type TypedDocumentNode } from 'urql';
import { useSay } from './announcer.js';
import { allKept, forget, keep } from './chest.js';
import { sayDeedFault, type Done, type Outcome, type Refusal } from './deed.js';

/** Something pressed while the line was down: it waits, is sent with its key when the line is back, and is told. */
interface KeptDeed {
  /** Who pressed it: nobody else's session sends it. */
  accountId: string;
  key: string;
  document: string;
  variables: Record<string, unknown>;
  /** What it is, for people: 'Take “Pull nails”, Saturday 20 March'. */
  what: string;
  /** What to say once it is done. */
  done: string;
  /** Epoch milliseconds of this machine. */
  at: number;
  /** What came of it; null while it waits. */
  answer: { kind: 'done' } | { kind: 'refused'; message: string; remedy: string | null } | null;
}

/** As a deed comes out, or kept for later. */
export type KeptOutcome<Done> = Outcome<Done> | { kind: 'kept' };

interface Deeds {
  deeds: KeptDeed[];
  keepDeed: (deed: Omit<KeptDeed, 'accountId'>) => Promise<boolean>;
  dismiss: (key: string) => void;
}

const DeedsContext = createContext<Deeds>({
  deeds: [],
  keepDeed: () => Promise.resolve(false),
  dismiss: () => undefined,
});

const tryAgainMillis = 20_000;

/** Sends what waits: when the page opens, when the line comes back, and every now and then. */
export function KeptDeedsProvider({
  accountId,
  returned,
  children,
}: {
  accountId: string;
  returned: number;
  children: ReactNode;
}) {
  const client = useClient();
  const say = useSay();
  const [deeds, setDeeds] = useState<KeptDeed[]>([]);
  const sending = useRef(false);

  const own = useCallback(async () => {
    const all = (await allKept('deeds')) as KeptDeed[];
    return all.filter((deed) => deed.accountId === accountId).sort((a, b) => a.at - b.at);
  }, [accountId]);
  const look = useCallback(async () => {
    setDeeds(await own());
  }, [own]);
  const sendAll = useCallback(async () => {
    if (sending.current) return;
    sending.current = true;
    try {
      for (const deed of await own()) {
        if (deed.answer) continue;
        const answer = await send(client, deed);
        if (!answer) break;
        await keep('deeds', deed.key, { ...deed, answer } satisfies KeptDeed);
        say(answer.kind === 'done' ? deed.done : `${deed.what}: ${answer.message}`);
      }
    } finally {
      sending.current = false;
      await look();
    }
  }, [client, look, own, say]);
  const keepDeed = useCallback(
    async (deed: Omit<KeptDeed, 'accountId'>) => {
      const isKept = await keep('deeds', deed.key, { ...deed, accountId } satisfies KeptDeed);
      await look();
      return isKept;
    },
    [accountId, look],
  );
  const dismiss = useCallback(
    (key: string) => {
      void forget('deeds', key).then(look);
    },
    [look],
  );
  const isWaiting = deeds.some((deed) => deed.answer === null);
  useEffect(() => {
    void sendAll();
  }, [returned, sendAll]);
  useEffect(() => {
    const again = () => void sendAll();
    window.addEventListener('online', again);
    const timer = isWaiting ? window.setInterval(again, tryAgainMillis) : undefined;
    return () => {
      window.removeEventListener('online', again);
      window.clearInterval(timer);
    };
  }, [isWaiting, sendAll]);
  const value = useMemo(() => ({ deeds, keepDeed, dismiss }), [deeds, keepDeed, dismiss]);
  return <DeedsContext value={value}>{children}</DeedsContext>;
}

/** Null where the line is still down. */
async function send(client: Client, deed: KeptDeed): Promise<NonNullable<KeptDeed['answer']> | null> {
  const result = await client.mutation(deed.document, deed.variables).toPromise();
  if (result.error?.networkError) return null;
  if (result.error) {
    // The session has ended: it waits until the same person has signed in again.
    if (result.error.graphQLErrors.some((each) => each.extensions['code'] === 'NOT_SIGNED_IN')) return null;
    return { kind: 'refused', message: sayDeedFault(result.error), remedy: null };
  }
  const data = result.data as Record<string, { __typename?: string } | undefined> | undefined;
  const answer = Object.values(data ?? {}).find((each) => typeof each === 'object');
  if (answer?.__typename !== 'Refusal') return { kind: 'done' };
  const { message, remedy } = answer as unknown as Refusal;
  return { kind: 'refused', message, remedy: remedy ?? null };
}

/** What waits or was settled, for the page that shows it. */
export function useKeptDeeds(): Pick<Deeds, 'deeds' | 'dismiss'> {
  return useContext(DeedsContext);
}

interface Words {
  what: string;
  done: string;
}

/** Whether something pressed earlier, and not sent yet, names this id: it is not to be pressed again meanwhile. */
export function useIsWaiting(name: string, id: string): boolean {
  const { deeds } = useContext(DeedsContext);
  return deeds.some(({ answer, variables }) => {
    const input = variables['input'] as Record<string, unknown> | undefined;
    return answer === null && (variables[name] === id || input?.[name] === id);
  });
}

/**
 * A mutation that takes a key: pressed without a line it is kept, and sent once when the line is back. Where nothing can be
 * kept, the same pressed again goes with the same key.
 */
export function useKeptDeed<Data extends object, Variables extends AnyVariables>(
  document: TypedDocumentNode<Data, Variables>,
) {
  const client = useClient();
  const { keepDeed } = useContext(DeedsContext);
  const [busy, setBusy] = useState(false);
  const lost = useRef<{ asked: string; key: string } | null>(null);
  const run = useCallback(
    async (variables: Variables, words: Words): Promise<KeptOutcome<Done<Data>>> => {
      setBusy(true);
      try {
        const asked = JSON.stringify(variables);
        const key = lost.current?.asked === asked ? lost.current.key : crypto.randomUUID();
        lost.current = null;
        const keyed = withKey(variables ?? {}, key);
        const result = await client.mutation(document, keyed as Variables).toPromise();
        if (result.error?.networkError) {
          const isKept = await keepDeed({
            ...words,
            key,
            document: stringifyDocument(document),
            variables: keyed,
            at: Date.now(),
            answer: null,
          });
          if (!isKept) lost.current = { asked, key };
          return isKept ? { kind: 'kept' } : { kind: 'fault', words: sayDeedFault(result.error) };
        }
        if (result.error) return { kind: 'fault', words: sayDeedFault(result.error) };
        const answer = Object.entries(result.data ?? {}).find(([name]) => name !== '__typename')?.[1] as
          { __typename?: string } | undefined;
        return answer?.__typename === 'Refusal'
          ? { kind: 'refused', refusal: answer as unknown as Refusal }
          : { kind: 'done', done: answer as Done<Data> };
      } finally {
        setBusy(false);
      }
    },
    [client, document, keepDeed],
  );
  return { run, busy };
}

/** The key stands beside the other arguments, or in the one that holds them all. */
function withKey(variables: object, key: string): Record<string, unknown> {
  const given = variables as Record<string, unknown>;
  const { input } = given;
  return typeof input === 'object' && input !== null
    ? { ...given, input: { ...input, key } }
    : { ...given, key };
}
