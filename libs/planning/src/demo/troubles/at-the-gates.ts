import { Volunteer } from '@ribband/crew';
import { type Refusal, RefusalError } from '@ribband/platform';
import { Tool } from '@ribband/repair';
import { GateBook, type PlaceEntity, TurnoutEntity } from '@ribband/roster';
import { IsNull, MoreThanOrEqual } from 'typeorm';
import { as, notThere, notYet, type Trouble, type YardServices } from './trouble.js';

/** A day that is too hot for the whole of its hours. */
export const heatDay: Trouble = {
  key: 'heat-day',
  title: 'A Saturday in July is to be 91 °F hot',
  story:
    'Everybody rests ten minutes in every two hours and reads so at their place; the turnout counts for twenty minutes less. One such day moves the date a little, or not at all.',
  reason: 'a day of 91 °F was written down',
  moves: 'later or not at all',
  async play({ read, safety, weeks }, caller, today) {
    const { organisationId } = caller;
    const turnout = await read.findOne(TurnoutEntity, {
      where: {
        organisationId,
        kind: IsNull(),
        cancelledAt: IsNull(),
        heldOn: MoreThanOrEqual(today > inJuly ? today : inJuly),
      },
      order: { startsAt: 'ASC' },
    });
    if (!turnout) return notThere('a turnout in July or after it');
    await safety.writeWeather(as(caller, 'shipwright'), {
      heldOn: turnout.heldOn,
      highFahrenheit: 91,
      lowFahrenheit: null,
      windMilesAnHour: null,
      airQualityIndex: null,
      thunder: false,
      holdReason: null,
      holdHazards: [],
    });
    const { turnouts } = await weeks.propose(as(caller, 'coordinator'), turnout.heldOn);
    const work = turnouts.find((one) => one.turnout.id === turnout.id)?.work ?? [];
    const seats = work.flatMap(({ taskId, places }) =>
      places.flatMap(({ volunteerId, skillId, level, startsAt, endsAt }) => {
        if (volunteerId === null) return [];
        return [{ turnoutId: turnout.id, taskId, skillId, level, volunteerId, startsAt, endsAt }];
      }),
    );
    const book = await GateBook.read(read, organisationId, {
      volunteerIds: seats.map((seat) => seat.volunteerId),
      taskIds: seats.map((seat) => seat.taskId),
      days: new Map([[turnout.id, turnout.heldOn]]),
    });
    const said = seats.flatMap((seat) => book.findings(seat.volunteerId, seat, seats));
    return [...new Set(said.filter(({ rule }) => rule === 'weather').map(({ words }) => words))];
  },
};

const inJuly = '2027-07-17';

/** Somebody under age asks for a machine. */
export const minorAtTheBandMill: Trouble = {
  key: 'minor-at-the-band-mill',
  title: 'Cass Underhay, who is 17, asks for a place at the band mill',
  story:
    'The week is posted, and a place at the band mill stands open. The gates refuse it: nothing moves, and the refusal stays on record here.',
  reason: null,
  moves: 'not at all',
  async play(services, caller) {
    const { read, places } = services;
    const { organisationId } = caller;
    const minor = await read.findOneBy(Volunteer, { organisationId, ref: 'cass-underhay' });
    if (!minor) return notThere('Cass Underhay');
    const coordinator = as(caller, 'coordinator');
    const { place, gaveBack } = await openPlaceAtTheBandMill(services, caller);
    const refused = await refusalOf(() => places.take(coordinator, place.id, minor.id));
    if (refused === null) {
      await places.leave(coordinator, place.id, 'It was taken by mistake', minor.id);
      return [`No gate stopped ${minor.name}: the place was given back.`];
    }
    if (gaveBack !== null) await places.take(coordinator, place.id, gaveBack);
    const { message, facts } = refused;
    const more = facts.flatMap(({ name, value }) => (name === 'basis' ? [] : [value]));
    return [`${minor.name} does not get the place. ${[message, ...more].join(' ')}`];
  },
};

async function refusalOf(act: () => Promise<unknown>): Promise<Refusal | null> {
  try {
    await act();
    return null;
  } catch (error) {
    if (error instanceof RefusalError) return error.refusal;
    throw error;
  }
}

/**
 * Posts the first week in which the band mill runs, and finds an open place at it; where all are filled, somebody gives
 * theirs back until the answer is known.
 */
async function openPlaceAtTheBandMill(
  { read, shelf, weeks, places }: YardServices,
  caller: Parameters<Trouble['play']>[1],
): Promise<{ place: PlaceEntity; gaveBack: string | null }> {
  const { organisationId } = caller;
  const told = await shelf.inForce(organisationId);
  if (!told?.plan) return notYet('There is no plan to post a week from yet.', 'Wait until it is reckoned.');
  const { problem } = told;
  const mill = await read.findOneBy(Tool, { organisationId, ref: 'band-mill' });
  const tool = problem.tools.findIndex(({ id }) => id === mill?.id);
  const runs = told.plan.segments
    .filter(({ task, start, end, turnout }) => {
      const uses = problem.tasks[task]?.tools.some((one) => one.tool === tool) ?? false;
      return uses && turnout !== null && start >= problem.now && end > start;
    })
    .sort((a, b) => a.start - b.start);
  const coordinator = as(caller, 'coordinator');
  for (const { task, turnout, start } of runs.slice(0, mostRuns)) {
    const day = told.days.dayOf(told.instant(start));
    const turnoutId = problem.turnouts[turnout ?? -1]?.id ?? '';
    const at = async () =>
      (await places.ofTurnouts(organisationId, [turnoutId])).filter(
        (place) => place.taskId === told.taskId(task) && place.state === 'posted',
      );
    if ((await at()).length === 0) await weeks.post(coordinator, day, told.entity.id);
    const posted = await at();
    const open = posted.find((place) => place.volunteerId === null);
    if (open) return { place: open, gaveBack: null };
    const held = posted.find((place) => place.volunteerId !== null);
    if (!held) continue;
    await places.leave(coordinator, held.id, null, held.volunteerId);
    const free = (await at()).find((place) => place.volunteerId === null);
    if (free) return { place: free, gaveBack: held.volunteerId };
  }
  return notYet('No place at the band mill is posted.', 'Move the clock to a week in which it runs.');
}

/** Weeks are posted until one has such a place, but not the whole year. */
const mostRuns = 4;
