import { graphql } from '../gql/gql.js';
import { useAsk } from '../live/ask.js';
import { Page } from '../parts/page.js';
import { HoldPoints } from './hold-points.js';
import { Marks } from './marks.js';
import { Planking } from './planking.js';
import { ShellSection } from './shell-section.js';
import { Watch } from './watch.js';

const SentenceQuestion = graphql(`
  query HullSentence {
    plan {
      id
      sentence
    }
  }
`);

/** The hull herself: the outlook's sentence, the shell, and what keeps her from being opened or closed. */
export function HullPage() {
  const [answer] = useAsk(SentenceQuestion, {}, 'plan');
  return (
    <Page title="The hull" lead={answer.data?.plan ? <p>{answer.data.plan.sentence}</p> : null}>
      <ShellSection />
      <Watch />
      <Marks />
      <HoldPoints />
      <Planking />
    </Page>
  );
}
