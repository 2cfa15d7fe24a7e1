import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { putFirst } from './inLine';
import { OnsetFinder } from './onsetFinder';

const SAMPLES_A_SECOND = 48000;
const CHANNELS = 2;
const BYTES_A_FRAME = 2 * CHANNELS;
/** The two clocks are held together at so many places, by the least late of what came there. */
const PLACES = 30;

/** What came out of the card. */
export interface CardHeard {
  /** When each sound began in each channel, in seconds of true time. */
  channels: number[][];
  /** How far the card strays from a steady pace of its own, at nine of ten places at most. */
  strayMilliseconds: number;
}

/** A sound card that does not exist, but keeps true time as one does. */
export interface SoundCard {
  /** For a program that is to play into it. */
  environment: NodeJS.ProcessEnv;
  /** Hears what comes out from now on, until the function that it answers with is called. */
  listen(): () => Promise<CardHeard>;
  close(): Promise<void>;
}

/**
 * PulseAudio's null sink, paced by the system's own clock, and its monitor as a witness that has
 * no part in the page. Null where `pulseaudio` and `parec` are not installed.
 */
export async function openSoundCard(): Promise<SoundCard | null> {
  const folder = mkdtempSync(join(tmpdir(), 'sayso-sound-'));
  const socket = join(folder, 'socket');
  const script = join(folder, 'card.pa');
  writeFileSync(
    script,
    `load-module module-null-sink sink_name=card rate=${SAMPLES_A_SECOND} channels=${CHANNELS} format=s16le\n` +
      `load-module module-native-protocol-unix auth-anonymous=1 socket=${socket}\n`,
  );
  const environment = {
    ...process.env,
    PULSE_SERVER: `unix:${socket}`,
    PULSE_RUNTIME_PATH: folder,
    PULSE_STATE_PATH: folder,
    PULSE_COOKIE: join(folder, 'cookie'),
  };
  const options = ['-n', '-F', script, '--daemonize=no', '--exit-idle-time=-1', '--realtime=yes'];
  const server = spawn(
    'pulseaudio',
    [...options, '--use-pid-file=no', '--disable-shm=yes', '--high-priority=yes'],
    { env: environment, stdio: 'ignore', detached: true },
  );
  const failed = once(server, 'error').then(() => true);
  const close = async () => {
    if (server.exitCode === null && server.kill()) await once(server, 'exit');
    await rm(folder, { recursive: true, force: true });
  };
  for (let tries = 0; !existsSync(socket); tries += 1) {
    const isMissing = await Promise.race([failed, wait(100).then(() => tries > 100)]);
    if (!isMissing) continue;
    await rm(folder, { recursive: true, force: true });
    return null;
  }
  putFirst(server.pid);
  return {
    environment,
    listen: () => listenTo(environment),
    close,
  };
}

function listenTo(environment: NodeJS.ProcessEnv): () => Promise<CardHeard> {
  const format = ['--raw', '--format=s16le', `--rate=${SAMPLES_A_SECOND}`];
  const recorder = spawn(
    'parec',
    ['--device=card.monitor', ...format, `--channels=${CHANNELS}`, '--latency-msec=20'],
    { env: environment, stdio: ['ignore', 'pipe', 'ignore'] },
  );
  const finders = Array.from({ length: CHANNELS }, () => new OnsetFinder(SAMPLES_A_SECOND));
  /** The least late of each second: when it came, less where it stands in the sound. */
  const least: Late[] = [];
  let frames = 0;
  let left = Buffer.alloc(0);
  recorder.stdout.on('data', (piece: Buffer) => {
    const bytes = Buffer.concat([left, piece]);
    const whole = Math.floor(bytes.length / BYTES_A_FRAME);
    left = bytes.subarray(whole * BYTES_A_FRAME);
    finders.forEach((finder, channel) =>
      finder.hear(
        Float32Array.from(
          { length: whole },
          (_, frame) => bytes.readInt16LE(frame * BYTES_A_FRAME + 2 * channel) / 32768,
        ),
      ),
    );
    frames += whole;
    const atSeconds = frames / SAMPLES_A_SECOND;
    const seconds = performance.now() / 1000 - atSeconds;
    const second = Math.floor(atSeconds);
    if (seconds < (least[second]?.seconds ?? Infinity)) least[second] = { atSeconds, seconds };
  });
  return async () => {
    const ended = once(recorder, 'close');
    recorder.kill();
    await ended;
    // In the first seconds its buffer fills, and the last one may be short.
    const seconds = least.slice(2, -1).filter(Boolean);
    const third = Math.floor(seconds.length / 3);
    const [first, last] = [leastOf(seconds.slice(0, third)), leastOf(seconds.slice(-third))];
    if (third === 0 || first === undefined || last === undefined)
      throw new Error('Too little was heard from the sound card.');
    const pace = (last.seconds - first.seconds) / (last.atSeconds - first.atSeconds);
    const each = Math.ceil(seconds.length / PLACES);
    const strays = Array.from({ length: Math.floor(seconds.length / each) }, (_, place) =>
      leastOf(seconds.slice(place * each, (place + 1) * each)),
    )
      .map((one) =>
        Math.abs(
          (one?.seconds ?? 0) - first.seconds - pace * ((one?.atSeconds ?? 0) - first.atSeconds),
        ),
      )
      .toSorted((a, b) => a - b);
    return {
      channels: finders.map(({ onsets }) => onsets.map((at) => at * (1 + pace))),
      strayMilliseconds: 1000 * (strays[Math.floor(strays.length * 0.9)] ?? 0),
    };
  };
}

interface Late {
  atSeconds: number;
  seconds: number;
}

const leastOf = (those: readonly Late[]): Late | undefined =>
  those.toSorted((a, b) => a.seconds - b.seconds)[0];
