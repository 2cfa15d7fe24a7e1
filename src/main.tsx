import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { chosenCues } from './main/languageShelf';
import { createSeat } from './main/seat';
import { App } from './screens/App';

const place = document.getElementById('root');
if (place === null) throw new Error('index.html has no element #root.');
const root = createRoot(place);
void chosenCues().then((chosen) => {
  document.documentElement.lang = chosen.cues.book.language;
  root.render(
    <StrictMode>
      <App seat={createSeat(chosen)} />
    </StrictMode>,
  );
});
