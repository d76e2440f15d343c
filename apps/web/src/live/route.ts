import { useSyncExternalStore } from 'react';

/**
 * Where the page stands, kept behind the '#' of the address so that the server need know nothing of pages.
 * '#/work/task_1' is ['work', 'task_1'].
 */
export function useRoute(): string[] {
  const hash = useSyncExternalStore(listen, () => window.location.hash);
  return hash.replace(/^#\/?/, '').split('/').filter(Boolean).map(decodeURIComponent);
}

export function to(...parts: string[]): string {
  return `#/${parts.map(encodeURIComponent).join('/')}`;
}

export function go(...parts: string[]): void {
  window.location.hash = to(...parts);
}

function listen(changed: () => void): () => void {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
}
