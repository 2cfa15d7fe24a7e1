import type { Network } from './network';
import { BLANK, OUTPUTS } from './phones';
import type { Posteriors } from './posteriors';

/** The words that fit best, and how well against other explanations of the same sound. */
export interface Decoded {
  text: string;
  /** Natural logarithm of the best path; 0 at most. */
  score: number;
  /** Phones of the best path. */
  phones: number;
  /** What the grammar cost against the free row of phones, a phone; 0 at most. */
  fitPerPhone: number;
  /** Distance to the best path that ends in another text, a phone; infinite where there is none. */
  leadPerPhone: number;
  /** Whether the grammar lets more words follow. */
  canGoOn: boolean;
}

/**
 * Paths this far below the best of their frame are dropped. In natural logarithms: a right path
 * was never more than 25 behind in generated speech at 5 dB.
 */
const BEAM = 60;
const NOTHING = -Infinity;

type Ending = Omit<Decoded, 'fitPerPhone' | 'leadPerPhone'>;

/** Where paths came from: one entry each time a word ended, chained to the one before. */
class History {
  private readonly before: number[] = [];
  private readonly word: number[] = [];
  private readonly phones: number[] = [];

  add(before: number, word: number, phones: number): number {
    this.before.push(before);
    this.word.push(word);
    return this.phones.push(phones + this.phonesAt(before)) - 1;
  }

  phonesAt(entry: number): number {
    return this.phones[entry] ?? 0;
  }

  text(entry: number, words: string[]): string {
    const said: string[] = [];
    for (let at = entry; at >= 0; at = this.before[at] ?? -1)
      said.unshift(words[this.word[at] ?? 0] ?? '');
    return said.join(' ');
  }
}

/** Best paths that have just ended a word, by state of the word graph. */
class Arrivals {
  /** After a blank, and still inside the last phone, which may not be said again without one. */
  readonly blank: Float64Array;
  readonly label: Float64Array;
  readonly lastPhone: Uint8Array;
  readonly blankHistory: Int32Array;
  readonly labelHistory: Int32Array;
  readonly blankEnd: Int32Array;
  readonly labelEnd: Int32Array;

  constructor(states: number) {
    this.blank = new Float64Array(states).fill(NOTHING);
    this.label = new Float64Array(states).fill(NOTHING);
    this.lastPhone = new Uint8Array(states);
    this.blankHistory = new Int32Array(states).fill(-1);
    this.labelHistory = new Int32Array(states).fill(-1);
    this.blankEnd = new Int32Array(states).fill(-1);
    this.labelEnd = new Int32Array(states).fill(-1);
  }

  clear(): void {
    this.blank.fill(NOTHING);
    this.label.fill(NOTHING);
    this.blankEnd.fill(-1);
    this.labelEnd.fill(-1);
  }
}

/**
 * Viterbi over the network with CTC's rules: a blank may stand anywhere, and must stand between
 * two like phones. Null where no utterance fits into the sound.
 */
export function decode(network: Network, posteriors: Posteriors): Decoded | null {
  const { blockStart, phone, parent, depth, endStart, endWord, endState } = network;
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
  arrived.blank[0] = 0;
  let floor = NOTHING;

  for (let frame = 0; frame < posteriors.frames; frame += 1) {
    const row = frame * OUTPUTS;
    const blankCost = posteriors.log[row + BLANK] as number;
    let best = NOTHING;
    arriving.clear();
    for (let state = 0; state < states; state += 1) {
      const fromBlank = arrived.blank[state] as number;
      const fromLabel = arrived.label[state] as number;
      const entered = fromBlank > floor || fromLabel > floor;
      if (!entered && live[state] === 0) continue;
      const lastPhone = arrived.lastPhone[state] as number;
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
          if (fromBlank > score) {
            score = fromBlank;
            came = arrived.blankHistory[state] as number;
          }
          if (fromLabel > score && lastPhone !== said) {
            score = fromLabel;
            came = arrived.labelHistory[state] as number;
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
          if (spoken > (arriving.label[to] as number)) {
            arriving.label[to] = spoken;
            arriving.labelHistory[to] = came;
            arriving.labelEnd[to] = end;
            arriving.lastPhone[to] = said;
          }
          if (silent > (arriving.blank[to] as number)) {
            arriving.blank[to] = silent;
            arriving.blankHistory[to] = blankHistory[node] as number;
            arriving.blankEnd[to] = end;
          }
        }
      }
      live[state] = alive;
    }
    arriving.blank[0] = (arrived.blank[0] as number) + blankCost;
    arriving.blankHistory[0] = -1;
    if ((arriving.blank[0] as number) > best) best = arriving.blank[0] as number;
    floor = best - BEAM;
    for (let state = 0; state < states; state += 1) {
      const labelEnd = arriving.labelEnd[state] as number;
      if (labelEnd >= 0 && (arriving.label[state] as number) > floor)
        arriving.labelHistory[state] = history.add(
          arriving.labelHistory[state] as number,
          endWord[labelEnd] as number,
          lengthOf(labelEnd),
        );
      const blankEnd = arriving.blankEnd[state] as number;
      if (blankEnd >= 0 && (arriving.blank[state] as number) > floor)
        arriving.blankHistory[state] = history.add(
          arriving.blankHistory[state] as number,
          endWord[blankEnd] as number,
          lengthOf(blankEnd),
        );
    }
    [arrived, arriving] = [arriving, arrived];
  }
  return bestOf(ending());

  function lengthOf(end: number): number {
    return depth[nodeOfEnd(endStart, end)] as number;
  }

  /** Every last word of a finished utterance, best first. */
  function ending(): Ending[] {
    const found: Ending[] = [];
    for (let node = 0; node < nodes; node += 1) {
      const score = Math.max(label[node] as number, blank[node] as number);
      if (score < floor) continue;
      const came = (label[node] === score ? labelHistory : blankHistory)[node] as number;
      for (let end = endStart[node] as number; end < (endStart[node + 1] as number); end += 1) {
        const to = endState[end] as number;
        if (network.final[to] !== 1) continue;
        const before = history.text(came, network.words);
        const word = network.words[endWord[end] as number] ?? '';
        found.push({
          text: before === '' ? word : `${before} ${word}`,
          score,
          phones: history.phonesAt(came) + (depth[node] as number),
          canGoOn: (blockStart[to + 1] as number) > (blockStart[to] as number),
        });
      }
    }
    return found.sort((a, b) => b.score - a.score);
  }

  function bestOf(found: Ending[]): Decoded | null {
    const [top] = found;
    if (top === undefined) return null;
    const other = found.find(({ text }) => text !== top.text);
    return {
      ...top,
      fitPerPhone: (top.score - posteriors.freeScore) / top.phones,
      leadPerPhone: other === undefined ? Infinity : (top.score - other.score) / top.phones,
    };
  }
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
