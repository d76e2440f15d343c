import { useYard, type HaulOut } from '../live/yard.js';
import { sayDollars, saySpare } from '../words/amounts.js';
import { sayDay, sayDistance, sayShortDay } from '../words/dates.js';
import { TideBoard, type TideMark } from './tide-board.js';

/** What many futures say. */
interface Forecast {
  slots: { slot: { kind: string }; words: string }[];
  readyBy: { futures: number; words: string }[];
  spread: string[];
}

/** When she is ready; the day is null where there is no plan. */
interface Ready {
  readyOn?: string | null;
  daysToSpare: number;
}

/** The gates and the day on which she is ready, as marks on the tide board. */
export function Gates({
  haulOut,
  ready,
  forecast,
}: {
  haulOut: HaulOut;
  ready: Ready;
  forecast: Forecast | null;
}) {
  const { today } = useYard();
  return (
    <>
      {forecast ? (
        <ul className="odds" aria-label="Ready by when">
          {forecast.readyBy.map(({ futures, words }) => (
            <li key={futures}>{words}.</li>
          ))}
        </ul>
      ) : null}
      <TideBoard
        hauledOutOn={haulOut.hauledOutOn}
        marks={marksFor(ready, haulOut, today, forecast)}
        futures={forecast?.spread ?? []}
      />
      {forecast ? (
        <p className="pencil">
          Each thin line on the board is one future in a hundred: where they lie close, she is likely to be
          ready.
        </p>
      ) : null}
    </>
  );
}

function marksFor(ready: Ready, haulOut: HaulOut, today: string, forecast: Forecast | null): TideMark[] {
  const { gate, fallback } = haulOut;
  const oddsOf = (kind: string) => forecast?.slots.find(({ slot }) => slot.kind === kind)?.words ?? null;
  const marks: TideMark[] = [
    {
      key: 'today',
      on: today,
      cut: 'water',
      label: <span className="pencil">today, {sayShortDay(today)}</span>,
    },
    {
      key: 'gate',
      on: gate.on,
      cut: 'gate',
      label: <GateWords name="The Gate" slot={gate} odds={oddsOf('GATE')} />,
    },
  ];
  if (fallback) {
    marks.push({
      key: 'fallback',
      on: fallback.on,
      cut: 'gate',
      label: <GateWords name="Fallback Gate" slot={fallback} odds={oddsOf('FALLBACK')} />,
    });
  }
  if (ready.readyOn) {
    marks.push({
      key: 'ready',
      on: ready.readyOn,
      cut: 'ready',
      label: (
        <>
          <strong>{forecast ? 'Ready if everyone comes' : 'She is ready'}</strong>
          <span>
            {sayDay(ready.readyOn)}, {saySpare(ready.daysToSpare)}
          </span>
        </>
      ),
    });
  }
  if (today !== haulOut.hauledOutOn) {
    marks.push({
      key: 'hauled',
      on: haulOut.hauledOutOn,
      cut: 'plain',
      label: <span className="pencil">hauled out, {sayShortDay(haulOut.hauledOutOn)}</span>,
    });
  }
  return marks;
}

function GateWords({ name, slot, odds }: { name: string; slot: HaulOut['gate']; odds: string | null }) {
  const { today } = useYard();
  return (
    <>
      <strong>{name}</strong>
      <span>
        {sayDay(slot.on)}, lift {slot.startTime} to {slot.endTime}
      </span>
      {odds ? <span>made: {odds}</span> : null}
      <span className="pencil">
        {slot.confirmBy
          ? `confirm by ${sayShortDay(slot.confirmBy)}, ${sayDistance(slot.confirmBy, today)}`
          : ''}
        {slot.extraCostCents
          ? `${slot.confirmBy ? '; ' : ''}costs ${sayDollars(slot.extraCostCents)} more`
          : ''}
      </span>
    </>
  );
}
