import { sayDay } from '../words/dates.js';

/** Which turnout a page is about; nothing until it is known. */
export function TurnoutLead({
  turnout,
}: {
  turnout: { on: string; startTime: string; endTime: string } | null | undefined;
}) {
  if (!turnout) return null;
  return (
    <p>
      {sayDay(turnout.on)}, {turnout.startTime} to {turnout.endTime}
    </p>
  );
}
