import { describe, expect, it } from 'vitest';
import { graphOf, grammarOf } from '../../../src/domain/hearing/building';
import type { Graph, MeantArc } from '../../../src/domain/hearing/graph';
import { promptsOf } from '../../../src/domain/hearing/prompts';
import { understand } from '../../../src/domain/hearing/understanding';
import { hearingBook } from './book';

const book = hearingBook();
const prompts = promptsOf(book).map(({ prompt }) => prompt);

/** Numbers from 0 to 1 that are the same in every run. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const WALKS = 1000;
/** A call word comes before the same paths. */
const CALLED_WALKS = 200;

/** A random path from the start to a final state. */
function walk(graph: Graph, from: Map<number, MeantArc[]>, random: () => number): MeantArc[] {
  const path: MeantArc[] = [];
  for (let state = 0; ;) {
    const arcs = from.get(state) ?? [];
    if (arcs.length === 0 || (graph.finals.has(state) && random() < 0.4)) return path;
    const arc = arcs[Math.floor(random() * arcs.length)]!;
    path.push(arc);
    state = arc.to;
  }
}

function arcsFrom(graph: Graph): Map<number, MeantArc[]> {
  const from = new Map<number, MeantArc[]>();
  for (const arc of graph.arcs) from.set(arc.from, [...(from.get(arc.from) ?? []), arc]);
  return from;
}

describe('the grammar of a prompt', () => {
  it.each(prompts)('%s is small, and every state leads to an end', (prompt) => {
    const { arcs, finals, states } = grammarOf(book, prompt);
    expect(arcs.length).toBeLessThan(3000);
    const alive = new Set(finals);
    for (let grown = true; grown;) {
      const before = alive.size;
      for (const { from, to } of arcs) if (alive.has(to)) alive.add(from);
      grown = alive.size > before;
    }
    const used = new Set([0, ...arcs.flatMap(({ from, to }) => [from, to])]);
    expect([...used].filter((state) => !alive.has(state))).toEqual([]);
    expect(Math.max(...used)).toBeLessThan(states);
    for (const { words } of arcs) expect(words).toMatch(/^[a-z']+( [a-z']+)*$/);
  });

  const calls = prompts.flatMap((prompt) => [
    { prompt, callWord: null },
    { prompt, callWord: 'sayso' },
  ]);
  it.each(calls)('$prompt ($callWord) says nothing that is understood otherwise', (call) => {
    const { prompt, callWord } = call;
    const graph = graphOf(book, prompt, { callWord });
    const from = arcsFrom(graph);
    const random = seeded(14);
    for (let count = callWord === null ? WALKS : CALLED_WALKS; count > 0; count--) {
      const path = walk(graph, from, random);
      const text = path.map(({ words }) => words).join(' ');
      const meant = path.map((arc) => arc.meant);
      const said = Object.assign({}, ...meant.map(({ says }) => says ?? {})) as Record<
        string,
        unknown
      >;
      const faults = [...new Set(meant.flatMap(({ says }) => says?.faults ?? []))];
      const sum = (of: 'angle' | 'pain') => {
        const given = meant.flatMap((each) => each[of] ?? []);
        return given.length > 0 ? given.reduce((total, each) => total + each) : null;
      };
      const options = { passLineDegrees: 155, painGoesOnUpTo: 2, confidence: 1, callWord };
      const { reply, verdict } = understand(book, prompt, text, options);
      expect(verdict === 'ignore' ? text : null).toBeNull();
      expect({ text, ...reply }).toMatchObject({
        text,
        command: said.command ?? null,
        target: said.target ?? null,
        side: said.side ?? null,
        same: said.same ?? false,
        angleDegrees: sum('angle'),
        pain: sum('pain') ?? said.pain ?? null,
        redFlag: said.redFlag ?? null,
        ...('painKind' in said ? { painKind: said.painKind } : {}),
      });
      expect({ text, faults: [...(reply?.faults ?? [])].sort() }).toEqual({
        text,
        faults: faults.sort(),
      });
      if (faults.length === 0 && sum('pain') === null && said.result !== undefined)
        expect({ text, result: reply?.result }).toEqual({ text, result: said.result });
    }
  });
});
