import type { ReactNode } from 'react';
import { to, useRoute } from './live/route.js';
import { useYard, type Me } from './live/yard.js';
import { Crew } from './crew/crew.js';
import { Days } from './days/days.js';
import { Accounts } from './entry/accounts.js';
import { AccountPage } from './entry/change-password.js';
import { Handover } from './handover/handover.js';
import { HullPage } from './hull/hull.js';
import { Outlook } from './outlook/outlook.js';
import { Nothing } from './parts/asked.js';
import { Page } from './parts/page.js';
import { PiecePage } from './pieces/piece-page.js';
import { Pieces } from './pieces/pieces.js';
import { TagSheet } from './pieces/tag-sheet.js';
import { Places } from './places/places.js';
import { TallyPage } from './places/tally-page.js';
import { SurveyPage } from './survey/survey-page.js';
import { PatternPage } from './timber/pattern.js';
import { Timber } from './timber/timber.js';
import { TrayPage } from './trays/tray-page.js';
import { Trays } from './trays/trays.js';
import { Week } from './week/week.js';
import { TaskPage } from './work/task-page.js';
import { Work } from './work/work.js';
import { YardFile } from './yard/yard-file.js';

interface PageEntry {
  path: string;
  name: string;
}

const outlook = { path: 'outlook', name: 'Outlook' };
const hull = { path: 'hull', name: 'The hull' };
const week = { path: 'week', name: 'The week' };
const work = { path: 'work', name: 'The work' };
const survey = { path: 'survey', name: 'Survey' };
const pieces = { path: 'pieces', name: 'Pieces' };
const timber = { path: 'timber', name: 'The timber' };
const trays = { path: 'trays', name: 'Trays' };
const crew = { path: 'crew', name: 'The crew' };
const file = { path: 'yard', name: 'Yard file' };
const accounts = { path: 'accounts', name: 'Accounts' };

const pagesByRole: Record<Me['role'], PageEntry[]> = {
  DIRECTOR: [outlook, hull, week, work, survey, trays, pieces, timber, crew, file, accounts],
  COORDINATOR: [week, crew, work, hull, survey, trays, pieces, timber, outlook, file],
  SHIPWRIGHT: [hull, work, survey, trays, pieces, timber, outlook, week, crew],
  VOLUNTEER: [{ path: 'places', name: 'My places' }, { path: 'days', name: 'My days' }, trays, pieces],
};

/** Where each of the four may go, the first being where they start. */
export function pagesFor(role: Me['role']): PageEntry[] {
  return pagesByRole[role];
}

export function Pages({ refresh }: { refresh: () => void }) {
  const { me, haulOut } = useYard();
  const [asked, detail] = useRoute();
  const pages = pagesFor(me.role);
  const path = asked ?? pages[0]?.path;
  if (path === 'account') return <AccountPage />;
  if (!haulOut && path !== 'yard' && path !== 'accounts') return <NoYardYet />;
  if (path === 'tally' && detail) return <TallyPage taskId={detail} />;
  if (!pages.some((page) => page.path === path)) return <NotHere />;
  return show(path ?? '', detail, refresh);
}

function show(path: string, detail: string | undefined, refresh: () => void): ReactNode {
  switch (path) {
    case 'outlook':
      return <Outlook />;
    case 'hull':
      return <HullPage />;
    case 'week':
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
    case 'yard':
      return <YardFile changed={refresh} />;
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
