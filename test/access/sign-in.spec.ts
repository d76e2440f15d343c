import { Database } from '@ribband/platform';
import { addressOf, foundYard, startApi, type TestApi, testPassword } from '../harness/api.js';
import type { Client } from '../harness/client.js';

const me = '{ me { account { name email } role mustChangePassword organisation { name yardNow isDemo } } }';
const signIn = `mutation SignIn($email: String!, $password: String!) {
  signIn(email: $email, password: $password) { __typename ... on Refusal { code message remedy } }
}`;
const changePassword = `mutation Change($old: String!, $new: String!) {
  changePassword(old: $old, new: $new) { __typename ... on Refusal { code field } }
}`;

interface Outcome {
  __typename: string;
  code?: string;
  message?: string;
  field?: string;
}

describe('signing in', () => {
  let api: TestApi;
  beforeEach(async () => {
    api = await startApi();
    await foundYard(api);
  });
  afterEach(() => api.close());

  const tryIn = async (email: string, password: string, client: Client = api.visitor()): Promise<Outcome> =>
    (await client.query<{ signIn: Outcome }>(signIn, { email, password })).signIn;

  it('lets in who knows the password, and knows them from then on', async () => {
    const director = await api.signIn(' Director@Yard.example ');
    expect(await director.query(me)).toMatchObject({
      me: {
        account: { name: 'The director', email: 'director@yard.example' },
        role: 'DIRECTOR',
        mustChangePassword: false,
        organisation: { name: 'The Test Yard', isDemo: false },
      },
    });
    expect(await api.visitor().query(me)).toEqual({ me: null });
  });

  it('says the same of a wrong password and of an account that does not exist', async () => {
    const wrong = await tryIn(addressOf('director'), 'not the password');
    const unknown = await tryIn('nobody@yard.example', 'not the password');
    expect(wrong).toMatchObject({ __typename: 'Refusal', code: 'SIGN_IN_FAILED' });
    expect(unknown).toEqual(wrong);
  });

  it('sets a cookie that scripts cannot read and other sites cannot use', async () => {
    const response = await api.visitor().post(
      JSON.stringify({
        query: signIn,
        variables: { email: addressOf('director'), password: testPassword },
      }),
    );
    const [cookie = ''] = response.headers.getSetCookie();
    expect(cookie).toMatch(/^ribband_session=[\w-]{43};/);
    expect(cookie).toMatch(/; HttpOnly/);
    expect(cookie).toMatch(/; SameSite=Lax/);
    expect(cookie).not.toMatch(/; Secure/);
    expect(cookie).toMatch(/; Expires=/);
  });

  it('keeps no password and no token as they are', async () => {
    const director = await api.signIn(addressOf('director'));
    const { read } = api.server.app.get(Database);
    const rows = JSON.stringify([
      await read.query('SELECT * FROM account'),
      await read.query('SELECT * FROM login_session'),
      await read.query('SELECT * FROM audit_entry'),
    ]);
    expect(rows).not.toContain(testPassword);
    expect(rows).not.toContain(director.cookie?.split('=')[1]);
    expect(rows).toContain('$argon2id$v=19$m=19456,t=2,p=1$');
  });

  it('ends when somebody signs out, also for a copy of the cookie', async () => {
    const director = await api.signIn(addressOf('director'));
    const copy = api.visitor();
    copy.cookie = director.cookie;
    await director.query('mutation { signOut }');
    expect(director.cookie).toBeNull();
    expect(await copy.query(me)).toEqual({ me: null });
  });

  it('ends when its time is over', async () => {
    const director = await api.signIn(addressOf('director'));
    await api.server.app
      .get(Database)
      .write((manager) => manager.query('UPDATE login_session SET "expiresAt" = 1'));
    expect(await director.query(me)).toEqual({ me: null });
    const answer = await director.send('{ organisation { name } }');
    expect(answer.errors).toMatchObject([{ extensions: { code: 'NOT_SIGNED_IN' } }]);
  });

  it('knows a new role at once', async () => {
    const coordinator = await api.signIn(addressOf('coordinator'));
    await api.server.app
      .get(Database)
      .write((manager) =>
        manager.query(`UPDATE membership SET role = 'volunteer' WHERE role = 'coordinator'`),
      );
    expect(await coordinator.query('{ me { role } }')).toEqual({ me: { role: 'VOLUNTEER' } });
  });

  it('stops somebody who guesses, before the password is looked at, and nobody else', async () => {
    for (let i = 0; i < 10; i++) await tryIn(addressOf('director'), `guess ${i} of many`);
    expect(await tryIn(addressOf('director'), testPassword)).toMatchObject({ code: 'TOO_MANY_TRIES' });
    expect(await tryIn(addressOf('coordinator'), testPassword)).toMatchObject({
      __typename: 'SignInPayload',
    });
  });

  it('counts each guess when one document holds many of them', async () => {
    const guesses = Array.from(
      { length: 15 },
      (_, i) =>
        `g${i}: signIn(email: "director@yard.example", password: "guess number ${i}") { ... on Refusal { code } }`,
    );
    const answer = await api.visitor().query<Record<string, Outcome>>(`mutation { ${guesses.join(' ')} }`);
    const codes = Object.values(answer).map((outcome) => outcome.code);
    expect(codes.filter((code) => code === 'SIGN_IN_FAILED')).toHaveLength(10);
    expect(codes.filter((code) => code === 'TOO_MANY_TRIES')).toHaveLength(5);
    const forty = Array.from(
      { length: 40 },
      (_, i) =>
        `g${i}: signIn(email: "coordinator@yard.example", password: "guess ${i}") { ... on Refusal { code } }`,
    );
    const refused = await api.visitor().send(`mutation { ${forty.join(' ')} }`);
    expect(refused.status).toBe(400);
    expect(refused.data).toBeNull();
  });

  it('lets a person change the password, and ends their sessions elsewhere', async () => {
    const here = await api.signIn(addressOf('shipwright'));
    const elsewhere = await api.signIn(addressOf('shipwright'));
    const change = async (old: string, wanted: string): Promise<Outcome> =>
      (await here.query<{ changePassword: Outcome }>(changePassword, { old, new: wanted })).changePassword;
    expect(await change('wrong one here', 'oakum and pitch')).toMatchObject({
      code: 'SIGN_IN_FAILED',
      field: 'old',
    });
    expect(await change(testPassword, 'short')).toMatchObject({ code: 'PASSWORD_TOO_WEAK', field: 'new' });
    expect(await change(testPassword, 'shipwright@yard.example!')).toMatchObject({
      code: 'PASSWORD_TOO_WEAK',
    });
    expect(await change(testPassword, testPassword)).toMatchObject({ code: 'PASSWORD_TOO_WEAK' });
    expect(await change(testPassword, 'oakum and pitch')).toEqual({ __typename: 'ChangePasswordPayload' });
    expect(await here.query('{ me { role } }')).toEqual({ me: { role: 'SHIPWRIGHT' } });
    expect(await elsewhere.query(me)).toEqual({ me: null });
    expect(await tryIn(addressOf('shipwright'), testPassword)).toMatchObject({ code: 'SIGN_IN_FAILED' });
    expect(await tryIn(addressOf('shipwright'), 'oakum and pitch')).toMatchObject({
      __typename: 'SignInPayload',
    });
  });

  it('lets a newcomer do nothing before they have changed the first password', async () => {
    const director = await api.signIn(addressOf('director'));
    const { openAccount } = await director.query<{
      openAccount: { oneTimePassword: string; account: { email: string; hasOneTimePassword: boolean } };
    }>(
      `mutation {
        openAccount(input: { email: "New@Yard.example", name: "Newcomer", role: COORDINATOR }) {
          ... on OpenAccountPayload { oneTimePassword account { email hasOneTimePassword } }
        }
      }`,
    );
    expect(openAccount.account).toEqual({ email: 'new@yard.example', hasOneTimePassword: true });
    const newcomer = await api.signIn('new@yard.example', openAccount.oneTimePassword);
    expect(await newcomer.query(me)).toMatchObject({ me: { mustChangePassword: true } });
    const early = await newcomer.send('{ organisation { name } }');
    expect(early.errors).toMatchObject([
      { extensions: { code: 'NOT_PERMITTED', remedy: 'Call changePassword.' } },
    ]);
    await newcomer.query(changePassword, { old: openAccount.oneTimePassword, new: 'oakum and pitch' });
    expect(await newcomer.query('{ organisation { name } }')).toEqual({
      organisation: { name: 'The Test Yard' },
    });
  });

  it('is given back to who has forgotten the password, and taken from who has left', async () => {
    const director = await api.signIn(addressOf('director'));
    const shipwright = await api.signIn(addressOf('shipwright'));
    const { accounts } = await director.query<{ accounts: { id: string; role: string }[] }>(
      '{ accounts { id role } }',
    );
    const idOf = (role: string): string => accounts.find((one) => one.role === role)?.id ?? '';
    const { renewPassword } = await director.query<{ renewPassword: { oneTimePassword: string } }>(
      'mutation R($id: ID!) { renewPassword(accountId: $id) { ... on RenewPasswordPayload { oneTimePassword } } }',
      { id: idOf('SHIPWRIGHT') },
    );
    expect(await shipwright.query(me)).toEqual({ me: null });
    expect(await tryIn(addressOf('shipwright'), testPassword)).toMatchObject({ code: 'SIGN_IN_FAILED' });
    const back = await api.signIn(addressOf('shipwright'), renewPassword.oneTimePassword);
    expect(await back.query(me)).toMatchObject({ me: { mustChangePassword: true } });

    const close = async (id: string): Promise<Outcome> =>
      (
        await director.query<{ closeAccount: Outcome }>(
          'mutation C($id: ID!) { closeAccount(accountId: $id) { __typename ... on Refusal { code field } } }',
          { id },
        )
      ).closeAccount;
    expect(await close(idOf('SHIPWRIGHT'))).toEqual({ __typename: 'CloseAccountPayload' });
    expect(await back.query(me)).toEqual({ me: null });
    expect(await tryIn(addressOf('shipwright'), renewPassword.oneTimePassword)).toMatchObject({
      code: 'SIGN_IN_FAILED',
    });
    expect(await close(idOf('DIRECTOR'))).toMatchObject({ code: 'NOT_PERMITTED', field: 'accountId' });
    expect(await close(idOf('SHIPWRIGHT'))).toMatchObject({ code: 'NOT_FOUND', field: 'accountId' });
  });

  it('is nothing that a director of another yard can touch', async () => {
    await foundYard(api, { name: 'Another Yard', domain: 'other.example' });
    const director = await api.signIn(addressOf('director'));
    const stranger = await api.signIn(addressOf('director', 'other.example'));
    const { accounts } = await director.query<{ accounts: { id: string }[] }>('{ accounts { id } }');
    for (const { id } of accounts) {
      const answer = await stranger.query<Record<string, Outcome>>(
        `mutation T($id: ID!) {
          renewPassword(accountId: $id) { ... on Refusal { code } }
          closeAccount(accountId: $id) { ... on Refusal { code } }
        }`,
        { id },
      );
      expect(Object.values(answer).map((outcome) => outcome.code)).toEqual(['NOT_FOUND', 'NOT_FOUND']);
    }
    const { openAccount } = await director.query<{ openAccount: Outcome }>(
      `mutation {
        openAccount(input: { email: "x@yard.example", name: "X", role: VOLUNTEER, volunteerId: "volunteer_x" }) {
          ... on Refusal { code field }
        }
      }`,
    );
    expect(openAccount).toMatchObject({ code: 'NOT_FOUND', field: 'volunteerId' });
  });

  it('opens no second account for an address, and none without a name', async () => {
    const director = await api.signIn(addressOf('director'));
    const open = async (email: string, name: string): Promise<Outcome> =>
      (
        await director.query<{ openAccount: Outcome }>(
          `mutation Open($input: OpenAccountInput!) { openAccount(input: $input) { __typename ... on Refusal { code field } } }`,
          { input: { email, name, role: 'VOLUNTEER' } },
        )
      ).openAccount;
    expect(await open('DIRECTOR@yard.example', 'Again')).toMatchObject({
      code: 'ALREADY_EXISTS',
      field: 'email',
    });
    expect(await open('nonsense', 'Name')).toMatchObject({ code: 'BAD_INPUT', field: 'email' });
    expect(await open('a@yard.example', '  ')).toMatchObject({ code: 'BAD_INPUT', field: 'name' });
  });

  it('shows a director the accounts of their own yard only', async () => {
    await foundYard(api, { name: 'Another Yard', domain: 'other.example' });
    const director = await api.signIn(addressOf('director'));
    const { accounts } = await director.query<{ accounts: { email: string }[] }>('{ accounts { email } }');
    expect(accounts.map((account) => account.email).sort()).toEqual(
      ['coordinator', 'director', 'shipwright', 'volunteer'].map((role) => `${role}@yard.example`),
    );
  });
});
