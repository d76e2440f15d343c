import { Field } from './field.js';

interface DaySpanProps {
  /** In front of the ids of both fields. */
  id: string;
  from: string;
  to: string;
  setFrom: (day: string) => void;
  setTo: (day: string) => void;
}

/** From which day to which: two fields beside one another; one that is emptied keeps its day. */
export function DaySpan({ id, from, to, setFrom, setTo }: DaySpanProps) {
  const day = (end: 'from' | 'to', label: string, value: string, set: (day: string) => void) => (
    <Field
      id={`${id}-${end}`}
      type="date"
      label={label}
      value={value}
      onChange={(event) => {
        if (event.target.value) set(event.target.value);
      }}
    />
  );
  return (
    <div className="side-by-side">
      {day('from', 'From', from, setFrom)}
      {day('to', 'To', to, setTo)}
    </div>
  );
}
