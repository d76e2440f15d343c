import { readFileSync } from 'node:fs';
import { readYard } from './checks.js';

describe('the demo yard', () => {
  it('comes through the door without a fault', () => {
    const file = new URL('../../../../fixtures/demo-yard.json', import.meta.url);
    const read = readYard(JSON.parse(readFileSync(file, 'utf8')));
    expect('faults' in read ? read.faults : []).toEqual([]);
  });
});
