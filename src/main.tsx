import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { chosenCues } from './main/languageShelf';
import { createPageLock } from './main/lock/pageLock';
import { createSeat } from './main/seat';
import { App } from './screens/App';

const place = document.getElementById('root');
if (place === null) throw new Error('index.html has no element #root.');
const root = createRoot(place);
const lock = createPageLock();

/** Where the record is locked, nothing of the page begins before it is open. */
async function unlocked(): Promise<void> {
  if (!lock.isLocked()) return;
  const first = await import('./main/lock/unlockFirst').catch(() => null);
  if (first !== null) return first.unlockFirst(root, lock);
  root.render(
    <p className="page">
      A part of the page did not arrive. Connect to the network, and load it again.
    </p>,
  );
  return new Promise(() => undefined);
}

void Promise.all([chosenCues(), unlocked()]).then(([chosen]) => {
  document.documentElement.lang = chosen.cues.book.language;
  root.render(
    <StrictMode>
      <App seat={createSeat(chosen, lock)} />
    </StrictMode>,
  );
});
