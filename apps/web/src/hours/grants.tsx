import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { to } from '../live/route.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { list } from '../words/amounts.js';
import { sayShortDay } from '../words/dates.js';
import { AddGrant, AddKind } from './add-grant.js';
import { AddRate } from './add-rate.js';
import { sayHours, sayMoney } from './hours-words.js';
import { MakeReport } from './make-report.js';
import './hours.css';

export const GrantsQuestion = graphql(`
  query Grants {
    grants {
      id
      version
      name
      funder
      awardNumber
      from
      to
      kindIds
    }
    workKinds {
      id
      name
      skillId
    }
    hourRates {
      id
      kindId
      grantId
      from
      centsAnHour
      source
    }
    publishedRates {
      year
      area
      centsAnHour
      source
    }
    grantReports {
      id
      grantId
      from
      to
      minutes
      cents
      madeBy
      withdrawnAt
    }
    skills {
      id
      name
    }
  }
`);

/** Grants, what hours are worth, and the reports to those who give. */
export function GrantsPage() {
  const { me } = useYard();
  const isDirector = me.role === 'DIRECTOR';
  const [answer, again] = useAsk(GrantsQuestion, {});
  return (
    <Page title="Grants and reports" lead={<p>One hour counts for one award only.</p>}>
      <p>
        <a href={to('hours')}>The hours book</a>
      </p>
      <Asked answer={answer} what="the grants" again={again}>
        {({ grants, workKinds, hourRates, publishedRates, grantReports, skills }) => {
          const kind = (id?: string | null) =>
            workKinds.find((one) => one.id === id)?.name ?? 'every kind of work';
          const grant = (id?: string | null) => grants.find((one) => one.id === id)?.name ?? 'every grant';
          return (
            <>
              <Section title="Reports" id="reports">
                {grants.length ? (
                  <MakeReport grants={grants} made={again} />
                ) : (
                  <p>Write a grant down first.</p>
                )}
                <ul className="plain">
                  {grantReports.map((report) => (
                    <li key={report.id}>
                      <a href={to('hours', 'report', report.id)}>
                        {grant(report.grantId)}, {sayShortDay(report.from)} to {sayShortDay(report.to)}{' '}
                        {report.to.slice(0, 4)}
                      </a>
                      : {sayHours(report.minutes)}, {sayMoney(report.cents)}{' '}
                      <span className="pencil">
                        made by {report.madeBy}
                        {report.withdrawnAt ? ', withdrawn' : ''}
                      </span>
                    </li>
                  ))}
                </ul>
              </Section>
              <Section title="Grants" id="grants">
                <ul className="plain">
                  {grants.map((one) => (
                    <li key={one.id}>
                      <strong>{one.name}</strong>, {one.funder}
                      {one.awardNumber ? `, award ${one.awardNumber}` : ''}: hours from{' '}
                      {sayShortDay(one.from)} {one.from.slice(0, 4)} to {sayShortDay(one.to)}{' '}
                      {one.to.slice(0, 4)},{' '}
                      {one.kindIds.length ? list(one.kindIds.map(kind)) : 'every kind of work'}.
                    </li>
                  ))}
                </ul>
                {isDirector ? <AddGrant kinds={workKinds} added={again} /> : null}
              </Section>
              <Section title="What an hour is worth" id="rates">
                <ul className="plain">
                  {hourRates.map((rate) => (
                    <li key={rate.id}>
                      From {sayShortDay(rate.from)} {rate.from.slice(0, 4)}:{' '}
                      <strong>{sayMoney(rate.centsAnHour)}</strong> for {kind(rate.kindId)},{' '}
                      {grant(rate.grantId)}. <span className="pencil">{rate.source}</span>
                    </li>
                  ))}
                </ul>
                {hourRates.length ? null : <p>No rate is set yet: without one no report can be made.</p>}
                {isDirector ? (
                  <AddRate kinds={workKinds} grants={grants} published={publishedRates} added={again} />
                ) : null}
              </Section>
              <Section title="Kinds of work" id="kinds">
                <ul className="plain">
                  {workKinds.map((one) => (
                    <li key={one.id}>
                      {one.name}
                      {one.skillId
                        ? `: hours on seats for ${skills.find((skill) => skill.id === one.skillId)?.name ?? 'a skill'}`
                        : ''}
                    </li>
                  ))}
                </ul>
                {workKinds.length ? null : <p>All hours are general work so far.</p>}
                {isDirector ? <AddKind skills={skills} added={again} /> : null}
              </Section>
            </>
          );
        }}
      </Asked>
    </Page>
  );
}
