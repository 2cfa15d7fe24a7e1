import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable, Writable } from 'node:stream';
import { CHROMIUM, CHROMIUM_FLAGS } from '../../browser/flags';
import { putFirst } from './inLine';

const FLAGS = [
  ...CHROMIUM_FLAGS,
  '--headless',
  '--autoplay-policy=no-user-gesture-required',
  '--remote-debugging-pipe',
];

/** A Chromium as people have it, in which a page behind another is really hidden. */
export interface BareChromium {
  /** Gives it its turn before all other programs, as far as it has started; false where that is not allowed. */
  putFirst(): boolean;
  /** Sends one command of the DevTools protocol, to a page where `session` names one. */
  send<Result>(method: string, params?: object, session?: string): Promise<Result>;
  close(): Promise<void>;
}

interface Answer {
  id?: number;
  result?: unknown;
  error?: { message: string };
}

/**
 * Starts the Chromium that `CHROMIUM` names and speaks to it by a pipe, since a driver keeps every
 * page that it opens visible.
 */
export function openBareChromium(environment: NodeJS.ProcessEnv): BareChromium {
  const profile = mkdtempSync(join(tmpdir(), 'sayso-chromium-'));
  const browser = spawn(CHROMIUM, [...FLAGS, `--user-data-dir=${profile}`], {
    env: environment,
    stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'],
    detached: true,
  });
  const [, , , to, from] = browser.stdio as [null, null, null, unknown, unknown] as [
    null,
    null,
    null,
    Writable,
    Readable,
  ];
  const waiting = new Map<
    number,
    { resolve: (value: never) => void; reject: (why: Error) => void }
  >();
  let lastId = 0;
  let heard = '';
  from.setEncoding('utf8').on('data', (piece: string) => {
    const messages = (heard + piece).split('\0');
    heard = messages.pop() ?? '';
    for (const message of messages) {
      const { id = 0, result, error } = JSON.parse(message) as Answer;
      const asked = waiting.get(id);
      waiting.delete(id);
      if (error) asked?.reject(new Error(error.message));
      else asked?.resolve(result as never);
    }
  });
  browser.on('exit', () => {
    for (const { reject } of waiting.values()) reject(new Error('Chromium has ended.'));
  });
  return {
    putFirst: () => putFirst(browser.pid),
    send: (method, params = {}, session) =>
      new Promise((resolve, reject) => {
        lastId += 1;
        waiting.set(lastId, { resolve, reject });
        to.write(`${JSON.stringify({ id: lastId, method, params, sessionId: session })}\0`);
      }),
    async close() {
      const ended = once(browser, 'close');
      // Asked to end by itself, it waits for its helpers; killed, they write on for a while.
      this.send('Browser.close').catch(() => undefined);
      await ended;
      await rm(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
    },
  };
}
