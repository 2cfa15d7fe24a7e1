import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { Refused } from './refused';

/** One line of a replies file: spoken text, or a sound file that goes through the recogniser. */
export interface Spoken {
  /** Where it stands in the file, from 1. */
  line: number;
  /** Empty: silence for that prompt. */
  text: string;
  /** Path of a WAV file instead of text, or null. */
  audio: string | null;
}

export interface Replies {
  /** Heard one after the other, each at the next prompt that wants an answer. */
  inTurn: Spoken[];
  /** Begin at a second of the session, whatever is going on. */
  timed: (Spoken & { atSeconds: number })[];
}

const TIMED = /^@(\d+(?:\.\d+)?)\s+(.*)$/;
const AUDIO = /^@audio\s+(.+)$/;

/**
 * Reads a replies file: one reply a line, `@12.5 text` at that second, `@audio FILE.wav` through
 * the recogniser (paths as seen from the replies file), `#` a comment, an empty line is silence.
 * @throws Refused where the file is not there or a line begins with an unknown mark.
 */
export function readReplies(path: string): Replies {
  const lines = textOf(path).split(/\r?\n/);
  if (lines.at(-1) === '') lines.pop();
  const replies: Replies = { inTurn: [], timed: [] };
  lines.forEach((raw, index) => {
    const written = raw.replace(/#.*$/, '').trim();
    if (written === '' && raw.trim() !== '') return;
    const timed = TIMED.exec(written);
    const spoken = spokenOf(timed?.[2] ?? written, index + 1, path);
    if (timed) replies.timed.push({ ...spoken, atSeconds: Number(timed[1]) });
    else replies.inTurn.push(spoken);
  });
  replies.timed.sort((one, other) => one.atSeconds - other.atSeconds);
  return replies;
}

function spokenOf(written: string, line: number, path: string): Spoken {
  const audio = AUDIO.exec(written);
  if (audio?.[1] !== undefined) {
    return { line, text: '', audio: resolve(dirname(path), audio[1].trim()) };
  }
  if (written.startsWith('@')) {
    throw new Refused(
      `${path}:${line}: "${written}" is not understood. ` +
        'Write "@12.5 text" for a time, or "@audio FILE.wav" for a sound file.',
    );
  }
  return { line, text: written, audio: null };
}

function textOf(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (problem) {
    const { code } = problem as NodeJS.ErrnoException;
    throw new Refused(
      code === 'ENOENT'
        ? `${path}: there is no such file of replies.`
        : `${path}: cannot be read (${code ?? String(problem)}).`,
    );
  }
}
