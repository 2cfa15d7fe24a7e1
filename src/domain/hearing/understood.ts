import type { CueBook } from '../script';
import type { Lines } from './judging';
import { bothRead } from './readback';
import { NO_REPLY, type Asks, type Choice, type Reading, type Reply, type Verdict } from './reply';

/** With the session's lines: the overhead angle of a pass, and the pain that leaves a result. */
export interface UnderstandOptions extends Lines {
  /** How surely the words were heard, 0 to 1; typed words are 1. */
  confidence: number;
  /** Replies count only after this word (`needsNoCallWord` says which do without); null for none. */
  callWord?: string | null | undefined;
}

/**
 * Confidence from which a reply is asked about, and from which it is acted on. Stop and pause act
 * earliest: stopping too much costs a word, stopping too late may hurt. Pain and red flags next.
 */
export const LINES = {
  reply: { ask: 0.25, act: 0.5 },
  harm: { ask: 0.2, act: 0.4 },
  halt: { ask: 0.2, act: 0.2 },
} as const;

/** How much less sure a reading is that has to be asked about. */
const DOUBT = 0.6;

/** What words mean at a prompt, before it counts how surely they were heard. */
export interface Understood {
  reply: Reply;
  verdict: Verdict;
  /** Factor on the confidence of hearing. */
  sure: number;
  against?: keyof CueBook['vocabulary']['doubts'] | null;
  asks?: Asks | null;
  and?: Reply;
  picks?: Choice;
  corrects?: true;
}

export const IGNORED: Understood = { reply: NO_REPLY, verdict: 'ignore', sure: 1 };

/** Acts, asks or ignores by how surely the words were heard. */
export function weighed(
  book: CueBook,
  heard: string,
  understood: Understood,
  confidence: number,
): Reading {
  const { reply, verdict, sure, asks, and, picks, corrects } = understood;
  const lines =
    reply.command === 'stop' || reply.command === 'pause'
      ? LINES.halt
      : isHarm(reply)
        ? LINES.harm
        : LINES.reply;
  const ignored = verdict === 'ignore' || confidence < lines.ask;
  if (ignored) return { heard, verdict: 'ignore', reply: null, confidence, readback: null };
  const unsure = verdict === 'confirm' || confidence < lines.act;
  return {
    heard,
    verdict: unsure ? 'confirm' : 'accept',
    reply,
    confidence: confidence * sure * (verdict === 'confirm' ? DOUBT : 1),
    readback: offerOf(book, understood),
    ...(asks && { asks }),
    ...(and && { and }),
    ...(picks && { picks }),
    ...(corrects && { corrects }),
  };
}

/** The reply read back, with what it says against itself or leaves open. */
function offerOf(
  { vocabulary, ...book }: CueBook,
  { reply, against, asks, and, picks }: Understood,
): string {
  const said = bothRead({ vocabulary, ...book }, reply, and);
  if (picks) return vocabulary.either[picks].readback;
  if (asks === 'one-side') return vocabulary.oneSide;
  const join = (mark: string, more: string) => (said === null ? more : `${said}${mark} ${more}`);
  if (against) return join(',', vocabulary.doubts[against]);
  if (asks === 'limited-or-lost') return join(':', vocabulary.results.failed.readback);
  if (asks === 'pass' && reply.result === null) return join(',', vocabulary.noFault);
  return said ?? vocabulary.noFault;
}

/** Does not wait for an answer. */
export const isHarm = ({ redFlag, result }: Reply): boolean =>
  redFlag !== null || result === 'pain';
