import { useState } from 'react';
import type { SurveyPageQuery } from '../gql/graphql.js';
import { useAsk } from '../live/ask.js';
import { useYard } from '../live/yard.js';
import { Asked } from '../parts/asked.js';
import { Page, Section } from '../parts/page.js';
import { dayOf, sayDay } from '../words/dates.js';
import { Causes } from './causes.js';
import { ChooseOpening, Openings } from './choose-opening.js';
import { AddFinding, Findings } from './findings.js';
import { MethodsPart } from './methods.js';
import type { Outline } from './outline-entries.js';
import { OutlineForm } from './outline-form.js';
import { ChangeWork } from './preview.js';
import { ScopeWords } from './scope.js';
import { emptySurvey, type Methods, type Survey } from './survey-document.js';
import { SurveyQuestion } from './survey.question.js';
import './survey.css';

/** What was found, what follows from it, how work is done, and how she is built. */
export function SurveyPage() {
  const [answer, again] = useAsk(SurveyQuestion, {}, 'plan');
  return (
    <Page
      title="Survey"
      lead={
        <p>
          From what was found to what is done: change a line, see what would follow, and do it. Common
          practice, all of it; shipwright, surveyor, yard, insurer and local code decide.
        </p>
      }
    >
      <Asked answer={answer} what="the survey" again={again}>
        {(data) => <Parts data={data} again={again} />}
      </Asked>
    </Page>
  );
}

function Parts({ data, again }: { data: SurveyPageQuery; again: () => void }) {
  const { me } = useYard();
  const mayDo = me.role === 'SHIPWRIGHT' || me.role === 'DIRECTOR';
  const { hullOutline, survey, methods } = data;
  const [draft, setDraft] = useState<{ of: number; survey: Survey } | null>(null);
  const version = survey?.version ?? 0;
  const standing = (survey?.survey as Survey | undefined) ?? emptySurvey(me.account.name);
  const now = draft?.of === version ? draft.survey : standing;
  const changed = draft?.of === version;
  const set = (part: Partial<Survey>): void => {
    setDraft({ of: version, survey: { ...now, ...part } });
  };
  return (
    <>
      {hullOutline ? (
        <>
          <Section title="What was found" id="found">
            {survey ? <Changed by={survey.changedBy} at={survey.changedAt} /> : null}
            <Findings
              survey={now}
              mayChange={mayDo}
              remove={(at) => {
                set({ findings: now.findings.filter((_, one) => one !== at) });
              }}
            />
            <h3>Why it rotted</h3>
            <Causes
              causes={now.causes}
              mayChange={mayDo}
              set={(causes) => {
                set({ causes });
              }}
            />
            {mayDo ? (
              <details>
                <summary>Add a line</summary>
                <AddFinding
                  survey={now}
                  add={(finding) => {
                    set({ findings: [...now.findings, finding] });
                  }}
                />
              </details>
            ) : null}
          </Section>
          {data.scope ? (
            <Section title="What it comes to" id="scope">
              <ScopeWords scope={data.scope} />
              <h3>Openings that do</h3>
              <Openings scope={data.scope} survey={standing} />
              {mayDo ? (
                <details>
                  <summary>Choose another</summary>
                  <ChooseOpening
                    survey={now}
                    choose={(choices) => {
                      set({ choices });
                    }}
                  />
                </details>
              ) : null}
            </Section>
          ) : null}
          {changed ? (
            <Section title="Lines changed, not done yet" id="change">
              <ChangeWork
                id="survey-change"
                change={{ survey: now, surveyVersion: survey?.version ?? null }}
                mayDo={mayDo}
                done={again}
                fields={{ 'survey.choices.reason': 'choice-reason' }}
              />
              <button
                type="button"
                className="quiet"
                onClick={() => {
                  setDraft(null);
                }}
              >
                Leave the survey as it was
              </button>
            </Section>
          ) : null}
        </>
      ) : (
        <p>Write her outline down first: what is found is found on a frame or a plank of hers.</p>
      )}
      {methods ? (
        <Section title="How work is done" id="methods">
          <Changed by={methods.changedBy} at={methods.changedAt} />
          <MethodsPart
            methods={methods.methods as Methods}
            version={methods.version}
            mayDo={mayDo}
            done={again}
          />
        </Section>
      ) : null}
      <Section title="How she is built" id="outline">
        {hullOutline ? <Changed by={hullOutline.changedBy} at={hullOutline.changedAt} /> : null}
        {mayDo ? (
          <details open={!hullOutline}>
            <summary>Her outline, by counts and what differs</summary>
            <OutlineForm
              key={hullOutline?.version ?? 0}
              outline={(hullOutline?.outline as Outline | undefined) ?? null}
              version={hullOutline?.version ?? null}
              changed={again}
            />
          </details>
        ) : null}
      </Section>
    </>
  );
}

function Changed({ by, at }: { by: string; at: string }) {
  const { timeZone } = useYard();
  return (
    <p className="pencil">
      As {by} left it on {sayDay(dayOf(at, timeZone))}.
    </p>
  );
}
