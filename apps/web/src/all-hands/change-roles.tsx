import { useState } from 'react';
import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { Asked } from '../parts/asked.js';
import { FoldForm } from '../parts/fold-form.js';
import type { Filled } from '../parts/form.js';
import type { Watch } from '../watches/watches.question.js';
import { sayDay } from '../words/dates.js';
import {
  AllHandsRolesQuestion,
  AllHandsUsualQuestion,
  ChangeAllHandsRolesDeed,
  type LaidRole,
  type Usual,
} from './all-hands.question.js';
import { type DraftRole, fieldsOf, filledRole, newRole, RoleRow } from './role-row.js';

interface ChangeRolesProps {
  turnout: Watch['turnout'];
  changed: () => void;
}

/** The roles of a day that is laid on: more, fewer, called otherwise. */
export function ChangeRoles({ turnout, changed }: ChangeRolesProps) {
  const [roles, again] = useAsk(AllHandsRolesQuestion, { turnoutId: turnout.id }, 'roster');
  const [usual] = useAsk(AllHandsUsualQuestion, {});
  return (
    <Asked answer={roles} what="the roles" again={again}>
      {({ allHandsRoles }) =>
        usual.data ? (
          <ChangeForm
            turnout={turnout}
            laid={allHandsRoles}
            usual={usual.data}
            changed={() => {
              again();
              changed();
            }}
          />
        ) : null
      }
    </Asked>
  );
}

interface Drafted {
  draft: DraftRole;
  laid: LaidRole | null;
}

function ChangeForm({
  turnout,
  laid,
  usual,
  changed,
}: ChangeRolesProps & { laid: LaidRole[]; usual: Usual }) {
  const { run } = useDeed(ChangeAllHandsRolesDeed);
  const prefix = `change-${turnout.id}`;
  const { version } = turnout;
  const laidAs = JSON.stringify(laid);
  const [of, setOf] = useState({ laidAs, version });
  const [rows, setRows] = useState<Drafted[]>(() => drafted(laid, prefix));
  // From the first thing typed until it is sent, the rows stay what they are.
  const [isBegun, setIsBegun] = useState(false);
  const isOld = of.laidAs !== laidAs || of.version !== version;
  const startAnew = () => {
    setIsBegun(false);
    setOf({ laidAs, version });
    setRows(drafted(laid, prefix));
  };
  if (isOld && !isBegun) startAnew();
  const change = (others: Drafted[]) => {
    setIsBegun(true);
    setRows(others);
  };
  const drafts = rows.map(({ draft }) => draft);

  function send(filled: Filled) {
    return run({
      turnoutId: turnout.id,
      // Whoever changed them elsewhere is not overwritten unseen: the version is that of what is shown.
      version: of.version,
      roles: rows.map((row) => ({ ...filledRole(filled, row.draft.key), was: row.laid?.role ?? null })),
    });
  }

  return (
    <FoldForm
      summary={`Change the roles of ${turnout.note ?? 'the day'}, ${sayDay(turnout.on)}`}
      press="Change the roles"
      done="The roles are changed. Who lost a place, or has a role that is called otherwise, is told."
      fields={fieldsOf(drafts)}
      changed={() => {
        setIsBegun(false);
        changed();
      }}
      onInput={() => {
        setIsBegun(true);
      }}
      send={send}
    >
      {isOld ? (
        <div className="notice" role="status">
          <p>
            The day was changed elsewhere since you began. What you typed is still here; it cannot be sent
            over that change.
          </p>
          <button type="button" className="quiet" onClick={startAnew}>
            Start anew from what the day has now
          </button>
        </div>
      ) : null}
      <p className="hint">
        Who has a place keeps it while the role stays. Of fewer, open places go first, and then who said yes
        last.
      </p>
      {rows.map((row) => (
        <RoleRow
          key={`${row.draft.key} ${of.version} ${of.laidAs}`}
          draft={row.draft}
          seat={row.laid?.skill ? { skillId: row.laid.skill.id, level: row.laid.level } : null}
          usual={usual}
          leaveOut={() => {
            change(rows.filter((other) => other !== row));
          }}
        />
      ))}
      <p>
        <button
          type="button"
          className="quiet"
          onClick={() => {
            change([...rows, { draft: newRole(drafts, prefix), laid: null }]);
          }}
        >
          Another role
        </button>
      </p>
    </FoldForm>
  );
}

const drafted = (laid: readonly LaidRole[], prefix: string): Drafted[] =>
  laid.map((one, i) => ({
    draft: {
      ...{ key: `${prefix}-${i}`, role: one.role, count: one.count },
      ...{ asksSkill: Boolean(one.skill), card: one.card ?? null },
    },
    laid: one,
  }));
