import { useEffect } from 'react';
import { useAsk } from '../live/ask.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { count, list, sayNumber } from '../words/amounts.js';
import { sayDay } from '../words/dates.js';
import { Flitches } from './flitches.js';
import { LayUpPart } from './lay-up.js';
import { Logs } from './logs.js';
import { SettingsPart } from './settings.js';
import { ShapePart } from './shape.js';
import { Sources } from './sources.js';
import { TimberQuestion, type Book } from './timber.question.js';
import { WantedList } from './wanted.js';
import './timber.css';

/** How often a proposal that is being made is looked for. */
const lookAgainMillis = 2_000;

/** The timber book: what new wood she needs, what stock there is, and which piece is sawn from which flitch. */
export function Timber() {
  const { me } = useYard();
  const [answer, again] = useAsk(TimberQuestion, {}, 'plan');
  const isLayingUp = answer.data?.timberBook?.isLayingUp ?? false;
  useEffect(() => {
    if (!isLayingUp) return;
    const timer = setInterval(again, lookAgainMillis);
    return () => {
      clearInterval(timer);
    };
  }, [isLayingUp, again]);
  const keeps = me.role === 'SHIPWRIGHT' || me.role === 'COORDINATOR';
  return (
    <Page title="The timber" lead={<Headline book={answer.data?.timberBook ?? null} />}>
      <Asked answer={answer} what="the timber" again={again}>
        {({ timberBook: book }) =>
          book ? (
            <>
              <WantedList book={book} keeps={keeps} changed={again} />
              <LayUpPart book={book} decides={me.role === 'SHIPWRIGHT'} changed={again} />
              <Section title="Stock" id="timber-stock">
                <Flitches book={book} keeps={keeps} changed={again} />
              </Section>
              <Section title="Logs" id="timber-logs">
                <Logs book={book} keeps={keeps} changed={again} />
              </Section>
              <Section title="Where it comes from" id="timber-sources">
                <Sources book={book} keeps={keeps} thanks={me.role !== 'VOLUNTEER'} changed={again} />
              </Section>
              <ShapePart decides={me.role === 'SHIPWRIGHT'} changed={again} />
              <SettingsPart book={book} decides={me.role === 'SHIPWRIGHT'} changed={again} />
            </>
          ) : (
            <Nothing>
              <p>There is no haul-out yet, so no timber to keep a book of.</p>
            </Nothing>
          )
        }
      </Asked>
    </Page>
  );
}

function Headline({ book }: { book: Book | null }) {
  if (!book) return null;
  const { wood } = book;
  if (wood.length === 0) return <p>Nothing is to be made new yet: the pieces follow from the survey.</p>;
  const of = (standing: Book['wood'][number]['standing']) =>
    wood.filter((one) => one.standing === standing).length;
  const parts = [
    of('CUT') ? `${sayNumber(of('CUT'))} cut` : '',
    of('LAID_UP') ? `${sayNumber(of('LAID_UP'))} laid up` : '',
    of('WANTING') ? `${sayNumber(of('WANTING'))} without stock` : '',
    of('NOT_LAID_UP') ? `${sayNumber(of('NOT_LAID_UP'))} not laid up yet` : '',
  ].filter(Boolean);
  const last = wood
    .flatMap((one) => one.fromOn ?? [])
    .sort()
    .at(-1);
  return (
    <p>
      {count(wood.length, 'piece is', 'pieces are')} made new: {list(parts)}.
      {last ? <span className="pencil"> The last wood can be sawn from {sayDay(last)}.</span> : null}
    </p>
  );
}
