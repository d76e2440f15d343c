import type { Finding, SetAside } from './gate.types.js';
import { ruleBook } from './rule-book.js';

/**
 * A stop that somebody with authority has set aside stays to be read, with their name and reason. A rule that nobody
 * may set aside stays a stop whatever is written.
 */
export function afterSettingAside(findings: Finding[], setAside: readonly SetAside[]): Finding[] {
  return findings.map((finding) => {
    const word = setAside.find(({ rule }) => rule === finding.rule);
    if (finding.weight !== 'stop' || !word || ruleBook[finding.rule].setAsideBy === 'nobody') return finding;
    return {
      ...finding,
      weight: 'caution',
      words: `${finding.words} ${word.by} has set this aside for this turnout: ${word.reason}`,
      remedy: null,
    };
  });
}
