/** Something wrong with a problem: 'malformed' where nothing may be computed, 'impossible' where a wish can't come true. */
export interface Fault {
  kind: 'malformed' | 'impossible';
  /** Where in the problem, as one would write it in code: `tasks[3].seats[0].count`. */
  path: string;
  /** What would be right. */
  says: string;
}

const MOST_MINUTES = 2 ** 29;

/** Collects faults; each test answers whether it held. */
export class Check {
  readonly faults: Fault[] = [];

  fault(path: string, says: string): false {
    this.faults.push({ kind: 'malformed', path, says });
    return false;
  }

  impossible(path: string, says: string): void {
    this.faults.push({ kind: 'impossible', path, says });
  }

  whole(path: string, value: number, from = 0, to = MOST_MINUTES): boolean {
    if (Number.isInteger(value) && value >= from && value <= to) return true;
    const between = to === MOST_MINUTES ? `from ${from} up` : `from ${from} to ${to}`;
    return this.fault(path, `must be a whole number ${between}, is ${String(value)}`);
  }

  minute(path: string, value: number): boolean {
    if (Number.isInteger(value) && Math.abs(value) <= MOST_MINUTES) return true;
    return this.fault(path, `must be a whole minute, is ${String(value)}`);
  }

  share(path: string, value: number): boolean {
    if (value >= 0 && value <= 1) return true;
    return this.fault(path, `must be between 0 and 1, is ${String(value)}`);
  }

  index(path: string, value: number, of: string, size: number): boolean {
    if (Number.isInteger(value) && value >= 0 && value < size) return true;
    return this.fault(path, `must be an index into ${of}, of which there are ${size}; is ${String(value)}`);
  }

  choice(path: string, value: string, choices: string[]): boolean {
    return choices.includes(value) || this.fault(path, `must be one of ${choices.join(', ')}; is ${value}`);
  }

  /** Indices into a list, none of them twice. */
  indices(path: string, values: number[], of: string, size: number): void {
    values.forEach((value, k) => {
      if (this.index(`${path}[${k}]`, value, of, size) && values.indexOf(value) < k) {
        this.fault(`${path}[${k}]`, `must not name ${of}[${value}] twice`);
      }
    });
  }
}
