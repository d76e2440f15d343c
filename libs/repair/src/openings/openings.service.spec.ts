import { scratchKinds } from '@ribband/platform';
import { openSmallYard, refusalOf, type SmallYard } from '../repair.fixture.js';
import { withRule } from './opening-rules.js';
import { Openings } from './openings.service.js';

describe('a rule of openings', () => {
  it('is not given a number that lets all be open and more', () => {
    const to = (rule: 'frameRun' | 'bothSides' | 'neighbourFrames', atMost: number) => () =>
      withRule({}, rule, { atMost, keepClosed: null }, { by: 'Odalys Brenn', reason: 'braces stand' });
    for (const rule of ['bothSides', 'neighbourFrames'] as const) {
      expect(to(rule, 80)).toThrow();
      expect(to(rule, 2)()).toMatchObject({ [rule]: { value: 2 } });
    }
    expect(to('frameRun', 4)).toThrow();
    expect(to('frameRun', 2)()).toMatchObject({ frameRun: { value: { atMost: 2, of: 3 } } });
  });
});

describe.each(scratchKinds())('How far the hull may be open, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  it('the shipwright sets a limit aside by name and with a reason, and lets it hold again', async () => {
    const shipwright = await yard.as('shipwright');
    const id = await yard.idOf('frames-12-13');
    const openings = yard.get(Openings);
    const set = await openings.setAside(
      shipwright,
      id,
      1,
      'ribbands and two cross spalls, readings each day',
    );
    expect(set).toMatchObject({ overrideBy: 'The shipwright', version: 2 });
    expect(await openings.setAside(shipwright, id, 2, null)).toMatchObject({ overrideBy: null, version: 3 });
    expect(await yard.revision()).toBe(2);
  });

  it('a word is no reason, an old version no ground, and nobody else may', async () => {
    const shipwright = await yard.as('shipwright');
    const id = await yard.idOf('frames-12-13');
    const reason = 'ribbands and two cross spalls';
    const openings = yard.get(Openings);
    expect(await refusalOf(openings.setAside(shipwright, id, 1, 'fine'))).toMatchObject({ field: 'reason' });
    expect((await refusalOf(openings.setAside(shipwright, id, 7, reason))).code).toBe('CHANGED_MEANWHILE');
    for (const role of ['director', 'coordinator', 'volunteer'] as const)
      expect((await refusalOf(openings.setAside(await yard.as(role), id, 1, reason))).code).toBe(
        'NOT_PERMITTED',
      );
  });
});
