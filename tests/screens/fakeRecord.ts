import type { RecordHands } from '../../src/screens/record/state';
import type { Did } from './fakeSeat';

const NOTHING = {
  ...{ peopleAdded: 0, peopleChanged: 0, sessionsAdded: 0, entriesAdded: 0, notesAdded: 0 },
  ...{ entriesMended: 0, stayErased: 0, peopleErased: 0 },
};

/**
 * Remembers what is done with the record, and answers with `answer` where something is wrong. A
 * file whose text begins with "locked" wants the passphrase "two plus two is".
 */
export const fakeRecord = (did: Did[], answer: string | null): RecordHands => ({
  show: () => did.push(['record']),
  save(passphrase) {
    did.push(['saveRecord', passphrase]);
    return Promise.resolve(
      answer === null ? { file: 'sayso-record-2031-03-08.json', damaged: 0 } : { say: answer },
    );
  },
  async look(file, passphrase) {
    did.push(['lookAtRecord', passphrase]);
    if (answer !== null) return { say: answer };
    const text = await file.text();
    if (!text.startsWith('locked')) return { would: { ...NOTHING, sessionsAdded: text.length } };
    if (passphrase === null) return { isLocked: true };
    if (passphrase !== 'two plus two is') return { say: 'This passphrase does not open the file.' };
    return { would: { ...NOTHING, peopleAdded: 1, stayErased: 2 } };
  },
  bringIn() {
    did.push(['bringIn']);
    return Promise.resolve({ did: { ...NOTHING, sessionsAdded: 3, notesAdded: 1 } });
  },
  leave: () => did.push(['leaveRecord']),
});
