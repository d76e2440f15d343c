import type { Case, Hand, Job, Occasion, SeatOnJob, Shift } from './gate.types.js';
import { mayDo } from './may-do.js';
import { bareYard, type YardFacts } from './yard-facts.js';

/** Nine in the morning at the yard, 3 April 2027. */
export const nine = Date.UTC(2027, 3, 3, 16);
export const hours = (count: number): number => count * 3_600_000;

export const asHand: SeatOnJob = { skill: null, level: 0, cards: [] };

export const person = (name: string, over: Partial<Hand> = {}): Hand => ({
  id: name,
  name,
  bornOn: '1970-01-01',
  levels: new Map(),
  cards: [],
  ...over,
});

interface Given {
  hand: Hand;
  seat: SeatOnJob;
  job: Partial<Job>;
  alongside: Hand[];
  shifts: Shift[];
  yard: Partial<YardFacts>;
  occasion: Partial<Occasion>;
}

/** Somebody on plain work from nine to noon, the turnout ending at two, but for what is given. */
export function caseOf(over: Partial<Given> = {}): Case {
  const alongside = (over.alongside ?? []).map((hand) => ({ hand, seat: asHand }));
  return {
    hand: over.hand ?? person('Maud Sepulvida'),
    seat: over.seat ?? asHand,
    job: {
      id: 'task_1',
      title: 'Dig out bungs',
      hazards: [],
      cards: [],
      leastAge: null,
      seatSkills: [],
      dismantles: false,
      crewMin: 1,
      noiseDba: null,
      lift: null,
      ...over.job,
    },
    occasion: {
      on: '2027-04-03',
      startsAt: nine,
      endsAt: nine + hours(3),
      turnoutEndsAt: nine + hours(5),
      asked: 'ahead',
      alongside,
      atTurnout: alongside.map(({ hand }) => hand),
      shifts: over.shifts ?? [],
      yard: { ...bareYard, ...over.yard },
      setAside: [],
      ...over.occasion,
    },
  };
}

export const rulesOf = (weight: 'stop' | 'caution', over: Partial<Given> = {}): string[] =>
  mayDo(caseOf(over)).findings.flatMap((finding) => (finding.weight === weight ? [finding.rule] : []));

/** The same asked on the day, with somebody else at the yard. */
export const stopsOnTheDay = (over: Partial<Given> = {}): string[] =>
  rulesOf('stop', {
    alongside: [person('Emeric Holloran')],
    ...over,
    occasion: { asked: 'on the day', ...over.occasion },
  });
