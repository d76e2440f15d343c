import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { capital } from '../words/amounts.js';
import { dayOf, sayDay, sayShortDay } from '../words/dates.js';
import { sayPosition, stateWords } from '../words/tasks.js';
import { EditPiece } from './edit-piece.js';
import { PiecePictures } from './piece-pictures.js';
import { fateWords } from './piece-words.js';
import { PieceByCodeQuestion, type Finding, type Piece } from './pieces.question.js';
import './pieces.css';

/** What a tag leads to: the piece, its story, and what is to be done next where it belongs. */
export function PiecePage({ code }: { code: string }) {
  const [answer, again] = useAsk(PieceByCodeQuestion, { code }, 'plan');
  const finding = answer.data?.pieceByCode;
  const piece = finding?.piece;
  return (
    <Page title={piece?.name ?? `Tag ${code.toUpperCase()}`} lead={finding ? <p>{finding.words}</p> : null}>
      <p>
        <a href={to('pieces')}>All pieces</a>
      </p>
      <Asked answer={answer} what="the piece" again={again}>
        {({ pieceByCode }) =>
          pieceByCode.piece ? (
            <WholePiece piece={pieceByCode.piece} reading={pieceByCode.reading} again={again} />
          ) : (
            <Likely finding={pieceByCode} />
          )
        }
      </Asked>
    </Page>
  );
}

function Likely({ finding }: { finding: Finding }) {
  return (
    <Nothing>
      {finding.likely.length ? (
        <>
          <p>Is it one of these?</p>
          <ul className="plain">
            {finding.likely.map((piece) => (
              <li key={piece.id}>
                <a href={to('pieces', piece.code)}>
                  <span className="tag-code">{piece.code}</span> {piece.name}
                </a>
                , {piece.place}
              </li>
            ))}
          </ul>
        </>
      ) : (
        <p>No tag looks like it. Read it once more, or look for the piece by its place.</p>
      )}
    </Nothing>
  );
}

function WholePiece({
  piece,
  reading,
  again,
}: {
  piece: Piece;
  reading: Finding['reading'];
  again: () => void;
}) {
  const { me } = useYard();
  const next = piece.nextTask;
  return (
    <>
      {reading === 'MENDED' ? (
        <p className="gap">Look whether it is the piece before you: {piece.place}.</p>
      ) : null}
      <dl className="piece-slip">
        <Fact name="Tag">
          <span className="tag-code">{piece.code}</span>
        </Fact>
        <Fact name="Belongs">{piece.place}</Fact>
        <Fact name="Way up">{piece.wayUp ? capital(piece.wayUp) : 'Not said'}</Fact>
        <Fact name="Came off">{piece.cameOffOn ? sayDay(piece.cameOffOn) : 'Still in place'}</Fact>
        <Fact name="Kept">{piece.keptAt ?? 'Nobody says where'}</Fact>
        <Fact name="Fate">{capital(fateWords[piece.fate])}</Fact>
      </dl>
      <Section title="What is next" id="next">
        {next ? (
          <p>
            <a href={me.role === 'VOLUNTEER' ? to('tally', next.id) : to('work', next.id)}>{next.title}</a>,{' '}
            {sayPosition(next.position)}. It is {stateWords[next.state]}.
          </p>
        ) : (
          <p>No work is left where it belongs, or none is written down for it.</p>
        )}
      </Section>
      <Section title="Pictures" id="pictures">
        <PiecePictures piece={piece} changed={again} />
      </Section>
      <Section title="Its story" id="story">
        <Story piece={piece} />
      </Section>
      <Section title="Write it down" id="write">
        <EditPiece key={piece.version} piece={piece} changed={again} />
      </Section>
    </>
  );
}

function Fact({ name, children }: { name: string; children: React.ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function Story({ piece }: { piece: Piece }) {
  const { timeZone, today } = useYard();
  return (
    <ol className="plain story">
      {piece.story.map((line, index) => (
        <li key={index}>
          <span className="pencil">{sayShortDay(dayOf(line.at, timeZone), today)}</span> {capital(line.words)}
          {line.by ? <span className="pencil"> {line.by}</span> : null}
        </li>
      ))}
    </ol>
  );
}
