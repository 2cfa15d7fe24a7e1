import type { Grammar } from '../domain/hearing/grammar';

/** A grammar as words, one arc a word from each state: deterministic, acyclic, smallest. */
export interface WordGraph {
  /** By state: the words that may follow and where they lead. State 0 is the start. */
  arcs: { word: string; to: number }[][];
  final: boolean[];
}

/** Where one may be in the grammar: in a state, with words of an arc still to come. */
type Place = { words: string[]; state: number };

const ENTERED = -1;

/**
 * The grammar's utterances, shared at both ends: subset construction over words, then equal
 * futures are one state.
 * @throws Error where the grammar has a cycle, against its promise.
 */
export function wordGraphOf(grammar: Grammar): WordGraph {
  const leaving: Place[][] = Array.from({ length: grammar.states }, () => []);
  for (const arc of grammar.arcs)
    leaving[arc.from]?.push({ words: arc.words.split(' '), state: arc.to });
  const finals = new Set(grammar.finals);
  const byPlaces = new Map<string, number>();
  const byFuture = new Map<string, number>();
  const graph: WordGraph = { arcs: [], final: [] };

  const visit = (places: Place[]): number => {
    const name = keyOf(places);
    const known = byPlaces.get(name);
    if (known === ENTERED) throw new Error(`The replies at ${grammar.prompt} go in a circle.`);
    if (known !== undefined) return known;
    byPlaces.set(name, ENTERED);
    const next = new Map<string, Place[]>();
    for (const place of places)
      for (const { words, state } of place.words.length > 0
        ? [place]
        : (leaving[place.state] ?? [])) {
        const [word = '', ...rest] = words;
        const followers = next.get(word) ?? [];
        followers.push({ words: rest, state });
        next.set(word, followers);
      }
    const final = places.some(({ words, state }) => words.length === 0 && finals.has(state));
    const arcs = [...next].sort(([a], [b]) => (a < b ? -1 : 1));
    const leads = arcs.map(([word, followers]) => ({ word, to: visit(followers) }));
    const future = `${final}|${leads.map(({ word, to }) => `${word}>${to}`).join(' ')}`;
    const state = byFuture.get(future) ?? graph.arcs.push(leads) - 1;
    graph.final[state] = final;
    byFuture.set(future, state);
    byPlaces.set(name, state);
    return state;
  };
  return fromStart(graph, visit([{ words: [], state: 0 }]));
}

const keyOf = (places: Place[]) =>
  [...new Set(places.map(({ words, state }) => `${state}:${words.join(' ')}`))].sort().join('|');

/** Renumbers so that the start is 0 (it was made last). */
function fromStart(graph: WordGraph, start: number): WordGraph {
  const last = graph.arcs.length - 1;
  const renumbered = (state: number) => (state === start ? 0 : state + 1);
  if (start !== last) return graph;
  const arcs = [graph.arcs[last] ?? [], ...graph.arcs.slice(0, last)];
  const final = [graph.final[last] ?? false, ...graph.final.slice(0, last)];
  return {
    arcs: arcs.map((leads) => leads.map(({ word, to }) => ({ word, to: renumbered(to) }))),
    final,
  };
}
