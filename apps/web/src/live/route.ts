import { useEffect, useSyncExternalStore } from 'react';

/** Where the page stands: '/work/task_1' is ['work', 'task_1']. The server answers every such address with the page. */
export function useRoute(): string[] {
  const path = useSyncExternalStore(listen, () => window.location.pathname);
  return path.split('/').filter(Boolean).map(decodeURIComponent);
}

export function to(...parts: string[]): string {
  return `/${parts.map(encodeURIComponent).join('/')}`;
}

export function go(path: string): void {
  window.history.pushState(null, '', path);
  window.dispatchEvent(new Event(moved));
}

/** Follows plain clicks on links within the page without fetching it anew. */
export function useLinks(): void {
  useEffect(() => {
    document.addEventListener('click', follow);
    return () => {
      document.removeEventListener('click', follow);
    };
  }, []);
}

const moved = 'ribband:moved';

function follow(event: MouseEvent): void {
  if (event.defaultPrevented || event.button !== 0) return;
  if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
  const link = (event.target as Element).closest('a');
  if (!link || link.target || link.hasAttribute('download') || link.origin !== window.location.origin) return;
  if (link.protocol === 'blob:') return;
  event.preventDefault();
  go(link.pathname);
}

function listen(changed: () => void): () => void {
  window.addEventListener(moved, changed);
  window.addEventListener('popstate', changed);
  return () => {
    window.removeEventListener(moved, changed);
    window.removeEventListener('popstate', changed);
  };
}
