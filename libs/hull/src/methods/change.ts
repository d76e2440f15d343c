import { need } from '../refusal.js';
import { needBook } from './check-book.js';
import { type Method, type MethodBook } from './method.js';
import { type Rate } from './rates.js';

/** A method as the shipwright wants it, with the reason written down; its version goes up by one. */
export function changeMethod(
  book: MethodBook,
  method: Omit<Method, 'version' | 'changed'>,
  written: { by: string; reason: string },
): MethodBook {
  need(
    written.by.trim() !== '' && written.reason.trim() !== '',
    'written',
    'a method is changed without a name and a reason',
    'who changes it and why',
  );
  const old = book.methods.find((one) => one.key === method.key);
  const changed: Method = { ...method, version: (old?.version ?? 0) + 1, changed: written };
  const methods = old ? book.methods.map((one) => (one === old ? changed : one)) : [...book.methods, changed];
  return checked({ ...book, methods });
}

/** A rate as the crew's own log has it. */
export function changeRate(book: MethodBook, key: string, rate: Rate): MethodBook {
  need(
    book.rates.some((one) => one.key === key),
    'rate',
    `there is no rate "${key}"`,
    'a rate of this book',
  );
  return checked({
    ...book,
    rates: book.rates.map((one) => (one.key === key ? { ...one, ...rate } : one)),
  });
}

function checked(book: MethodBook): MethodBook {
  needBook(book);
  return book;
}
