import { useAsk } from '../live/ask.js';
import { useDeed } from '../live/deed.js';
import { Asked } from '../parts/asked.js';
import { Choice, Field } from '../parts/field.js';
import { FoldForm } from '../parts/fold-form.js';
import { LayOnWatchesDeed, WatchWorkQuestion } from './watches.question.js';

const fields = Object.fromEntries(
  ['taskId', 'on', 'startTime', 'hours', 'hoursEach', 'people', 'skillId', 'level'].map((name) => [
    name,
    `watch-${name}`,
  ]),
);

/** Laying watches on: from when, for how long, how many people. */
export function LayOn({ changed }: { changed: () => void }) {
  const [answer, again] = useAsk(WatchWorkQuestion, {});
  const { run } = useDeed(LayOnWatchesDeed);
  return (
    <Asked answer={answer} what="the work" again={again}>
      {({ tasks, skills }) => {
        const work = tasks.nodes.filter((task) => task.kind === 'WORK');
        const [seat] = work[0]?.seats ?? [];
        if (!work.length)
          return (
            <p className="hint">
              No work of hers is called a watch. Once there is one, watches can be laid on.
            </p>
          );
        return (
          <FoldForm
            summary="Lay watches on"
            press="Lay these watches on"
            done="The watches are laid on, and their places stand open."
            fields={fields}
            changed={changed}
            send={(filled) =>
              run({
                input: {
                  taskId: filled.text('taskId'),
                  on: filled.text('on'),
                  startTime: filled.text('startTime'),
                  hours: filled.number('hours'),
                  hoursEach: filled.number('hoursEach'),
                  people: filled.number('people'),
                  skillId: filled.text('skillId'),
                  level: filled.number('level'),
                },
              })
            }
          >
            <Choice id="watch-taskId" name="taskId" label="The work on watch">
              {work.map((task) => (
                <option key={task.id} value={task.id}>
                  {task.title}
                </option>
              ))}
            </Choice>
            <div className="row">
              <Field id="watch-on" name="on" type="date" label="The first watch is on" />
              <Field id="watch-startTime" name="startTime" type="time" label="From" defaultValue="12:00" />
            </div>
            <div className="row">
              <Field
                id="watch-hours"
                name="hours"
                type="number"
                label="Hours that she is watched"
                defaultValue={72}
              />
              <Field
                id="watch-hoursEach"
                name="hoursEach"
                type="number"
                label="Hours of one watch"
                defaultValue={4}
              />
              <Field
                id="watch-people"
                name="people"
                type="number"
                label="People on a watch"
                hint="Nobody watches alone."
                defaultValue={2}
              />
            </div>
            <div className="row">
              <Choice id="watch-skillId" name="skillId" label="One of them has" defaultValue={seat?.skill.id}>
                {skills.map((skill) => (
                  <option key={skill.id} value={skill.id}>
                    {skill.name}
                  </option>
                ))}
              </Choice>
              <Choice id="watch-level" name="level" label="and at least" defaultValue={seat?.level ?? 2}>
                <option value={1}>is learning it</option>
                <option value={2}>works alone in it</option>
                <option value={3}>teaches it</option>
                <option value={4}>may say so</option>
              </Choice>
            </div>
          </FoldForm>
        );
      }}
    </Asked>
  );
}
