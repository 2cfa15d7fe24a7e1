import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { createSeat } from './main/seat';
import { App } from './screens/App';

const place = document.getElementById('root');
if (place === null) throw new Error('index.html has no element #root.');
createRoot(place).render(
  <StrictMode>
    <App seat={createSeat()} />
  </StrictMode>,
);
