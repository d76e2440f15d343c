interface CautionsProps {
  cautions: { words: string; basis: string }[];
  notice: string;
  level?: 'h2' | 'h3' | 'h4';
}

/** What can hurt someone at this work, and who decides. Never a promise that it cannot. */
export function Cautions({ cautions, notice, level = 'h3' }: CautionsProps) {
  const Heading = level;
  return (
    <div className="cautions">
      <Heading>Cautions</Heading>
      {cautions.length ? (
        <ul>
          {cautions.map((caution) => (
            <li key={caution.words}>{caution.words}</li>
          ))}
        </ul>
      ) : (
        <p>None is written down for this work. Ask before you start.</p>
      )}
      <p className="notice">{notice}</p>
      {cautions.length ? (
        <details className="fold">
          <summary>Where these come from</summary>
          <ul>
            {cautions.map((caution) => (
              <li key={caution.words}>
                {caution.words} <em>{caution.basis}</em>
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </div>
  );
}
