import {
  AvailabilityExceptionEntity,
  AvailabilityRuleEntity,
  CardEntity,
  CardKind,
  Skill,
  Volunteer,
} from '@ribband/crew';
import { addDays, refuse } from '@ribband/platform';
import { Task, WitnessMark } from '@ribband/repair';
import type { EntityManager } from 'typeorm';
import { as, type Trouble } from './trouble.js';

/** The troubles of the demo yard, each to be played once or again. */
export const allTroubles: Trouble[] = [
  {
    key: 'plank-stock-late',
    title: 'The mill writes again: the plank stock comes four weeks later still',
    story:
      'Every plank waits for it. As long as sawing decides, there is room before the planking, and the day hardly moves.',
    reason: 'the plank stock was late',
    moves: 'not at all',
    async play({ read, tasks }, caller, today) {
      const task = await taskBy(read, caller.organisationId, 'plank-stock-delivered');
      const promised = task.notBefore !== null && task.notBefore > today ? task.notBefore : today;
      await tasks.edit(as(caller, 'coordinator'), task.id, task.version, {
        notBefore: addDays(promised, 28),
      });
    },
  },
  {
    key: 'sawyer-away',
    title: 'Anselm Druitt, who saws, stays away three weeks longer',
    story: 'He is the only one who saws alone: what he would have sawn waits until 17 July.',
    reason: 'the sawyer was away longer',
    moves: 'later',
    async play({ read, availability }, caller) {
      const { organisationId } = caller;
      const sawyer = await read.findOneBy(Volunteer, { organisationId, ref: 'anselm-druitt' });
      if (!sawyer) return notThere('Anselm Druitt');
      const volunteerId = sawyer.id;
      const timed = <T extends { fromTime: string | null; toTime: string | null }>(row: T) => ({
        ...row,
        from: row.fromTime,
        to: row.toTime,
      });
      const rules = (await read.findBy(AvailabilityRuleEntity, { volunteerId })).map(timed);
      const exceptions = (await read.findBy(AvailabilityExceptionEntity, { volunteerId })).map(timed);
      const away = { fromOn: '2027-06-05', toOn: '2027-07-17', canCome: false, from: null, to: null };
      const others = exceptions.filter(({ fromOn }) => fromOn !== away.fromOn);
      await availability.set(as(caller, 'coordinator'), volunteerId, sawyer.version, rules, [
        ...others,
        away,
      ]);
    },
  },
  {
    key: 'floor-rotten',
    title: 'The floor timber of frame 16 is found rotten',
    story: 'It has to be repaired before the new frame is set on it: three turnouts for two framers.',
    reason: 'the floor of frame 16 was found rotten',
    moves: 'later',
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
    },
  },
  {
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
      const reading = (time: 'after blocking' | 'later', reader: string, millimetres: number) => ({
        on: today,
        time,
        reader,
        millimetres,
      });
      const readers = ['Odalys Brenn', 'Emeric Holloran'];
      await marks.enter(
        as(caller, 'shipwright'),
        mark.id,
        readers.flatMap((reader) => [
          reading('after blocking', reader, blocked),
          reading('after blocking', reader, blocked),
          reading('later', reader, blocked + threeSixteenths),
          reading('later', reader, blocked + threeSixteenths),
        ]),
      );
    },
  },
  {
    key: 'first-aid-expired',
    title: 'A first-aid card turns out to have run out',
    story:
      'The week says at which turnouts nobody holds one that counts. The usual practice is one at every turnout; the date does not move.',
    reason: 'a first-aid card had run out',
    moves: 'not at all',
    async play({ read, cards }, caller, today) {
      const { organisationId } = caller;
      const kind = await read.findOneBy(CardKind, { organisationId, ref: 'first-aid' });
      const old = kind && (await read.findOneBy(CardEntity, { organisationId, kindId: kind.id }));
      if (!kind || !old) return notThere('a first-aid card');
      const coordinator = as(caller, 'coordinator');
      await cards.add(coordinator, {
        volunteerId: old.volunteerId,
        kindId: kind.id,
        issuer: old.issuer,
        expiresOn: addDays(today, -1),
      });
      await cards.remove(coordinator, old.id);
    },
  },
];

/** Breadth as it is after blocking, and what it opens by, in millimetres. */
const blocked = 5029.2;
const threeSixteenths = (3 / 16) * 25.4;

async function taskBy(read: EntityManager, organisationId: string, ref: string): Promise<Task> {
  const task = await read.findOneBy(Task, { organisationId, ref });
  return task ?? notThere(`the task ${ref}`);
}

function notThere(what: string): never {
  return refuse('NOT_FOUND', `The demo yard no longer has ${what}.`, {
    remedy: 'Set the demo yard up afresh.',
  });
}
