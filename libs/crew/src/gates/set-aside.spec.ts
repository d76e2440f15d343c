import { caseOf, person, rulesOf } from './gates.fixture.js';
import { mayDo } from './may-do.js';
import { openingFindings } from './opening-brought-in.js';
import { gateRuleNames, ruleBook } from './rule-book.js';

const word = { by: 'Odalys Brenn', reason: 'She has done it under my eye for a year.' };
const sawing = { skill: { id: 's', name: 'Sawing' }, level: 2, cards: [] };

describe('Setting a stop aside', () => {
  it('lets the person on, and name and reason stay to be read', () => {
    const given = caseOf({ seat: sawing, occasion: { setAside: [{ rule: 'skill', ...word }] } });
    const { may, findings } = mayDo(given);
    expect(may).toBe(true);
    expect(findings[0]?.weight).toBe('caution');
    expect(findings[0]?.words).toMatch(/Odalys Brenn has set this aside.*under my eye/);
  });

  it('opens no other gate than the one it names', () => {
    const setAside = [{ rule: 'card' as const, ...word }];
    expect(rulesOf('stop', { seat: sawing, occasion: { setAside } })).toEqual(['skill']);
  });

  it('does nothing to a rule that nobody may set aside', () => {
    const child = person('a child', { bornOn: '2015-01-01' });
    const setAside = [{ rule: 'visits-only' as const, ...word }];
    const adults = [person('a'), person('b')];
    expect(rulesOf('stop', { hand: child, alongside: adults, occasion: { setAside } })).toEqual([
      'visits-only',
    ]);
  });

  it('the rules that guard children, air and fire are nobody’s to set aside; ages of the law the director’s alone', () => {
    for (const rule of [
      'two-adults',
      'adult-alongside',
      'permit',
      'fire-watch',
      'staging',
      'opening',
    ] as const)
      expect(ruleBook[rule].setAsideBy).toBe('nobody');
    for (const rule of ['age-for-hazard', 'teardown'] as const)
      expect(ruleBook[rule].setAsideBy).toBe('director');
  });
});

describe('The rule book', () => {
  it('names a source for every rule, or says that there is none, and never says that a thing is safe', () => {
    for (const name of gateRuleNames) {
      expect(ruleBook[name].basis).toMatch(/CFR|WAC|NIOSH|common practice/);
      expect(ruleBook[name].says).not.toMatch(/\bsafe/i);
    }
  });

  it('an opening that must wait is a stop like any other', () => {
    expect(
      openingFindings([{ message: 'Frame 13 must wait: frame 12 is out.', remedy: null }]),
    ).toMatchObject([{ rule: 'opening', weight: 'stop' }]);
  });

  it('ages are the organisation’s own where it has set them', () => {
    const ages = { visitorsBelow: 12, inSightBelow: 15, teardownFrom: 21, byHazard: { lifting: 20 } };
    const nineteen = person('Vesper Oakhanger', { bornOn: '2008-01-01' });
    expect(
      rulesOf('stop', { hand: nineteen, job: { dismantles: true, hazards: ['lifting'] }, yard: { ages } }),
    ).toEqual(['age-for-hazard', 'teardown']);
    expect(rulesOf('stop', { hand: nineteen, job: { hazards: ['machine'] }, yard: { ages } })).toEqual([]);
  });
});
