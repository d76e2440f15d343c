import { graphql } from '../gql/gql.js';
import type { WatchQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Section } from '../parts/page.js';
import { list, lowerFirst } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import { Override, TakeBack } from './override.js';
import { Rules } from './rules.js';
import { Supports } from './supports.js';

const WatchQuestion = graphql(`
  query Watch {
    brokenLimits {
      limit {
        id
        version
        name
        basis
        atMost
      }
      open {
        id
        name
      }
    }
    openingLimits {
      id
      version
      name
      notCounted {
        id
        name
      }
      override {
        by
        reason
        untilOn
      }
    }
    openingRules {
      rule
      says
      usual
      here
      changedBy
      reason
    }
    hullSupports {
      id
      version
      kind
      side
      firstFrame
      lastFrame
      seenBy
      seenOn
      struckOn
      stands
    }
  }
`);

type Broken = WatchQuery['brokenLimits'][number];

/** Limits that are broken now by what is really open, the rules that count here, and what holds her. */
export function Watch() {
  const [answer, again] = useAsk(WatchQuestion, {}, 'plan');
  return (
    <Section title="Openings" id="openings">
      <Asked answer={answer} what="the openings" again={again}>
        {({ brokenLimits, openingLimits, openingRules, hullSupports }) => (
          <>
            {brokenLimits.length ? (
              <>
                <h3>Broken now, whatever the plan says</h3>
                <ul className="hull-list">
                  {brokenLimits.map((broken) => (
                    <BrokenLimit key={broken.limit.id} broken={broken} changed={again} />
                  ))}
                </ul>
              </>
            ) : (
              <p>No limit is broken by what is on record as open.</p>
            )}
            <SetAside limits={openingLimits} changed={again} />
            <Rules rules={openingRules} changed={again} />
            <Supports supports={hullSupports} changed={again} />
          </>
        )}
      </Asked>
    </Section>
  );
}

function BrokenLimit({ broken, changed }: { broken: Broken; changed: () => void }) {
  const { me } = useYard();
  const { limit, open } = broken;
  return (
    <li>
      <p className="gap">
        {limit.name}: {list(open.map((element) => lowerFirst(element.name)))}{' '}
        {open.length === 1 ? 'is' : 'are'} open.
      </p>
      <p className="pencil">{limit.basis}</p>
      {me.role === 'SHIPWRIGHT' ? <Override limit={limit} elements={open} changed={changed} /> : null}
    </li>
  );
}

/** What the shipwright set aside by hand, in writing; what follows from a changed rule is taken back at its rule. */
function SetAside({ limits, changed }: { limits: WatchQuery['openingLimits']; changed: () => void }) {
  const { me } = useYard();
  const aside = limits.flatMap((limit) => (limit.override ? [{ ...limit, override: limit.override }] : []));
  if (aside.length === 0) return null;
  return (
    <details>
      <summary>Limits set aside in writing: {aside.length}</summary>
      <ul className="hull-list">
        {aside.map((limit) => (
          <li key={limit.id}>
            <p>
              {limit.name}
              {limit.notCounted.length
                ? `: ${list(limit.notCounted.map((element) => lowerFirst(element.name)))} may be open`
                : ''}
              {limit.override.untilOn ? ` until ${sayDay(limit.override.untilOn)}` : ''}.
            </p>
            <p className="pencil">
              {limit.override.by}: {limit.override.reason}
            </p>
            {me.role === 'SHIPWRIGHT' ? <TakeBack limit={limit} changed={changed} /> : null}
          </li>
        ))}
      </ul>
    </details>
  );
}
