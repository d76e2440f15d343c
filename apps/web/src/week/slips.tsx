import { useState } from 'react';
import { graphql } from '../gql/gql.js';
import type { SlipsQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { PrintButton } from '../parts/print-button.js';
import { lowerFirst } from '../words/amounts.js';
import { sayDay, timeOf } from '../words/dates.js';
import { toBring } from './bring.js';
import './slips.css';

const SlipsQuestion = graphql(`
  query Slips($weekOf: LocalDate) {
    weekProposal(weekOf: $weekOf) {
      turnouts {
        turnout {
          id
          on
          startTime
          endTime
          note
          cancelled
          swingHands {
            leftAt
            hand {
              volunteerId
              name
            }
          }
          places {
            id
            state
            skill {
              name
            }
            teacher {
              name
            }
            startsAt
            endsAt
            hand {
              volunteerId
              name
            }
            task {
              id
              title
              position
              hazards {
                code
              }
              cautionLines {
                words
              }
            }
          }
        }
      }
    }
    volunteers(first: 200) {
      edges {
        node {
          id
          name
          email
          phone
        }
      }
    }
    safetyNotice
  }
`);

type Turnout = SlipsQuery['weekProposal']['turnouts'][number]['turnout'];
type Place = Turnout['places'][number];

interface Slip {
  id: string;
  name: string;
  /** Neither e-mail nor a number: nothing else reaches them. */
  isOnPaperOnly: boolean;
  days: { turnout: Turnout; places: Place[] }[];
}

/** A week's places on paper, one slip a person: for those whom no message reaches, and for whoever asks for one. */
export function Slips({ weekOf }: { weekOf: string }) {
  const [answer, again] = useAsk(SlipsQuestion, { weekOf }, 'either');
  return (
    <Page title="Slips to hand out" lead={<p>The week of {sayDay(weekOf)}</p>}>
      <p className="no-print">
        <a href={to('week', weekOf)}>The week</a>
      </p>
      <Asked answer={answer} what="the slips" again={again}>
        {(told) => <Sheets told={told} />}
      </Asked>
    </Page>
  );
}

function Sheets({ told }: { told: SlipsQuery }) {
  const { me } = useYard();
  const slips = slipsOf(told);
  const [chosen, choose] = useState<ReadonlySet<string>>(
    () => new Set(slips.filter((slip) => slip.isOnPaperOnly).map(({ id }) => id)),
  );
  const [isOneASheet, setOneASheet] = useState(false);
  const rung = told.volunteers.edges.find(({ node }) => node.id === me.volunteer?.id)?.node.phone ?? null;
  if (!slips.length)
    return (
      <Nothing>
        <p>Nobody has a place this week. Slips come once the week is posted.</p>
      </Nothing>
    );
  return (
    <>
      <fieldset className="no-print">
        <legend>For whom</legend>
        <p className="hint">Those with neither e-mail nor telephone are ticked.</p>
        <ul className="plain slip-names">
          {slips.map(({ id, name }) => (
            <li key={id} className="tick">
              <input
                type="checkbox"
                id={`slip-${id}`}
                checked={chosen.has(id)}
                onChange={(event) => {
                  const next = new Set(chosen);
                  if (event.target.checked) next.add(id);
                  else next.delete(id);
                  choose(next);
                }}
              />
              <label htmlFor={`slip-${id}`}>{name}</label>
            </li>
          ))}
        </ul>
        <p className="tick">
          <input
            type="checkbox"
            id="one-a-sheet"
            checked={isOneASheet}
            onChange={(event) => {
              setOneASheet(event.target.checked);
            }}
          />
          <label htmlFor="one-a-sheet">Each on a sheet of its own</label>
        </p>
      </fieldset>
      <p className="no-print">
        <PrintButton />
      </p>
      <div className={isOneASheet ? 'slips one-a-sheet' : 'slips'}>
        {slips
          .filter(({ id }) => chosen.has(id))
          .map((slip) => (
            <SlipOf
              key={slip.id}
              slip={slip}
              ring={{ name: me.account.name, phone: rung }}
              notice={told.safetyNotice}
            />
          ))}
      </div>
    </>
  );
}

function SlipOf({
  slip,
  ring,
  notice,
}: {
  slip: Slip;
  ring: { name: string; phone: string | null };
  notice: string;
}) {
  const { me, haulOut, timeZone } = useYard();
  const places = slip.days.flatMap((day) => day.places);
  const cautions = [...new Set(places.flatMap(({ task }) => task.cautionLines.map(({ words }) => words)))];
  const bring = toBring(places.flatMap(({ task }) => task.hazards.map(({ code }) => code)));
  return (
    <article className="slip" aria-labelledby={`name-${slip.id}`}>
      <h2 id={`name-${slip.id}`}>{slip.name}</h2>
      <p className="pencil">
        {haulOut ? `${haulOut.vessel.name}, ` : ''}
        {me.organisation.name}
      </p>
      {slip.days.map(({ turnout, places: mine }) => (
        <section key={turnout.id}>
          <h3>
            {sayDay(turnout.on)}, {turnout.startTime} to {turnout.endTime}
          </h3>
          {turnout.note ? <p>{turnout.note}</p> : null}
          <ul className="plain">
            {mine.length ? null : <li>You stand by: you go where somebody is missing.</li>}
            {mine.map((place) => (
              <li key={place.id}>
                {timeOf(place.startsAt, timeZone)} to {timeOf(place.endsAt, timeZone)}: {place.task.title}
                {place.task.position ? <span className="place-on-hull"> {place.task.position}</span> : null}
                {place.teacher && place.skill
                  ? `: you learn ${lowerFirst(place.skill.name)} with ${place.teacher.name}`
                  : ''}
                {place.state === 'TAKEN' ? '' : ' (please say yes or no)'}
              </li>
            ))}
          </ul>
        </section>
      ))}
      <p>
        <strong>Bring</strong> {bring.join('; ')}. The yard hands out what protects eyes, ears and lungs.
      </p>
      <p>
        <strong>You can’t come, or want to know more?</strong> Ring {ring.name}
        {ring.phone ? `: ${ring.phone}` : ': '}
        {ring.phone ? null : <span className="wall-blank" />}. Nobody holds it against you.
      </p>
      {cautions.length ? (
        <>
          <h3>Before you start</h3>
          <ul className="slip-cautions">
            {cautions.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </>
      ) : null}
      <p className="notice">{notice}</p>
    </article>
  );
}

/** One slip a person who has a place or stands by, by name. */
function slipsOf({ weekProposal, volunteers }: SlipsQuery): Slip[] {
  const slips = new Map<string, Slip>();
  const people = new Map(volunteers.edges.map(({ node }) => [node.id, node]));
  const dayOf = ({ volunteerId: id, name }: { volunteerId: string; name: string }, turnout: Turnout) => {
    const person = people.get(id);
    const slip = slips.get(id) ?? { id, name, isOnPaperOnly: !person?.email && !person?.phone, days: [] };
    slips.set(id, slip);
    const known = slip.days.find((one) => one.turnout.id === turnout.id);
    if (known) return known;
    const day = { turnout, places: [] as Place[] };
    slip.days.push(day);
    return day;
  };
  for (const { turnout } of weekProposal.turnouts) {
    if (turnout.cancelled) continue;
    for (const place of turnout.places) {
      if (!place.hand || place.state === 'LEFT') continue;
      dayOf(place.hand, turnout).places.push(place);
    }
    for (const { hand, leftAt } of turnout.swingHands) if (!leftAt) dayOf(hand, turnout);
  }
  return [...slips.values()].sort((a, b) => a.name.localeCompare(b.name));
}
