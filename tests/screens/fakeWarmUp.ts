import { secondsOf } from '../../src/cli/durations';
import type { WarmUpHands } from '../../src/screens/warmUp/state';
import type { Did } from './fakeSeat';

/** Remembers what a leader does; `answer`: what is wrong with what is to be kept. */
export const fakeWarmUp = (did: Did[], answer: string | null = null): WarmUpHands => ({
  show: () => did.push(['warmUp']),
  begin: (choice) => did.push(['beginWarmUp', choice]),
  leave: () => did.push(['leaveWarmUp']),
  pace: () => ({ secondsOf, stretch: 140 / 120 }),
  build: (from) => did.push(['buildWarmUp', from]),
  leaveBuilder: () => did.push(['leaveBuilder']),
  keep: async (warmUp) => {
    did.push(['keepWarmUp', warmUp]);
    return answer;
  },
  remove: async (id) => {
    did.push(['removeWarmUp', id]);
    return answer;
  },
  bringIn: async (file) => {
    did.push(['bringInWarmUp', file.name]);
    return answer;
  },
  saveFile: async (warmUp) => {
    did.push(['saveWarmUpFile', warmUp]);
    return answer;
  },
  saveSound: async (choice) => void did.push(['saveSound', choice]),
  cancelSound: () => did.push(['cancelSound']),
});
