import { registerEnumType } from '@nestjs/graphql';

export const relations = [
  'finish-to-start',
  'start-to-start',
  'finish-to-finish',
  'start-to-finish',
] as const;
export type Relation = (typeof relations)[number];

export const RelationEnum = {
  FINISH_TO_START: 'finish-to-start',
  START_TO_START: 'start-to-start',
  FINISH_TO_FINISH: 'finish-to-finish',
  START_TO_FINISH: 'start-to-finish',
} as const;
registerEnumType(RelationEnum, {
  name: 'Relation',
  description: 'Which end of a task waits for which end of the one before it.',
  valuesMap: {
    FINISH_TO_START: { description: 'It starts after the other has ended.' },
    START_TO_START: { description: 'It starts after the other has started.' },
    FINISH_TO_FINISH: { description: 'It ends after the other has ended.' },
    START_TO_FINISH: { description: 'It ends after the other has started.' },
  },
});

export const lagKinds = ['working', 'elapsed'] as const;
export type LagKind = (typeof lagKinds)[number];

export const LagKindEnum = { WORKING: 'working', ELAPSED: 'elapsed' } as const;
registerEnumType(LagKindEnum, {
  name: 'LagKind',
  description: 'Which minutes a lag counts.',
  valuesMap: {
    WORKING: { description: 'Minutes inside turnouts.' },
    ELAPSED: { description: 'Minutes of the calendar, day and night.' },
  },
});
