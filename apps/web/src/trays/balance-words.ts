import { count, list } from '../words/amounts.js';
import type { Balance } from './trays.question.js';

type Counts = Omit<Balance, '__typename' | ' $fragmentName'>;

const parts = (pairs: [number, string][]): string =>
  list(pairs.filter(([many]) => many > 0).map(([many, what]) => `${many} ${what}`)) || 'none';

/** What became of the fastenings, in three sentences that each add up. */
export function sayBalance(balance: Counts): string[] {
  const out = balance.drawn + balance.pulledThrough + balance.received;
  const ready = balance.sound + balance.bought;
  const lines = [
    `${count(balance.inPlace, 'fastening')} in place: ${parts([
      [balance.stillIn, 'still in'],
      [balance.drawn, 'drawn'],
      [balance.pulledThrough, 'pulled through'],
      [balance.cut, 'heads off'],
    ])}.`,
  ];
  if (out > 0)
    lines.push(
      `${out} saved from the wood: ${parts([
        [balance.sound, 'sound'],
        [balance.scrapped, 'scrap'],
        [balance.lost, 'lost'],
        [balance.lent, 'lent to another tray'],
        [balance.notGraded, 'to grade'],
      ])}.`,
    );
  if (ready > 0)
    lines.push(
      `${ready} to drive, ${balance.sound} of them saved: ${parts([
        [balance.driven, 'driven'],
        [balance.inTray, 'in the tray'],
      ])}.`,
    );
  return lines;
}

/** What a tray's number of fastenings in and out reads as in a list: "12 still in", "all out, 3 to grade". */
export function sayTray(
  balance: Pick<Counts, 'stillIn' | 'notGraded' | 'inTray' | 'driven'>,
  inPlace: number,
): string {
  if (balance.stillIn === inPlace) return `all ${inPlace} still in`;
  const out = balance.stillIn === 0 ? 'all out' : `${balance.stillIn} still in`;
  const rest = parts([
    [balance.notGraded, 'to grade'],
    [balance.inTray, 'in the tray'],
    [balance.driven, 'driven'],
  ]);
  return rest === 'none' ? out : `${out}, ${rest}`;
}
