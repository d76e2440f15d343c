import { facts, person, sawn, seat, toldOf } from './few-people.fixture.js';
import { saySecond, secondHands } from './second-hands.js';

describe('who learns beside whom', () => {
  const told = toldOf(
    person('Pell', { levels: [3] }),
    person('Quill', { levels: [1] }),
    person('Roe', { levels: [1] }),
    person('Sand', { levels: [0] }),
  );
  const held = [{ seat: seat(sawn, { planned: 0, to: 120 }), person: 0 }];
  const idle = new Map([[0, [1, 2, 3]]]);

  it('is one learner a teacher, and who wished to learn it before who did not', () => {
    const [first, ...more] = secondHands(told, held, idle, facts());
    expect([first.learner, first.teacher, more]).toEqual([1, 0, []]);
    expect(saySecond(told, first)).toBe('Second hand: learns sawing beside Pell, over and above the crew.');
    const wouldLearn = (one: number) => one === 2;
    const [wished] = secondHands(told, held, idle, facts({ wouldLearn }));
    expect(wished.learner).toBe(2);
    // The wish is between them and the coordinator; the sentence is read by others.
    expect(saySecond(told, wished)).toBe(saySecond(told, first));
  });

  it('is who has said yes to it, wished or not, while the teacher is on that work', () => {
    const lesson = { learner: 1, teacher: 0, task: sawn, turnout: 0 };
    const lessons = [{ ...lesson, startsAt: told.instant(0), endsAt: told.instant(120) }];
    const wouldLearn = (one: number) => one === 2;
    const kept = secondHands(told, held, idle, facts({ lessons, wouldLearn, stops: () => ['Busy.'] }));
    expect(kept.map(({ learner, teacher, isTaken }) => [learner, teacher, isTaken])).toEqual([[1, 0, true]]);
    // Somebody else is the sawyer: that is no lesson of Pell's any more, and Quill is not asked twice.
    const other = toldOf(person('Pell'), person('Quill', { levels: [1] }), person('Tarn', { levels: [3] }));
    const elsewhere = [{ seat: seat(sawn, { planned: 2, to: 120 }), person: 2 }];
    expect(
      secondHands(other, elsewhere, new Map([[0, [1]]]), facts({ lessons, stops: () => ['Busy.'] })),
    ).toEqual([]);
  });

  it('is nobody whom a gate keeps away, wished or not', () => {
    const stops = () => ['Too young.'];
    expect(secondHands(told, held, idle, facts({ stops, wouldLearn: () => true }))).toEqual([]);
  });
});
