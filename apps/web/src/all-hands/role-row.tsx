import { Choice, Field } from '../parts/field.js';
import type { Filled } from '../parts/form.js';
import type { Usual } from './all-hands.question.js';

export interface DraftRole {
  /** In front of the names of its controls. */
  key: string;
  role: string;
  count: number;
  asksSkill: boolean;
  card?: { id: string } | null;
}

interface RoleRowProps {
  draft: DraftRole;
  /** What the work asks for; null where it asks for no skill. */
  seat: { skillId: string; level: number } | null;
  usual: Usual;
  leaveOut: () => void;
}

/** One role of the day: what is done, by how many, and what it asks for. */
export function RoleRow({ draft, seat, usual, leaveOut }: RoleRowProps) {
  const { key, role, count, asksSkill, card } = draft;
  const control = (part: string) => ({ id: `${key}-${part}`, name: `${key}-${part}` });
  return (
    <fieldset>
      <legend className="unseen">{role || 'Another role'}</legend>
      <div className="row">
        <Field {...control('role')} label="Role" size={32} defaultValue={role} />
        <Field {...control('count')} label="How many" type="number" min={1} max={20} defaultValue={count} />
        <button type="button" className="quiet" onClick={leaveOut}>
          Leave out<span className="unseen"> {role || 'this role'}</span>
        </button>
      </div>
      <details className="fold" open={(asksSkill && seat !== null) || Boolean(card)}>
        <summary>Skill and card</summary>
        <div className="row">
          <Choice {...control('skillId')} label="Skill" defaultValue={asksSkill ? (seat?.skillId ?? '') : ''}>
            <option value="">none</option>
            {usual.skills.map((skill) => (
              <option key={skill.id} value={skill.id}>
                {skill.name}
              </option>
            ))}
          </Choice>
          <Choice {...control('level')} label="and at least" defaultValue={seat?.level ?? 2}>
            <option value={1}>is learning it</option>
            <option value={2}>works alone in it</option>
            <option value={3}>teaches it</option>
            <option value={4}>may say so</option>
          </Choice>
          <Choice {...control('cardKindId')} label="Card" defaultValue={card?.id ?? ''}>
            <option value="">only those of the work</option>
            {usual.cardKinds.map((kind) => (
              <option key={kind.id} value={kind.id}>
                {kind.name}
              </option>
            ))}
          </Choice>
        </div>
      </details>
    </fieldset>
  );
}

/** Which control each field of the roles is, for a refusal. */
export const fieldsOf = (roles: readonly DraftRole[]): Record<string, string> =>
  Object.fromEntries(
    roles.flatMap(({ key }, i) =>
      ['role', 'count', 'skillId', 'level', 'cardKindId'].map((part) => [
        `roles[${i}].${part}`,
        `${key}-${part}`,
      ]),
    ),
  );

/** A role as it was filled in. */
export function filledRole(filled: Filled, key: string) {
  const skillId = filled.textOrNull(`${key}-skillId`);
  return {
    role: filled.text(`${key}-role`),
    count: filled.number(`${key}-count`),
    skillId,
    level: skillId === null ? 0 : filled.number(`${key}-level`),
    cardKindId: filled.textOrNull(`${key}-cardKindId`),
  };
}

/** One more role, empty. */
export function newRole(roles: readonly DraftRole[], prefix = 'role-own'): DraftRole {
  const numbers = roles.map(({ key }) => Number(key.split('-').at(-1)));
  const key = `${prefix}-${Math.max(-1, ...numbers) + 1}`;
  return { key, role: '', count: 1, asksSkill: false, card: null };
}
