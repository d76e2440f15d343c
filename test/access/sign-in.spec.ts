import { foundYard, startApi, type TestApi } from '../harness/api.js';

const me = '{ me { account { email } role organisation { name yardNow } } }';

describe('signing in', () => {
  let api: TestApi;
  beforeAll(async () => {
    api = await startApi();
    await foundYard(api);
  });
  afterAll(() => api.close());

  it('lets in who knows the password, and knows them from then on', async () => {
    const director = await api.signIn('Director@Yard.example ');
    expect(await director.query(me)).toMatchObject({
      me: {
        account: { email: 'director@yard.example' },
        role: 'DIRECTOR',
        organisation: { name: 'The Test Yard' },
      },
    });
  });
});
