import { isMissing } from './roster.js';

/** What is missing stands out; room for more is only noted. */
export function Gaps({ gaps }: { gaps: string[] }) {
  return gaps.map((gap) => (
    <p key={gap} className={isMissing(gap) ? 'gap' : 'pencil'}>
      {gap}
    </p>
  ));
}
