/**
 * Calling a turnout without a line, by a rule that can be followed with a finger on the sheet:
 *
 *   1. Whoever is posted to work that can go on stays on it.
 *   2. Work whose seats or least crew are not filled takes free people who may, those with the fewest choices first.
 *   3. Work that still lacks somebody falls away, and its people are free for other work.
 *   4. Whoever is left joins work that has room.
 *
 * Every gate is asked of the result again, with exactly those who are on it; what a gate stops falls out. It gives less
 * than the yard's own reckoning, which weighs all that is to come, and never more than the gates allow.
 */

export interface SheetPerson {
  hand: { volunteerId: string; name: string };
  isKnownAdult: boolean;
  isMinor: boolean;
  isFirstAider: boolean;
}

interface Verdict {
  volunteerId: string;
  mayAsHand: boolean;
  /** Places in the list of seats. */
  seats: number[];
  learns: boolean;
  worksAlone: boolean;
  /** Holds the card of a hot-work watch. */
  mayWatch: boolean;
}

export interface SheetWork {
  task: { id: string; title: string; crewMin: number; crewMax: number };
  startsAt: string;
  endsAt: string;
  closed?: string | null;
  postedIds: string[];
  seats: { skillId: string; skillName: string; level: number; count: number }[];
  /** How many carry its heaviest piece. */
  carriers: number;
  /** Hot work: somebody with the card only watches, as a hand or on one of these seats. */
  watch?: { seats: number[] } | null;
  verdicts: Verdict[];
}

interface Sheet {
  /** Whether the yard keeps first-aid cards: then nobody works where nobody here has one. */
  asksFirstAider: boolean;
  people: SheetPerson[];
  work: SheetWork[];
}

export interface Reseated {
  seats: { taskId: string; volunteerId: string; seat: number | null }[];
  fallen: { taskId: string; why: string }[];
  idle: string[];
}

type Seated = Map<string, number | null>;

export function reseat(sheet: Sheet, presentIds: readonly string[]): Reseated {
  const people = new Map(sheet.people.map((person) => [person.hand.volunteerId, person]));
  const here = presentIds.filter((id) => people.has(id));
  const adults = here.filter((id) => people.get(id)?.isKnownAdult).length;
  const works = sheet.work.map((work) => new Work(work, people, adults));
  const fallen = new Map<Work, string>();
  const open = () => works.filter((work) => !fallen.has(work));
  const shut = shutFor(here, people, sheet.asksFirstAider);
  for (const work of works) {
    const why = [work.given.closed, shut].filter(Boolean).join(' ');
    if (why) fallen.set(work, why);
  }
  for (const work of open())
    for (const id of work.given.postedIds) if (here.includes(id)) work.crew.set(id, null);
  for (;;) {
    for (const work of open()) work.dropStopped();
    for (const work of open())
      work.fill(
        here.filter((id) => isFree(id, work, open())),
        open(),
      );
    for (const work of open()) work.dropStopped();
    const [short] = open().flatMap((work) => {
      const why = work.lacks();
      return why === null ? [] : [{ work, why }];
    });
    if (!short) break;
    short.work.crew.clear();
    fallen.set(short.work, short.why);
  }
  for (const id of here)
    if (!open().some((work) => work.crew.has(id)))
      open()
        .find((work) => work.takes(id))
        ?.crew.set(id, null);
  return {
    seats: open().flatMap(({ given, crew }) =>
      [...crew].map(([volunteerId, seat]) => ({ taskId: given.task.id, volunteerId, seat })),
    ),
    fallen: [...fallen].map(([{ given }, why]) => ({ taskId: given.task.id, why })),
    idle: here.filter((id) => !open().some((work) => work.crew.has(id))),
  };
}

/** What closes all work for exactly those who are here, or null. */
function shutFor(
  here: readonly string[],
  people: ReadonlyMap<string, SheetPerson>,
  asksFirstAider: boolean,
): string | null {
  if (here.length === 1) return 'Nobody works at the yard alone.';
  return asksFirstAider && !here.some((id) => people.get(id)?.isFirstAider)
    ? 'Nobody here holds a first-aid card that counts today.'
    : null;
}

/** Whether somebody is on no other work at that time. */
function isFree(id: string, wanted: Work, works: readonly Work[]): boolean {
  return works.every(
    (work) =>
      work === wanted ||
      !work.crew.has(id) ||
      work.given.endsAt <= wanted.given.startsAt ||
      wanted.given.endsAt <= work.given.startsAt,
  );
}

/** One piece of work while its crew is put together. */
class Work {
  /** Who is on it, and which seat they fill. */
  readonly crew: Seated = new Map();
  readonly #verdicts: ReadonlyMap<string, Verdict>;

  constructor(
    readonly given: SheetWork,
    readonly people: ReadonlyMap<string, SheetPerson>,
    /** Known adults at the turnout. */
    readonly adults: number,
  ) {
    this.#verdicts = new Map(given.verdicts.map((verdict) => [verdict.volunteerId, verdict]));
  }

  /** Every gate, of somebody on this work with some crew. */
  may(id: string, crew: Iterable<string>, seat: number | null): boolean {
    const verdict = this.#verdicts.get(id);
    const person = this.people.get(id);
    if (!verdict || !person) return false;
    if (seat === null ? !verdict.mayAsHand : !verdict.seats.includes(seat)) return false;
    const others = [...crew].filter((other) => other !== id);
    if (verdict.learns && !others.some((other) => this.#verdicts.get(other)?.worksAlone)) return false;
    if (!person.isMinor) return true;
    return this.adults >= 2 && others.some((other) => this.people.get(other)?.isKnownAdult);
  }

  /** Gives seats to those on it, then lets go of whom a gate stops, until nobody else is. */
  dropStopped(): void {
    for (;;) {
      const crew = this.seatThose([...this.crew.keys()]);
      const stopped = [...crew].find(([id, seat]) => !this.may(id, crew.keys(), seat));
      this.crew.clear();
      for (const [id, seat] of crew) this.crew.set(id, seat);
      if (!stopped) return;
      this.crew.delete(stopped[0]);
    }
  }

  /** Takes free people for unfilled seats and for the least crew, those with the fewest choices first. */
  fill(free: readonly string[], works: readonly Work[]): void {
    const choices = (id: string) => works.filter((work) => work.mayBe(id)).length;
    const inOrder = free.filter((id) => !this.crew.has(id)).sort((a, b) => choices(a) - choices(b));
    this.given.seats.forEach((_, seat) => {
      while (this.unfilled(seat) > 0 && this.hasRoom()) {
        const next = inOrder.find(
          (id) => !this.crew.has(id) && this.may(id, [...this.crew.keys(), id], seat),
        );
        if (next === undefined) return;
        this.crew.set(next, seat);
      }
    });
    this.takeWatch(inOrder);
    while (this.crew.size < this.least) {
      const next = inOrder.find((id) => !this.crew.has(id) && this.may(id, [...this.crew.keys(), id], null));
      if (next === undefined) return;
      this.crew.set(next, null);
    }
  }

  /** What it lacks before it may start, or null. */
  lacks(): string | null {
    for (const [seat, { skillName, count }] of this.given.seats.entries()) {
      const short = this.unfilled(seat);
      if (short === 0) continue;
      const skill = skillName.charAt(0).toLowerCase() + skillName.slice(1);
      return short === count
        ? `Nobody here for ${skill}.`
        : `Only ${count - short} here for ${skill}, and it takes ${count}.`;
    }
    const crewMin = this.least;
    if (this.crew.size < crewMin) return `It takes ${crewMin} at once; ${this.crew.size} could be on it.`;
    return this.isWatched()
      ? null
      : 'Hot work needs a fire watch who does nothing else, and nobody here can be it.';
  }

  /** Whether somebody may join as a further hand. */
  takes(id: string): boolean {
    return this.crew.size > 0 && this.hasRoom() && this.may(id, [...this.crew.keys(), id], null);
  }

  /** The least that may start: its own least crew, and as many as carry its heaviest piece. */
  private get least(): number {
    return Math.max(this.given.task.crewMin, this.given.carriers);
  }

  private isWatched(): boolean {
    const { watch } = this.given;
    if (!watch) return true;
    const isOne = ([id, seat]: [string, number | null]) =>
      this.#verdicts.get(id)?.mayWatch === true && (seat === null || watch.seats.includes(seat));
    return this.crew.size >= 2 && [...this.crew].some(isOne);
  }

  private takeWatch(free: readonly string[]): void {
    if (this.isWatched() || !this.hasRoom()) return;
    const next = free.find(
      (id) =>
        !this.crew.has(id) &&
        this.#verdicts.get(id)?.mayWatch === true &&
        this.may(id, [...this.crew.keys(), id], null),
    );
    if (next !== undefined) this.crew.set(next, null);
  }

  private mayBe(id: string): boolean {
    const verdict = this.#verdicts.get(id);
    return !!verdict && (verdict.mayAsHand || verdict.seats.length > 0);
  }

  private hasRoom(): boolean {
    return this.crew.size < this.given.task.crewMax;
  }

  private unfilled(seat: number): number {
    const filled = [...this.crew.values()].filter((one) => one === seat).length;
    return Math.max(0, (this.given.seats[seat]?.count ?? 0) - filled);
  }

  /** Those on it, each on the first seat that they may fill and that is not full. */
  private seatThose(ids: readonly string[]): Seated {
    const seated: Seated = new Map(ids.map((id) => [id, null]));
    this.given.seats.forEach(({ count }, seat) => {
      const able = ids
        .filter((id) => seated.get(id) === null && this.#verdicts.get(id)?.seats.includes(seat))
        .sort(
          (a, b) => (this.#verdicts.get(a)?.seats.length ?? 0) - (this.#verdicts.get(b)?.seats.length ?? 0),
        );
      for (const id of able.slice(0, count)) seated.set(id, seat);
    });
    return seated;
  }
}
