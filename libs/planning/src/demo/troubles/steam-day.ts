import { Task, TaskTool, Tool, Tray } from '@ribband/repair';
import { PlaceEntity, TurnoutEntity } from '@ribband/roster';
import { In, IsNull, MoreThan, Not } from 'typeorm';
import { as, notThere, notYet, type Trouble, type YardServices } from './trouble.js';

const letDaysGoBy = 'Let the yard’s days go by first.';

/** The trays of two planks that lie next to each other, tipped into each other. */
export const traysMixed: Trouble = {
  key: 'trays-mixed',
  title: 'Trays S11B and S11C get mixed, and nine nails are short',
  story:
    'Both are counted: four of S11C lie in S11B, which both trays say from now on, and nine are lost. No nail is driven that a tray does not have, so nine more have to be bought. While there is time to buy them the date does not move.',
  reason: 'nine nails of tray S11C were lost',
  moves: 'not at all',
  waitsFor: {
    kind: 'done',
    tasks: ['strake-11-plank-2-starboard-pull-nails', 'strake-11-plank-3-starboard-pull-nails'],
  },
  async play({ read, trays, kinds }, caller) {
    const { organisationId } = caller;
    const [b, c] = await Promise.all(
      ['S11B', 'S11C'].map((name) => read.findOneBy(Tray, { organisationId, name })),
    );
    if (!b || !c) return notThere('the trays S11B and S11C');
    const inTray = async (tray: Tray) => {
      const { balance } = await trays.standing(caller, tray.id);
      return { waiting: balance.notGraded, all: balance.notGraded + balance.inTray };
    };
    const [ofB, ofC] = [await inTray(b), await inTray(c)];
    if (ofB.all === 0 || ofC.waiting < wrong + lost)
      return notYet('The nails of these trays are not pulled yet, or are sorted already.', letDaysGoBy);
    const short = async () =>
      (await kinds.all(caller)).find(({ fastening }) => fastening === c.fastening)?.likelyShort ?? 0;
    const before = await short();
    const shipwright = as(caller, 'shipwright');
    await trays.enter(shipwright, b.id, { ...nothingSaid, counted: ofB.all + wrong }, noWork);
    await trays.enter(shipwright, c.id, { ...nothingSaid, counted: ofC.all - wrong - lost }, noWork);
    await trays.move(shipwright, c.id, b.id, wrong, 'Both trays were tipped into one bucket');
    await trays.enter(
      shipwright,
      c.id,
      { ...nothingSaid, counts: { lost }, lostReason: 'looked for under the staging, not found' },
      noWork,
    );
    const { balance } = await trays.standing(caller, c.id);
    return [
      `Tray S11C has ${String(balance.notGraded + balance.inTray)} of its ${String(c.inPlace)} ${c.fastening}; ${String(lost)} are lost and ${String(wrong)} stand in S11B.`,
      `Of all ${c.fastening} ${String(await short())} will likely be short; it was ${String(before)} before.`,
    ];
  },
};

const wrong = 4;
const lost = 9;
const noWork = { minutes: 0, finished: false, volunteerId: null, turnoutId: null, on: null };
const nothingSaid = {
  frame: null,
  counts: {},
  leftReason: null,
  lostReason: null,
  holes: [],
  counted: null,
  lotId: null,
  note: null,
};

/** Steam waits for nobody, and a hot plank wants five. */
export const fourOnSteamDay: Trouble = {
  key: 'four-on-steam-day',
  title: 'Only four come on a steam day',
  story:
    'A plank wants its whole crew within minutes of leaving the box. The turnout is called with the four who came: the plank waits, they are given what four can do, and the plan goes on from there. Whether the day moves depends on how long the hanging can wait.',
  reason: 'only four came on a steam day',
  moves: 'later or not at all',
  waitsFor: { kind: 'runs', tool: 'steam-box', crew: 5 },
  async play(services, caller, today) {
    const { read, mornings, calling } = services;
    const coordinator = as(caller, 'coordinator');
    const { turnout, steaming } = await steamToday(services, caller, today);
    const posted = await read.findBy(PlaceEntity, { turnoutId: turnout.id, state: Not('left') });
    const onSteam = posted.filter(({ taskId }) => steaming.has(taskId));
    const named = [...onSteam, ...posted].flatMap(({ volunteerId }) => volunteerId ?? []);
    const everybody = [...new Set(named)];
    const came = everybody.slice(0, four);
    const { seats, fallen, version, names } = await mornings.propose(coordinator, turnout.id, came);
    const { call } = await calling.confirm(
      coordinator,
      {
        turnoutId: turnout.id,
        version,
        present: came.map((volunteerId) => ({ volunteerId, how: 'ticked', arrivedAt: null })),
        absent: everybody.slice(four).map((volunteerId) => ({ volunteerId, saidSo: false })),
        visitors: [],
        seats: seats.map(({ taskId, skillId, level, volunteerId, startsAt, endsAt }) => {
          return { taskId, skillId, level, volunteerId, startsAt, endsAt };
        }),
        fallen,
      },
      null,
    );
    const told = await calling.tell(call);
    return [
      `${came.map((id) => names.get(id) ?? '').join(', ')} came, of ${String(everybody.length)}.`,
      ...told.fallen.map(({ task, why }) => `“${task.title}” waits: ${why}`),
      ...told.turnedAway,
    ];
  },
};

const four = 4;

/** Today's turnout with the work at the steam box that is posted for it; the week is posted where it is not yet. */
async function steamToday(
  { read, weeks, shelf }: YardServices,
  caller: Parameters<Trouble['play']>[1],
  today: string,
): Promise<{ turnout: TurnoutEntity; steaming: ReadonlySet<string> }> {
  const { organisationId } = caller;
  const turnout = await read.findOneBy(TurnoutEntity, {
    organisationId,
    heldOn: today,
    kind: IsNull(),
    cancelledAt: IsNull(),
  });
  const box = await read.findOneBy(Tool, { organisationId, ref: 'steam-box' });
  const rows = await read.findBy(TaskTool, { organisationId, toolId: box?.id ?? '' });
  const hangs = await read.findBy(Task, {
    id: In(rows.map(({ taskId }) => taskId)),
    crewMin: MoreThan(four),
  });
  const steaming = new Set(hangs.map(({ id }) => id));
  if (!turnout) return notYet('No turnout is held today.', letDaysGoBy);
  const posted = () =>
    read.countBy(PlaceEntity, { turnoutId: turnout.id, taskId: In([...steaming]), state: Not('left') });
  if ((await posted()) === 0) {
    const told = await shelf.inForce(organisationId);
    if (told) await weeks.post(as(caller, 'coordinator'), today, told.entity.id);
  }
  if ((await posted()) === 0) return notYet('No plank is steamed today.', letDaysGoBy);
  return { turnout, steaming };
}
