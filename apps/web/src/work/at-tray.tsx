import { to } from '../live/route.js';

/** Where fastenings come out or go back, the tally is entered at their tray: which were whole, which were not. */
export function AtTray({ tray }: { tray: { id: string; name: string } }) {
  return (
    <p>
      Its fastenings have a tray: <a href={to('trays', tray.id)}>enter the work at tray {tray.name}</a>. The
      tally goes with it.
    </p>
  );
}
