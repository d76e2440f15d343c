import type { ReactNode } from 'react';
import { to, useRoute } from './live/route.js';
import { useYard, type Me } from './live/yard.js';
import { AccountPage } from './entry/change-password.js';
import { Days } from './days/days.js';
import { Nothing } from './parts/asked.js';
import { Page } from './parts/page.js';
import { pageOf } from './parts/page-of.js';
import { MyHours } from './hours/my-hours.js';
import { Places } from './places/places.js';
import { TallyPage } from './places/tally-page.js';

// Fetched when somebody first goes there. What a volunteer needs at the yard, where the line is poor, comes with the start.
const Call = pageOf(async () => (await import('./call/call.js')).Call);
const Crew = pageOf(async () => (await import('./crew/crew.js')).Crew);
const Accounts = pageOf(async () => (await import('./entry/accounts.js')).Accounts);
const Handover = pageOf(async () => (await import('./handover/handover.js')).Handover);
const FireWatchPage = pageOf(async () => (await import('./fire-watch/fire-watches.js')).FireWatchPage);
const PumpLogPage = pageOf(async () => (await import('./pump-log/pump-log.js')).PumpLogPage);
const Hours = pageOf(async () => (await import('./hours/hours.js')).Hours);
const GrantsPage = pageOf(async () => (await import('./hours/grants.js')).GrantsPage);
const Report = pageOf(async () => (await import('./hours/report.js')).Report);
const Letter = pageOf(async () => (await import('./hours/letter.js')).Letter);
const CrewList = pageOf(async () => (await import('./hours/crew-list.js')).CrewList);
const Safety = pageOf(async () => (await import('./safety/safety.js')).Safety);
const Walk = pageOf(async () => (await import('./walk/walk.js')).Walk);
const HullPage = pageOf(async () => (await import('./hull/hull.js')).HullPage);
const NewsPage = pageOf(async () => (await import('./news/news.js')).NewsPage);
const SlotLetter = pageOf(async () => (await import('./outlook/letter.js')).SlotLetter);
const Outlook = pageOf(async () => (await import('./outlook/outlook.js')).Outlook);
const RecordPage = pageOf(async () => (await import('./outlook/record.js')).RecordPage);
const BoardReport = pageOf(async () => (await import('./outlook/report.js')).BoardReport);
const TroublesPage = pageOf(async () => (await import('./outlook/troubles.js')).TroublesPage);
const WhatIfPage = pageOf(async () => (await import('./outlook/what-if.js')).WhatIfPage);
const PermitsPage = pageOf(async () => (await import('./permits/permits-page.js')).PermitsPage);
const PiecePage = pageOf(async () => (await import('./pieces/piece-page.js')).PiecePage);
const Pieces = pageOf(async () => (await import('./pieces/pieces.js')).Pieces);
const TagSheet = pageOf(async () => (await import('./pieces/tag-sheet.js')).TagSheet);
const SurveyPage = pageOf(async () => (await import('./survey/survey-page.js')).SurveyPage);
const PatternPage = pageOf(async () => (await import('./timber/pattern.js')).PatternPage);
const Timber = pageOf(async () => (await import('./timber/timber.js')).Timber);
const TrayPage = pageOf(async () => (await import('./trays/tray-page.js')).TrayPage);
const Trays = pageOf(async () => (await import('./trays/trays.js')).Trays);
const StopsPage = pageOf(async () => (await import('./stops/stops.js')).StopsPage);
const Slips = pageOf(async () => (await import('./week/slips.js')).Slips);
const Week = pageOf(async () => (await import('./week/week.js')).Week);
const AllHands = pageOf(async () => (await import('./all-hands/all-hands.js')).AllHands);
const Watches = pageOf(async () => (await import('./watches/watches.js')).Watches);
const ClosedDays = pageOf(async () => (await import('./week/closed-days.js')).ClosedDays);
const TaskPage = pageOf(async () => (await import('./work/task-page.js')).TaskPage);
const Work = pageOf(async () => (await import('./work/work.js')).Work);
const YardFile = pageOf(async () => (await import('./yard/yard-file.js')).YardFile);

interface PageEntry {
  path: string;
  name: string;
}

const outlook = { path: 'outlook', name: 'Outlook' };
const hull = { path: 'hull', name: 'The hull' };
const call = { path: 'call', name: 'Call the turnout' };
const week = { path: 'week', name: 'The week' };
const work = { path: 'work', name: 'The work' };
const survey = { path: 'survey', name: 'Survey' };
const pieces = { path: 'pieces', name: 'Pieces' };
const timber = { path: 'timber', name: 'The timber' };
const trays = { path: 'trays', name: 'Trays' };
const hours = { path: 'hours', name: 'Hours' };
const safety = { path: 'safety', name: 'Closing up' };
const walk = { path: 'walk', name: 'Walk-round' };
const myHours = { path: 'my-hours', name: 'My hours' };
const crew = { path: 'crew', name: 'The crew' };
const file = { path: 'yard', name: 'Yard file' };
const permits = { path: 'permits', name: 'Permits and weather' };
const news = { path: 'news', name: 'News' };
const days = { path: 'days', name: 'My days' };
const accounts = { path: 'accounts', name: 'Accounts' };

const pagesByRole: Record<Me['role'], PageEntry[]> = {
  DIRECTOR: [
    outlook,
    hull,
    week,
    call,
    permits,
    work,
    survey,
    trays,
    pieces,
    timber,
    crew,
    hours,
    safety,
    days,
    news,
    file,
    accounts,
  ],
  COORDINATOR: [
    week,
    call,
    permits,
    crew,
    hours,
    safety,
    work,
    hull,
    survey,
    trays,
    pieces,
    timber,
    outlook,
    days,
    news,
    file,
  ],
  SHIPWRIGHT: [
    hull,
    walk,
    call,
    permits,
    work,
    survey,
    trays,
    pieces,
    timber,
    outlook,
    week,
    crew,
    myHours,
    safety,
    days,
    news,
  ],
  VOLUNTEER: [{ path: 'places', name: 'My places' }, days, myHours, safety, news, trays, pieces],
};

/** Where each of the four may go, the first being where they start. */
export function pagesFor(role: Me['role']): PageEntry[] {
  return pagesByRole[role];
}

export function Pages({ refresh }: { refresh: () => void }) {
  const { me, haulOut } = useYard();
  const [asked, detail, third] = useRoute();
  const pages = pagesFor(me.role);
  const path = asked ?? pages[0]?.path;
  if (path === 'account') return <AccountPage />;
  if (!haulOut && path !== 'yard' && path !== 'accounts') return <NoYardYet />;
  if (path === 'tally' && detail) return <TallyPage taskId={detail} />;
  if (path === 'watch' && detail) return <FireWatchPage key={detail} turnoutId={detail} />;
  if (path === 'pumps' && detail) return <PumpLogPage key={detail} turnoutId={detail} />;
  if (!pages.some((page) => page.path === path)) return <NotHere />;
  return show(path ?? '', { detail, third }, refresh);
}

interface Rest {
  detail: string | undefined;
  third: string | undefined;
}

function show(path: string, { detail, third }: Rest, refresh: () => void): ReactNode {
  switch (path) {
    case 'outlook':
      if (detail === 'what-if') return <WhatIfPage />;
      if (detail === 'record') return <RecordPage />;
      if (detail === 'troubles') return <TroublesPage />;
      if (detail === 'letter') return <SlotLetter />;
      if (detail === 'report') return <BoardReport />;
      return <Outlook />;
    case 'hull':
      return <HullPage />;
    case 'call':
      return <Call />;
    case 'week':
      if (detail === 'slips' && third) return <Slips key={third} weekOf={third} />;
      if (detail === 'stops' && third) return <StopsPage key={third} turnoutId={third} />;
      if (detail === 'closed') return <ClosedDays />;
      if (detail === 'watches') return <Watches />;
      if (detail === 'all-hands') return <AllHands />;
      return <Week key={detail ?? 'next'} weekOf={detail ?? null} />;
    case 'work':
      return detail ? <TaskPage key={detail} id={detail} /> : <Work />;
    case 'trays':
      return detail ? <TrayPage key={detail} id={detail} /> : <Trays />;
    case 'survey':
      return <SurveyPage />;
    case 'pieces':
      if (detail === 'print') return <TagSheet />;
      if (detail === 'handover') return <Handover />;
      return detail ? <PiecePage key={detail} code={detail} /> : <Pieces />;
    case 'timber':
      return detail ? <PatternPage key={detail} piece={detail} /> : <Timber />;
    case 'crew':
      return detail ? <Days key={detail} volunteerId={detail} /> : <Crew />;
    case 'safety':
      return <Safety />;
    case 'walk':
      return <Walk />;
    case 'my-hours':
      return detail === 'letter' ? <Letter volunteerId={null} /> : <MyHours />;
    case 'hours':
      return showHours(detail, third);
    case 'yard':
      return <YardFile changed={refresh} />;
    case 'permits':
      return <PermitsPage />;
    case 'news':
      return <NewsPage />;
    case 'accounts':
      return <Accounts />;
    case 'places':
      return <Places />;
    case 'days':
      return <Days volunteerId={null} />;
    default:
      return <NotHere />;
  }
}

function showHours(detail: string | undefined, third: string | undefined): ReactNode {
  if (detail === 'grants') return <GrantsPage />;
  if (detail === 'report' && third) return <Report key={third} id={third} />;
  if (detail === 'letter' && third) return <Letter key={third} volunteerId={third} />;
  if (detail === 'list' && third) return <CrewList key={third} turnoutId={third} />;
  return <Hours />;
}

function NotHere() {
  return (
    <Page title="Nothing here">
      <Nothing>
        <p>There is no such page for you. Choose one at the top.</p>
      </Nothing>
    </Page>
  );
}

function NoYardYet() {
  const { me } = useYard();
  const mayBringIn = me.role === 'DIRECTOR' || me.role === 'COORDINATOR';
  return (
    <Page title="No vessel on the hard yet">
      <Nothing>
        <p>There is no haul-out to plan for: no vessel, no work, no turnouts.</p>
        {mayBringIn ? (
          <p>
            <a href={to('yard')}>Bring in a yard file</a> that describes all of them; the first plan is
            reckoned right after.
          </p>
        ) : (
          <p>The director or the coordinator brings them in with a yard file. Come back when they have.</p>
        )}
      </Nothing>
    </Page>
  );
}
