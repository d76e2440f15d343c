import { graphql } from '../gql/gql.js';
import type { WatchQuery } from '../gql/graphql.js';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Field, Note, Tick } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';

const ChangeDeed = graphql(`
  mutation ChangeOpeningRule(
    $rule: OpeningRule!
    $atMost: Int
    $keepClosed: [String!]
    $usual: Boolean!
    $reason: String!
  ) {
    changeOpeningRule(rule: $rule, atMost: $atMost, keepClosed: $keepClosed, usual: $usual, reason: $reason) {
      __typename
      ...Refused
    }
  }
`);

type Rule = WatchQuery['openingRules'][number];

/** The rules behind the limits, each with what counts here; the shipwright changes one in writing. */
export function Rules({ rules, changed }: { rules: Rule[]; changed: () => void }) {
  const { me } = useYard();
  return (
    <details>
      <summary>The rules that count here</summary>
      <ul className="hull-list">
        {rules.map((rule) => (
          <li key={rule.rule}>
            <strong>{rule.here}</strong>{' '}
            {rule.changedBy ? (
              <>
                in place of {rule.usual}, by {rule.changedBy}: {rule.reason}
              </>
            ) : (
              <span className="pencil">{rule.says}</span>
            )}
            {me.role === 'SHIPWRIGHT' ? <ChangeRule rule={rule} changed={changed} /> : null}
          </li>
        ))}
      </ul>
    </details>
  );
}

function ChangeRule({ rule, changed }: { rule: Rule; changed: () => void }) {
  const { run } = useDeed(ChangeDeed);
  const id = `rule-${rule.rule.toLowerCase()}`;
  const isPlaces = rule.rule === 'KEEP_CLOSED';
  return (
    <FoldForm
      summary={
        <>
          Change it, in my name<span className="unseen">: {rule.usual}</span>
        </>
      }
      press="Let this count here"
      done="It counts from now on; the plan is reckoned again."
      fields={{
        atMost: `${id}-most`,
        keepClosed: `${id}-sheer`,
        reason: `${id}-reason`,
        rule: `${id}-reason`,
      }}
      changed={changed}
      send={(filled) => {
        const usual = filled.ticked('usual');
        return run({
          rule: rule.rule,
          usual,
          atMost: isPlaces || usual ? null : Math.trunc(filled.number('atMost')),
          keepClosed: isPlaces && !usual ? filled.all('keepClosed') : null,
          reason: filled.text('reason'),
        });
      }}
    >
      {isPlaces ? (
        <fieldset>
          <legend>Last or alone</legend>
          {['garboard', 'bilge', 'sheer'].map((place) => (
            <Tick
              key={place}
              id={`${id}-${place}`}
              name="keepClosed"
              value={place}
              label={place}
              defaultChecked={rule.here.includes(place)}
            />
          ))}
        </fieldset>
      ) : (
        <Field
          id={`${id}-most`}
          name="atMost"
          type="number"
          min={1}
          max={80}
          label="At most open at once"
          defaultValue={Number.parseInt(rule.here, 10)}
        />
      )}
      {rule.changedBy ? (
        <Tick id={`${id}-usual`} name="usual" label={`Back to what is usual: ${rule.usual}`} />
      ) : null}
      <Note id={`${id}-reason`} name="reason" label="What holds her instead, or why not any more" />
    </FoldForm>
  );
}
