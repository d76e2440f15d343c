import { CardsOf } from '../crew/cards-of.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { capital } from '../words/amounts.js';
import { sayAttendance, sayException } from '../words/attendance.js';
import { EditDays } from './edit-days.js';
import { DaysQuestion, type Person } from './days.question.js';
import { PhonePart } from './phone-part.js';
import { ConsentsPart } from './consents.js';
import { WishesPart } from './wishes.js';
import { MyCalendar } from './my-calendar.js';
import './days.css';

/** When someone can come; one's own when no volunteer is named. */
export function Days({ volunteerId }: { volunteerId: string | null }) {
  const { me } = useYard();
  const id = volunteerId ?? me.volunteer?.id ?? null;
  if (!id) {
    return (
      <Page title="My days">
        <Nothing>
          <p>
            Your account does not belong to anyone in the crew, so it has no days. Ask the director to put
            that right.
          </p>
        </Nothing>
      </Page>
    );
  }
  return <DaysOf id={id} own={volunteerId === null} />;
}

function DaysOf({ id, own }: { id: string; own: boolean }) {
  const { me } = useYard();
  const [answer, again] = useAsk(DaysQuestion, { id });
  const person = answer.data?.volunteer;
  const mayEdit = own || me.role === 'COORDINATOR';
  return (
    <Page
      title={own ? 'My days' : (person?.name ?? 'Someone of the crew')}
      lead={
        <p>
          {own
            ? 'The plan counts on you on these days. Change them whenever they change.'
            : 'When they can come, and what they can do.'}
        </p>
      }
    >
      {own ? null : (
        <p>
          <a href={to('crew')}>The whole crew</a>
        </p>
      )}
      <Asked answer={answer} what="the days" again={again}>
        {({ volunteer, skills }) =>
          volunteer ? (
            <>
              {mayEdit ? (
                <>
                  <EditDays person={volunteer} saved={again} />
                  <WishesPart person={volunteer} skills={skills} saved={again} />
                  <PhonePart person={volunteer} saved={again} />
                </>
              ) : (
                <Section title="Days" id="days">
                  <Said person={volunteer} />
                </Section>
              )}
              <ConsentsPart person={volunteer} saved={again} />
              {own ? <MyCalendar /> : null}
              <CardsOf id={id} />
            </>
          ) : (
            <Nothing>
              <p>There is nobody here by that name.</p>
            </Nothing>
          )
        }
      </Asked>
    </Page>
  );
}

function Said({ person }: { person: Person }) {
  const { rules, exceptions } = person.availability;
  return (
    <ul className="plain">
      {rules.map((rule) => (
        <li key={rule.rule + rule.startsOn}>{capital(sayAttendance(rule))}.</li>
      ))}
      {exceptions.map((exception) => (
        <li key={exception.fromOn + exception.toOn}>{capital(sayException(exception))}.</li>
      ))}
    </ul>
  );
}
