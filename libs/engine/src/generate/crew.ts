import type { Minute } from '../problem.js';
import type { Model } from '../model/model.js';
import { bits, type Need } from '../model/people.js';

/**
 * Who sits where. From the people who are free it fills every seat, then adds further hands, always the least
 * scarce first. Seats are filled greedily, scarcest seat first; only where that fails are they matched by
 * augmenting paths (Kuhn 1955), so that a crew is found whenever there is one.
 */
export class CrewChooser {
  /** The crew chosen last, as bits. */
  readonly crew: Int32Array;
  size = 0;
  /** Person-minutes that the crew works off in a minute. */
  pace = 0;

  readonly #model: Model;
  readonly #words: number;
  readonly #usable: Int32Array;
  readonly #able: Int32Array;
  /** Matching: the person of each seat place, and the place of each person. */
  readonly #holder: Int32Array;
  readonly #placeOf: Int32Array;
  readonly #tried: Int32Array;
  readonly #places: { able: Int32Array; seat: number }[];

  constructor(model: Model) {
    this.#model = model;
    this.#words = model.crowd.words;
    this.crew = new Int32Array(this.#words);
    this.#usable = new Int32Array(this.#words);
    this.#able = new Int32Array(this.#words);
    const places = model.needs.reduce((most, need) => Math.max(most, need.seated), 0);
    this.#places = Array.from({ length: places }, () => ({ able: new Int32Array(this.#words), seat: -1 }));
    this.#holder = new Int32Array(places);
    this.#placeOf = new Int32Array(model.crowd.count);
    this.#tried = new Int32Array(this.#words);
  }

  /** False when these people can't be a crew whatever the order, by counting alone. Cheap. */
  mayDo(need: Need, free: Int32Array, at: number): boolean {
    return this.lacking(need, free, at) === null;
  }

  /** Of whom there are too few among these people, by counting alone: hands, or who may take the first such seat. */
  lacking({ hands, lean, seats }: Need, free: Int32Array, at: number): Int32Array | null {
    const words = this.#words;
    let sum = 0;
    for (let k = 0; k < words; k++) sum += bits(free[at + k] & hands[k]);
    if (sum < lean) return hands;
    for (let s = 0; s < seats.length; s++) {
      const { able, count } = seats[s];
      let fit = 0;
      for (let k = 0; k < words; k++) fit += bits(free[at + k] & able[k]);
      if (fit < count) return able;
    }
    return null;
  }

  /**
   * Chooses a crew of task i for the whole of [from, to) among the people in `free`, up to `target` hands.
   * @param must people who have to be in it, or null
   * @param wish people to take first, or null
   * @param spare people to leave for others where there is a choice, or null
   */
  choose(
    i: number,
    need: Need,
    free: Int32Array,
    at: number,
    target: number,
    from: Minute,
    to: Minute,
    must: Int32Array | null,
    wish: Int32Array | null,
    spare: Int32Array | null,
  ): boolean {
    const words = this.#words;
    const usable = this.#usable;
    for (let k = 0; k < words; k++) usable[k] = free[at + k] & need.hands[k];
    this.#keepPassing(usable, need.gate, from, to);
    if (need.simple && must === null && wish === null && spare === null) {
      return this.#fill(i, need, target, from, to, null, null, null);
    }
    if (this.#fill(i, need, target, from, to, must, wish, spare)) return true;
    if (!need.anyLearner) return false;
    for (let k = 0; k < words; k++) usable[k] &= ~need.learners[k];
    return this.#fill(i, need, target, from, to, must, wish, spare);
  }

  #fill(
    i: number,
    need: Need,
    target: number,
    from: Minute,
    to: Minute,
    must: Int32Array | null,
    wish: Int32Array | null,
    spare: Int32Array | null,
  ): boolean {
    const { crew } = this;
    const words = this.#words;
    const usable = this.#usable;
    // So few words that a loop is quicker than a call to fill them.
    for (let k = 0; k < words; k++) crew[k] = 0;
    this.size = 0;
    const { seats } = need;
    for (let s = 0; s < seats.length; s++) {
      const seat = seats[s];
      const able = this.#able;
      for (let k = 0; k < words; k++) able[k] = usable[k] & seat.able[k] & ~crew[k];
      this.#keepPassing(able, seat.gate, from, to);
      if (!this.#take(able, seat.count, must, wish, spare)) {
        if (!this.#match(need, from, to)) return false;
        break;
      }
    }
    const most = this.#model.most[i];
    if (must !== null) {
      let missing = 0;
      for (let k = 0; k < words; k++) {
        if ((must[k] & ~usable[k]) !== 0) return false;
        missing += bits(must[k] & ~crew[k]);
        crew[k] |= must[k];
      }
      this.size += missing;
      if (this.size > most) return false;
    }
    return this.#addHands(i, need, Math.min(most, Math.max(target, need.lean)), wish, spare);
  }

  #addHands(i: number, need: Need, want: number, wish: Int32Array | null, spare: Int32Array | null): boolean {
    const { crew } = this;
    const words = this.#words;
    const able = this.#able;
    const { learners, alone, anyLearner } = need;
    const model = this.#model;
    if (anyLearner) {
      let learning = 0;
      let guided = 0;
      for (let k = 0; k < words; k++) {
        learning |= crew[k] & learners[k];
        guided |= crew[k] & alone[k];
      }
      if (learning !== 0 && guided === 0) {
        for (let k = 0; k < words; k++) able[k] = this.#usable[k] & alone[k] & ~crew[k];
        if (this.size >= model.most[i] || !this.#take(able, 1, null, wish, spare)) return false;
      }
    }
    if (this.size < want) {
      for (let k = 0; k < words; k++) able[k] = this.#usable[k] & ~crew[k] & ~learners[k];
      const before = this.size;
      this.#take(able, want - before, null, wish, spare);
      if (this.size < want && anyLearner) {
        let guided = 0;
        for (let k = 0; k < words; k++) guided |= crew[k] & alone[k];
        const useful = model.minutes[i] < 0 && model.learnerShare[i] > 0;
        const upTo = useful ? want : need.lean;
        if (guided !== 0 && this.size < upTo) {
          for (let k = 0; k < words; k++) able[k] = this.#usable[k] & ~crew[k] & learners[k];
          this.#take(able, upTo - this.size, null, wish, spare);
        }
      }
      if (this.size < need.lean) return false;
    }
    this.pace = this.paceOf(i, need, crew, 0);
    return true;
  }

  /** Person-minutes a minute of the crew at crews[at...]: full hands counted before learners. */
  paceOf(i: number, need: Need, crews: Int32Array, at: number): number {
    const model = this.#model;
    if (model.minutes[i] >= 0) return 1;
    let all = 0;
    let learning = 0;
    for (let k = 0; k < this.#words; k++) {
      all += bits(crews[at + k]);
      learning += bits(crews[at + k] & need.learners[k]);
    }
    const full = all - learning;
    const efficient = model.efficient[i];
    const extra = model.extraShare[i];
    const share = model.learnerShare[i];
    const fullIn = full < efficient ? full : efficient;
    const learningIn = learning < efficient - fullIn ? learning : efficient - fullIn;
    return fullIn + (full - fullIn) * extra + (learningIn + (learning - learningIn) * extra) * share;
  }

  /** Seat of each hand in the crew at crews[at...]: pairs [rank, seat], -1 for a further hand. */
  seat(need: Need, crews: Int32Array, at: number, from: Minute, to: Minute): [number, number][] {
    const words = this.#words;
    for (let k = 0; k < words; k++) this.#usable[k] = crews[at + k];
    this.crew.fill(0);
    if (need.seated > 0 && !this.#match(need, from, to))
      throw new Error('a crew was chosen that fills no seats');
    const list: [number, number][] = [];
    for (let r = 0; r < this.#model.crowd.count; r++) {
      if ((crews[at + (r >> 5)] & (1 << (r & 31))) === 0) continue;
      let seat = -1;
      for (let q = 0; q < need.seated; q++) if (this.#holder[q] === r) seat = this.#places[q].seat;
      list.push([r, seat]);
    }
    return list;
  }

  /** Takes up to `count` people out of `able` into the crew; false when there were fewer. */
  #take(
    able: Int32Array,
    count: number,
    must: Int32Array | null,
    wish: Int32Array | null,
    spare: Int32Array | null,
  ): boolean {
    let left = count;
    if (must !== null) left = this.#lowest(able, left, must, 0);
    if (wish !== null && left > 0) left = this.#lowest(able, left, wish, 0);
    if (spare !== null && left > 0) left = this.#lowest(able, left, spare, -1);
    if (left > 0) left = this.#lowest(able, left, null, 0);
    this.size += count - left;
    return left === 0;
  }

  /** Moves the lowest bits of able & (filter ^ flip) into the crew; returns how many are still wanted. */
  #lowest(able: Int32Array, count: number, filter: Int32Array | null, flip: number): number {
    let left = count;
    for (let k = 0; k < this.#words && left > 0; k++) {
      let pool = filter === null ? able[k] : able[k] & (filter[k] ^ flip);
      while (pool !== 0 && left > 0) {
        const bit = pool & -pool;
        pool ^= bit;
        able[k] ^= bit;
        this.crew[k] |= bit;
        left--;
      }
    }
    return left;
  }

  #keepPassing(set: Int32Array, gate: number, from: Minute, to: Minute): void {
    const { lapses, from: since, till } = this.#model.crowd.gates[gate];
    if (!lapses) return;
    const end = to > from ? to : from + 1;
    for (let k = 0; k < this.#words; k++) {
      for (let pool = set[k]; pool !== 0;) {
        const bit = pool & -pool;
        pool ^= bit;
        const r = (k << 5) + 31 - Math.clz32(bit);
        if (since[r] > from || till[r] < end) set[k] ^= bit;
      }
    }
  }

  /** Fills all seats out of the usable people by augmenting paths; the crew becomes those who sit. */
  #match(need: Need, from: Minute, to: Minute): boolean {
    let count = 0;
    for (const seat of need.seats) {
      for (let c = 0; c < seat.count; c++) {
        const place = this.#places[count++];
        place.able.set(seat.able);
        place.seat = seat.seat;
        this.#keepPassing(place.able, seat.gate, from, to);
      }
    }
    this.#placeOf.fill(-1);
    this.#holder.fill(-1);
    for (let q = 0; q < need.seated; q++) {
      for (let k = 0; k < this.#words; k++) this.#tried[k] = 0;
      if (!this.#augment(q)) return false;
    }
    this.crew.fill(0);
    for (let q = 0; q < need.seated; q++) this.crew[this.#holder[q] >> 5] |= 1 << (this.#holder[q] & 31);
    this.size = need.seated;
    return true;
  }

  #augment(q: number): boolean {
    const { able } = this.#places[q];
    for (let k = 0; k < this.#words; k++) {
      for (let pool = able[k] & this.#usable[k]; pool !== 0;) {
        const bit = pool & -pool;
        pool ^= bit;
        if ((this.#tried[k] & bit) !== 0) continue;
        this.#tried[k] |= bit;
        const r = (k << 5) + 31 - Math.clz32(bit);
        const other = this.#placeOf[r];
        if (other >= 0 && !this.#augment(other)) continue;
        this.#placeOf[r] = q;
        this.#holder[q] = r;
        return true;
      }
    }
    return false;
  }
}
