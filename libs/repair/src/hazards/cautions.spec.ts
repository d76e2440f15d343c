import { allCautionsOf, cautionsOf, hazardsOf, type CautionedTask } from './cautions.js';
import { hazardCatalogue, hazardCodes, safetyNotice } from './hazard-catalogue.js';

const task = (over: Partial<CautionedTask>): CautionedTask => ({
  title: 'Frame 12: set new frame',
  kind: 'work',
  hazards: [],
  cautions: [],
  crewMin: 2,
  opens: 0,
  ...over,
});
const words = (over: Partial<CautionedTask>) =>
  cautionsOf(task(over))
    .map((line) => line.words)
    .join('\n');

describe('Cautions', () => {
  it('lead is named wherever old paint is scraped, reefed, punched, dug or cut, ticked or not', () => {
    for (const title of [
      'Scrape topsides',
      'Reef seams, starboard',
      'Frame 12: punch nail stubs from kept timber',
      'Strake 9A: dig out bungs, tag plank',
      'Frame 12: cut or back out bolts at floor and clamp',
      'Frame 12: strip ceiling in way',
      'Sand the rail by hand',
    ]) {
      expect({ title, hazards: hazardsOf(task({ title })) }).toEqual({ title, hazards: ['lead'] });
    }
  });

  it('new wood brings no lead caution of its own', () => {
    for (const title of [
      'Frame 12: saw futtocks to bevel',
      'Strake 9A: bung, let set, pare',
      'Fair with battens',
    ]) {
      expect(hazardsOf(task({ title }))).toEqual([]);
    }
  });

  it('a lift by more than four asks for lifting gear', () => {
    expect(words({ hazards: ['lifting'], crewMin: 5 })).toMatch(/lifting gear/);
    expect(words({ hazards: ['lifting'], crewMin: 4 })).not.toMatch(/lifting gear/);
  });

  it('hot work asks for a fire watch who does nothing else and stays an hour, above the regulation’s half hour', () => {
    expect(words({ hazards: ['hot-work'] })).toMatch(/no other duty.*60 minutes/);
    expect(hazardCatalogue['hot-work'].caution).toMatch(/60 minutes.*least is 30/);
  });

  it('a piece that is drawn asks for sling and zone before its last fastening goes', () => {
    expect(words({ title: 'Frame 12: draw futtocks', hazards: ['crush'] })).toMatch(/last fastening/);
    expect(words({ title: 'Draw up the list of tools' })).not.toMatch(/last fastening/);
  });

  it('a single hand is told not to work alone', () => {
    expect(words({ crewMin: 1 })).toMatch(/alone/);
    expect(words({ crewMin: 2 })).not.toMatch(/alone/);
  });

  it('time that passes by itself has no cautions but the shipwright’s own', () => {
    expect(cautionsOf(task({ kind: 'elapsed', crewMin: 1, cautions: ['Keep the tent shut'] }))).toEqual([
      { words: 'Keep the tent shut', basis: 'the lead shipwright' },
    ]);
  });

  it('every caution says where it comes from, and none says that something is safe', () => {
    const lines = hazardCodes.flatMap((code) =>
      allCautionsOf(task({ hazards: [code], crewMin: 6, opens: 1 })),
    );
    for (const line of lines) {
      expect(line.basis).toMatch(/CFR|NFPA|common practice|from memory|lead shipwright/);
      expect(line.words).not.toMatch(/\b(is|are|be) safe\b|\bsafely\b|no danger|harmless/i);
    }
  });

  it('the standing sentence names all who decide and claims nothing', () => {
    for (const who of ['law', 'yard', 'insurer', 'competent person']) expect(safetyNotice).toContain(who);
    expect(safetyNotice).toMatch(/not a safety programme/);
  });
});
