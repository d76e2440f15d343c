import { useState } from 'react';
import { Field, Tick } from '../parts/field.js';
import { count } from '../words/amounts.js';
import type { Sheet } from './call.question.js';
import { tick, type WhoCame } from './who-came.js';

interface TickersProps {
  sheet: Sheet;
  came: WhoCame;
  change: (alter: (came: WhoCame) => WhoCame) => void;
}

/** Ticking who came: first who is expected, then anybody else of the crew, then visitors by name. */
export function Tickers({ sheet, came, change }: TickersProps) {
  const [words, setWords] = useState('');
  const isHere = (id: string) => id in came.present;
  const expected = sheet.people.filter((person) => person.expected);
  const others = sheet.people.filter((person) => !person.expected);
  const looked = words.trim().toLowerCase();
  const found = others.filter(
    ({ hand }) => isHere(hand.volunteerId) || (looked !== '' && hand.name.toLowerCase().includes(looked)),
  );
  const missing = expected.filter(({ hand }) => !isHere(hand.volunteerId));
  const boxes = (people: Sheet['people']) => (
    <ul className="tickers">
      {people.map(({ hand, isFirstAider, isMinor }) => (
        <li key={hand.volunteerId}>
          <Tick
            id={`here-${hand.volunteerId}`}
            label={`${hand.name}${isFirstAider ? ', first aid' : ''}${isMinor ? ', under 18' : ''}`}
            checked={isHere(hand.volunteerId)}
            onChange={(event) => {
              const how = event.target.checked ? 'TICKED' : null;
              change((known) => tick(known, hand.volunteerId, how));
            }}
          />
        </li>
      ))}
    </ul>
  );
  return (
    <>
      {expected.length ? boxes(expected) : <p>Nobody is posted to this turnout. Look people up below.</p>}
      {expected.length > 1 ? (
        <div className="buttons">
          <button
            type="button"
            className="quiet"
            onClick={() => {
              change((known) =>
                expected.reduce((all, { hand }) => tick(all, hand.volunteerId, 'TICKED'), known),
              );
            }}
          >
            All expected are here
          </button>
        </div>
      ) : null}
      <Field
        id="walk-in"
        label="Somebody else of the crew"
        hint="A part of the name"
        value={words}
        onChange={(event) => {
          setWords(event.target.value);
        }}
      />
      {found.length ? boxes(found) : null}
      {looked !== '' && !found.length ? <p role="status">Nobody in the crew has that name.</p> : null}
      <Visitors came={came} change={change} />
      {missing.length && Object.keys(came.present).length ? (
        <details className="fold">
          <summary>{count(missing.length, 'person', 'people')} expected and not here: who sent word?</summary>
          <ul className="tickers">
            {missing.map(({ hand }) => (
              <li key={hand.volunteerId}>
                <Tick
                  id={`word-${hand.volunteerId}`}
                  label={`${hand.name} sent word`}
                  checked={came.saidSo.includes(hand.volunteerId)}
                  onChange={(event) => {
                    const sent = event.target.checked;
                    change((known) => ({
                      ...known,
                      saidSo: [
                        ...known.saidSo.filter((id) => id !== hand.volunteerId),
                        ...(sent ? [hand.volunteerId] : []),
                      ],
                    }));
                  }}
                />
              </li>
            ))}
          </ul>
          <p className="hint">Illness, or anything else that was said, counts against nobody.</p>
        </details>
      ) : null}
    </>
  );
}

/** People who are in no list: they are shown round, and work once they have had their induction and signed. */
function Visitors({ came, change }: Omit<TickersProps, 'sheet'>) {
  const [name, setName] = useState('');
  const add = () => {
    const given = name.trim();
    if (given === '') return;
    change((known) => ({ ...known, visitors: [...known.visitors.filter((one) => one !== given), given] }));
    setName('');
  };
  return (
    <details className="fold" open={came.visitors.length > 0}>
      <summary>Somebody whom the crew’s list does not know</summary>
      <p className="hint">
        They come as a visitor today: no work before the safety induction and the signed waiver. Enter them in
        the crew to give them work.
      </p>
      <div className="row">
        <Field
          id="visitor"
          label="Name"
          value={name}
          onChange={(event) => {
            setName(event.target.value);
          }}
        />
        <button type="button" className="quiet" onClick={add}>
          Add the visitor
        </button>
      </div>
      <ul className="plain">
        {came.visitors.map((visitor) => (
          <li key={visitor}>
            {visitor}, visiting{' '}
            <button
              type="button"
              className="quiet"
              onClick={() => {
                change((known) => ({ ...known, visitors: known.visitors.filter((one) => one !== visitor) }));
              }}
            >
              Not here<span className="unseen">: {visitor}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}
