/**
 * What somebody would rather not do: a closed list, asked without a reason. Where a hazard goes with it the plan gives
 * them no work that has the hazard; the others are told to the coordinator, who gives out the work.
 */
export const ratherNots = {
  ladders: { words: 'no ladders, no staging', hazards: ['fall'] },
  kneeling: { words: 'no kneeling', hazards: ['strain'] },
  seated: { words: 'seated work', hazards: ['strain', 'lifting', 'fall'] },
  lifting: { words: 'no lifting', hazards: ['lifting'] },
  noise: { words: 'nothing loud', hazards: ['noise'] },
  dust: { words: 'nothing dusty', hazards: ['dust'] },
  paint: { words: 'no paint or glue', hazards: ['chemical'] },
  wet: { words: 'nothing wet or cold', hazards: ['wet'] },
  machines: { words: 'no machines', hazards: ['machine'] },
} as const satisfies Record<string, { words: string; hazards: readonly string[] }>;

export type RatherNot = keyof typeof ratherNots;
export const ratherNotNames = Object.keys(ratherNots) as [RatherNot, ...RatherNot[]];

/** The hazards that somebody is not to be given by a plan. */
export function hazardsAvoided(names: readonly RatherNot[]): Set<string> {
  return new Set(names.flatMap((name): readonly string[] => ratherNots[name].hazards));
}
