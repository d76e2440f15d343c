/** What this browser keeps for the yard when the line is down: answers, and deeds that wait to be sent. IndexedDB. */

const shelves = ['answers', 'deeds', 'owner'] as const;
export type Shelf = (typeof shelves)[number];

let opening: Promise<IDBDatabase | null> | null = null;

/** Null where the browser keeps nothing, as in some private windows: then nothing works without a line. */
function open(): Promise<IDBDatabase | null> {
  opening ??= new Promise((resolve) => {
    if (!('indexedDB' in window)) {
      resolve(null);
      return;
    }
    const asked = window.indexedDB.open('ribband', 1);
    asked.onupgradeneeded = () => {
      for (const shelf of shelves) asked.result.createObjectStore(shelf);
    };
    asked.onsuccess = () => {
      resolve(asked.result);
    };
    asked.onerror = () => {
      resolve(null);
    };
  });
  return opening;
}

async function on<T>(
  shelf: Shelf,
  mode: IDBTransactionMode,
  act: (store: IDBObjectStore) => IDBRequest<T>,
): Promise<T | undefined> {
  const chest = await open();
  if (!chest) return undefined;
  return new Promise((resolve, reject) => {
    const transaction = chest.transaction(shelf, mode);
    const asked = act(transaction.objectStore(shelf));
    // Kept only once the whole transaction is.
    transaction.oncomplete = () => {
      resolve(asked.result);
    };
    transaction.onabort = () => {
      reject(transaction.error ?? new Error('This browser could not keep it'));
    };
  });
}

/** @returns whether it is kept: not in every browser */
export async function keep(shelf: Shelf, key: string, value: unknown): Promise<boolean> {
  return (await on(shelf, 'readwrite', (store) => store.put(value, key))) !== undefined;
}

export async function kept(shelf: Shelf, key: string): Promise<unknown> {
  return on<unknown>(shelf, 'readonly', (store) => store.get(key));
}

export async function allKept(shelf: Shelf): Promise<unknown[]> {
  return (await on<unknown[]>(shelf, 'readonly', (store) => store.getAll())) ?? [];
}

export async function forget(shelf: Shelf, key: string): Promise<void> {
  await on(shelf, 'readwrite', (store) => store.delete(key));
}

/** Nothing that one person saw is kept for the next. */
export async function emptyChest(): Promise<void> {
  for (const shelf of shelves) await on(shelf, 'readwrite', (store) => store.clear());
}

/** Makes the chest somebody's: what another person left in it goes. @returns whether anything did */
export async function ownChest(accountId: string): Promise<boolean> {
  const owner = await kept('owner', 'account');
  if (owner === accountId) return false;
  if (owner !== undefined) await emptyChest();
  await keep('owner', 'account', accountId);
  return owner !== undefined;
}
