/** Hatching that says opening and closing without colour: leaning one way and the other. */
export function Patterns({ id }: { id: string }) {
  return (
    <defs>
      <pattern id={`${id}-opening`} width="7" height="7" patternUnits="userSpaceOnUse">
        <path className="hatch" d="M-1 8 L8 -1" />
      </pattern>
      <pattern id={`${id}-closing`} width="7" height="7" patternUnits="userSpaceOnUse">
        <path className="hatch" d="M-1 -1 L8 8" />
      </pattern>
    </defs>
  );
}
