/** What to bring by the hazards of the work: common practice, no source. What protects, the yard hands out. */
const byHazard: Record<string, string> = {
  LEAD: 'a change of clothes in a bag, for the way home',
  WET: 'rain gear and dry socks',
  DUST: 'your own mask, if you have one that fits',
  EYE: 'your spectacles, if you wear any, and a strap',
  FALL: 'shoes that grip, no loose sleeves',
  MACHINE: 'nothing loose: no scarf, no rings, hair tied up',
  NOISE: 'your own ear protection, if you have it',
};

const always = ['stout shoes', 'clothes that may get dirty or torn', 'food and water for the day'];

/** Things to bring for work with these hazards, each once. */
export function toBring(hazards: readonly string[]): string[] {
  return [
    ...always,
    ...Object.entries(byHazard).flatMap(([code, words]) => (hazards.includes(code) ? [words] : [])),
  ];
}
