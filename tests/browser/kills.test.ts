import { afterEach, expect, it } from 'vitest';
import type { CDPSession, Page } from 'playwright-core';
import { bookOf } from '../../src/cli/verb';
import { nextStep } from '../../src/domain/deciding/deciding';
import type { Entry } from '../../src/domain/log';
import { intact, type Row } from '../../src/records/checked';
import { sessionOf } from '../../src/records/heads';
import { titleOf } from '../../src/screens/words';
import { seeded } from '../session/seeded';
import { begin, h1, open, storedRows, toGate, type Opened } from './opening';
import { speakAtOnce } from './quickVoice';

/** So many in `npm test`; `KILLS=200` for more, `KILLS_SEED` for others. */
const KILLS = Number(process.env.KILLS ?? 5);
/** What a renderer is killed at: as it hears, as it writes, once it is written, and so on. */
const MOMENTS = ['hearing', 'storing', 'acknowledging', 'deciding', 'speaking'] as const;
type Moment = (typeof MOMENTS)[number] | 'anywhere';
/** At the first time of that moment, the second or the third. */
const TIMES_MOST = 3;
/** Deeds after which it is killed wherever it is, where the moment does not come. */
const DEEDS_MOST = 600;
/** The page tells them as they come; what is on its way when it dies is not told. */
interface Told {
  moment: Moment;
  ids: string[];
}

const book = bookOf();
let opened: Opened | undefined;
afterEach(async () => {
  await opened?.close();
  opened = undefined;
});

/** Runs in the page before anything of it: tells each moment, and the entries that are on the disk. */
function tellMoments() {
  const tell = (moment: string, ids: string[] = []) =>
    (window as unknown as { told(what: { moment: string; ids: string[] }): void }).told({
      moment,
      ids,
    });
  const { add } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.add = function (row: { id: string }, ...more) {
    const request = add.call(this, row, ...more);
    if (this.name === 'entries') {
      tell('storing');
      this.transaction.addEventListener('complete', () => tell('acknowledging', [row.id]));
    }
    return request;
  };
  const isReply = ({ target }: Event) => (target as Element).closest('main.run') !== null;
  document.addEventListener('click', (click) => isReply(click) && tell('hearing'), true);
  const seen: Record<string, string> = {};
  const look = (moment: string, selector: string, means: RegExp) => {
    const words = document.querySelector(selector)?.textContent ?? '';
    if (words !== seen[moment] && means.test(words)) tell(moment);
    seen[moment] = words;
  };
  new MutationObserver(() => {
    look('deciding', 'main.run h1', /./);
    look('speaking', 'main.run .cue', /\w/);
  }).observe(document, { subtree: true, childList: true, characterData: true });
}

/** One thing that a coach does by touch: the work is done, or how it was. */
const act = (page: Page, choice: number) =>
  page.evaluate(async (choose) => {
    const buttons = [...document.querySelectorAll<HTMLButtonElement>('main.run button')];
    const named = (name: string) => buttons.find(({ textContent }) => textContent.trim() === name);
    const answers = ['Held', 'Held', 'Short'].flatMap((name) => named(name) ?? []);
    (
      named('Yes') ??
      answers[Math.floor(choose * answers.length)] ??
      named('Done') ??
      named('Set done')
    )?.click();
    await new Promise((next) => requestAnimationFrame(next));
  }, choice);

/** Goes on with what was cut off, and looks that it is where it was. */
async function goOn(page: Page, log: Entry[]): Promise<void> {
  const { step } = nextStep(book, log);
  await page
    .getByRole('button', { name: /^Go on/ })
    .first()
    .click();
  if ('prompt' in step) await h1(page, titleOf(book, step.prompt));
}

it(
  `nothing that was acknowledged is lost where the renderer is killed ${String(KILLS)} times`,
  async () => {
    opened = await open({ permission: 'denied', isOnDisk: true });
    const { context } = opened;
    let { page } = opened;
    const address = page.url();
    const random = seeded(Number(process.env.KILLS_SEED ?? 8));
    const acknowledged = new Set<string>();
    let before: Row[] = [];
    let kill: { at: Moment; left: number; cdp: CDPSession } | null = null;
    const killed: Record<Moment, number> = {
      hearing: 0,
      storing: 0,
      acknowledging: 0,
      deciding: 0,
      speaking: 0,
      anywhere: 0,
    };
    await context.exposeBinding('told', (_, { moment, ids }: Told) => {
      for (const id of ids) acknowledged.add(id);
      if (kill?.at !== moment) return;
      kill.left -= 1;
      if (kill.left > 0) return;
      killed[moment] += 1;
      void kill.cdp.send('Page.crash').catch(() => null);
      kill = null;
    });
    await context.addInitScript(tellMoments);
    await context.addInitScript(speakAtOnce);

    for (let number = 0; ; number += 1) {
      await page.goto(address);
      await h1(page, 'Sayso');
      const rows = await storedRows(page);
      const there = new Set(rows.map(({ id }) => id));
      expect([...acknowledged].filter((id) => !there.has(id))).toEqual([]);
      expect(rows.slice(0, before.length)).toEqual(before);
      expect(rows.filter((row) => intact(row) === null)).toEqual([]);
      expect(there.size).toBe(rows.length);
      before = rows;
      if (number === KILLS) break;

      const entries = rows.map(({ entry }) => entry as Entry);
      const last = entries.findLast(({ type }) => type === 'started');
      const log = entries.filter(({ id }) => last && sessionOf(id) === sessionOf(last.id));
      const isOpen = last !== undefined && !log.some(({ type }) => type === 'ended');
      if (!isOpen) await toGate(page);
      const isOver = page.waitForEvent('crash', { timeout: 0 }).then(() => true);
      kill = {
        at: MOMENTS[number % MOMENTS.length] as Moment,
        left: 1 + Math.floor(random() * TIMES_MOST),
        cdp: await context.newCDPSession(page),
      };
      const going = isOpen ? goOn(page, log) : begin(page, 'touch');
      // What was under way fails with the page.
      await Promise.race([
        isOver,
        going.catch((why: unknown) => (kill ? Promise.reject(why) : isOver)),
      ]);
      for (let deeds = 0; ; deeds += 1) {
        const acted = act(page, random()).then(
          () => false,
          () => false,
        );
        if (await Promise.race([isOver, acted])) break;
        const cdp: CDPSession | undefined = kill?.cdp;
        if (deeds < DEEDS_MOST || cdp === undefined) continue;
        killed.anywhere += 1;
        kill = null;
        void cdp.send('Page.crash').catch(() => null);
      }
      kill = null;
      const next = await context.newPage();
      await page.close();
      page = next;
      await page.route('**/ear/**', () => undefined);
    }
    console.log(
      `killed ${JSON.stringify(killed)}; ${String(acknowledged.size)} entries acknowledged, 0 lost`,
    );
    // A page may be killed before anything of it was acknowledged.
    expect(acknowledged.size).toBeGreaterThan(KILLS / 2);
  },
  60_000 + KILLS * 10_000,
);
