import { keep, kept } from './chest.js';
import { lineIsDown, lineIsUp } from './line-state.js';

/** Questions whose answers are kept, so that their pages work without a line. */
const keptQuestions = new Set(['Yard', 'HaulOut', 'Places', 'CallDay', 'MorningSheet']);

interface KeptAnswer {
  body: string;
  /** Epoch milliseconds of this machine. */
  at: number;
}

interface Asked {
  operationName?: string;
  variables?: unknown;
}

/** Fetches as the browser does, keeps some answers, and gives them where the server does not answer. */
export const keptFetch: typeof fetch = async (address, init) => {
  const { operationName = '', variables } = asked(init?.body);
  const key = keptQuestions.has(operationName) ? keyOf(operationName, variables) : null;
  let response: Response;
  try {
    response = await fetch(address, init);
  } catch (error) {
    // Whoever asks has gone to another page: that says nothing about the line.
    if (init?.signal?.aborted) throw error;
    const answer = key === null ? undefined : ((await kept('answers', key)) as KeptAnswer | undefined);
    lineIsDown(answer?.at ?? null);
    if (!answer) throw error;
    return new Response(answer.body, { headers: { 'content-type': 'application/json' } });
  }
  lineIsUp();
  if (key !== null && response.ok) {
    const body = await response.clone().text();
    if (isWorthKeeping(body)) await keep('answers', key, { body, at: Date.now() } satisfies KeptAnswer);
  }
  return response;
};

const keyOf = (operationName: string, variables: unknown): string =>
  `${operationName} ${JSON.stringify(variables ?? {})}`;

/** When the answer to a kept question was heard last, in epoch milliseconds of this machine; null where none is kept. */
export async function heardAt(operationName: string, variables: unknown): Promise<number | null> {
  const answer = (await kept('answers', keyOf(operationName, variables))) as KeptAnswer | undefined;
  return answer?.at ?? null;
}

function asked(body: BodyInit | null | undefined): Asked {
  return typeof body === 'string' ? (JSON.parse(body) as Asked) : {};
}

/** Faults are not come back to, nor is the door of a yard where nobody is signed in. */
function isWorthKeeping(body: string): boolean {
  const { data, errors } = JSON.parse(body) as { data?: { me?: unknown } | null; errors?: unknown };
  return errors === undefined && !!data && data.me !== null;
}
