import {
  ACTS_FROM,
  ASKS_FROM,
  confidenceOf,
  weighedBy,
  type Belief,
} from '../../src/ear/confidence';

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
  /** Infinity is written as 99. */
  lead: number;
  phones: number;
  freePhones: number;
}

/** Small words and word forms that the meaning does not hang on. */
const LOOSE: [RegExp, string][] = [
  [/\b(the|his|her|and|with|are|of|a bit|sides?|out)\b/g, ' '],
  [/\blower back\b/g, 'low back'],
  [/\b(round|arch|flar)ing\b/g, '$1ed'],
  [/\bflared\b/g, 'flareed'],
  [/\b(knee|shin)\b/g, '$1s'],
  [/\b(came|went|going|drifted|shot|rose|lifted) ?/g, ''],
  [/\byeah\b/g, 'yes'],
  [/\bnope\b/g, 'no'],
  [/\b(a|one) hundred (and )?/g, 'one '],
  [/\bone oh\b/g, 'one'],
  [/ +/g, ' '],
];
const meaningOf = (text: string) =>
  LOOSE.reduce((loose, [from, to]) => loose.replace(from, to), text).trim();

const wasRight = (clip: Clip) =>
  clip.kind === 'reply' && meaningOf(clip.heard) === meaningOf(clip.text);

/** Keeps weights small, or a one-phone reply such as "ow" could never be believed. */
const HELD_BACK = 0.002;

/** Share of other talk that may reach ACTS_FROM. */
const TALK_ACTED_ON = 0.01;

/**
 * Logistic regression of "a reply, and heard right" against other talk and other words; then the
 * offset is moved until only TALK_ACTED_ON of the talk is acted on. Replies heard wrong have no
 * part: most mean the same in other words.
 */
export function fit(clips: Clip[]): Belief {
  const used = clips.filter(
    (clip) => clip.phones > 0 && clip.kind !== 'noise' && (clip.kind !== 'reply' || wasRight(clip)),
  );
  const belief = zero();
  for (let step = 0; step < 20000; step += 1) {
    const slope = zero();
    for (const clip of used) {
      const error = (wasRight(clip) ? 1 : 0) - confidence(clip, belief);
      slope.offset += error;
      for (const { weight, value } of weighedBy(clip)) slope[weight] += error * value;
    }
    for (const weight of Object.keys(slope) as (keyof Belief)[]) {
      const held = weight === 'offset' ? 0 : HELD_BACK * belief[weight];
      belief[weight] += 0.5 * (slope[weight] / used.length - held);
    }
  }
  const talk = used.filter(({ kind }) => kind === 'talk' || kind === 'words');
  const acted = () =>
    talk.filter((clip) => confidence(clip, belief) >= ACTS_FROM).length / talk.length;
  while (acted() > TALK_ACTED_ON) belief.offset -= 0.05;
  return belief;
}

const zero = (): Belief => ({
  offset: 0,
  fitPerPhone: 0,
  poorFit: 0,
  inversePhones: 0,
  phonesAmiss: 0,
  lead: 0,
});

export const confidence = (clip: Clip, belief: Belief) =>
  clip.phones === 0 ? 0 : confidenceOf(clip, belief);

export function report(clips: Clip[], belief: Belief): string {
  const share = (some: Clip[], test: (clip: Clip) => boolean) =>
    some.length === 0 ? '-' : `${((100 * some.filter(test).length) / some.length).toFixed(1)} %`;
  const lines: string[] = [];
  for (const kept of [false, true])
    for (const decibels of [30, 20, 10, 5]) {
      const replies = clips.filter(
        (clip) => clip.kept === kept && clip.kind === 'reply' && clip.decibels === decibels,
      );
      const acts = (clip: Clip) => confidence(clip, belief) >= ACTS_FROM;
      const asks = (clip: Clip) => confidence(clip, belief) >= ASKS_FROM && !acts(clip);
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
        `${kept ? 'kept' : 'fitted'} ${kind}, ${others.length}: acted ${share(others, (clip) => confidence(clip, belief) >= ACTS_FROM)}, ` +
          `asked or acted ${share(others, (clip) => confidence(clip, belief) >= ASKS_FROM)}`,
      );
    }
  return lines.join('\n');
}
