/** Keys of the hull's elements are words joined by hyphens: strake-9-plank-1-starboard. */
const elementKey = /^[a-z0-9]+(-[a-z0-9]+)*$/;

export const isElementKey = (key: string): boolean => key.length <= 100 && elementKey.test(key);

/** The key read aloud: "strake 9 plank 1 starboard". */
export const elementWords = (key: string): string => key.replaceAll('-', ' ');

/** The element that methods make tasks for: a frame's pieces are drawn and set with their frame. */
export const workedElement = (key: string): string => key.replace(/-(futtock-\d+|floor)$/, '');

/** Whether a task is part of the work on an element: its ref is the element's key and its step's. */
export const isTaskOf = (task: { ref: string }, key: string): boolean =>
  task.ref.startsWith(`${workedElement(key)}-`);
