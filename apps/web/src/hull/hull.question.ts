import { graphql } from '../gql/gql.js';
import type { ShellQuery } from '../gql/graphql.js';

export const ShellQuestion = graphql(`
  query Shell {
    shell {
      now
      weeks
      sides {
        side
        length
        height
        planks {
          ...Plank
        }
        frames {
          key
          name
          number
          x
          head
          standing {
            ...Standing
          }
        }
        ceiling {
          ...Plank
        }
      }
      elsewhere {
        ...Standing
      }
    }
  }
  fragment Plank on ShellPlank {
    key
    name
    strake
    left
    right
    low
    high
    standing {
      ...Standing
    }
  }
  fragment Standing on ElementStanding {
    state
    changes {
      at
      state
    }
    element {
      id
      name
    }
  }
`);

export type Shell = NonNullable<ShellQuery['shell']>;
export type ShellSide = Shell['sides'][number];
export type PlankCell = ShellSide['planks'][number];
export type FrameCell = ShellSide['frames'][number];
export type Standing = NonNullable<PlankCell['standing']>;
export type ElementState = Standing['state'];
