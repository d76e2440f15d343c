import { Audit, permit, type Caller } from '@ribband/access';
import {
  type Butt,
  type ButtFault,
  buttsOf,
  checkButts,
  checkReplacement,
  framesUnder,
  type Hull,
  plankOf,
  proposeLayout,
  readingFor,
} from '@ribband/hull';
import { Database, newId, RealClock, refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { refusingAs } from '../hull/hull-refusals.js';
import type { Side } from '../openings/hull-element.entity.js';
import { type ElementToday, type HullToday, HullDay, hullKeyOf } from '../openings/hull-today.js';
import { wordsGiven } from '../words.js';
import { LayoutChoice } from './layout-choice.entity.js';

/** A plank that goes back, and the frames under it that have to stand first. */
export interface PlankWaits {
  plank: ElementToday;
  frames: { frame: ElementToday; stands: boolean }[];
}

export interface PlankingToday {
  side: Side;
  /** Stretches of strakes that are hung anew. */
  runs: { strake: number; firstFrame: number; lastFrame: number }[];
  butts: Butt[];
  faults: ButtFault[];
  choice: LayoutChoice | null;
  choiceFaults: ButtFault[];
  waits: PlankWaits[];
}

export type Proposal =
  | { kind: 'found'; butts: Butt[]; faults: ButtFault[]; planks: number }
  | { kind: 'none' | 'gave up'; butts: []; faults: []; planks: 0 };

/** Closing her up: where the butts of what is hung anew lie, and what has to stand before each plank. */
@Injectable()
export class Planking {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(HullDay) private readonly days: HullDay,
  ) {}

  /** Null before the hull's outline was entered. */
  async side(caller: Caller, side: Side): Promise<PlankingToday | null> {
    return this.database.snapshot(async (manager) => {
      const { organisationId } = caller;
      const today = await this.days.of(manager, organisationId);
      const { hull } = today;
      if (!hull) return null;
      const choice = await manager.findOneBy(LayoutChoice, { organisationId, side });
      const check = { stations: hull.stations, reading: readingFor(hull) };
      const butts = buttsOf(hull, side);
      return {
        side,
        runs: Object.entries(runsOff(hull, today, side)).flatMap(([strake, run]) =>
          run ? [{ strake: Number(strake), ...run }] : [],
        ),
        butts,
        faults: checkButts([...butts, ...otherGarboard(hull, side)], check),
        choice,
        choiceFaults: choice
          ? checkButts(withChosen(hull, side, runsOff(hull, today, side), choice.butts), check)
          : [],
        waits: waitsOf(hull, today, side),
      };
    });
  }

  /**
   * A layout for the strakes that are off, over the whole length between their ends.
   * @param longest frames that the longest plank of the stock crosses
   */
  async propose(caller: Caller, side: Side, longest: number): Promise<Proposal> {
    return this.database.snapshot(async (manager) => {
      const { hull, runs } = await this.runsOf(manager, caller.organisationId, side);
      const check = { stations: hull.stations, reading: readingFor(hull) };
      const stay = withChosen(hull, side, runs, []);
      const frames = { firstFrame: 1, lastFrame: hull.outline.frames.count };
      const strakes = Object.keys(runs).map(Number);
      const answer = refusingAs(null, () =>
        proposeLayout({ side, strakes, ...frames, over: runs, longest, stay, ...check }),
      );
      if (answer.kind !== 'found') return { kind: answer.kind, butts: [], faults: [], planks: 0 };
      const { butts, planks } = answer;
      return { kind: 'found', butts, planks, faults: checkButts([...stay, ...butts], check) };
    });
  }

  /** What the butt rules say of a layout that somebody thought out, before it is chosen. */
  async tryOut(caller: Caller, side: Side, butts: { strake: number; bay: number }[]): Promise<ButtFault[]> {
    return this.database.snapshot(async (manager) => {
      const { hull, runs } = await this.runsOf(manager, caller.organisationId, side);
      refuseOutside(runs, butts);
      return checkButts(withChosen(hull, side, runs, butts), {
        stations: hull.stations,
        reading: readingFor(hull),
      });
    });
  }

  /** Writes down the shipwright's choice. One that breaks a rule wants the reason to say so, and is shown with it. */
  async choose(
    caller: Caller,
    side: Side,
    butts: { strake: number; bay: number }[],
    reason: string,
  ): Promise<LayoutChoice> {
    permit(caller, 'shipwright');
    const why = wordsGiven(reason, 'reason', 10, 1000, 'Why this layout.');
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const { hull, runs } = await this.runsOf(manager, organisationId, side);
      refuseOutside(runs, butts);
      const check = { stations: hull.stations, reading: readingFor(hull) };
      const faults = checkButts(withChosen(hull, side, runs, butts), check).filter(
        ({ weight }) => weight === 'rule',
      );
      const choice: LayoutChoice = {
        id: newId('layout'),
        organisationId,
        side,
        butts: butts.map(({ strake, bay }) => ({ strake, bay })),
        by: caller.name,
        reason: why,
        chosenAt: this.clock.now(),
      };
      await manager.delete(LayoutChoice, { organisationId, side });
      await manager.insert(LayoutChoice, choice);
      const facts = { butts: choice.butts, reason: why, rulesBroken: faults.map(({ says }) => says) };
      await this.audit.note(manager, caller, 'choosePlankLayout', choice.id, facts);
      return choice;
    });
  }

  /** Whether a plank may be renewed over some of its frames only, by the rules for its length and its new butts. */
  async replacement(caller: Caller, key: string, firstFrame: number, lastFrame: number): Promise<string[]> {
    return this.database.snapshot(async (manager) => {
      const { hull } = await this.days.of(manager, caller.organisationId);
      if (!hull) return noOutline();
      const plank = refusingAs(null, () => plankOf(hull, key));
      if (!(firstFrame >= plank.firstFrame && firstFrame <= lastFrame && lastFrame <= plank.lastFrame))
        refuse('BAD_INPUT', `The plank does not cross all of frames ${firstFrame} to ${lastFrame}.`, {
          field: 'firstFrame',
          remedy: `Two of its frames, ${plank.firstFrame} to ${plank.lastFrame}, the smaller first.`,
        });
      const { faults, buttFaults } = checkReplacement(hull, plank, firstFrame, lastFrame);
      return [...faults, ...buttFaults].map(({ says }) => says);
    });
  }

  private async runsOf(
    manager: EntityManager,
    organisationId: string,
    side: Side,
  ): Promise<{ hull: Hull; runs: Runs }> {
    const today = await this.days.of(manager, organisationId);
    const { hull } = today;
    if (!hull) return noOutline();
    const runs = runsOff(hull, today, side);
    if (Object.keys(runs).length === 0)
      refuse('BAD_INPUT', `No plank comes off to ${side}.`, {
        field: 'side',
        remedy: 'Choose the other side.',
      });
    return { hull, runs };
  }
}

/** Butts lie in strakes that come off, where they come off. */
function refuseOutside(runs: Runs, butts: readonly { strake: number; bay: number }[]): void {
  butts.forEach(({ strake, bay }, i) => {
    const run = runs[strake];
    if (!run)
      return refuse('BAD_INPUT', `Strake ${strake} stays on.`, {
        field: `butts[${i}].strake`,
        remedy: `One of ${Object.keys(runs).join(', ')}.`,
      });
    if (!Number.isInteger(bay) || bay < run.firstFrame || bay >= run.lastFrame)
      refuse('BAD_INPUT', `Strake ${strake} is not open in bay ${bay}.`, {
        field: `butts[${i}].bay`,
        remedy: `From ${run.firstFrame} to ${run.lastFrame - 1}: bay 12 lies between frames 12 and 13.`,
      });
    if (butts.slice(0, i).some((one) => one.strake === strake && one.bay === bay))
      refuse('BAD_INPUT', `The butt of strake ${strake} in bay ${bay} is named twice.`, {
        field: `butts[${i}].bay`,
        remedy: 'Each butt once.',
      });
  });
}

function noOutline(): never {
  return refuse('NOT_FOUND', 'The hull’s outline has not been entered.', { remedy: 'Enter it first.' });
}

interface Run {
  firstFrame: number;
  lastFrame: number;
}
/** By strake: the frames over which planks that lie end to end come off; the longest such run of a strake. */
type Runs = Partial<Record<number, Run>>;

function planksOff(hull: Hull, { elements }: HullToday, side: Side): { key: string; one: ElementToday }[] {
  return [...elements.values()].flatMap((one) => {
    const key = hullKeyOf(hull, one.element);
    const plank = hull.planks.find((each) => each.key === key);
    const goesBack = plank?.skin === 'planking' && plank.side === side;
    return goesBack && key !== null ? [{ key, one }] : [];
  });
}

function runsOff(hull: Hull, today: HullToday, side: Side): Runs {
  const runs: Runs = {};
  const off = planksOff(hull, today, side)
    .map(({ key }) => plankOf(hull, key))
    .sort((a, b) => a.strake - b.strake || a.firstFrame - b.firstFrame);
  let run: Run | null = null;
  off.forEach(({ strake, firstFrame, lastFrame }, i) => {
    const goesOn = run && off[i - 1]?.strake === strake && run.lastFrame + 1 === firstFrame;
    run = goesOn && run ? { firstFrame: run.firstFrame, lastFrame } : { firstFrame, lastFrame };
    const known = runs[strake];
    if (!known || run.lastFrame - run.firstFrame > known.lastFrame - known.firstFrame) runs[strake] = run;
  });
  return runs;
}

/** Garboard butts of the two sides bear on each other. */
const otherGarboard = (hull: Hull, side: Side): Butt[] =>
  buttsOf(hull, side === 'port' ? 'starboard' : 'port').filter((butt) => butt.strake === 1);

/** The butts that stay and those that are chosen inside the runs that come off. */
function withChosen(hull: Hull, side: Side, runs: Runs, chosen: { strake: number; bay: number }[]): Butt[] {
  const isInside = ({ strake, bay }: Butt): boolean => {
    const run = runs[strake];
    return run !== undefined && run.firstFrame <= bay && bay < run.lastFrame;
  };
  return [
    ...buttsOf(hull, side).filter((butt) => !isInside(butt)),
    ...otherGarboard(hull, side),
    ...chosen.map((butt) => ({ side, ...butt })),
  ];
}

function waitsOf(hull: Hull, today: HullToday, side: Side): PlankWaits[] {
  const byKey = new Map(
    [...today.elements.values()].flatMap((one): [string, ElementToday][] => {
      const key = hullKeyOf(hull, one.element);
      return key === null ? [] : [[key, one]];
    }),
  );
  return planksOff(hull, today, side).map(({ key, one }) => ({
    plank: one,
    frames: framesUnder(hull, plankOf(hull, key))
      .flatMap((frame) => byKey.get(frame.key) ?? [])
      .map((frame) => ({ frame, stands: frame.state === 'closed' })),
  }));
}
