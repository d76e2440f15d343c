import { useId } from 'react';

interface StepperProps {
  label: string;
  value: number;
  most?: number;
  change: (value: number) => void;
  id: string;
  hint?: string;
}

/** A count that is entered with a thumb: less, the number, more. */
export function Stepper({ label, value, most = 9999, change, id, hint }: StepperProps) {
  const hintId = useId();
  const to = (next: number) => {
    change(Math.max(0, Math.min(most, Math.round(next) || 0)));
  };
  return (
    <div className="stepper">
      <label htmlFor={id}>{label}</label>
      <div className="stepper-row">
        <button
          type="button"
          aria-label={`One less: ${label}`}
          onClick={() => {
            to(value - 1);
          }}
        >
          −
        </button>
        <input
          id={id}
          type="number"
          inputMode="numeric"
          min={0}
          value={value}
          aria-describedby={hint ? hintId : undefined}
          onFocus={(event) => {
            event.currentTarget.select();
          }}
          onChange={(event) => {
            to(Number(event.target.value));
          }}
        />
        <button
          type="button"
          aria-label={`One more: ${label}`}
          onClick={() => {
            to(value + 1);
          }}
        >
          +
        </button>
      </div>
      {hint ? (
        <p id={hintId} className="hint">
          {hint}
        </p>
      ) : null}
    </div>
  );
}
