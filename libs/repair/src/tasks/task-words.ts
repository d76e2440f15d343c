import { registerEnumType } from '@nestjs/graphql';

export const taskKinds = ['work', 'fixed', 'elapsed', 'hold', 'launch'] as const;
export type TaskKind = (typeof taskKinds)[number];

export const TaskKindEnum = {
  WORK: 'work',
  FIXED: 'fixed',
  ELAPSED: 'elapsed',
  HOLD: 'hold',
  LAUNCH: 'launch',
} as const;
registerEnumType(TaskKindEnum, {
  name: 'TaskKind',
  description: 'How a task takes its time.',
  valuesMap: {
    WORK: { description: 'Work that a crew does: the more hands, the sooner.' },
    FIXED: { description: 'A set length in a turnout, whatever the crew.' },
    ELAPSED: { description: 'Time that passes by itself: glue, paint, stock on its way.' },
    HOLD: { description: 'A say-so that must be given before work goes on.' },
    LAUNCH: { description: 'Going back into the water, at a lift slot.' },
  },
});

/** How an estimate is meant: pieces at a rate, person-minutes of work, or plain minutes. */
export const estimateWays = ['count', 'work', 'time'] as const;
export type EstimateWay = (typeof estimateWays)[number];

export const taskStates = [
  'waiting',
  'clear',
  'taken',
  'under-way',
  'shown',
  'passed',
  'held',
  'redo',
  'dropped',
] as const;
export type TaskState = (typeof taskStates)[number];

export const TaskStateEnum = {
  WAITING: 'waiting',
  CLEAR: 'clear',
  TAKEN: 'taken',
  UNDER_WAY: 'under-way',
  SHOWN: 'shown',
  PASSED: 'passed',
  HELD: 'held',
  REDO: 'redo',
  DROPPED: 'dropped',
} as const;
registerEnumType(TaskStateEnum, {
  name: 'TaskState',
  description: 'How a task stands; it follows from the records and is never set by hand.',
  valuesMap: {
    WAITING: { description: 'Something else has to be done first.' },
    CLEAR: { description: 'Nothing stands before it.' },
    TAKEN: { description: 'Clear, and somebody has taken a place on it.' },
    UNDER_WAY: { description: 'Begun.' },
    SHOWN: { description: 'Said to be finished; the shipwright has not looked yet.' },
    PASSED: { description: 'The shipwright has said so.' },
    HELD: { description: 'Stopped by somebody, who wrote down why.' },
    REDO: { description: 'Looked at and sent back.' },
    DROPPED: { description: 'Taken out of the scope.' },
  },
});
