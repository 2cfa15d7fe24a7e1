import { slotsOf } from './patterns';
import type { Reply } from './reply';
import type { Pattern } from './vocabulary';

/** What an arc adds to the meaning of a path; numbers along a path are summed. */
export interface Meant {
  says?: Partial<Reply>;
  angle?: number;
  pain?: number;
}

export interface MeantArc {
  from: number;
  to: number;
  words: string;
  meant: Meant;
}

/** A growing graph of phrases; state 0 is its start. */
export class Graph {
  states = 1;
  readonly finals = new Set<number>();
  readonly arcs: MeantArc[] = [];

  state(final = false): number {
    if (final) this.finals.add(this.states);
    return this.states++;
  }

  /** One arc from each of the states. */
  word(froms: number[], to: number, words: string, meant: Meant = {}): void {
    for (const from of froms) this.arcs.push({ from, to, words, meant });
  }

  /** A pattern from any of the states; its meaning lies on its last word. */
  pattern(froms: number[], to: number, pattern: Pattern, meant: Meant = {}): void {
    const slots = slotsOf(pattern);
    const mayEndAfter = (at: number) => slots.slice(at + 1).every(({ optional }) => optional);
    let reached = froms;
    slots.forEach(({ options, optional }, at) => {
      const inner = at < slots.length - 1 ? this.state() : null;
      for (const option of options) {
        if (inner !== null) this.word(reached, inner, option);
        if (mayEndAfter(at)) this.word(reached, to, option, meant);
      }
      const passed = optional ? reached : [];
      reached = inner === null ? passed : [...passed, inner];
    });
  }

  patterns(froms: number[], to: number, patterns: Pattern[], meant: Meant = {}): void {
    for (const pattern of patterns) this.pattern(froms, to, pattern, meant);
  }
}
