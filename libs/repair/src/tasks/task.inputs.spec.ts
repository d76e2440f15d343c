import { changesOf, draftFrom } from './task.inputs.js';

const refusalIn = (work: () => unknown) => {
  try {
    work();
  } catch (error) {
    return (error as { refusal?: { code: string; field: string } }).refusal;
  }
  throw new Error('It was not refused');
};

describe('What is sent about a task', () => {
  it('what is left out stays, null takes away, and blanks are nothing', () => {
    expect(changesOf({ leastAge: null, hazards: null, position: '  ' })).toEqual({
      leastAge: null,
      hazards: [],
      position: null,
    });
  });

  it('a title and a kind can’t be taken away', () => {
    for (const field of ['title', 'kind'] as const)
      expect(refusalIn(() => changesOf({ [field]: null as never }))).toMatchObject({
        code: 'BAD_INPUT',
        field,
      });
  });

  it('an estimate is given in exactly one way', () => {
    const points = { low: 1, likely: 2, high: 3 };
    expect(changesOf({ estimate: { minutes: points } }).estimate).toEqual({ by: 'time', minutes: points });
    for (const estimate of [{}, { minutes: points, personMinutes: points }])
      expect(refusalIn(() => changesOf({ estimate }))).toMatchObject({ field: 'estimate' });
  });

  it('a new task with a title and no more asks for nobody and nothing', () => {
    expect(draftFrom({ title: 'Surveyor looks', kind: 'hold' })).toMatchObject({
      estimate: null,
      crew: { min: 0, efficient: 0, max: 0 },
      seats: [],
      extraHandShare: 0.5,
    });
  });
});
