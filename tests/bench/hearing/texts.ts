import type { CueBook } from '../../../src/domain/script';
import { corpus, misread } from '../../corpus/score';
import { shareOf, type Share } from './figures';

/** `tuned` was worked on; each other was written, and read once, before it was. */
export const CORPUS_PARTS = ['tuned', 'untouched', 'fresh', 'later', 'latest'] as const;
type CorpusPart = (typeof CORPUS_PARTS)[number];

/** How many typed utterances of a half of the corpus are understood in every field. */
export interface TextFigure {
  figure: 'text';
  half: CorpusPart;
  n: number;
  right: Share;
}

export const textFigures = (book: CueBook): TextFigure[] =>
  CORPUS_PARTS.map((half) => {
    const all = corpus(half);
    const right = all.filter((utterance) => misread(book, utterance) === null).length;
    return { figure: 'text', half, n: all.length, right: shareOf(right, all.length) };
  });
