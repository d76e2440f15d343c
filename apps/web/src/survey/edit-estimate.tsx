import { Choice, Field } from '../parts/field.js';
import { countNames } from './step-words.js';
import type { Rate, Rate3, Step, StepEstimate } from './survey-document.js';

interface EditEstimateProps {
  rates: Rate[];
  kind: Step['kind'];
  estimate: StepEstimate | null;
  set: (estimate: StepEstimate) => void;
}

/** How long a step takes: by a count at a rate, by hours of work, or a length of time. */
export function EditEstimate({ rates, kind, estimate, set }: EditEstimateProps) {
  if (!estimate) return null;
  const hours = { low: 60, likely: 120, high: 240 };
  return (
    <div className="row-form">
      {kind === 'work' ? (
        <Choice
          id="step-by"
          label="Its length is known by"
          value={estimate.by}
          onChange={(event) => {
            set(
              event.target.value === 'count'
                ? { by: 'count', count: 'nails', rate: rates[0]?.key ?? '' }
                : { by: 'work', personMinutes: hours, each: null },
            );
          }}
        >
          <option value="count">a count, at a rate</option>
          <option value="work">hours of work</option>
        </Choice>
      ) : null}
      {estimate.by === 'count' ? (
        <>
          <Choice
            id="step-count"
            label="What is counted"
            value={estimate.count}
            onChange={(event) => {
              set({ ...estimate, count: event.target.value });
            }}
          >
            {countNames.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </Choice>
          <Choice
            id="step-rate"
            label="At the rate"
            value={estimate.rate}
            onChange={(event) => {
              set({ ...estimate, rate: event.target.value });
            }}
          >
            {rates.map((rate) => (
              <option key={rate.key} value={rate.key}>
                {rate.says}, {rate.likely} {rate.unit}
              </option>
            ))}
          </Choice>
        </>
      ) : null}
      {estimate.by === 'work' ? (
        <>
          <Hours
            minutes={estimate.personMinutes}
            words="Hours of work"
            set={(personMinutes) => {
              set({ ...estimate, personMinutes });
            }}
          />
          <Choice
            id="step-each"
            label="For"
            value={estimate.each ?? ''}
            onChange={(event) => {
              set({ ...estimate, each: event.target.value || null });
            }}
          >
            <option value="">the whole</option>
            {countNames.map((name) => (
              <option key={name} value={name}>
                each of the {name}
              </option>
            ))}
          </Choice>
        </>
      ) : null}
      {estimate.by === 'time' ? (
        <Hours
          minutes={estimate.minutes}
          words="Hours"
          set={(minutes) => {
            set({ ...estimate, minutes });
          }}
        />
      ) : null}
    </div>
  );
}

function Hours({ minutes, words, set }: { minutes: Rate3; words: string; set: (minutes: Rate3) => void }) {
  return (['low', 'likely', 'high'] as const).map((point, at) => (
    <Field
      key={point}
      id={`step-${point}`}
      label={`${words}, ${['at least', 'usually', 'at most'][at] ?? ''}`}
      type="number"
      min={0}
      step={0.25}
      value={minutes[point] / 60}
      onChange={(event) => {
        set({ ...minutes, [point]: Math.round(Number(event.target.value) * 60) });
      }}
    />
  ));
}
