import { type Method, type Step } from './method.js';

const PARTS: Partial<Record<keyof Step, string>> = {
  title: 'what is done',
  kind: 'its kind',
  estimate: 'how long it takes',
  crew: 'crew',
  seats: 'seats',
  cards: 'cards',
  leastAge: 'least age',
  oneGo: 'whether in one go',
  setUpMinutes: 'setting up',
  tools: 'tools',
  opens: 'whether it opens',
  closes: 'whether it shuts',
  hazards: 'what can hurt',
  cautions: 'cautions',
  noticeDays: 'notice',
  eyes: 'who sees it first',
  sets: 'what stands after it',
  onlyWith: 'where it is done',
  after: 'what comes first',
};

/** In words, step by step, how a method differs from what it was; what is new has nothing to differ from. */
export function whatChanged(before: Method | null, after: Method): string[] {
  if (before === null) return ['a new method'];
  const said = before.title === after.title ? [] : [`called "${after.title}"`];
  for (const step of after.steps) {
    const old = before.steps.find((one) => one.key === step.key);
    if (!old) said.push(`new: ${step.title}`);
    else {
      const parts = (Object.keys(PARTS) as (keyof Step)[]).filter(
        (part) => JSON.stringify(old[part]) !== JSON.stringify(step[part]),
      );
      if (parts.length > 0) said.push(`${step.title}: ${parts.map((part) => PARTS[part]).join(', ')}`);
    }
  }
  for (const { key, title } of before.steps)
    if (!after.steps.some((one) => one.key === key)) said.push(`without: ${title}`);
  return said.length > 0 ? said : ['the order of its steps'];
}
