/** Bad input, refused before anything is computed: the field at fault, what is wrong, and what would be right. */
export class HullRefusal extends Error {
  constructor(
    readonly field: string,
    readonly fault: string,
    readonly wouldBeRight: string,
  ) {
    super(`${field}: ${fault}; ${wouldBeRight}`);
    this.name = 'HullRefusal';
  }
}

export function need(holds: boolean, field: string, fault: string, wouldBeRight: string): asserts holds {
  if (!holds) throw new HullRefusal(field, fault, wouldBeRight);
}

export function needWhole(value: number, field: string, least: number, most = Number.MAX_SAFE_INTEGER): void {
  need(
    Number.isInteger(value) && value >= least && value <= most,
    field,
    `${value} is not a count that fits here`,
    most === Number.MAX_SAFE_INTEGER
      ? `a whole number, ${least} or more`
      : `a whole number from ${least} to ${most}`,
  );
}

export function needPositive(value: number, field: string, unit: string): void {
  need(Number.isFinite(value) && value > 0, field, `${value} is not a size`, `more than 0 ${unit}`);
}
