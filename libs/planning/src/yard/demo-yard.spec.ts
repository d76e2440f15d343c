import { readFileSync } from 'node:fs';
import { readYard } from './checks.js';

const file = new URL('../../../../fixtures/demo-yard.json', import.meta.url);
const demo = (): { survey: { findings: unknown[] } } =>
  JSON.parse(readFileSync(file, 'utf8')) as { survey: { findings: unknown[] } };

describe('the demo yard', () => {
  it('comes through the door without a fault', () => {
    const read = readYard(demo());
    expect('faults' in read ? read.faults : []).toEqual([]);
  });

  it('has a name for everything that a sister frame asks for, also beside two damaged pieces of one frame', () => {
    const yard = demo();
    const looked = { cause: null, by: 'Odalys Brenn', on: '2027-03-06', note: null };
    const sister = { frames: [27, 28], side: 'starboard', pieces: [3, 4], condition: 'sister', ...looked };
    yard.survey.findings.push(sister);
    const read = readYard(yard);
    expect('faults' in read ? read.faults : []).toEqual([]);
  });
});
