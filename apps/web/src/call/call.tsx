import { useAsk } from '../live/ask.js';
import { to, useRoute } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked, Nothing } from '../parts/asked.js';
import { Page } from '../parts/page.js';
import { addDays, sayDay, sayDistance } from '../words/dates.js';
import { Badges } from './badges.js';
import { CallDayQuestion } from './call.question.js';
import { CallTurnout } from './call-turnout.js';
import { RosterSettings } from './roster-settings.js';
import { WallSheet } from './wall-sheet.js';
import './call.css';

/** Which turnout is called: the one of the day, or one that is chosen; its sheet for the wall; the badges. */
export function Call() {
  const [, detail, part] = useRoute();
  if (detail === 'badges') return <Badges />;
  if (detail && part === 'wall') return <WallSheet turnoutId={detail} />;
  return detail ? <CallTurnout key={detail} turnoutId={detail} /> : <ChooseTurnout />;
}

function ChooseTurnout() {
  const { today } = useYard();
  const [answer, again] = useAsk(
    CallDayQuestion,
    { from: addDays(today, -1), to: addDays(today, 8) },
    'roster',
  );
  const ofToday = answer.data?.turnouts.filter((turnout) => turnout.on === today && !turnout.cancelled) ?? [];
  const [only] = ofToday;
  if (only && ofToday.length === 1) return <CallTurnout key={only.id} turnoutId={only.id} />;
  return (
    <Page title="Call the turnout" lead={<p>On the morning, by who came.</p>}>
      <Asked answer={answer} what="the turnouts" again={again}>
        {({ turnouts }) =>
          turnouts.length ? (
            <ul className="plain">
              {turnouts.map((turnout) => (
                <li key={turnout.id}>
                  {turnout.cancelled ? (
                    <span>
                      {sayDay(turnout.on)}, {turnout.startTime}: called off
                    </span>
                  ) : (
                    <a href={to('call', turnout.id)}>
                      {sayDay(turnout.on)}, {turnout.startTime} to {turnout.endTime}
                    </a>
                  )}{' '}
                  <span className="pencil">
                    {turnout.note ? `${turnout.note}, ` : ''}
                    {sayDistance(turnout.on, today)}
                  </span>
                </li>
              ))}
            </ul>
          ) : (
            <Nothing>
              <p>The yard has no turnout these days. The coordinator sets them in the week.</p>
            </Nothing>
          )
        }
      </Asked>
      <p>
        <a href={to('call', 'badges')}>Badges to print</a>
      </p>
      <RosterSettings />
    </Page>
  );
}
