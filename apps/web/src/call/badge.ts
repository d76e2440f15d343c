/** A code as keyed or read: case, blanks and hyphens do not matter. */
const plain = (code: string): string => code.toUpperCase().replaceAll(/[\s-]/g, '');

export type BadgeRead<Person> =
  | { kind: 'right'; person: Person }
  /** One character was wrong: to be asked before it counts. */
  | { kind: 'nearly'; person: Person }
  | { kind: 'nobody' };

/** Whose badge it is. Two codes differ in three characters at least, so one wrong one still leads to one person. */
export function readBadge<Person extends { code: string }>(
  keyed: string,
  people: readonly Person[],
): BadgeRead<Person> {
  const code = plain(keyed);
  const right = people.find((person) => plain(person.code) === code);
  if (right) return { kind: 'right', person: right };
  const near = people.filter((person) => apart(plain(person.code), code) === 1);
  return near.length === 1 && near[0] ? { kind: 'nearly', person: near[0] } : { kind: 'nobody' };
}

function apart(one: string, other: string): number {
  if (one.length !== other.length) return Infinity;
  return [...one].filter((character, i) => character !== other[i]).length;
}
