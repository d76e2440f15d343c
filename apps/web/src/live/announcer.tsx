import { createContext, useCallback, useContext, useMemo, useState, type ReactNode } from 'react';

const Announcer = createContext<(text: string) => void>(() => undefined);

/** Says a line to a screen reader without moving anyone's place on the page. */
export function useSay(): (text: string) => void {
  return useContext(Announcer);
}

export function AnnouncerProvider({ children }: { children: ReactNode }) {
  // The turn alternates so that the same words twice are still a change to the region.
  const [line, setLine] = useState({ text: '', turn: 0 });
  const say = useCallback((text: string) => {
    setLine((before) => ({ text, turn: before.turn + 1 }));
  }, []);
  const value = useMemo(() => say, [say]);
  return (
    <Announcer value={value}>
      {children}
      <div role="status" className="unseen">
        <span key={line.turn}>{line.text}</span>
      </div>
    </Announcer>
  );
}
