import { scratchKinds } from '@ribband/platform';
import { openSmallYard, smallVessel, type SmallYard } from '../repair.fixture.js';
import { SaySos } from '../tallies/say-so.service.js';
import { Tallies } from '../tallies/tallies.service.js';
import { Task } from '../tasks/task.entity.js';
import { Tasks } from '../tasks/tasks.service.js';
import { YardBoard } from '../tasks/yard-board.js';
import { Pictures } from '../pictures/pictures.service.js';
import { pngOf } from '../pictures/pictures.fixture.js';
import { Pieces } from '../pieces/pieces.service.js';
import { TrayYard } from '../trays/tray-yard.service.js';
import { cameOffFaults } from './came-off-faults.js';
import { withOwnPictures } from './read-came-off.js';
import { readRepair } from './read-repair.js';
import { eraseRepair, writeRepair } from './write-repair.js';

describe.each(scratchKinds())('The vessel’s part of a yard document, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const read = async () => {
    const document = await readRepair(yard.database.read, yard.organisationId);
    if (!document) throw new Error('there is no haul-out');
    return document;
  };

  it('what was read in comes out equal', async () => {
    expect(await read()).toEqual(smallVessel);
  });

  it('what came off comes and goes with its entries, notes and pictures, whether or not a picture’s bytes had room', async () => {
    const caller = await yard.as('shipwright');
    await yard.get(TrayYard).setUp(caller);
    const piece = await yard.get(Pieces).tag(caller, {
      name: 'Hanging knee',
      elementKey: null,
      place: 'Starboard, third beam',
      face: 'aft',
      heading: 'up',
      fate: 'pattern',
      keptAt: 'rack 3',
      cameOffOn: '2027-03-20',
    });
    await yard.get(Pictures).add(caller, piece.id, pngOf(20, 10).toString('base64'), 'from aft');
    const out = await read();
    expect(out.cameOff.pieces[0]).toMatchObject({
      name: 'Hanging knee',
      pictures: [{ width: 20, height: 10 }],
    });
    const faults: string[] = [];
    cameOffFaults(out.cameOff, (path) => faults.push(path));
    expect(faults).toEqual([]);

    const bare = structuredClone(out);
    for (const picture of bare.cameOff.pieces.flatMap((one) => one.pictures)) picture.base64 = null;
    await yard.database.write(async (manager) => {
      const filled = await withOwnPictures(manager, yard.organisationId, bare);
      await eraseRepair(manager, yard.organisationId);
      await writeRepair(manager, yard.organisationId, filled, 'Perrin Vaskell', Date.now());
    });
    expect(await read()).toEqual(out);
    // A yard that never had the picture says that it did not come along.
    await yard.database.write(async (manager) => {
      await eraseRepair(manager, yard.organisationId);
      await writeRepair(manager, yard.organisationId, bare, 'Perrin Vaskell', Date.now());
    });
    const poorer = (await read()).cameOff.pieces[0];
    expect(poorer.pictures).toEqual([]);
    expect(poorer.notes.at(-1)?.words).toContain('did not come with the yard file: from aft');
  });

  it('a tray that gives more than it has, a code that is none and bytes of another picture are faults by their path', () => {
    const tray = {
      ...{ ref: 's9b', name: 'S9B', element: 's9b', place: 'S9B', fastening: 'plank nails', inPlace: 4 },
      ...{ frames: [], pullTask: null, driveTask: null, repairs: [] },
    };
    const entry = {
      ...{ on: '2027-03-20', by: 'x', frame: null, holes: [], counted: null, lot: null, note: null },
      lines: [{ kind: 'drawn' as const, count: 5 }],
    };
    const picture = { hash: '0'.repeat(64), type: 'image/png' as const, width: 8, height: 8, byteCount: 9 };
    const piece = {
      ...{ code: 'AAA-AAA', name: 'x', element: null, place: 'x', face: null, heading: null },
      ...{ fate: 'scrap' as const, keptAt: null, cameOffOn: null, notes: [] },
      pictures: [{ ...picture, caption: null, by: 'x', base64: pngOf(8, 8).toString('base64') }],
    };
    const faults: string[] = [];
    const cameOff = { lots: [], trays: [{ ...tray, entries: [entry] }], care: [], pieces: [piece] };
    cameOffFaults(cameOff, (path) => faults.push(path));
    expect(faults).toEqual([
      'cameOff.trays[0].entries',
      'cameOff.pieces[0].code',
      'cameOff.pieces[0].pictures[0].base64',
    ]);
  });

  it('before a haul-out there is none', async () => {
    expect(await readRepair(yard.database.read, 'organisation_empty')).toBeNull();
  });

  it('corrections, passes and work sent back come out so that the next reader stands where this one stood', async () => {
    const shipwright = await yard.as('shipwright');
    const taskId = await yard.idOf('pull-nails');
    const tally = { volunteerId: null, turnoutId: null, on: null, finished: false, note: null };
    const entered = await yard.get(Tallies).enter(shipwright, { ...tally, taskId, count: 20, minutes: 200 });
    await yard.get(Tallies).correct(shipwright, entered.tally.id, {
      count: 26,
      minutes: 240,
      finished: null,
      reason: 'miscounted',
    });
    await yard.get(SaySos).sendBack(shipwright, taskId, { count: 30, minutes: null, reason: 'heads off' });
    const setFrame = await yard.idOf('set-frame');
    await yard
      .get(Tallies)
      .enter(shipwright, { ...tally, taskId: setFrame, count: null, minutes: 240, finished: true });
    await yard.get(SaySos).pass(shipwright, setFrame, null);

    const boardOf = () => yard.get(YardBoard).of(yard.database.read, yard.organisationId);
    const standing = (board: Awaited<ReturnType<typeof boardOf>>) =>
      board.tasks.map((task) => {
        const { countDone, minutesDone, workLeft } = board.progress.get(task.id) ?? {};
        return { ref: task.ref, state: board.standing.get(task.id)?.state, countDone, minutesDone, workLeft };
      });
    const before = standing(await boardOf());
    expect(before[0]).toMatchObject({ state: 'redo', countDone: 6 });
    const document = await read();
    expect(document.tasks[3]?.progress).toEqual({ startedOn: '2027-03-20', endedOn: '2027-03-27' });
    await yard.database.write(async (manager) => {
      await eraseRepair(manager, yard.organisationId);
      await writeRepair(manager, yard.organisationId, document, 'Perrin Vaskell', Date.now());
    });
    // A sending back has no place in a document: its count is to be done again, the word for it is gone.
    const after = standing(await boardOf());
    expect(after).toEqual(before.map((one) => (one.state === 'redo' ? { ...one, state: 'under-way' } : one)));
    expect(await read()).toEqual(document);
  });

  it('a dropped task is left out, with its links', async () => {
    const shipwright = await yard.as('shipwright');
    await yard.get(Tasks).drop(shipwright, await yard.idOf('cut-bolts'), 1, 'not needed');
    const { tasks, links } = await read();
    expect(tasks.map((task) => task.ref)).not.toContain('cut-bolts');
    expect(links).toHaveLength(smallVessel.links.length - 1);
  });

  it('erasing takes all of it away and leaves other yards alone', async () => {
    await yard.database.write((manager) => eraseRepair(manager, 'organisation_elsewhere'));
    expect(await yard.database.read.countBy(Task, { organisationId: yard.organisationId })).toBe(
      smallVessel.tasks.length,
    );
    await yard.database.write((manager) => eraseRepair(manager, yard.organisationId));
    expect(await yard.database.read.countBy(Task, { organisationId: yard.organisationId })).toBe(0);
    expect(await readRepair(yard.database.read, yard.organisationId)).toBeNull();
  });
});
