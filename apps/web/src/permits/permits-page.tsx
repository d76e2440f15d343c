import { useAsk } from '../live/ask.js';
import { Asked } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { Ages } from './ages.js';
import { Noise } from './noise.js';
import { Permits } from './permits.js';
import { PermitsQuestion } from './permits.question.js';
import { Tags } from './tags.js';
import { Weather } from './weather.js';

/** What the gates ask before somebody takes a place: weather, permits, inspection tags, noise and ages. */
export function PermitsPage() {
  const [answer, again] = useAsk(PermitsQuestion, {});
  return (
    <Page
      title="Permits and weather"
      lead={
        <p>
          Written down here, the gates know it. What may be done is decided by local law, the yard, the
          insurer and a competent person on the spot.
        </p>
      }
    >
      <Asked answer={answer} what="permits and weather" again={again}>
        {({ safety, tools, gateRules }) => (
          <>
            <Weather weather={safety.weather ?? null} hazards={safety.ages.byHazard} changed={again} />
            <Permits permits={safety.permits} changed={again} />
            <Tags tags={safety.tags} changed={again} />
            <Noise safety={safety} tools={tools} changed={again} />
            <Ages safety={safety} changed={again} />
            <Section title="The rules" id="rules">
              <details className="fold">
                <summary>Every rule, where it comes from, and who may set it aside</summary>
                <ul className="plain">
                  {gateRules.map((rule) => (
                    <li key={rule.says}>
                      {rule.says} <em>{rule.basis}.</em> Set aside by {rule.setAsideBy}.
                    </li>
                  ))}
                </ul>
              </details>
            </Section>
          </>
        )}
      </Asked>
    </Page>
  );
}
