/** The cautions of a piece of work, folded under their number; the notice on who decides stands once on the page. */
export function CautionFold({ title, lines }: { title: string; lines: string[] }) {
  if (!lines.length) return null;
  return (
    <details className="fold">
      <summary>
        {lines.length === 1 ? 'One caution' : `${lines.length} cautions`}
        <span className="unseen"> for {title}</span>
      </summary>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  );
}
