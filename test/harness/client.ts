import { type Client as SocketClient, createClient } from 'graphql-ws';
import { WebSocket } from 'ws';

/** An answer as GraphQL gives it. */
export interface Answer<Data = Record<string, unknown>> {
  status: number;
  data: Data | null;
  errors: { message: string; path?: (string | number)[]; extensions?: Record<string, unknown> }[];
}

/** A piece of news of a subscription. */
export interface Piece<Data = Record<string, unknown>> {
  data?: Data | null;
  errors?: readonly { message: string; extensions?: Record<string, unknown> }[];
}

/** Somebody's browser: sends documents with its cookie and keeps the cookie that it is given. */
export class Client {
  cookie: string | null = null;
  private readonly sockets: SocketClient[] = [];

  constructor(readonly url: string) {}

  /** Sends a document and hands back whatever comes. */
  async send<Data = Record<string, unknown>>(
    query: string,
    variables: Record<string, unknown> = {},
    headers: Record<string, string> = {},
  ): Promise<Answer<Data>> {
    const response = await this.post(JSON.stringify({ query, variables }), headers);
    const body = (await response.json()) as Partial<Answer<Data>>;
    return { status: response.status, data: body.data ?? null, errors: body.errors ?? [] };
  }

  /** Sends a document that must be answered without an error. @throws with the errors */
  async query<Data = Record<string, unknown>>(
    query: string,
    variables: Record<string, unknown> = {},
  ): Promise<Data> {
    const answer = await this.send<Data>(query, variables);
    if (answer.errors.length > 0 || answer.data === null) {
      throw new Error(`${answer.status}: ${JSON.stringify(answer.errors, null, 1)}`);
    }
    return answer.data;
  }

  /** Posts a body as it is. */
  async post(body: string, headers: Record<string, string> = {}): Promise<Response> {
    const response = await fetch(`${this.url}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', ...this.cookieHeader(), ...headers },
      body,
    });
    for (const line of response.headers.getSetCookie()) {
      const [pair = ''] = line.split(';');
      this.cookie = pair.endsWith('=') ? null : pair;
    }
    return response;
  }

  /** @throws when it is refused */
  async signIn(email: string, password: string): Promise<void> {
    const { signIn } = await this.query<{ signIn: { __typename: string; message?: string } }>(
      `mutation SignIn($email: String!, $password: String!) {
        signIn(email: $email, password: $password) { __typename ... on Refusal { message } }
      }`,
      { email, password },
    );
    if (signIn.__typename !== 'SignInPayload') throw new Error(signIn.message);
  }

  /**
   * Listens to a subscription. Await `next()` of what it returns, or go through it; `close` the client at the end.
   * @param headers of the handshake, beside the cookie
   */
  subscribe<Data = Record<string, unknown>>(
    query: string,
    variables: Record<string, unknown> = {},
    headers: Record<string, string> = {},
  ): AsyncIterableIterator<Piece<Data>> {
    const handshake = { ...this.cookieHeader(), ...headers };
    const socket = createClient({
      url: `${this.url.replace('http', 'ws')}/graphql`,
      webSocketImpl: class extends WebSocket {
        constructor(address: string, protocols: string | string[]) {
          super(address, protocols, { headers: handshake });
        }
      },
      lazy: true,
      retryAttempts: 0,
    });
    this.sockets.push(socket);
    return socket.iterate({ query, variables }) as AsyncIterableIterator<Piece<Data>>;
  }

  /** Closes its sockets. */
  async close(): Promise<void> {
    for (const socket of this.sockets) await socket.dispose();
  }

  private cookieHeader(): Record<string, string> {
    return this.cookie ? { cookie: this.cookie } : {};
  }
}
