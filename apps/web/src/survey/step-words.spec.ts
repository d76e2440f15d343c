import type { Method } from './survey-document.js';
import { keyFor, newStep, sayAfter, stepsToWaitFor } from './step-words.js';

const method = (key: string, kind: string, steps: string[]): Method => ({
  key,
  version: 1,
  title: key,
  for: kind,
  steps: steps.map((step) => newStep(step, `${step} it`)),
});
const planks = method('plank-off', 'plank', ['pull', 'hang']);
const renew = method('renew-plank', 'plank', ['pull', 'saw']);
const frames = method('renew-frame', 'frame', ['draw']);
const all = [planks, renew, frames];

test('a step of the piece itself is looked for in its own method, of what touches it in all methods for that', () => {
  expect(stepsToWaitFor(all, frames, 'itself').map(({ key }) => key)).toEqual(['draw']);
  expect(stepsToWaitFor(all, frames, 'planks over it').map(({ key }) => key)).toEqual([
    'pull',
    'hang',
    'saw',
  ]);
});

test('what a step waits for reads as a sentence', () => {
  const after = { step: 'pull', of: 'planks over it', relation: 'finish-to-start', lag: { turnouts: 1 } };
  expect(sayAfter(all, frames, after)).toBe(
    'starts after the end of “pull it”, on each plank over it, 1 turnout later',
  );
});

test('a new step has a key of its own, in words', () => {
  expect(keyFor('Wet her down, daily!', [])).toBe('wet-her-down-daily');
  expect(keyFor('Pull', ['pull', 'pull-2'])).toBe('pull-3');
});
