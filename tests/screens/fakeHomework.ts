import type { HomeworkHands, Travels } from '../../src/screens/homework/state';
import type { Did } from './fakeSeat';

/** Made to travel: a link of two letters, and a code of four squares. */
export const TRAVELS: Travels = {
  link: 'https://gym.example/#homework=ab',
  code: { size: 10, path: 'M4 4h2v1H4z' },
  file: 'sayso-homework-2031-03-08.json',
  canShare: true,
  sessions: null,
};

/** Remembers what is done with homework, and answers with `answer` where something is wrong. */
export const fakeHomework = (did: Did[], answer: string | null): HomeworkHands => {
  const made = (what: string, ...withWhat: unknown[]) => {
    did.push([what, ...withWhat]);
    return Promise.resolve(answer === null ? TRAVELS : { say: answer });
  };
  const done = (what: string, ...withWhat: unknown[]) => {
    did.push([what, ...withWhat]);
    return Promise.resolve(answer);
  };
  return {
    show: () => did.push(['homework']),
    openWaiting: () => did.push(['openWaiting']),
    openText: (text) => did.push(['openText', text]),
    openFile: (file) => did.push(['openFile', file.size]),
    openKept: (id) => did.push(['openKept', id]),
    begin: (listen) => did.push(['beginHomework', listen]),
    notThere: (missing) => did.push(['notThere', missing]),
    remove: (id) => did.push(['removeHomework', id]),
    sendBack: () => made('sendBack'),
    handOver: (allowed) => made('handOver', allowed),
    saveFile: () => done('saveFile'),
    copyLink: () => done('copyLink'),
    share: () => done('share'),
    join: (person) => done('join', person),
    leave: () => did.push(['leaveHomework']),
  };
};
