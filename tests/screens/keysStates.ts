import type { SeatState } from '../../src/screens/seat';
import { STATE } from './fakeSeat';

export const KEYS_STATES: Record<string, SeatState> = {
  keys: { ...STATE, where: 'keys' },
  'keys-own': {
    ...STATE,
    where: 'keys',
    keys: {
      own: [
        { key: 'F5', deed: 'pause' },
        { key: 'MediaPlayPause', deed: 'forward' },
        { key: 'k', deed: null },
      ],
    },
  },
  'keys-damaged': { ...STATE, where: 'keys', keys: { own: [], trouble: 'damaged' } },
  'keys-refused': {
    ...STATE,
    where: 'keys',
    keys: { own: [{ key: 'F5', deed: 'pause' }], trouble: 'refused' },
  },
};
