/** Whole years of age on a day. Somebody born on 29 February is a year older on 1 March of a common year. */
export function ageOn(bornOn: string, day: string): number {
  const [bornYear, year] = [bornOn, day].map((text) => Number(text.slice(0, 4))) as [number, number];
  return year - bornYear - (day.slice(5) < bornOn.slice(5) ? 1 : 0);
}

/** The first day on which somebody has reached an age. */
export function reachesAgeOn(bornOn: string, age: number): string {
  const year = Number(bornOn.slice(0, 4)) + age;
  const born29February = bornOn.endsWith('-02-29');
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return `${String(year).padStart(4, '0')}-${born29February && !isLeap ? '03-01' : bornOn.slice(5)}`;
}

export const adultAge = 18;
