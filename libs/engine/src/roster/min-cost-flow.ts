/**
 * Minimum-cost flow by successive shortest paths with potentials (Ford and Fulkerson 1958 for the dual view; Edmonds
 * and Karp 1972 and Tomizawa 1971 for the potentials; all from memory). Units are sent one at a time, each along a
 * cheapest path of the residual network, so that after every unit the flow is a cheapest one for what has been sent from
 * where. A unit once sent stays sent: a later one may only take another way round.
 *
 * Costs are whole numbers of 0 or more; capacities are whole. Arc 2k runs forward, 2k + 1 back along it. Equal paths are
 * decided by the order of nodes and arcs, so the same network gives the same flow. One unit costs O(arcs log nodes).
 */
export class MinCostFlow {
  readonly #to: number[] = [];
  readonly #left: number[] = [];
  readonly #cost: number[] = [];
  readonly #out: number[][];
  /** With them every arc that has room costs 0 or more: the proof that no cheaper flow sends the same. */
  readonly potentials: number[];

  constructor(nodes: number) {
    this.#out = Array.from({ length: nodes }, () => []);
    this.potentials = new Array<number>(nodes).fill(0);
  }

  /** @returns the forward arc. @throws RangeError for a cost or a capacity that is not whole or below 0 */
  arc(from: number, to: number, capacity: number, cost: number): number {
    if (!Number.isInteger(cost) || cost < 0)
      throw new RangeError(`A cost is a whole number of 0 or more, not ${cost}`);
    if (!Number.isInteger(capacity) || capacity < 0)
      throw new RangeError(`A capacity is a whole number of 0 or more, not ${capacity}`);
    const arc = this.#to.length;
    this.#to.push(to, from);
    this.#left.push(capacity, 0);
    this.#cost.push(cost, -cost);
    this.#out[from].push(arc);
    this.#out[to].push(arc + 1);
    return arc;
  }

  /** What runs along a forward arc. */
  flow(arc: number): number {
    return this.#left[arc + 1];
  }

  /** What an arc would cost by the potentials; 0 or more where it has room. */
  reducedCost(arc: number): number {
    const [from, to] = [this.#to[arc ^ 1], this.#to[arc]];
    return this.#cost[arc] + this.potentials[from] - this.potentials[to];
  }

  /** Arcs, forward and back, along which more could run. */
  get arcsWithRoom(): number[] {
    return this.#left.flatMap((left, arc) => (left > 0 ? [arc] : []));
  }

  /** Sends one unit the cheapest way there is now; false, and nothing is changed, where there is none. */
  send(from: number, to: number): boolean {
    const found = this.#shortest(from, to);
    if (!found) return false;
    const { dist, arcs } = found;
    const reach = dist[to];
    for (let node = 0; node < dist.length; node++) this.potentials[node] += Math.min(dist[node], reach);
    for (const arc of arcs) {
      this.#left[arc]--;
      this.#left[arc ^ 1]++;
    }
    return true;
  }

  /** The cheapest way on from one node to another as things stand, and what it costs; null where there is none. */
  way(from: number, to: number): { arcs: number[]; cost: number } | null {
    const found = this.#shortest(from, to);
    if (!found) return null;
    return { arcs: found.arcs, cost: found.arcs.reduce((sum, arc) => sum + this.#cost[arc], 0) };
  }

  /** Dijkstra 1959 over reduced costs. */
  #shortest(from: number, to: number): { dist: number[]; arcs: number[] } | null {
    const dist = new Array<number>(this.#out.length).fill(Infinity);
    const by = new Array<number>(this.#out.length).fill(-1);
    const queue = new Queue();
    dist[from] = 0;
    queue.put(0, from);
    for (let next = queue.take(); next; next = queue.take()) {
      const [at, node] = next;
      if (at > dist[node]) continue;
      if (node === to) break;
      for (const arc of this.#out[node]) {
        if (this.#left[arc] === 0) continue;
        const other = this.#to[arc];
        const there = at + this.reducedCost(arc);
        if (there >= dist[other]) continue;
        dist[other] = there;
        by[other] = arc;
        queue.put(there, other);
      }
    }
    if (dist[to] === Infinity) return null;
    const arcs: number[] = [];
    for (let node = to; node !== from; node = this.#to[by[node] ^ 1]) arcs.push(by[node]);
    return { dist, arcs: arcs.reverse() };
  }
}

/** Binary heap of nodes, the nearest first and of equals the lower node. */
class Queue {
  readonly #heap: [number, number][] = [];

  put(dist: number, node: number): void {
    const heap = this.#heap;
    let at = heap.push([dist, node]) - 1;
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (!isBefore(heap[at], heap[up])) break;
      [heap[at], heap[up]] = [heap[up], heap[at]];
      at = up;
    }
  }

  take(): [number, number] | undefined {
    const heap = this.#heap;
    const first = heap[0] as [number, number] | undefined;
    const last = heap.pop();
    if (!last || heap.length === 0) return first;
    heap[0] = last;
    for (let at = 0; ;) {
      let least = at;
      for (const down of [2 * at + 1, 2 * at + 2])
        if (down < heap.length && isBefore(heap[down], heap[least])) least = down;
      if (least === at) return first;
      [heap[at], heap[least]] = [heap[least], heap[at]];
      at = least;
    }
  }
}

const isBefore = (a: [number, number], b: [number, number]): boolean =>
  a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]);
