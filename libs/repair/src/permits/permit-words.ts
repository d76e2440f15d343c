import { type PermitKind, permitKinds, type TagKind, tagKinds } from '@ribband/crew';
import { registerEnumType } from '@nestjs/graphql';

const shouted = <T extends string>(words: readonly T[]): Record<string, T> =>
  Object.fromEntries(words.map((word) => [word.replaceAll('-', '_').toUpperCase(), word]));

/** HOT_WORK is 'hot-work' inside. */
export const PermitKindEnum = shouted<PermitKind>(permitKinds);
registerEnumType(PermitKindEnum, {
  name: 'PermitKind',
  description: 'What waits for a competent person’s written word.',
  valuesMap: {
    HOT_WORK: { description: 'Sparks and flame.' },
    LEAD: { description: 'Old paint: tested, or kept wet and contained.' },
    ASBESTOS: { description: 'Near asbestos.' },
    ENCLOSED_SPACE: { description: 'A closed space, with readings.' },
  },
});

export const TagKindEnum = shouted<TagKind>(tagKinds);
registerEnumType(TagKindEnum, {
  name: 'TagKind',
  description: 'What carries an inspection tag.',
  valuesMap: {
    STAGING: { description: 'Staging and its boards.' },
    LIFTING_GEAR: { description: 'Hoists, slings, shackles.' },
  },
});
