import { type Role, roles } from '@ribband/access';
import { Config } from '@ribband/platform';
import { readDemoPeople } from './demo/demo-people.js';
import { cookieName } from './http/session-cookie.js';

/*
 * Signs in at the running demo yard as one of its four people and prints the value of a Cookie header:
 *
 *   curl -H "Cookie: $(npm run --silent demo:sign-in -- director)" ...
 */

const document = `mutation SignIn($email: String!, $password: String!) {
  signIn(email: $email, password: $password) {
    ... on SignInPayload { me { organisation { isDemo } } }
    ... on Refusal { message }
  }
}`;

/** @throws with words for whoever called it */
async function signIn(role: string | undefined): Promise<string> {
  if (!(roles as readonly (string | undefined)[]).includes(role)) {
    throw new Error(`Say who: ${(roles as readonly Role[]).join(', ')}`);
  }
  const config = Config.read(process.env);
  const demo = readDemoPeople(config);
  const person = demo?.people.find((one) => one.role === role);
  if (!demo || !person)
    throw new Error(`${config.dataDir} does not hold a demo yard; this is for the demo only.`);
  const host = ['0.0.0.0', '::'].includes(config.host) ? '127.0.0.1' : config.host;
  const url = `http://${host.includes(':') ? `[${host}]` : host}:${config.port}/graphql`;
  const response = await fetch(url, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ query: document, variables: { email: person.email, password: demo.password } }),
  }).catch((error: unknown) => {
    throw new Error(`No server answers at ${url}: start it with npm start.`, { cause: error });
  });
  const answer = (await response.json()) as {
    data?: { signIn?: { message?: string; me?: { organisation: { isDemo: boolean } } } };
  };
  const outcome = answer.data?.signIn;
  if (!outcome?.me) throw new Error(outcome?.message ?? `The server answered ${response.status}.`);
  if (!outcome.me.organisation.isDemo) throw new Error('This is not a demo yard; this is for the demo only.');
  const cookie = response.headers.getSetCookie().find((line) => line.startsWith(`${cookieName}=`));
  if (!cookie) throw new Error('The server set no cookie.');
  return cookie.split(';')[0] ?? '';
}

try {
  console.log(await signIn(process.argv[2]));
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
