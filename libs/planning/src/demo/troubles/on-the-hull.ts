import { Skill } from '@ribband/crew';
import { MarkReading, WitnessMark } from '@ribband/repair';
import { as, notThere, taskBy, type Trouble } from './trouble.js';

/** Work that nobody knew of. */
export const floorRotten: Trouble = {
  key: 'floor-rotten',
  title: 'The floor timber of frame 16 is found rotten',
  story:
    'It has to be repaired before the new frame is set on it: three turnouts for two framers. As long as sawing decides, they are found beside it, and the day hardly moves; else she is later.',
  reason: 'the floor of frame 16 was found rotten',
  moves: 'later or not at all',
  async play({ read, tasks, links }, caller) {
    const { organisationId } = caller;
    const drawn = await taskBy(read, organisationId, 'frame-16-starboard-draw-pieces');
    const set = await taskBy(read, organisationId, 'frame-16-starboard-set');
    const framing = await read.findOneBy(Skill, { organisationId, ref: 'framing' });
    if (!framing) return notThere('the skill of framing');
    const shipwright = as(caller, 'shipwright');
    const floor = await tasks.add(shipwright, {
      title: 'Repair the floor of frame 16',
      kind: 'work',
      position: 'Frame 16, starboard',
      estimate: { by: 'work', personMinutes: { low: 1200, likely: 1800, high: 3000 } },
      crew: { min: 2, efficient: 2, max: 3 },
      seats: [{ skill: framing.id, level: 2, count: 1, cards: [] }],
      cards: [],
      leastAge: 18,
      oneGo: false,
      setUpMinutes: 15,
      extraHandShare: 0.5,
      learnerShare: 0.5,
      tools: [],
      opens: [],
      closes: [],
      hazards: [],
      cautions: ['Whether the neighbours carry her meanwhile is for the shipwright and the yard to say.'],
      notBefore: null,
      held: null,
    });
    const after = { relation: 'finish-to-start', lagMinutes: 0, lagKind: 'elapsed' } as const;
    await links.add(shipwright, { beforeId: drawn.id, afterId: floor.id, ...after });
    await links.add(shipwright, { beforeId: floor.id, afterId: set.id, ...after });
    return [];
  },
};

/** Her shape, by the eighth of an inch. */
export const breadthOpens: Trouble = {
  key: 'breadth-opens',
  title: 'The breadth at frame 15 reads 3/16 inch more',
  story:
    'Two readers, twice: that warns and wants a closer watch, and stops nothing. The date does not move; at 1/4 inch every opening would be held.',
  reason: 'the breadth at frame 15 opened by 3/16 inch',
  moves: 'not at all',
  async play({ read, marks }, caller, today) {
    const mark = await read.findOneBy(WitnessMark, {
      organisationId: caller.organisationId,
      ref: 'breadth-at-frame-15',
    });
    if (!mark) return notThere('the mark at frame 15');
    const readings = await read.findBy(MarkReading, { markId: mark.id });
    const baseline = readings.filter(({ time }) => time === 'after blocking');
    const blocked = baseline[0]?.millimetres ?? afloat;
    const reading = (time: 'after blocking' | 'later', reader: string, millimetres: number) => ({
      on: today,
      time,
      reader,
      millimetres,
    });
    const twice = (time: 'after blocking' | 'later', millimetres: number) =>
      ['Odalys Brenn', 'Emeric Holloran'].flatMap((reader) => [
        reading(time, reader, millimetres),
        reading(time, reader, millimetres),
      ]);
    const shipwright = as(caller, 'shipwright');
    const known = (await marks.list(shipwright)).find((one) => one.mark.id === mark.id);
    const { state } = await marks.enter(
      shipwright,
      mark.id,
      [
        ...(known?.state.drift.kind === 'no baseline' ? twice('after blocking', blocked) : []),
        ...twice('later', blocked + threeSixteenths),
      ],
      'a baseline for what is read now, by two readers',
    );
    return [`${mark.name}: ${state.drift.says}.`];
  },
};

/** Breadth at the mark as she lay afloat, and what it opens by, in millimetres. */
const afloat = 5029.2;
const threeSixteenths = (3 / 16) * 25.4;
