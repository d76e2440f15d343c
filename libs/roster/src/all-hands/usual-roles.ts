/** What a role asks for besides what the work asks of everybody. */
type RoleNeeds = 'skill of the work' | 'first-aid card';

interface UsualRole {
  role: string;
  count: number;
  needs: RoleNeeds | null;
}

export interface UsualDay {
  title: string;
  roles: readonly UsualRole[];
}

const role = (words: string, count: number, needs: RoleNeeds | null = null): UsualRole => {
  return { role: words, count, needs };
};

const onTheLift = [
  role('speaks with the yard’s lift', 1, 'skill of the work'),
  role('leads the lines', 1, 'skill of the work'),
  role('line handler', 3),
  role('fenders', 1),
  role('pumps and bilge watch', 2),
  role('keeper of the cleared zone', 1),
  role('first aider', 1, 'first-aid card'),
  role('gate and visitors', 1),
];

/**
 * The roles with which an all-hands day is proposed, for the coordinator to change. Common practice, no source. The yard
 * moves her: on a lift our hands tend lines and fenders where the yard puts them.
 */
export const usualDays: readonly UsualDay[] = [
  { title: 'Launch day', roles: onTheLift },
  { title: 'Lift day', roles: onTheLift },
  {
    title: 'Steam day',
    roles: [
      role('box and fire', 1),
      role('leads the hot plank', 1, 'skill of the work'),
      role('carries and bends the hot plank', 4),
      role('clamps and wedges', 2),
      role('clock and log', 1),
      role('keeper of the cleared zone', 1),
      role('first aider', 1, 'first-aid card'),
    ],
  },
];
