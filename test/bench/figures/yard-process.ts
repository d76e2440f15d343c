import { generatedYard, usualYard } from '../generate/yard.js';
import { demoYard } from './demo-yard.js';
import type { Figure } from './figure.js';
import { firstPlan, forecastFigure, searchAndEvents } from './yard.js';

/** Seconds of search after which the gap is told. */
const SEARCH = 10;
const FUTURES = 10_000;

export interface YardFigures {
  figures: Figure[];
  faults: string[];
}

/** Measures one yard in a process that has done nothing else, and prints what came out as JSON. */
function measured(which: string | undefined): YardFigures {
  const faults: string[] = [];
  const fault = (says: string) => faults.push(`${which}: ${says}`);
  const figures =
    which === 'demo'
      ? (() => {
          const { problem, beliefs } = demoYard();
          return [
            ...firstPlan('demo yard', problem, fault),
            ...searchAndEvents('demo yard', problem, SEARCH, fault),
            forecastFigure('demo yard', problem, beliefs, FUTURES),
          ];
        })()
      : [...firstPlan('5,000 tasks, 300 people, 3 years', generatedYard(usualYard(5000, 1)), fault)];
  return { figures, faults };
}

process.stdout.write(JSON.stringify(measured(process.argv[2])));
