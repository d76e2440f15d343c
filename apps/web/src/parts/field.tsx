import type { InputHTMLAttributes, ReactNode, SelectHTMLAttributes, TextareaHTMLAttributes } from 'react';

interface Labelled {
  id: string;
  label: ReactNode;
  hint?: ReactNode;
  /** Set when the last answer refused this field. */
  wrong?: string | null | undefined;
}

function described({ id, hint, wrong }: Labelled): string | undefined {
  const ids = [hint ? `${id}-hint` : '', wrong ? `${id}-wrong` : ''].filter(Boolean).join(' ');
  return ids || undefined;
}

function Around({ id, label, hint, wrong, children }: Labelled & { children: ReactNode }) {
  return (
    <div className={wrong ? 'field field-wrong' : 'field'}>
      <label htmlFor={id}>{label}</label>
      {hint ? (
        <p id={`${id}-hint`} className="hint">
          {hint}
        </p>
      ) : null}
      {wrong ? (
        <p id={`${id}-wrong`} className="wrong">
          {wrong}
        </p>
      ) : null}
      {children}
    </div>
  );
}

export function Field({ label, hint, wrong, ...input }: Labelled & InputHTMLAttributes<HTMLInputElement>) {
  return (
    <Around id={input.id} label={label} hint={hint} wrong={wrong}>
      <input
        {...input}
        aria-describedby={described({ id: input.id, label, hint, wrong })}
        aria-invalid={wrong ? true : undefined}
      />
    </Around>
  );
}

export function Choice({
  label,
  hint,
  wrong,
  children,
  ...select
}: Labelled & SelectHTMLAttributes<HTMLSelectElement>) {
  return (
    <Around id={select.id} label={label} hint={hint} wrong={wrong}>
      <select
        {...select}
        aria-describedby={described({ id: select.id, label, hint, wrong })}
        aria-invalid={wrong ? true : undefined}
      >
        {children}
      </select>
    </Around>
  );
}

export function Note({
  label,
  hint,
  wrong,
  ...area
}: Labelled & TextareaHTMLAttributes<HTMLTextAreaElement>) {
  return (
    <Around id={area.id} label={label} hint={hint} wrong={wrong}>
      <textarea
        rows={2}
        {...area}
        aria-describedby={described({ id: area.id, label, hint, wrong })}
        aria-invalid={wrong ? true : undefined}
      />
    </Around>
  );
}

export function Tick({ id, label, hint, ...input }: Labelled & InputHTMLAttributes<HTMLInputElement>) {
  return (
    <div className="tick">
      <input {...input} id={id} type="checkbox" aria-describedby={hint ? `${id}-hint` : undefined} />
      <label htmlFor={id}>{label}</label>
      {hint ? (
        <p id={`${id}-hint`} className="hint">
          {hint}
        </p>
      ) : null}
    </div>
  );
}
