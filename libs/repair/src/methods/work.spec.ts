import { scratchKinds } from '@ribband/platform';
import { readRepair } from '../document/read-repair.js';
import { eraseRepair, writeRepair } from '../document/write-repair.js';
import { Link } from '../links/link.entity.js';
import { OpeningLimit } from '../openings/opening-limit.entity.js';
import { openSmallYard, refusalOf, smallVessel, type SmallYard } from '../repair.fixture.js';
import type { SurveyDocument } from '../survey/survey-shape.js';
import { Tallies } from '../tallies/tallies.service.js';
import { TallyEntity } from '../tallies/tally.entity.js';
import { Task } from '../tasks/task.entity.js';
import { Tasks } from '../tasks/tasks.service.js';
import { renew, sound, startingMethods, surveyOf } from './hull-yard.fixture.js';
import { TaskOrigin } from './task-origin.entity.js';
import { Work } from './work.service.js';

describe.each(scratchKinds())('From survey to tasks, on %s', (kind) => {
  let yard: SmallYard;
  let work: Work;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
    work = yard.get(Work);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const shipwright = () => yard.as('shipwright');
  const taskOf = (ref: string) =>
    yard.database.read.findOneBy(Task, { organisationId: yard.organisationId, ref });
  const count = (entity: typeof Task | typeof Link | typeof OpeningLimit | typeof TaskOrigin) =>
    yard.database.read.countBy(entity, { organisationId: yard.organisationId });
  const start = async (survey: SurveyDocument = surveyOf([renew(12, 14)])) =>
    work.apply(await shipwright(), {
      survey: { value: survey, version: null },
      methods: { value: startingMethods, version: null },
      reason: null,
    });
  const changeSurvey = async (survey: SurveyDocument, version = 1) =>
    work.apply(await shipwright(), { survey: { value: survey, version }, reason: 'drilled again' });

  it('a survey becomes tasks with counts, links, pieces and limits, beside what the yard has entered itself', async () => {
    const before = { tasks: await count(Task), revision: await yard.revision() };
    await start();
    const drawn = await taskOf('frame-13-starboard-draw-pieces');
    expect(drawn).toMatchObject({ title: expect.stringMatching(/^Frame 13 starboard: draw/), kind: 'work' });
    expect(await taskOf('frame-13-starboard-bolts-out')).toMatchObject({ unit: 'bolts', count: 6 });
    expect(await count(Task)).toBeGreaterThan(before.tasks + 100);
    expect(await count(TaskOrigin)).toBe((await count(Task)) - before.tasks);
    expect(await yard.database.read.findOneBy(TaskOrigin, { taskId: drawn?.id ?? '' })).toMatchObject({
      element: 'frame-13-starboard',
      step: 'draw-pieces',
      methodKey: 'renew-frame-pieces',
      methodVersion: 1,
    });
    const limits = await yard.database.read.findBy(OpeningLimit, { organisationId: yard.organisationId });
    expect(
      limits.filter((limit) => limit.overrideBy === null && limit.name.startsWith('Frames 12')),
    ).not.toEqual([]);
    expect(limits.filter((limit) => limit.overrideBy === 'Odalys Brenn').length).toBeGreaterThan(0);
    expect(await yard.revision()).toBeGreaterThan(before.revision);
  });

  it('one line changed: what goes, comes and changes is shown first, and nothing is written', async () => {
    await start();
    const moved = surveyOf([renew(12, 14), sound(14, 14), renew(15, 15)]);
    const before = [await count(Task), await count(Link), await yard.revision()];
    const preview = await work.preview(await shipwright(), {
      survey: { value: moved, version: 1 },
      reason: null,
    });
    expect(preview.change.dropped).toContain('frame-14-starboard-draw-pieces');
    expect(preview.change.added).toContain('frame-15-starboard-draw-pieces');
    expect(preview.change.kept).toContain('frame-12-starboard-saw');
    expect([await count(Task), await count(Link), await yard.revision()]).toEqual(before);
  });

  it('a changed line drops, adds and keeps, and tallies stay with what they were entered on', async () => {
    await start();
    const caller = await shipwright();
    const [stays, goes] = [
      await taskOf('frame-12-starboard-record'),
      await taskOf('frame-14-starboard-record'),
    ];
    const tally = { volunteerId: null, turnoutId: null, on: null, finished: false, note: null };
    for (const task of [stays, goes])
      await yard.get(Tallies).enter(caller, { ...tally, taskId: task?.id ?? '', count: null, minutes: 40 });
    await changeSurvey(surveyOf([renew(12, 14), sound(14, 14), renew(15, 15)]));
    expect(await taskOf('frame-12-starboard-record')).toMatchObject({ id: stays?.id, droppedAt: null });
    expect(await taskOf('frame-14-starboard-record')).toMatchObject({
      id: goes?.id,
      dropReason: 'Asked for no longer: drilled again',
    });
    for (const task of [stays, goes])
      expect(await yard.database.read.countBy(TallyEntity, { taskId: task?.id ?? '' })).toBe(1);
    expect((await taskOf('frame-15-starboard-draw-pieces'))?.droppedAt).toBeNull();
    // Asked for again, it is the same task with its tally.
    await changeSurvey(surveyOf([renew(12, 14)]), 2);
    expect(await taskOf('frame-14-starboard-record')).toMatchObject({ id: goes?.id, droppedAt: null });
  });

  it('what was changed by hand stays, unless the methods say something new of that very field', async () => {
    await start();
    const caller = await shipwright();
    const task = await taskOf('frame-12-starboard-saw');
    await yard
      .get(Tasks)
      .edit(caller, task?.id ?? '', task?.version ?? 0, { leastAge: 21, position: 'saw shed' });
    await changeSurvey(surveyOf([renew(12, 14), sound(12, 12, [4])]));
    const after = await taskOf('frame-12-starboard-saw');
    expect(after).toMatchObject({ id: task?.id, leastAge: 21, position: 'saw shed' });
    expect(after?.likely).toBe((task?.likely ?? 0) / 2);
  });

  it('a method is changed with a name and a reason, and makes only what it says new', async () => {
    await start();
    const rates = startingMethods.book.rates.map((rate) =>
      rate.key === 'nails-pulled' ? { ...rate, likely: 6 } : rate,
    );
    const methods = startingMethods.book.methods.map((method) => ({
      ...method,
      steps: method.steps.map((step) =>
        method.key === 'renew-frame-pieces' && step.key === 'saw'
          ? { ...step, crew: { min: 2, efficient: 2, max: 4 } }
          : step,
      ),
    }));
    const value = { ...startingMethods, book: { ...startingMethods.book, rates, methods } };
    const change = { methods: { value, version: 1 }, reason: null };
    expect(await refusalOf(work.apply(await shipwright(), change))).toMatchObject({
      code: 'BAD_INPUT',
      field: 'reason',
    });
    const reason = 'Two do it, the third is in the way.';
    const { methods: record } = await work.apply(await shipwright(), { ...change, reason });
    const book = record?.methods.book.methods ?? [];
    expect(book.find((one) => one.key === 'renew-frame-pieces')).toMatchObject({
      version: 2,
      changed: { by: 'The shipwright', reason },
    });
    expect(book.find((one) => one.key === 'renew-plank')?.version).toBe(1);
    const [told] = book.find((one) => one.key === 'renew-frame-pieces')?.changes ?? [];
    expect(told).toMatchObject({ version: 2, reason });
    expect(told.what).toEqual([expect.stringMatching(/: crew$/)]);
    expect(await taskOf('frame-12-starboard-saw')).toMatchObject({ crewMax: 4, version: 2 });
    expect(await taskOf('frame-12-starboard-set')).toMatchObject({ version: 1 });
    const saw = await taskOf('frame-12-starboard-saw');
    expect(await yard.database.read.findOneBy(TaskOrigin, { taskId: saw?.id ?? '' })).toMatchObject({
      methodVersion: 2,
    });
  });

  it('says which words of a book the yard does not know', async () => {
    const names = { skills: {}, tools: {}, cards: {} };
    const change = {
      survey: { value: surveyOf([renew(12, 12)]), version: null },
      methods: { value: { ...startingMethods, names }, version: null },
      reason: null,
    };
    const refusal = await refusalOf(work.apply(await shipwright(), change));
    expect(refusal).toMatchObject({ code: 'BAD_INPUT', field: 'methods.names' });
    expect(refusal.message).toContain('skill "sawyer"');
    expect(refusal.message).toContain('tool "chain-hoist"');
  });

  it.each([
    ['frames that she has not', surveyOf([renew(40, 50)]), 'survey.findings[0].frames'],
    ['a piece that her frames have not', surveyOf([renew(12, 12, [9])]), 'survey.findings[0].pieces'],
    [
      'a dearer opening without a reason',
      { ...surveyOf([renew(12, 14)]), choices: { ...surveyOf([]).choices, reason: null } },
      'survey.choices.reason',
    ],
    ['no survey at all', { findings: 'none' }, 'survey.causes'],
  ])('refuses %s', async (_, survey, field) => {
    const change = { survey: { value: survey, version: null }, reason: null };
    expect(await refusalOf(work.apply(await shipwright(), change))).toMatchObject({
      code: 'BAD_INPUT',
      field,
    });
  });

  it('wants the shipwright’s written word before six strakes are planned open', async () => {
    const survey = surveyOf([renew(12, 14)]);
    const unwritten = { ...survey, choices: { ...survey.choices, openings: {} } };
    expect(await refusalOf(start(unwritten))).toMatchObject({
      code: 'OPENING_LIMIT_REACHED',
      field: 'survey.choices.openings',
    });
    expect(await taskOf('frame-12-starboard-draw-pieces')).toBeNull();
  });

  it('an inspection strake that is no ceiling plank of hers is refused, and a limit beyond what there is', async () => {
    const plain = surveyOf([renew(12, 14)]);
    for (const inspectionStrake of ['ceiling-88-plank-3-starboard', 'strake-9-plank-2-starboard'])
      expect(
        await refusalOf(start({ ...plain, choices: { ...plain.choices, inspectionStrake } })),
      ).toMatchObject({ code: 'BAD_INPUT', field: 'survey.choices.inspectionStrake' });
    const word = { by: 'Odalys Brenn', reason: 'Braces and cross spalls stand.' };
    const frameRun = { value: { atMost: 80, of: 3 }, ...word };
    expect(
      await refusalOf(start({ ...plain, choices: { ...plain.choices, openings: { frameRun } } })),
    ).toMatchObject({ field: 'survey.choices.openings.frameRun.value.atMost' });
    const inspectionStrake = 'ceiling-8-plank-3-starboard';
    await start({ ...plain, choices: { ...plain.choices, inspectionStrake } });
  });

  it('a piece that is open now keeps the task that closes it', async () => {
    await start();
    const tally = { volunteerId: null, turnoutId: null, on: null, finished: false, note: null };
    const taskId = (await taskOf('frame-14-starboard-draw-pieces'))?.id ?? '';
    await yard.get(Tallies).enter(await shipwright(), { ...tally, taskId, count: null, minutes: 60 });
    const refusal = await refusalOf(changeSurvey(surveyOf([renew(12, 13)])));
    expect(refusal).toMatchObject({ code: 'STILL_IN_USE', field: 'survey' });
    expect(refusal.facts.map(({ value }) => value)).toContain('frame-14-starboard');
    expect((await taskOf('frame-14-starboard-bolt-up'))?.droppedAt).toBeNull();
  });

  it('nobody but shipwright and director changes it, and an older reading is refused', async () => {
    await start();
    const change = { survey: { value: surveyOf([renew(12, 12)]), version: 7 }, reason: null };
    expect(await refusalOf(work.apply(await shipwright(), change))).toMatchObject({
      code: 'CHANGED_MEANWHILE',
    });
    for (const role of ['coordinator', 'volunteer'] as const)
      expect(await refusalOf(work.apply(await yard.as(role), change))).toMatchObject({
        code: 'NOT_PERMITTED',
      });
  });

  it('a yard document carries survey and methods and what was changed by hand, and comes out equal', async () => {
    await start();
    const caller = await shipwright();
    await changeSurvey(surveyOf([renew(12, 14), sound(14, 14)]));
    const edited = await taskOf('frame-12-starboard-saw');
    await yard.get(Tasks).edit(caller, edited?.id ?? '', edited?.version ?? 0, { leastAge: 21 });
    const dropped = await taskOf('frame-13-starboard-record');
    await yard.get(Tasks).drop(caller, dropped?.id ?? '', dropped?.version ?? 0, 'photographed in autumn');
    const document = await readRepair(yard.database.read, yard.organisationId);
    expect(document?.tasks.map(({ ref }) => ref)).toEqual([
      ...smallVessel.tasks.map(({ ref }) => ref),
      'frame-12-starboard-saw',
    ]);
    expect(document?.methods?.leftOut.tasks).toEqual(['frame-13-starboard-record']);
    const live = async () =>
      (await yard.database.read.findBy(Task, { organisationId: yard.organisationId }))
        .filter((task) => task.droppedAt === null)
        .map((task) => `${task.ref} ${task.leastAge ?? ''} ${task.likely ?? ''}`)
        .sort();
    const stood = { tasks: await live(), document };
    await yard.database.write(async (manager) => {
      await eraseRepair(manager, yard.organisationId);
      await writeRepair(manager, yard.organisationId, document!, 'Perrin Vaskell', Date.now());
    });
    expect(await live()).toEqual(stood.tasks);
    expect(await readRepair(yard.database.read, yard.organisationId)).toEqual(stood.document);
  });
});
