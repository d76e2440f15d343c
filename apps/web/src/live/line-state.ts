import { useSyncExternalStore } from 'react';

/** Whether the yard's server answered the last time that it was asked. */
interface LineState {
  isDown: boolean;
  /** Epoch milliseconds of this machine: when what is shown was last heard; null while the line is up. */
  heardAt: number | null;
}

let state: LineState = { isDown: false, heardAt: null };
const listeners = new Set<() => void>();

function set(next: LineState): void {
  if (next.isDown === state.isDown && next.heardAt === state.heardAt) return;
  state = next;
  for (const listener of listeners) listener();
}

export function lineIsUp(): void {
  set({ isDown: false, heardAt: null });
}

/** @param heardAt when the oldest answer on the page was heard, where one is shown */
export function lineIsDown(heardAt: number | null): void {
  const oldest = state.heardAt !== null && heardAt !== null ? Math.min(state.heardAt, heardAt) : heardAt;
  set({ isDown: true, heardAt: oldest ?? state.heardAt });
}

export function useLine(): LineState {
  return useSyncExternalStore(listen, () => state);
}

function listen(changed: () => void): () => void {
  listeners.add(changed);
  return () => {
    listeners.delete(changed);
  };
}
