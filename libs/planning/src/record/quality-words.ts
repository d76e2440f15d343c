import type { QualityKind, QualityPoint } from '@ribband/engine';

/** What each point looks for. A working day is a turnout. */
const looksFor: Record<QualityKind, string> = {
  logic: 'Work that nothing leads to, or that leads to nothing',
  leads: 'Links that let work begin before what it follows has ended',
  lags: 'Links with a wait in them',
  relations: 'Links other than “after it has ended”',
  'fixed dates': 'Work held to a day by people who were promised it',
  'high float': 'Work that could slip by more than 44 turnouts',
  'negative float': 'Work that is late for the gate by this plan',
  'long tasks': 'Work planned over more than 44 turnouts',
  'invalid dates': 'Dates that can’t be: done in time to come, or planned in time gone',
  'no crew': 'Work that asks for nobody and nothing',
  missed: 'Work that the baseline wanted done by now and is not',
  'path test': 'Longest way through the links that does not grow when its work does',
  'path length': 'Length of the way to the gate, with what is to spare',
  execution: 'Tasks done for each that the baseline wanted done by now',
};

/** 'Links with a wait in them: 31 of 97; the usual most is 5 %.' */
export function qualitySentence({ kind, found, of, limit, asks }: QualityPoint): string {
  if (asks === 'at least')
    return `${looksFor[kind]}: ${found.toFixed(2)}; the usual least is ${limit.toFixed(2)}.`;
  if (kind === 'path test') return `${looksFor[kind]}: ${found === 0 ? 'none' : 'one'}.`;
  const most = limit === 0 ? 'none is usual' : `the usual most is ${String(Math.round(limit * 100))} %`;
  return `${looksFor[kind]}: ${found === 0 ? 'none' : String(found)} of ${String(of)}; ${most}.`;
}
