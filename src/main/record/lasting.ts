import { keptText } from '../keptText';

/** `kept`: the browser has promised; `may-go`: it may drop the record where the device runs out of room; `unknown`: it does not tell. */
export type Lasting = 'kept' | 'may-go' | 'unknown';

/** What is said of it. */
export const LASTING_SAYS: Record<Lasting, string> = {
  kept: 'This browser has promised to keep the record until you clear it yourself.',
  'may-go':
    'This browser may drop the record when the device runs out of room. Save the whole record now and then.',
  unknown:
    'This browser does not tell how long it keeps the record. Save the whole record now and then.',
};

/**
 * Asks the browser to keep the record, once on this device: browsers that ask the coach in turn
 * would ask each time. Later it only looks how things stand. Call it after something was stored that
 * is worth keeping, in the click of the coach: `manager` is `navigator.storage`, undefined where
 * the page is not secure.
 */
export async function askToLast(
  manager: Pick<StorageManager, 'persist' | 'persisted'> | undefined,
  storage: () => Storage,
): Promise<Lasting> {
  const asked = keptText(storage, 'sayso-asked-to-last');
  try {
    if (manager === undefined) return 'unknown';
    if (await manager.persisted()) return 'kept';
    if (asked.load() === 'yes') return 'may-go';
    asked.save('yes');
    return (await manager.persist()) ? 'kept' : 'may-go';
  } catch {
    return 'unknown';
  }
}
