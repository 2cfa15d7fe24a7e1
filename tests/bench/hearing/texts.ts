import type { CueBook } from '../../../src/domain/script';
import { corpus, misread } from '../../corpus/score';
import { shareOf, type Share } from './figures';

/** How many typed utterances of a half of the corpus are understood in every field. */
export interface TextFigure {
  figure: 'text';
  half: 'tuned' | 'untouched';
  n: number;
  right: Share;
}

export const textFigures = (book: CueBook): TextFigure[] =>
  (['tuned', 'untouched'] as const).map((half) => {
    const all = corpus(half);
    const right = all.filter((utterance) => misread(book, utterance) === null).length;
    return { figure: 'text', half, n: all.length, right: shareOf(right, all.length) };
  });
