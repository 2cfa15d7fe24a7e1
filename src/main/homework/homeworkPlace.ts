import type { Handover } from '../../domain/handover/handover';
import { mustFitBook } from '../../domain/handover/checking';
import { homeworkSession, nextTasks } from '../../domain/handover/progress';
import { RefusedHandover } from '../../domain/handover/refused';
import { startOf, type HomeworkReport } from '../../domain/handover/returning';
import { momentAt } from '../../session/startedAt';
import type { HomeworkHands, HomeworkState, KeptHomework } from '../../screens/homework/state';
import type { SeatStore } from '../../screens/seat';
import { EMPTY_VIEW } from '../../screens/view';
import type { TextStorage } from '../lock/personalTexts';
import { randomName } from '../names';
import type { Parts } from '../parts';
import type { Running, ToRun } from '../running';
import { createComingBack } from './comingBack';
import { createHandingOver } from './handingOver';
import { ended, homeworkLogs } from './homeworkLogs';
import { createHomeworkShelf } from './homeworkShelf';
import { readHandedOver, readHandedOverFile, type HandedOver } from './reading';
import { createSending, type Outside } from './sending';
import { reportTravels } from './travelling';

export interface HomeworkParts {
  parts: Pick<Parts, 'assetsBase' | 'book' | 'clock' | 'people' | 'records'>;
  store: SeatStore;
  running: Pick<Running, 'start' | 'end'>;
  /** Unlocks what a tap unlocks, and opens the microphone where it is wanted. */
  begins: (listen: 'microphone' | 'hands') => void;
  /** People and their visits are read anew. */
  changed: () => Promise<void>;
  storage: () => TextStorage;
  /** What the browser offers to hand things on; of this window where left out. */
  outside?: Outside | undefined;
}

export interface HomeworkPlace extends Omit<HomeworkHands, 'show' | 'openWaiting' | 'leave'> {
  look(): Promise<void>;
  /** Shows what a session of it came to, once that is over. */
  over(handover: Handover): void;
}

const NOT_OPENED = 'The file could not be opened. Close it in other programs, and choose it again.';
const NOT_BEGUN = 'A part of Sayso did not arrive. Connect to the network, and begin again.';
const NOTHING_DONE = 'Nothing of it was done yet, so there is nothing to send.';
const GONE = 'This homework is not on this device any more. Open its link again.';

/** What is done with homework at the seat; `page`: its address without what is behind #. */
export function createHomeworkPlace({
  page,
  parts,
  store,
  running,
  changed,
  storage,
  outside,
}: HomeworkParts & { page: string }): HomeworkPlace {
  const { book, clock, records } = parts;
  const shelf = createHomeworkShelf(storage);
  const sending = createSending(outside);
  const comingBack = createComingBack({ parts, store, changed });
  const handingOver = createHandingOver({ parts, store, page, sending, changed, now });
  /** How often something was opened: of two the later counts, whichever is read first. */
  let turns = 0;

  function now(): string {
    return momentAt(clock.now(), -new Date(clock.now()).getTimezoneOffset());
  }
  const patch = (change: Partial<HomeworkState>) =>
    store.patch({ homework: { ...store.state().homework, ...change } });
  const stage = (to: HomeworkState['stage']) => patch({ stage: to });
  const shown = (): KeptHomework | null => {
    const { stage: at } = store.state().homework;
    return at.at === 'homework' || at.at === 'done' ? at.homework : null;
  };

  async function known(handovers: readonly Handover[]): Promise<KeptHomework[]> {
    const logs = await homeworkLogs(records);
    return handovers.map((handover) => {
      const own = logs.get(handover.id) ?? [];
      return { handover, done: ended(own).flatMap(doneOf), today: todayOf(handover, own) };
    });
  }

  function todayOf(handover: Handover, own: Awaited<ReturnType<typeof logsOf>>) {
    try {
      mustFitBook(book, handover);
      return nextTasks(
        book,
        handover,
        own.map(({ entries }) => entries),
        now(),
      );
    } catch {
      // Of another language, or of cues that this page has no more.
      return null;
    }
  }

  const logsOf = async (id: string) => (await homeworkLogs(records)).get(id) ?? [];

  const doneOf = ({ session, entries }: Awaited<ReturnType<typeof logsOf>>[number]) => {
    const { startedAt } = startOf(entries) ?? {};
    return startedAt === undefined ? [] : [{ session, startedAt }];
  };

  async function look() {
    const kept = await known(shelf.load()).catch(() => null);
    if (kept !== null) patch({ kept });
  }

  async function showHomework(handover: Handover) {
    const isKept = shelf.load().some(({ id }) => id === handover.id);
    const [homework] = await known([handover]);
    if (homework !== undefined) stage({ at: 'homework', homework, isKept });
  }

  async function take(read: () => Promise<HandedOver>) {
    turns += 1;
    const mine = turns;
    try {
      const handed = await read();
      if (mine !== turns) return;
      if (handed.what === 'report') return await showReport(handed.report);
      const { language } = handed.handover;
      if (language !== book.language && store.state().language.all.includes(language)) {
        return stage({ at: 'otherLanguage', language });
      }
      mustFitBook(book, handed.handover);
      await showHomework(handed.handover);
    } catch (error) {
      const say = error instanceof RefusedHandover ? error.message : NOT_OPENED;
      if (mine === turns) stage({ at: 'refused', say });
    }
  }
  const showReport = (report: HomeworkReport) => comingBack.show(report);

  async function start({ handover }: KeptHomework) {
    shelf.keep(handover);
    const [homework] = await known([handover]);
    if (homework?.today == null) return stage({ at: 'refused', say: GONE });
    const wanted: ToRun = {
      ...{ session: randomName(), log: [], over: () => void over(handover) },
      ...homeworkSession(homework.today),
    };
    store.patch({ people: { ...store.state().people, chosen: null } });
    if (!(await running.start(wanted))) stage({ at: 'refused', say: NOT_BEGUN });
  }

  /** What it came to, on the homework's own screen. */
  async function over(handover: Handover) {
    const { end } = store.state().view;
    running.end();
    const [homework] = await known([handover]).catch(() => []);
    if (homework === undefined) return;
    patch({ stage: { at: 'done', homework, end } });
    store.patch({ where: 'homework', view: EMPTY_VIEW });
    await look();
  }

  return {
    look,
    over: (handover) => void over(handover),
    openText: (text) => void take(() => readHandedOver(text, clock.now())),
    openFile: (file) => void take(() => readHandedOverFile(file, clock.now())),
    openKept(id) {
      const handover = shelf.load().find((one) => one.id === id);
      if (handover === undefined) stage({ at: 'refused', say: GONE });
      else void showHomework(handover);
    },
    begin() {
      const homework = shown();
      if (homework !== null) void start(homework);
    },
    notThere(missing) {
      const homework = shown();
      if (homework === null) return;
      const handover = { ...homework.handover, missing };
      if (shelf.load().some(({ id }) => id === handover.id)) shelf.keep(handover);
      void showHomework(handover);
    },
    remove(id) {
      shelf.remove(id);
      store.patch({ where: 'people' });
      void look();
    },
    async sendBack() {
      const homework = shown();
      const logs = homework === null ? [] : ended(await logsOf(homework.handover.id));
      if (homework === null || logs.length === 0) return { say: NOTHING_DONE };
      return sending.offer(await reportTravels(page, homework.handover.id, logs, now()));
    },
    handOver: (allowed) => handingOver.handOver(allowed),
    saveFile: () => sending.saveFile(),
    copyLink: () => sending.copyLink(),
    share: () => sending.share(),
    join: (person) => comingBack.join(person),
  };
}
