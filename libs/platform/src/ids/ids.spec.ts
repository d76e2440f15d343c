import { idKind, newId } from './ids.js';

describe('ids', () => {
  it('say of what kind they are, and sort by age', async () => {
    const first = newId('task');
    await new Promise((resolve) => setTimeout(resolve, 2));
    const second = newId('task');
    expect(idKind(first)).toBe('task');
    expect(first < second).toBe(true);
    expect(idKind(newId('hull_element'))).toBe('hull_element');
  });

  it('are told from anything else', () => {
    for (const text of ['', 'task', 'task_', 'task_1', '_0193', `_${newId('x').slice(2)}`]) {
      expect(idKind(text)).toBeNull();
    }
  });
});
