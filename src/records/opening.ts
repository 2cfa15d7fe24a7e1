import type { Dexie } from 'dexie';
import type { Database } from './database';
import { BLOCKED, RecordError } from './problems';

/** Those of one page that wait for one database to open. */
interface Queue {
  isBlocked: boolean;
  waiting: Set<() => void>;
}

/** Each room has a connection of its own, and a browser tells only the first of them that it is blocked. */
const queues = new WeakMap<object, Map<string, Queue>>();

function queueOf(name: string, { indexedDB }: Database): Queue {
  const factory: object = indexedDB ?? globalThis;
  const byName = queues.get(factory) ?? new Map<string, Queue>();
  queues.set(factory, byName);
  const queue = byName.get(name) ?? { isBlocked: false, waiting: new Set() };
  byName.set(name, queue);
  return queue;
}

/**
 * Opens a database. A newer shape waits for windows of an older version to let go of it, which may
 * be for ever: that is told at once, by a RecordError, and works by itself when they do.
 */
export function opening(db: Dexie, name: string, database: Database): () => Promise<void> {
  const queue = queueOf(name, database);
  db.on('blocked', () => {
    queue.isBlocked = true;
    for (const tell of queue.waiting) tell();
  });
  return () =>
    new Promise((resolve, reject) => {
      const tell = () => reject(new RecordError(null, BLOCKED));
      if (queue.isBlocked) tell();
      queue.waiting.add(tell);
      void db
        .open()
        .then(() => {
          queue.isBlocked = false;
          resolve();
        }, reject)
        .finally(() => queue.waiting.delete(tell));
    });
}
