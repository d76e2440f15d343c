import { addDays, isDay } from '@ribband/platform';
import type { Fault } from '../faults.js';
import type { VolunteerKind } from './volunteer.entity.js';

/** What is written down about somebody, as it comes in. */
export interface VolunteerDraft {
  name: string;
  kind: VolunteerKind;
  bornOn: string | null;
  email: string | null;
  minutesAWeek: number | null;
  minutesATurnout: number | null;
}

const code = 'BAD_INPUT';
const longestLife = 120 * 366;
const mostMinutes = { minutesAWeek: 7 * 24 * 60, minutesATurnout: 24 * 60 };

/** What can't stand in it; paths begin with the field's name. */
export function volunteerFaults(draft: VolunteerDraft, today: string): Fault[] {
  const faults: Fault[] = [];
  const add = (path: string, message: string, wouldBeRight: string) =>
    faults.push({ code, path, message, wouldBeRight });
  const name = draft.name.trim();
  if (name === '' || name.length > 200) add('name', 'The name is empty or too long', '1 to 200 characters');
  const { bornOn } = draft;
  const earliest = addDays(today, -longestLife);
  if (bornOn !== null && (!isDay(bornOn) || bornOn > today || bornOn < earliest))
    add('bornOn', `"${bornOn}" is no day of birth`, `a day from ${earliest} to ${today}, such as 1968-05-21`);
  if (draft.email !== null && (draft.email.length > 254 || !/^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(draft.email)))
    add('email', `"${draft.email}" is no e-mail address`, 'an address such as name@example.org, or none');
  for (const cap of ['minutesAWeek', 'minutesATurnout'] as const) {
    const minutes = draft[cap];
    if (minutes !== null && (!Number.isInteger(minutes) || minutes < 1 || minutes > mostMinutes[cap]))
      add(cap, `${minutes} minutes are no cap`, `whole minutes from 1 to ${mostMinutes[cap]}, or none`);
  }
  return faults;
}
