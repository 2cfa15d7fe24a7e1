import type { LockHands } from '../../src/screens/lock/state';
import type { Did } from './fakeSeat';

/** Remembers what is done with the lock, and answers with `answer` where something is wrong. */
export const fakeLock = (did: Did[], answer: string | null): LockHands => {
  const doing = (...what: Did) => {
    did.push(what);
    return Promise.resolve(answer);
  };
  return {
    turnOn: (passphrase) => doing('lock', passphrase),
    change: (from, to) => doing('changePassphrase', from, to),
    turnOff: (passphrase) => doing('takeLockOff', passphrase),
    now() {
      did.push(['lockNow']);
      return answer;
    },
    after: (minutes) => did.push(['lockAfter', minutes]),
  };
};
