import { AuditEntry } from '@ribband/access';
import { Skill, Volunteer } from '@ribband/crew';
import { addDays, scratchKinds, weekdayOf } from '@ribband/platform';
import { Task, Tool, Tools } from '@ribband/repair';
import { TurnoutEntity } from '@ribband/roster';
import { In, IsNull, Not } from 'typeorm';
import { Outlooks } from '../outlook/outlooks.service.js';
import { answer, TestHouse } from '../planning.fixture.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { ApplyWhatIf } from './apply-what-if.service.js';
import { WhatIfEntity } from './what-if.entity.js';
import type { SupposedInput } from './what-if.types.js';
import { WhatIfs } from './what-ifs.service.js';

describe.each(scratchKinds())('a what-if done in earnest on %s', (kind) => {
  let house: TestHouse;
  beforeEach(async () => {
    house = await TestHouse.open(kind);
    const yard = smallYard();
    const hang = yard.tasks.find(({ ref }) => ref === 'hang-plank');
    if (hang) hang.notBefore = '2027-03-20';
    // Who is posted can't be at a lesson.
    const document = { ...yard, places: [] };
    const read = await house.app.get(YardBook).import(house.caller('director'), document, false);
    expect(Array.isArray(read)).toBe(false);
    await house.settled(60_000, ['plan', 'forecast']);
  }, 90_000);
  afterEach(() => house.close());

  const reckoned = async (name: string, changes: SupposedInput[]) => {
    const { id } = await house.app.get(WhatIfs).ask(house.caller('director'), name, changes);
    await house.settled(60_000);
    return id;
  };
  const kept = async (id: string) => {
    const all = await house.app.get(WhatIfs).list(house.caller('director'));
    const found = all.find((one) => one.id === id);
    if (!found) throw new Error('it is kept');
    return found;
  };
  const apply = (id: string, role: 'director' | 'coordinator' = 'director') =>
    house.app.get(ApplyWhatIf).apply(house.caller(role), id);
  const one = <T extends { organisationId: string }>(entity: new () => T) =>
    house.database.read.findOneByOrFail(entity, { organisationId: house.organisationId } as never);

  it('enters what can be entered, says of the rest what to do, and stands in the trail and in the trend', async () => {
    const [skill, tool] = [await one(Skill), await one(Tool)];
    const named = (ref: string) => house.database.read.findOneByOrFail(Volunteer, { ref });
    const [learner, trainer] = [await named('halcyon-reeves'), await named('marguerite-alkin')];
    const span = { fromOn: '2027-03-08', untilOn: '2027-04-11' };
    const id = await reckoned('Fridays, and a second bench', [
      { kind: 'turnouts', weekdays: [5], ...span },
      { kind: 'tool', toolId: tool.id, more: 1 },
      { kind: 'recruit', skillId: skill.id, level: 2, weekdays: [6], ...span },
      { kind: 'train', skillId: skill.id, level: 2, volunteerId: learner.id, trainerId: trainer.id },
    ]);
    expect((await kept(id)).changes).toEqual([
      'Further turnouts on Fridays from Mon 8 Mar to Sun 11 Apr',
      expect.stringMatching(/^1 more /),
      expect.stringMatching(/^One more person for .* \(works alone\), on Saturdays from/),
      expect.stringMatching(/ teaches .*, up to “works alone”$/),
    ]);
    expect(await kept(id)).toMatchObject({ message: null, isOfPlan: true, applied: null });
    await apply(id);
    const { applied } = await kept(id);
    expect(applied?.changes.map(({ isDone }) => isDone)).toEqual([true, true, false, false]);
    expect(applied?.changes.map(({ instead }) => instead)).toEqual([
      expect.stringMatching(/^Nobody has said yet that they come on Fridays\. The answer counts on /),
      null,
      expect.stringContaining('Nobody is added to the crew yet'),
      expect.stringContaining('kept here as an aim'),
    ]);
    const held = await house.database.read.findBy(TurnoutEntity, { cancelledAt: IsNull() });
    const fridays = held.map(({ heldOn }) => heldOn).filter((on) => weekdayOf(on) === 5);
    expect(fridays.sort()).toEqual([0, 1, 2, 3, 4].map((week) => addDays('2027-03-12', 7 * week)));
    expect((await one(Tool)).capacity).toBe(tool.capacity + 1);
    const trail = await house.database.read.findBy(AuditEntry, {
      operation: In(['applyWhatIf', 'setTurnoutRule', 'changeTool']),
    });
    expect(trail.map(({ operation }) => operation).sort()).toEqual([
      'applyWhatIf',
      'changeTool',
      'setTurnoutRule',
    ]);
    await house.settled(60_000);
    const outlook = await house.app.get(Outlooks).now(house.caller('director'));
    expect(outlook?.lastMove).toContain('“Fridays, and a second bench” was applied');
  }, 120_000);

  it('is refused once the plan has moved on, and can be reckoned again; nobody applies it twice', async () => {
    const delivery = await house.database.read.findOneByOrFail(Task, { notBefore: Not(IsNull()) });
    const id = await reckoned('stock a week sooner', [{ kind: 'sooner', taskIds: [delivery.id], days: 7 }]);
    const other = await reckoned('a Friday', [
      { kind: 'turnouts', weekdays: [5], fromOn: '2027-03-08', untilOn: '2027-03-20' },
    ]);
    await apply(other);
    await house.settled(60_000);
    await expect(apply(id)).rejects.toMatchObject({ refusal: { code: 'PLAN_OUTDATED', field: 'id' } });
    expect(await kept(id)).toMatchObject({ isOfPlan: false, applied: null });
    await house.app.get(WhatIfs).again(house.caller('director'), id);
    await house.settled(60_000);
    await apply(id);
    const after = await house.database.read.findOneByOrFail(Task, { id: delivery.id });
    expect(after.notBefore).toBe(addDays(delivery.notBefore ?? '', -7));
    await expect(apply(id)).rejects.toMatchObject({ refusal: { code: 'ALREADY_EXISTS' } });
    await expect(house.app.get(WhatIfs).again(house.caller('director'), id)).rejects.toThrow('already');
  }, 120_000);

  it('what the caller may not do is not done, and says who may', async () => {
    const task = await house.database.read.findOneByOrFail(Task, { estimateBy: 'count' });
    const id = await reckoned('less of it', [{ kind: 'drop', taskIds: [task.id] }]);
    await expect(apply(id, 'coordinator')).rejects.toMatchObject({
      refusal: {
        code: 'NOT_PERMITTED',
        field: 'id',
        message: 'Nothing was entered. As coordinator you may not do this.',
        remedy: 'Ask a director or a shipwright of your yard.',
      },
    });
    expect(await kept(id)).toMatchObject({ isOfPlan: true, applied: null });
    expect((await house.database.read.findOneByOrFail(Task, { id: task.id })).droppedAt).toBeNull();
    await expect(house.app.get(ApplyWhatIf).apply(house.caller('volunteer'), id)).rejects.toThrow(
      'volunteer',
    );
    // It was marked as applied by nobody, and so whoever may do it still can.
    await apply(id);
    expect((await kept(id)).applied?.changes.map(({ isDone }) => isDone)).toEqual([true]);
    expect((await house.database.read.findOneByOrFail(Task, { id: task.id })).droppedAt).not.toBeNull();
  }, 120_000);

  it('what is only for people to do is never marked as applied, and says what they do', async () => {
    const skill = await one(Skill);
    const span = { fromOn: '2027-03-08', untilOn: '2027-04-11' };
    const id = await reckoned('one more', [
      { kind: 'recruit', skillId: skill.id, level: 2, weekdays: [6], ...span },
    ]);
    expect(await kept(id)).toMatchObject({
      canBeEntered: false,
      byHand: [expect.stringContaining('Nobody is added')],
    });
    await expect(apply(id)).rejects.toMatchObject({
      refusal: {
        code: 'BAD_INPUT',
        field: 'id',
        remedy: expect.stringContaining('When somebody is found') as string,
      },
    });
    expect((await kept(id)).applied).toBeNull();
  }, 120_000);

  it('no say-so and no launch is left out to be sooner, nor work that is not there, and they are not reckoned', async () => {
    const ask = (change: SupposedInput) =>
      answer(house.app.get(WhatIfs).ask(house.caller('shipwright'), 'try', [change]));
    const drop = async (kind: Task['kind']) => {
      const { id } = await house.database.read.findOneByOrFail(Task, { kind });
      return ask({ kind: 'drop', taskIds: [id] });
    };
    expect(await drop('hold')).toBe('BAD_INPUT changes.0.taskIds');
    expect(await drop('launch')).toBe('BAD_INPUT changes.0.taskIds');
    for (const kind of ['drop', 'late', 'sooner'] as const)
      expect(await ask({ kind, taskIds: ['task_zz'], days: 3 })).toBe('NOT_FOUND changes.0.taskIds');
    expect(await ask({ kind: 'tool', toolId: 'tool_zz', more: 1 })).toBe('NOT_FOUND changes.0.toolId');
    const learnt = { kind: 'train', skillId: (await one(Skill)).id, level: 2 } as const;
    expect(await ask({ ...learnt, volunteerId: 'volunteer_zz', trainerId: 'volunteer_yy' })).toBe(
      'NOT_FOUND changes.0.volunteerId',
    );
    expect(await house.app.get(WhatIfs).list(house.caller('director'))).toEqual([]);
  }, 120_000);

  it('a say-so that was asked to be left out long ago is not left out when it is applied', async () => {
    const work = await house.database.read.findOneByOrFail(Task, { estimateBy: 'count' });
    const id = await reckoned('try', [{ kind: 'drop', taskIds: [work.id] }]);
    const hold = await house.database.read.findOneByOrFail(Task, { kind: 'hold' });
    await house.database.write((manager) =>
      manager.update(WhatIfEntity, { id }, { changes: [{ kind: 'drop', taskIds: [hold.id] }] }),
    );
    await expect(house.app.get(ApplyWhatIf).apply(house.caller('shipwright'), id)).rejects.toMatchObject({
      refusal: { code: 'BAD_INPUT', remedy: expect.stringContaining('shipwright') as string },
    });
    expect((await house.database.read.findOneByOrFail(Task, { id: hold.id })).droppedAt).toBeNull();
  }, 120_000);

  it('what goes wrong midway leaves a record of what was entered, and is no silent end', async () => {
    const tool = await one(Tool);
    const span = { fromOn: '2027-03-08', untilOn: '2027-04-11' };
    const bench: SupposedInput = { kind: 'tool', toolId: tool.id, more: 1 };
    const alone = await reckoned('a bench', [bench]);
    const id = await reckoned('Fridays, a bench', [
      { kind: 'turnouts', weekdays: [5], ...span },
      bench,
      { kind: 'turnouts', weekdays: [4], ...span },
    ]);
    house.app.get(Tools).addMore = () => Promise.reject(new Error('the disk is full'));
    await expect(apply(alone)).rejects.toThrow('the disk is full');
    expect((await kept(alone)).applied).toBeNull();
    await expect(apply(id)).rejects.toThrow('the disk is full');
    const { applied } = await kept(id);
    expect(applied?.changes.map(({ isDone }) => isDone)).toEqual([true, false, false]);
    expect(applied?.changes.map(({ instead }) => instead).slice(1)).toEqual([
      expect.stringMatching(/^Something went wrong at the server/),
      expect.stringMatching(/^Not tried/),
    ]);
    const trail = await house.database.read.findBy(AuditEntry, { operation: 'applyWhatIf' });
    expect(trail.map(({ subjectId }) => subjectId)).toEqual([id]);
  }, 120_000);
});
