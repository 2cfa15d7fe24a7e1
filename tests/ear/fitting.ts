import { confidenceOf, type Belief } from '../../src/ear/confidence';

/** One clip as the recogniser judged it. `text` is empty for noise alone. */
export interface Clip {
  kind: 'reply' | 'talk' | 'word' | 'words' | 'noise';
  text: string;
  kept: boolean;
  speaker: string;
  noise: string;
  decibels: number;
  heard: string;
  fitPerPhone: number;
  leadPerPhone: number;
  phones: number;
  freePhones: number;
}

const wasRight = (clip: Clip) => clip.kind === 'reply' && clip.heard === clip.text;

export function fit(_clips: Clip[]): Belief {
  throw new Error('later');
}

export const confidence = (clip: Clip, belief: Belief) =>
  clip.phones === 0
    ? 0
    : confidenceOf(
        { ...clip, score: 0, canGoOn: false },
        { log: new Float32Array(0), frames: 0, freeScore: 0, freePhones: clip.freePhones },
        belief,
      );

export function report(clips: Clip[], belief: Belief): string {
  const share = (some: Clip[], test: (clip: Clip) => boolean) =>
    some.length === 0 ? '-' : `${((100 * some.filter(test).length) / some.length).toFixed(1)} %`;
  const lines: string[] = [];
  for (const kept of [false, true])
    for (const decibels of [30, 20, 10, 5]) {
      const replies = clips.filter(
        (clip) => clip.kept === kept && clip.kind === 'reply' && clip.decibels === decibels,
      );
      const acts = (clip: Clip) => confidence(clip, belief) >= 0.5;
      const asks = (clip: Clip) => confidence(clip, belief) >= 0.25 && !acts(clip);
      lines.push(
        `${kept ? 'kept' : 'fitted'} ${decibels} dB, ${replies.length} replies: right ${share(replies, wasRight)}, ` +
          `acted right ${share(replies, (clip) => wasRight(clip) && acts(clip))}, ` +
          `acted wrong ${share(replies, (clip) => !wasRight(clip) && acts(clip))}, asked ${share(replies, asks)}`,
      );
    }
  for (const kept of [false, true])
    for (const kind of ['talk', 'word', 'words', 'noise'] as const) {
      const others = clips.filter((clip) => clip.kept === kept && clip.kind === kind);
      lines.push(
        `${kept ? 'kept' : 'fitted'} ${kind}, ${others.length}: acted ${share(others, (clip) => confidence(clip, belief) >= 0.5)}, ` +
          `asked or acted ${share(others, (clip) => confidence(clip, belief) >= 0.25)}`,
      );
    }
  return lines.join('\n');
}
