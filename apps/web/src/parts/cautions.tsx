/** What can hurt someone at this work, and who decides. Never a promise that it cannot. */
export function Cautions({
  cautions,
  notice,
  level = 'h3',
}: {
  cautions: string[];
  notice: string;
  level?: 'h2' | 'h3' | 'h4';
}) {
  const Heading = level;
  return (
    <div className="cautions">
      <Heading>Cautions</Heading>
      {cautions.length ? (
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      ) : (
        <p>None is written down for this work. Ask before you start.</p>
      )}
      <p className="notice">{notice}</p>
    </div>
  );
}
