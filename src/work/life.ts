/**
 * Tells the page that a worker has ended, however it ended: one that the browser takes away, or that closes itself, throws no
 * error and answers no more, and what was asked of it would wait for ever. The worker holds a Web Lock as long as it lives.
 */

/** A name for a worker's lock; null where there are no locks (no secure context): there only thrown errors are heard of. */
export function nameOfLife(): string | null {
  return globalThis.navigator?.locks ? `elbowroom-worker/${crypto.randomUUID()}` : null;
}

/** In the worker, once. Resolves when the lock is held. */
export function holdLife(name: string | null): Promise<void> {
  if (name === null) return Promise.resolve();
  return new Promise((resolve, reject) => {
    navigator.locks
      .request(name, () => {
        resolve();
        // held until the worker is no more
        return new Promise(() => {});
      })
      .catch(reject);
  });
}

/** On the page, once the worker holds the lock. */
export function whenLifeEnds(name: string | null, ended: () => void): void {
  // a page that is left asks for nothing any more
  if (name !== null) navigator.locks.request(name, ended).catch(() => {});
}
