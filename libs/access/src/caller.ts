import { registerEnumType } from '@nestjs/graphql';

export const roles = ['director', 'coordinator', 'shipwright', 'volunteer'] as const;
/** What somebody is at one yard. */
export type Role = (typeof roles)[number];

/** The roles for GraphQL: DIRECTOR is 'director' inside. */
export const RoleEnum = {
  DIRECTOR: 'director',
  COORDINATOR: 'coordinator',
  SHIPWRIGHT: 'shipwright',
  VOLUNTEER: 'volunteer',
} as const;

registerEnumType(RoleEnum, {
  name: 'Role',
  description: 'What somebody is at a yard, and so what they may do there.',
  valuesMap: {
    DIRECTOR: { description: 'Answers for the project: dates, money, accounts.' },
    COORDINATOR: { description: 'Runs the days: who comes when, and what they do.' },
    SHIPWRIGHT: { description: 'Answers for the work: how it is done, and whether it is good.' },
    VOLUNTEER: { description: 'Comes to work.' },
  },
});

/** Who asks, at which yard, and as what. */
export interface Caller {
  accountId: string;
  name: string;
  organisationId: string;
  role: Role;
  /** The caller's entry in the crew's list, if they have one. */
  volunteerId: string | null;
}
