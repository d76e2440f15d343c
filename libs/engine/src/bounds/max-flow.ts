/**
 * Greatest flow through a network of pipes, by layers and blocking flows (Dinitz 1970, from memory). Rows of pipes are
 * chained lists in flat arrays, each pipe beside its reverse; cost is far below its bound of nodes^2 x pipes here.
 */
export class MaxFlow {
  readonly #head: Int32Array;
  #next: Int32Array;
  #to: Int32Array;
  #room: Float64Array;
  #pipes = 0;
  readonly #level: Int32Array;
  readonly #at: Int32Array;
  readonly #queue: Int32Array;

  constructor(
    readonly nodes: number,
    pipes: number,
  ) {
    this.#head = new Int32Array(nodes).fill(-1);
    this.#next = new Int32Array(2 * pipes);
    this.#to = new Int32Array(2 * pipes);
    this.#room = new Float64Array(2 * pipes);
    this.#level = new Int32Array(nodes);
    this.#at = new Int32Array(nodes);
    this.#queue = new Int32Array(nodes);
  }

  pipe(from: number, to: number, room: number): void {
    if (this.#pipes === this.#to.length) this.#grow();
    this.#half(from, to, room);
    this.#half(to, from, 0);
  }

  #half(from: number, to: number, room: number): void {
    const k = this.#pipes++;
    this.#to[k] = to;
    this.#room[k] = room;
    this.#next[k] = this.#head[from];
    this.#head[from] = k;
  }

  #grow(): void {
    const size = Math.max(16, 2 * this.#to.length);
    const wider = <T extends Int32Array | Float64Array>(old: T, fresh: T): T => {
      fresh.set(old);
      return fresh;
    };
    this.#next = wider(this.#next, new Int32Array(size));
    this.#to = wider(this.#to, new Int32Array(size));
    this.#room = wider(this.#room, new Float64Array(size));
  }

  run(source: number, sink: number): number {
    let flow = 0;
    while (this.#layer(source, sink)) {
      this.#at.set(this.#head);
      for (
        let pushed = this.#push(source, sink, Infinity);
        pushed > 0;
        pushed = this.#push(source, sink, Infinity)
      ) {
        flow += pushed;
      }
    }
    return flow;
  }

  #layer(source: number, sink: number): boolean {
    const level = this.#level.fill(-1);
    const queue = this.#queue;
    let filled = 1;
    queue[0] = source;
    level[source] = 0;
    for (let q = 0; q < filled; q++) {
      for (let k = this.#head[queue[q]]; k >= 0; k = this.#next[k]) {
        const to = this.#to[k];
        if (this.#room[k] <= 0 || level[to] >= 0) continue;
        level[to] = level[queue[q]] + 1;
        queue[filled++] = to;
      }
    }
    return level[sink] >= 0;
  }

  #push(node: number, sink: number, most: number): number {
    if (node === sink) return most;
    for (let k = this.#at[node]; k >= 0; k = this.#next[k]) {
      this.#at[node] = k;
      const to = this.#to[k];
      if (this.#room[k] <= 0 || this.#level[to] !== this.#level[node] + 1) continue;
      const pushed = this.#push(to, sink, Math.min(most, this.#room[k]));
      if (pushed > 0) {
        this.#room[k] -= pushed;
        this.#room[k ^ 1] += pushed;
        return pushed;
      }
    }
    this.#at[node] = -1;
    return 0;
  }

  /** After `run`: the nodes from which more could still flow to the sink, the side of the cut that is starved. */
  starved(sink: number): Uint8Array {
    const found = new Uint8Array(this.nodes);
    const queue = [sink];
    found[sink] = 1;
    for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
      for (let k = this.#head[node]; k >= 0; k = this.#next[k]) {
        const from = this.#to[k];
        if (this.#room[k ^ 1] <= 0 || found[from]) continue;
        found[from] = 1;
        queue.push(from);
      }
    }
    return found;
  }
}
