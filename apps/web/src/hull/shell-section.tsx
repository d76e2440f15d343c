import { useState } from 'react';
import { useAsk } from '../live/ask.js';
import { Asked } from '../parts/asked.js';
import { Section } from '../parts/page.js';
import './hull.css';
import { ShellQuestion } from './hull.question.js';
import { HullPiece } from './piece.js';
import { ShellMap } from './shell-map.js';

/** The map with the piece that was chosen on it. Nothing where her outline was not entered. */
export function ShellSection() {
  const [answer, again] = useAsk(ShellQuestion, {}, 'plan');
  const [chosen, setChosen] = useState<string | null>(null);
  return (
    <Section title="The shell" id="shell">
      <Asked answer={answer} what="the shell" again={again}>
        {({ shell }) =>
          shell ? (
            <>
              <ShellMap shell={shell} chosen={chosen} choose={setChosen} />
              {chosen ? (
                <HullPiece key={chosen} pieceKey={chosen} changed={again} />
              ) : (
                <p className="hint">Choose a plank or a frame to see its work and why it may have to wait.</p>
              )}
            </>
          ) : (
            <p>How she is built has not been entered yet; with her outline the shell is drawn here.</p>
          )
        }
      </Asked>
    </Section>
  );
}
