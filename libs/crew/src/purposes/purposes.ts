import { registerEnumType } from '@nestjs/graphql';

/** What the gates and the papers go by among the kinds of cards; most kinds have no such purpose. */
export const cardPurposes = ['first-aid', 'hot-work-watch', 'waiver'] as const;
export type CardPurpose = (typeof cardPurposes)[number];

/** The same among skills: the seat of the watch over hot work. */
export const skillPurposes = ['hot-work-watch'] as const;
export type SkillPurpose = (typeof skillPurposes)[number];

export const CardPurposeEnum = {
  FIRST_AID: 'first-aid',
  HOT_WORK_WATCH: 'hot-work-watch',
  WAIVER: 'waiver',
} as const satisfies Record<string, CardPurpose>;

registerEnumType(CardPurposeEnum, {
  name: 'CardPurpose',
  description: 'What the gates and the papers take a kind of card for.',
  valuesMap: {
    FIRST_AID: { description: 'Who holds it gives first aid at a turnout.' },
    HOT_WORK_WATCH: { description: 'Who holds it watches over hot work.' },
    WAIVER: { description: 'The waiver; the crew list says who has one.' },
  },
});

export const SkillPurposeEnum = { HOT_WORK_WATCH: 'hot-work-watch' } as const satisfies Record<
  string,
  SkillPurpose
>;

registerEnumType(SkillPurposeEnum, {
  name: 'SkillPurpose',
  description: 'What the gates take a skill for.',
  valuesMap: {
    HOT_WORK_WATCH: { description: 'Its seat is the watch’s over hot work, with no other duty.' },
  },
});

const watch = /\b(hot[\s-]?work|fire)[\s-]?watch\b/i;

/** As documents were read that say nothing of purposes: by the name and the key. */
export function formerCardPurpose({ ref, name }: { ref: string; name: string }): CardPurpose | null {
  if (/\bfirst[\s-]?aid\b/i.test(name)) return 'first-aid';
  if (watch.test(name)) return 'hot-work-watch';
  return ref === 'waiver' ? 'waiver' : null;
}

export const formerSkillPurpose = ({ name }: { name: string }): SkillPurpose | null =>
  watch.test(name) ? 'hot-work-watch' : null;
