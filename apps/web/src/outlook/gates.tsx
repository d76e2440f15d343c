import { useYard, type HaulOut } from '../live/yard.js';
import { sayDollars, saySpare } from '../words/amounts.js';
import { sayDay, sayDistance, sayShortDay } from '../words/dates.js';
import { TideBoard, type TideMark } from './tide-board.js';

/** When she is ready; the day is null where there is no plan. */
interface Ready {
  readyOn?: string | null;
  daysToSpare: number;
}

/** The gates and the day on which she is ready, as marks on the tide board. */
export function Gates({ haulOut, ready }: { haulOut: HaulOut; ready: Ready }) {
  const { today } = useYard();
  return <TideBoard hauledOutOn={haulOut.hauledOutOn} marks={marksFor(ready, haulOut, today)} />;
}

function marksFor(ready: Ready, haulOut: HaulOut, today: string): TideMark[] {
  const { gate, fallback } = haulOut;
  const marks: TideMark[] = [
    {
      key: 'today',
      on: today,
      cut: 'water',
      label: <span className="pencil">today, {sayShortDay(today)}</span>,
    },
    { key: 'gate', on: gate.on, cut: 'gate', label: <GateWords name="The Gate" slot={gate} /> },
  ];
  if (fallback) {
    marks.push({
      key: 'fallback',
      on: fallback.on,
      cut: 'gate',
      label: <GateWords name="Fallback Gate" slot={fallback} />,
    });
  }
  if (ready.readyOn) {
    marks.push({
      key: 'ready',
      on: ready.readyOn,
      cut: 'ready',
      label: (
        <>
          <strong>She is ready</strong>
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

function GateWords({ name, slot }: { name: string; slot: HaulOut['gate'] }) {
  const { today } = useYard();
  return (
    <>
      <strong>{name}</strong>
      <span>
        {sayDay(slot.on)}, lift {slot.startTime} to {slot.endTime}
      </span>
      <span className="pencil">
        {[sayWord(slot, today), slot.extraCostCents ? `costs ${sayDollars(slot.extraCostCents)} more` : '']
          .filter(Boolean)
          .join('; ')}
      </span>
    </>
  );
}

/** Whether the yard was told, or by when it is to be. */
function sayWord({ confirmBy, word }: HaulOut['gate'], today: string): string {
  if (word) return `confirmed on ${sayShortDay(word.givenOn, today)} by ${word.givenBy}`;
  return confirmBy ? `confirm by ${sayShortDay(confirmBy)}, ${sayDistance(confirmBy, today)}` : '';
}
