import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { HandoverQuery } from '../gql/graphql.js';
import { useSay } from '../live/announcer.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Choice } from '../parts/field.js';
import { Page } from '../parts/page.js';
import { PrintButton } from '../parts/print-button.js';
import { fateWords } from '../pieces/piece-words.js';
import { sayBalance } from '../trays/balance-words.js';
import { capital, count, list, sayMinutes } from '../words/amounts.js';
import { dayOf, sayDay, sayShortDay } from '../words/dates.js';
import { saveAsOneFile } from './one-file.js';
import './handover.css';

const HandoverQuestion = graphql(`
  query Handover {
    handover {
      key
      name
      found
      methods
      minutes
      openedAt
      shutAt
      newHoles {
        graded
        newHoles
        inNewWood
      }
      story {
        at
        words
        by
      }
      fastenings {
        ...Balance
      }
      pieces {
        id
        code
        name
        fate
        keptAt
        pictures {
          id
          address
          width
          height
          caption
        }
      }
    }
  }
`);

type Timber = HandoverQuery['handover'][number];

/** The history of each timber, to be printed: whole for the next crew, short for a talk to visitors. */
export function Handover() {
  const { haulOut } = useYard();
  const [answer, again] = useAsk(HandoverQuestion, {}, 'plan');
  const [isShort, setShort] = useState(false);
  return (
    <Page
      title={`${haulOut?.vessel.name ?? 'The vessel'}: what was done to her`}
      lead={<p>{isShort ? 'For visitors.' : 'For whoever opens her next.'} Volunteers are not named.</p>}
    >
      <div className="no-print">
        <p>
          <a href={to('pieces')}>All pieces</a>
        </p>
        <Choice
          id="handover-kind"
          label="How much"
          value={isShort ? 'short' : 'whole'}
          onChange={(event) => {
            setShort(event.target.value === 'short');
          }}
        >
          <option value="whole">Whole, for the next crew</option>
          <option value="short">Short, for a talk to visitors</option>
        </Choice>
        <PrintButton /> <OneFile title={`${haulOut?.vessel.name ?? 'The vessel'}: what was done to her`} />
      </div>
      <Asked answer={answer} what="her timbers" again={again}>
        {({ handover }) => {
          const told = handover.filter((timber) => !isShort || hasSomethingToShow(timber));
          return told.length ? (
            <div id="handover-pack">
              <NewHolesOf timbers={handover} />
              {told.map((timber) => (
                <TimberPage key={timber.key} timber={timber} isShort={isShort} />
              ))}
            </div>
          ) : (
            <Nothing>
              <p>Nothing has been done to her yet that could be told.</p>
            </Nothing>
          );
        }}
      </Asked>
    </Page>
  );
}

const hasSomethingToShow = (timber: Timber): boolean =>
  timber.minutes > 0 || timber.pieces.some((piece) => piece.pictures.length > 0);

function sayOpenTimes({ openedAt, shutAt }: Timber, timeZone: string): string {
  const opened = `Opened on ${sayDay(dayOf(openedAt ?? '', timeZone))}`;
  return shutAt ? `${opened}, shut again on ${sayDay(dayOf(shutAt, timeZone))}.` : `${opened}; it is open.`;
}

type Holes = NonNullable<Timber['newHoles']>;

const sayNewHoles = ({ graded, newHoles, inNewWood }: Holes): string =>
  `${count(graded, 'hole')} graded: ${count(newHoles, 'new hole')} in kept timber${
    inNewWood ? `, ${inNewWood} of them because the frame behind is new` : ''
  }.`;

/** How many new holes the whole repair made, as far as the hole books say. */
function NewHolesOf({ timbers }: { timbers: Timber[] }) {
  const books = timbers.flatMap(({ newHoles }) => (newHoles?.graded ? [newHoles] : []));
  if (books.length === 0) return null;
  const sum = (part: keyof Holes): number => books.reduce((all, one) => all + one[part], 0);
  return (
    <p>
      The whole repair, as far as its hole books are kept:{' '}
      {sayNewHoles({ graded: sum('graded'), newHoles: sum('newHoles'), inNewWood: sum('inNewWood') })}
    </p>
  );
}

function OneFile({ title }: { title: string }) {
  const say = useSay();
  const [fault, setFault] = useState<string | null>(null);
  async function save() {
    setFault(null);
    try {
      await saveAsOneFile(document.getElementById('handover-pack'), title);
      say('The pack is saved as one file.');
    } catch (error) {
      setFault(`A picture did not come: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  return (
    <>
      <button type="button" className="quiet" onClick={() => void save()}>
        Save it as one file, with its pictures
      </button>
      {fault ? (
        <p className="gap" role="alert">
          {fault}
        </p>
      ) : null}
    </>
  );
}

function TimberPage({ timber, isShort }: { timber: Timber; isShort: boolean }) {
  const { timeZone, today } = useYard();
  const pictures = timber.pieces.flatMap((piece) =>
    piece.pictures.map((picture) => ({ ...picture, of: piece.name })),
  );
  const passed = timber.story.filter((line) => line.words.startsWith('Passed'));
  return (
    <article className="timber-history">
      <h2>{capital(timber.name)}</h2>
      {timber.found.map((line) => (
        <p key={line}>{capital(line)}</p>
      ))}
      {timber.openedAt ? <p>{sayOpenTimes(timber, timeZone)}</p> : null}
      {timber.minutes > 0 ? <p>{capital(sayMinutes(timber.minutes))} of work by all hands.</p> : null}
      {isShort ? null : (
        <>
          {timber.methods.length ? <p>By the method: {list(timber.methods)}.</p> : null}
          {timber.fastenings ? <p>{sayBalance(timber.fastenings).join(' ')}</p> : null}
          {timber.newHoles?.graded ? <p>{sayNewHoles(timber.newHoles)}</p> : null}
          {timber.pieces.map((piece) => (
            <p key={piece.id}>
              {piece.name} (tag {piece.code}): {fateWords[piece.fate]}
              {piece.keptAt ? `; kept at ${piece.keptAt}` : ''}.
            </p>
          ))}
          <ol className="plain">
            {timber.story.map((line, index) => (
              <li key={index}>
                <span className="pencil">{sayShortDay(dayOf(line.at, timeZone), today)}</span> {line.words}
                {line.by ? ` ${line.by}` : ''}
              </li>
            ))}
          </ol>
        </>
      )}
      {isShort && passed.length ? <p>{passed.length} pieces of work on it are passed.</p> : null}
      {pictures.length ? (
        <div className="history-pictures">
          {pictures.map((picture) => (
            <figure key={picture.id}>
              <img
                src={picture.address}
                width={picture.width}
                height={picture.height}
                alt={picture.caption ?? `${picture.of}, a picture without a caption`}
              />
              <figcaption>{picture.caption ?? picture.of}</figcaption>
            </figure>
          ))}
        </div>
      ) : null}
    </article>
  );
}
