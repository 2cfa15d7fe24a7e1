import { aligned } from './aligning';
import type { Network } from './network';
import { BLANK, OUTPUTS } from './phones';
import { scoresBefore, type Posteriors } from './posteriors';

/** The words that fit best, and how well against other explanations of the same sound. */
export interface Decoded {
  text: string;
  /** Natural logarithm of the best path; 0 at most. */
  score: number;
  /** How likely each phone of the best path is where it lies, as natural logarithms, by word. */
  sure: number[][];
  /** The rows in which the first phone of the best path and the last one are clearest. */
  firstRow: number;
  lastRow: number;
  /** What the grammar cost against the free row of phones, a phone; 0 at most. */
  fitPerPhone: number;
  /** Other texts that fit almost as well, best first; at most OTHERS. */
  others: { text: string; score: number }[];
}

/**
 * Paths this far below the best of their frame are dropped. In natural logarithms: a right path
 * was never more than 25 behind in generated speech at 5 dB. From 60 the same texts, 144 of 144, in half
 * of the time; from 30 four others, of talk that is no reply.
 */
const BEAM = 45;
const NOTHING = -Infinity;
/** More were never told apart from the best. */
const OTHERS = 12;
/** A path further behind than this, in natural logarithms, is no rival. */
const WORTH_NOTING = 12;

interface Ending extends Pick<Decoded, 'text' | 'score'> {
  /** The last word, the node it ended in, and the entry of the history before it. */
  word: string;
  node: number;
  came: number;
}

/** Where paths came from: one entry each time a word ended, chained to the one before. */
class History {
  private readonly before: number[] = [];
  private readonly word: number[] = [];
  private readonly node: number[] = [];
  /** By entry: a path that reached the same place with another word, so far behind. */
  private readonly rivals = new Map<number, { before: number; word: number; behind: number }>();

  add(before: number, word: number, node: number): number {
    this.before.push(before);
    this.word.push(word);
    return this.node.push(node) - 1;
  }

  /** Of the entry added last. */
  addRival(before: number, word: number, behind: number): void {
    this.rivals.set(this.before.length - 1, { before, word, behind });
  }

  /** The nodes in which the words up to here ended. */
  nodes(entry: number): number[] {
    const nodes: number[] = [];
    for (let at = entry; at >= 0; at = this.before[at] ?? -1) nodes.unshift(this.node[at] ?? 0);
    return nodes;
  }

  text(entry: number, words: string[]): string {
    const said: string[] = [];
    for (let at = entry; at >= 0; at = this.before[at] ?? -1)
      said.unshift(words[this.word[at] ?? 0] ?? '');
    return said.join(' ');
  }

  /** What else may have been said up to here, and how far each is behind. */
  others(entry: number, words: string[]): { text: string; behind: number }[] {
    const found: { text: string; behind: number }[] = [];
    let after = '';
    for (let at = entry; at >= 0; at = this.before[at] ?? -1) {
      const rival = this.rivals.get(at);
      if (rival)
        found.push({
          text: `${this.text(rival.before, words)} ${words[rival.word] ?? ''} ${after}`.trim(),
          behind: rival.behind,
        });
      after = `${words[this.word[at] ?? 0] ?? ''} ${after}`.trim();
    }
    return found;
  }
}

/**
 * Best paths that have just ended a word, three for each state of the word graph: after a blank;
 * inside a last phone; and inside another last phone, since a phone may not follow its like.
 */
class Arrivals {
  readonly score: Float64Array;
  readonly history: Int32Array;
  readonly phone: Uint8Array;
  readonly end: Int32Array;
  /** By state: the best that ended another word than the best after a blank. */
  readonly nextScore: Float64Array;
  readonly nextHistory: Int32Array;
  readonly nextEnd: Int32Array;

  constructor(states: number) {
    this.score = new Float64Array(3 * states).fill(NOTHING);
    this.history = new Int32Array(3 * states).fill(-1);
    this.phone = new Uint8Array(3 * states);
    this.end = new Int32Array(3 * states).fill(-1);
    this.nextScore = new Float64Array(states).fill(NOTHING);
    this.nextHistory = new Int32Array(states).fill(-1);
    this.nextEnd = new Int32Array(states).fill(-1);
  }

  clear(): void {
    this.score.fill(NOTHING);
    this.end.fill(-1);
    this.nextScore.fill(NOTHING);
  }

  afterBlank(state: number, score: number, history: number, end: number): void {
    const at = 3 * state;
    if (score > (this.score[at] as number)) {
      this.next(
        state,
        this.score[at] as number,
        this.history[at] as number,
        this.end[at] as number,
      );
      this.put(at, score, history, end, BLANK);
    } else this.next(state, score, history, end);
  }

  private next(state: number, score: number, history: number, end: number): void {
    if (score <= (this.nextScore[state] as number)) return;
    this.nextScore[state] = score;
    this.nextHistory[state] = history;
    this.nextEnd[state] = end;
  }

  insidePhone(state: number, score: number, history: number, end: number, phone: number): void {
    const first = 3 * state + 1;
    const second = first + 1;
    if (score > (this.score[first] as number)) {
      if (this.phone[first] !== phone) this.copy(first, second);
      this.put(first, score, history, end, phone);
    } else if (this.phone[first] !== phone && score > (this.score[second] as number))
      this.put(second, score, history, end, phone);
  }

  private put(at: number, score: number, history: number, end: number, phone: number): void {
    this.score[at] = score;
    this.history[at] = history;
    this.end[at] = end;
    this.phone[at] = phone;
  }

  private copy(from: number, to: number): void {
    this.score[to] = this.score[from] as number;
    this.history[to] = this.history[from] as number;
    this.end[to] = this.end[from] as number;
    this.phone[to] = this.phone[from] as number;
  }
}

/**
 * Viterbi over the network with CTC's rules: a blank may stand anywhere, and must stand between
 * two like phones. Null where no utterance fits into the sound.
 */
export function decode(network: Network, posteriors: Posteriors): Decoded | null {
  const { blockStart, phone, parent, endStart, endWord, endState } = network;
  const states = network.final.length;
  const nodes = phone.length;
  const label = new Float64Array(nodes).fill(NOTHING);
  const blank = new Float64Array(nodes).fill(NOTHING);
  const labelHistory = new Int32Array(nodes).fill(-1);
  const blankHistory = new Int32Array(nodes).fill(-1);
  const live = new Uint8Array(states);
  const history = new History();
  let arrived = new Arrivals(states);
  let arriving = new Arrivals(states);
  arrived.score[0] = 0;
  let floor = NOTHING;
  const before = scoresBefore(posteriors);
  /** The paths that end in one state, side by side. */
  const ended = {
    score: new Float64Array(4),
    before: new Int32Array(4),
    word: new Int32Array(4),
  };

  for (let frame = 0; frame < posteriors.frames; frame += 1) {
    const row = frame * OUTPUTS;
    const blankCost = posteriors.log[row + BLANK] as number;
    let best = NOTHING;
    arriving.clear();
    for (let state = 0; state < states; state += 1) {
      const blankIn = 3 * state;
      const entered =
        (arrived.score[blankIn] as number) > floor ||
        (arrived.score[blankIn + 1] as number) > floor;
      if (!entered && live[state] === 0) continue;
      let alive = 0;
      const first = blockStart[state] as number;
      // Backwards, so that parents still hold the frame before.
      for (let node = (blockStart[state + 1] as number) - 1; node >= first; node -= 1) {
        const said = phone[node] as number;
        const above = parent[node] as number;
        const stay = label[node] as number;
        const rest = blank[node] as number;
        let score = stay;
        let came = labelHistory[node] as number;
        if (above >= 0) {
          const over = blank[above] as number;
          if (over > score) {
            score = over;
            came = blankHistory[above] as number;
          }
          const on = label[above] as number;
          if (on > score && phone[above] !== said) {
            score = on;
            came = labelHistory[above] as number;
          }
        } else if (entered) {
          if ((arrived.score[blankIn] as number) > score) {
            score = arrived.score[blankIn] as number;
            came = arrived.history[blankIn] as number;
          }
          const labelIn = blankIn + (arrived.phone[blankIn + 1] === said ? 2 : 1);
          if ((arrived.score[labelIn] as number) > score) {
            score = arrived.score[labelIn] as number;
            came = arrived.history[labelIn] as number;
          }
        }
        if (score < floor && rest < floor) {
          label[node] = NOTHING;
          blank[node] = NOTHING;
          continue;
        }
        alive = 1;
        const silent = (stay > rest ? stay : rest) + blankCost;
        if (stay > rest) blankHistory[node] = labelHistory[node] as number;
        const spoken = score + (posteriors.log[row + said] as number);
        label[node] = spoken;
        labelHistory[node] = came;
        blank[node] = silent;
        if (spoken > best) best = spoken;
        if (silent > best) best = silent;
        for (let end = endStart[node] as number; end < (endStart[node + 1] as number); end += 1) {
          const to = endState[end] as number;
          arriving.insidePhone(to, spoken, came, end, said);
          arriving.afterBlank(to, silent, blankHistory[node] as number, end);
        }
      }
      live[state] = alive;
    }
    // Nothing said yet: the silence before the first word.
    const silence = before[frame + 1] as number;
    arriving.afterBlank(0, silence, -1, -1);
    if (silence > best) best = silence;
    floor = best - BEAM;
    for (let state = 0; state < states; state += 1) remember(state);
    [arrived, arriving] = [arriving, arrived];
  }
  return bestOf(ending());

  /** Words that ended in this state become part of the history of what follows. */
  function remember(state: number): void {
    const first = 3 * state;
    let count = 0;
    let living = 0;
    for (let at = first; at < first + 3; at += 1) {
      const end = arriving.end[at] as number;
      if (end < 0) continue;
      if ((arriving.score[at] as number) >= floor) living += 1;
      note(count, arriving.score[at] as number, arriving.history[at] as number, end);
      count += 1;
    }
    if (living === 0) return;
    const slots = count;
    if ((arriving.nextScore[state] as number) > floor && (arriving.nextEnd[state] as number) >= 0) {
      const score = arriving.nextScore[state] as number;
      note(count, score, arriving.nextHistory[state] as number, arriving.nextEnd[state] as number);
      count += 1;
    }
    for (let at = first, slot = 0; slot < slots; at += 1) {
      const end = arriving.end[at] as number;
      if (end < 0) continue;
      const score = ended.score[slot] as number;
      const word = ended.word[slot] as number;
      if (score >= floor) {
        let rival = -1;
        for (let other = 0; other < count; other += 1)
          if (
            ended.word[other] !== word &&
            (rival < 0 || (ended.score[other] as number) > (ended.score[rival] as number))
          )
            rival = other;
        const entry = history.add(ended.before[slot] as number, word, nodeOfEnd(endStart, end));
        arriving.history[at] = entry;
        const behind = rival < 0 ? Infinity : score - (ended.score[rival] as number);
        if (behind < WORTH_NOTING)
          history.addRival(ended.before[rival] as number, ended.word[rival] as number, behind);
      }
      slot += 1;
    }
  }

  function note(slot: number, score: number, before: number, end: number): void {
    ended.score[slot] = score;
    ended.before[slot] = before;
    ended.word[slot] = endWord[end] as number;
  }

  /** Every last word of a finished utterance, best first. */
  function ending(): Ending[] {
    const found: Ending[] = [];
    for (let node = 0; node < nodes; node += 1) {
      const score = Math.max(label[node] as number, blank[node] as number);
      if (score === NOTHING || score < floor) continue;
      const came = (label[node] === score ? labelHistory : blankHistory)[node] as number;
      for (let end = endStart[node] as number; end < (endStart[node + 1] as number); end += 1) {
        const to = endState[end] as number;
        if (network.final[to] !== 1) continue;
        const before = history.text(came, network.words);
        const word = network.words[endWord[end] as number] ?? '';
        found.push({
          text: `${before} ${word}`.trim(),
          came,
          word,
          node,
          score,
        });
      }
    }
    return found.sort((a, b) => b.score - a.score);
  }

  function bestOf(found: Ending[]): Decoded | null {
    const [top] = found;
    if (top === undefined) return null;
    const { text, score } = top;
    const phones = [...history.nodes(top.came), top.node].map((end) => phonesOf(network, end));
    const { rows, sure } = aligned(posteriors, phones.flat());
    let at = 0;
    const inside = history.others(top.came, network.words).map((other) => ({
      text: `${other.text} ${top.word}`,
      score: score - Math.max(0, other.behind),
    }));
    const others = new Map<string, number>();
    for (const other of [...found, ...inside].sort((a, b) => b.score - a.score))
      if (other.text !== text && !others.has(other.text) && others.size < OTHERS)
        others.set(other.text, other.score);
    return {
      ...{ text, score },
      sure: phones.map(({ length }) => sure.slice(at, (at += length))),
      firstRow: rows[0] ?? 0,
      lastRow: rows.at(-1) ?? 0,
      fitPerPhone: (score - posteriors.freeScore) / sure.length,
      others: [...others].map(([text, score]) => ({ text, score })),
    };
  }
}

/** The phones of a word from its beginning to this node. */
function phonesOf({ phone, parent }: Network, node: number): number[] {
  const phones: number[] = [];
  for (let at = node; at >= 0; at = parent[at] as number) phones.unshift(phone[at] as number);
  return phones;
}

/** The node in which an end lies, by bisection. */
function nodeOfEnd(endStart: Int32Array, end: number): number {
  let low = 0;
  let high = endStart.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((endStart[middle] as number) <= end) low = middle;
    else high = middle;
  }
  return low;
}
