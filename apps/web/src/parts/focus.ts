import { useEffect, useRef, type RefObject } from 'react';

/** Puts the focus on an element that need not be one to type or press in, such as a heading. */
export function focusOn(selector: string): void {
  const element = document.querySelector<HTMLElement>(selector);
  if (!element) return;
  if (element.tabIndex < 0) element.tabIndex = -1;
  element.focus();
}

/**
 * Two refs for a question that takes the place of the button that asked it: the focus goes to the answer when the
 * question opens, and back to the button when it is put away, unless what came
 * of it has the focus already.
 */
export function useQuestionFocus(asking: boolean): {
  opener: RefObject<HTMLButtonElement | null>;
  answer: RefObject<HTMLButtonElement | null>;
} {
  const opener = useRef<HTMLButtonElement>(null);
  const answer = useRef<HTMLButtonElement>(null);
  const before = useRef(asking);
  useEffect(() => {
    if (before.current === asking) return;
    before.current = asking;
    if (asking) answer.current?.focus();
    else if (document.activeElement === document.body) opener.current?.focus();
  }, [asking]);
  return { opener, answer };
}
