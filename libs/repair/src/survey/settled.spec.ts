import { buildHull, HullRefusal } from '@ribband/hull';
import { SCHOONER } from '../../../hull/src/model/halibut-schooner.fixture.js';
import { settledSurvey } from './settled.js';
import { surveyShape } from './survey-shape.js';

describe('a survey that renews a part of a plank', () => {
  const hull = buildHull(SCHOONER);
  const { key, firstFrame, lastFrame } = hull.planks.find(
    (one) => one.skin === 'planking' && one.lastFrame - one.firstFrame >= 9,
  )!;
  const finding = (part: [number, number]) =>
    ({
      plank: key,
      condition: 'renew',
      part,
      cause: null,
      by: 'Odalys Brenn',
      on: '2027-03-06',
      note: null,
    }) as const;
  const fault = (part: [number, number]): HullRefusal => {
    try {
      settledSurvey(hull, { findings: [finding(part)], causes: [] } as never);
    } catch (error) {
      if (error instanceof HullRefusal) return error;
      throw error;
    }
    throw new Error('nothing was refused');
  };

  it('is refused in the words of the rule where the new wood is too short', () => {
    const { field, message } = fault([firstFrame, firstFrame + 3]);
    expect(field).toBe('survey.findings[0].part');
    expect(message).toContain('the new plank spans 4 frame spaces');
    expect(message).toContain('at least 6 frame spaces');
  });

  it('is refused where too little of the old plank would be left, or the frames are not hers', () => {
    expect(fault([firstFrame + 3, lastFrame]).message).toContain(
      '3 frame spaces of the old plank would be left',
    );
    expect(fault([firstFrame, lastFrame + 1]).message).toContain('are no part of');
  });

  it('is only read for a plank that is renewed', () => {
    const read = (condition: string) =>
      surveyShape.shape.findings.safeParse([{ ...finding([firstFrame, lastFrame]), condition }]).success;
    expect([read('renew'), read('sound')]).toEqual([true, false]);
  });

  it('may be the whole of it', () => {
    const { planks } = settledSurvey(hull, {
      findings: [finding([firstFrame, lastFrame])],
      causes: [],
    } as never);
    expect(planks).toEqual([{ plank: key, finding: 'renew', cause: null }]);
  });
});
