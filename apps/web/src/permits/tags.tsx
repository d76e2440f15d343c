import type { TagKind } from '../gql/graphql.js';
import { useDeed } from '../live/deed.js';
import { useYard } from '../live/yard.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { Section } from '../parts/page.js';
import { addDays, sayDay } from '../words/dates.js';
import { EndIt } from './end-it.js';
import { HangTagDeed, type Safety, WithdrawTagDeed } from './permits.question.js';

const tagWords: Record<TagKind, string> = { STAGING: 'Staging', LIFTING_GEAR: 'Lifting gear' };

export function Tags({ tags, changed }: { tags: Safety['tags']; changed: () => void }) {
  const { me, today } = useYard();
  const { run } = useDeed(HangTagDeed);
  const withdraw = useDeed(WithdrawTagDeed);
  return (
    <Section title="Staging and lifting gear" id="tags">
      {tags.length ? (
        <ul className="plain">
          {tags.map((tag) => (
            <li key={tag.id}>
              <p className={tag.expiresOn < today ? 'gap' : undefined}>
                {tagWords[tag.kind]}, {tag.name}: inspected by {tag.inspectedBy} on{' '}
                {sayDay(tag.inspectedOn, today)}, {tag.expiresOn < today ? 'lapsed on' : 'counts until'}{' '}
                {sayDay(tag.expiresOn, today)}.
              </p>
              <EndIt
                words="Take it out of use"
                run={() => withdraw.run({ id: tag.id })}
                busy={withdraw.busy}
                changed={changed}
              />
            </li>
          ))}
        </ul>
      ) : (
        <p>
          No inspection is on record. Whoever takes a place on work above ground is told so beforehand; on the
          day itself that work waits until the staging carries a tag that counts.
        </p>
      )}
      {me.role === 'DIRECTOR' ? null : (
        <FoldForm
          summary="It was inspected"
          press="Hang the tag"
          done="The tag is written down."
          fields={{
            name: 'tag-name',
            inspectedBy: 'tag-by',
            inspectedOn: 'tag-on',
            expiresOn: 'tag-until',
          }}
          changed={changed}
          send={(filled) =>
            run({
              input: {
                kind: filled.text('kind') as TagKind,
                name: filled.text('name'),
                inspectedBy: filled.text('by'),
                inspectedOn: filled.text('on'),
                expiresOn: filled.text('until'),
              },
            })
          }
        >
          <Choice id="tag-kind" name="kind" label="What">
            {Object.entries(tagWords).map(([kind, words]) => (
              <option key={kind} value={kind}>
                {words}
              </option>
            ))}
          </Choice>
          <Field id="tag-name" name="name" label="Which, and where" />
          <Field id="tag-by" name="by" label="Who inspected it" defaultValue={me.account.name} />
          <Field id="tag-on" name="on" type="date" label="On" defaultValue={today} />
          <Field
            id="tag-until"
            name="until"
            type="date"
            label="Last day on which it counts"
            defaultValue={addDays(today, 7)}
          />
        </FoldForm>
      )}
    </Section>
  );
}
