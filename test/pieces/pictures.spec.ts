import { addressOf, foundYard, startApi, type TestApi } from '../harness/api.js';
import type { Client } from '../harness/client.js';
import { jpegOf } from '../../libs/repair/src/pictures/pictures.fixture.js';

const tag = `mutation { tagPiece(input: { name: "Hanging knee", place: "Starboard, third beam" }) {
  __typename ... on PiecePayload { piece { id code } } ... on Refusal { message } } }`;
const add = `mutation ($pieceId: ID!, $base64: String!) { addPicture(pieceId: $pieceId, base64: $base64) {
  __typename ... on PicturePayload { pictureId } ... on Refusal { code field } } }`;

describe('a picture of a piece, over the network', () => {
  let api: TestApi;
  let ours: Client;
  let theirs: Client;
  let pieceId: string;
  let pictureId: string;

  beforeAll(async () => {
    api = await startApi();
    await foundYard(api);
    await foundYard(api, { name: 'Another yard', domain: 'other.example' });
    ours = await api.signIn(addressOf('volunteer'));
    theirs = await api.signIn(addressOf('director', 'other.example'));
    const { tagPiece } = await ours.query<{ tagPiece: { piece: { id: string } } }>(tag);
    pieceId = tagPiece.piece.id;
    const base64 = jpegOf(800, 600, 'GPS 47.61').toString('base64');
    const { addPicture } = await ours.query<{ addPicture: { pictureId: string } }>(add, { pieceId, base64 });
    pictureId = addPicture.pictureId;
  }, 60_000);
  afterAll(() => api.close());

  const get = (path: string, client: Client | null, headers: Record<string, string> = {}) =>
    fetch(`${api.url}${path}`, {
      headers: { ...(client?.cookie ? { cookie: client.cookie } : {}), ...headers },
    });

  it('is handed out to its own yard as a picture and never as a page', async () => {
    const answer = await get(`/pictures/${pictureId}`, ours);
    expect(answer.status).toBe(200);
    expect(Object.fromEntries(answer.headers)).toMatchObject({
      'content-type': 'image/jpeg',
      'x-content-type-options': 'nosniff',
      'content-security-policy': "default-src 'none'; sandbox",
      'cache-control': 'private, no-cache',
    });
    const bytes = Buffer.from(await answer.arrayBuffer());
    expect(bytes.subarray(0, 2)).toEqual(Buffer.from([0xff, 0xd8]));
    expect(bytes.includes('GPS')).toBe(false);
    const etag = answer.headers.get('etag') ?? '';
    expect((await get(`/pictures/${pictureId}`, ours, { 'if-none-match': etag })).status).toBe(304);
  });

  it('is not there for anybody else: no cookie, another yard, a picture that never was', async () => {
    expect((await get(`/pictures/${pictureId}`, null)).status).toBe(401);
    const foreign = await get(`/pictures/${pictureId}`, theirs);
    const never = await get(`/pictures/picture_0`, theirs);
    expect([foreign.status, await foreign.text()]).toEqual([never.status, await never.text()]);
    expect(foreign.status).toBe(404);
  });

  it('is asked for by its id alone: names that climb through folders lead nowhere', async () => {
    for (const path of [
      '/pictures/..%2f..%2fetc%2fpasswd',
      `/pictures/${pictureId}%00.html`,
      "/pictures/' OR 1=1 --",
    ]) {
      const answer = await get(path, ours);
      expect([path, answer.headers.get('content-type')?.startsWith('image/')]).toEqual([path, false]);
      expect(answer.status).toBeGreaterThanOrEqual(400);
    }
  });

  it('another yard can neither add one to our piece nor take ours down, and reads the same as if it was not there', async () => {
    const base64 = jpegOf(8, 8).toString('base64');
    expect(await theirs.query(add, { pieceId, base64 })).toEqual({
      addPicture: { __typename: 'Refusal', code: 'NOT_FOUND', field: 'pieceId' },
    });
    const remove = `mutation ($id: ID!) { removePicture(id: $id, reason: "mine") {
      __typename ... on Refusal { code field } } }`;
    expect(await theirs.query(remove, { id: pictureId })).toEqual({
      removePicture: { __typename: 'Refusal', code: 'NOT_FOUND', field: 'id' },
    });
  });

  it('of a type that is none, or far too large, is refused by its field before anything is kept', async () => {
    const page = Buffer.from('<html><script>alert(1)</script></html>').toString('base64');
    const refused = { addPicture: { __typename: 'Refusal', code: 'BAD_INPUT', field: 'base64' } };
    expect(await ours.query(add, { pieceId, base64: page })).toEqual(refused);
    expect(await ours.query(add, { pieceId, base64: 'A'.repeat(2_400_000) })).toEqual(refused);
    const huge = await ours.post(
      JSON.stringify({ query: add, variables: { pieceId, base64: 'A'.repeat(5_000_000) } }),
    );
    expect(huge.status).toBe(413);
  });
});
