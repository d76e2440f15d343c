// Prints the demo yard's problem as the planning room makes it from the records, and what is believed about it: reads the
// yard document into a scratch database, through the same door as any other. Run from built files.
import 'reflect-metadata';
import { readFileSync } from 'node:fs';
import { Module } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { Config, Database, PlatformModule, scratchPlace } from '@ribband/platform';
import { DemoYard, rooms, schema } from '@ribband/planning';
import { YardBoard } from '@ribband/repair';
import { beliefsFor } from '../../libs/planning/dist/beliefs/beliefs.js';
import { readExperience } from '../../libs/planning/dist/beliefs/read-experience.js';
import { Expected } from '../../libs/planning/dist/compute/expected.js';
import { YardLoader } from '../../libs/planning/dist/compute/load-yard.js';
import { buildProblem } from '../../libs/planning/dist/problem/build-problem.js';

const place = await scratchPlace('sqlite');
const config = Config.read({ DATA_DIR: place.dataDir, DATABASE_URL: '' });
class House {}
Module({ imports: [PlatformModule.forRoot({ config, schema, computing: 'ask' }), ...rooms] })(House);
const app = await NestFactory.createApplicationContext(House, { logger: false, abortOnError: false });
try {
  const document = JSON.parse(
    readFileSync(new URL('../../fixtures/demo-yard.json', import.meta.url), 'utf8'),
  );
  await app.get(DemoYard).seed(document, 'a password for one run');
  const database = app.get(Database);
  const [{ id }] = await database.read.query('select id from organisation');
  const loaded = await app.get(YardLoader).load(database.read, id);
  const { problem } = buildProblem(await app.get(Expected).at(loaded));
  const known = await readExperience(database.read, id, await app.get(YardBoard).of(database.read, id));
  process.stdout.write(JSON.stringify({ problem, beliefs: beliefsFor(problem, known).beliefs }));
} finally {
  await app.close();
  await place.remove();
}
