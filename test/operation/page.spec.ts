import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startApi, type TestApi } from '../harness/api.js';

describe('the page', () => {
  let folder: string;
  let api: TestApi;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'ribband-page-'));
    const page = join(folder, 'dist');
    mkdirSync(join(page, 'assets'), { recursive: true });
    writeFileSync(join(page, 'index.html'), '<!doctype html><title>The yard</title>');
    writeFileSync(join(page, 'assets', 'page-1a2b.js'), 'console.log(1)');
    writeFileSync(join(folder, 'secret.txt'), 'not for anybody');
    api = await startApi({ page });
  });
  afterAll(async () => {
    await api.close();
    rmSync(folder, { recursive: true });
  });

  it('is served at the start and at every place within it', async () => {
    for (const path of ['/', '/week', '/work/task_1', '/week?of=2027-04-05']) {
      const response = await fetch(`${api.url}${path}`);
      expect(response.status).toBe(200);
      expect(response.headers.get('content-type')).toBe('text/html; charset=utf-8');
      expect(response.headers.get('cache-control')).toBe('no-cache');
      expect(await response.text()).toContain('The yard');
    }
  });

  it('lets browsers keep the files that are named by their content', async () => {
    const response = await fetch(`${api.url}/assets/page-1a2b.js`);
    expect(response.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
    expect(response.headers.get('cache-control')).toContain('immutable');
    expect(await response.text()).toBe('console.log(1)');
    expect((await fetch(`${api.url}/assets/page-0000.js`)).status).toBe(404);
  });

  it('runs only our own scripts and lies in no frame of another page', async () => {
    const { headers } = await fetch(api.url);
    expect(headers.get('content-security-policy')).toMatch(/default-src 'self'.*frame-ancestors 'none'/);
    expect(headers.get('x-content-type-options')).toBe('nosniff');
  });

  it('gives out nothing from outside its folder', async () => {
    // fetch would tidy the address up before it sends it.
    const get = (path: string): Promise<{ status: number; text: string }> =>
      new Promise((resolve, reject) => {
        request(`${api.url}/`, { path }, (response) => {
          let text = '';
          response.on('data', (data: Buffer) => (text += data.toString()));
          response.on('end', () => {
            resolve({ status: response.statusCode ?? 0, text });
          });
        })
          .on('error', reject)
          .end();
      });
    const paths = [
      '/../secret.txt',
      '/%2e%2e/secret.txt',
      '/..%2fsecret.txt',
      '/assets/../../secret.txt',
      '/..%5csecret.txt',
    ];
    for (const path of [...paths, '/%', '/%00', '//etc/passwd', '/.env']) {
      const { status, text } = await get(path);
      expect(status).toBeLessThan(500);
      expect(text).not.toContain('not for anybody');
      expect(text).not.toContain('root:');
    }
  });

  it('says what to do when it has not been built', async () => {
    const bare = await startApi({ page: join(folder, 'nowhere') });
    const response = await fetch(bare.url);
    expect(response.status).toBe(503);
    expect(await response.text()).toContain('npm run build');
    await bare.close();
  });
});
