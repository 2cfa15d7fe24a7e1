import { apart, soundingAlike, type Lexicon } from '../../../src/cues/soundingAlike';
import { lexiconFor } from '../../../src/ear/lexicon';
import { heardOf, shareOf, type Done, type Share } from './figures';

/**
 * How the lint of replies that sound alike stands beside what our ear really confused. `named`: the
 * confused pairs that the lint would refuse. `nearer`: of the other replies of the same prompt, how
 * many sound less like what was said than what was heard instead (50 % would be chance).
 */
export interface ConfusionFigure {
  figure: 'confusions';
  half: string;
  pairs: number;
  named: number;
  nearer: Share | null;
  examples: string[];
}

/** The tuned half alone: the lint's costs of phones may be worked on by it. */
export function confusionFigures(done: Done): ConfusionFigure[] {
  const replies = heardOf(done).filter(({ ear, job }) => ear === 'ours' && job.half === 'tuned');
  if (replies.length === 0) return [];
  const confused = [
    ...new Map(
      replies
        .filter(({ outcome, heard }) => (outcome === 'wrong' || outcome === 'asked-wrong') && heard)
        .map(({ job, heard }) => [`${job.wanted.text}|${heard}`, { job, heard }]),
    ).values(),
  ];
  const textsAt = (prompt: string) => [
    ...new Set(
      replies.filter(({ job }) => job.wanted.prompt === prompt).map(({ job }) => job.wanted.text),
    ),
  ];
  const lexicon = lexiconOf([
    ...replies.map(({ job }) => job.wanted.text),
    ...confused.map(({ heard }) => heard),
  ]);
  const named = confused.filter(({ job, heard }) => {
    const [one, other] = [job.wanted.text, heard].map((words) => ({ words, meaning: words }));
    return one && other && soundingAlike([one, other], lexicon).length > 0;
  });
  const against = confused.flatMap(({ job: { wanted }, heard }) =>
    textsAt(wanted.prompt)
      .filter((text) => text !== wanted.text && text !== heard)
      .map((text) => apart(wanted.text, text, lexicon) > apart(wanted.text, heard, lexicon)),
  );
  return [
    {
      figure: 'confusions',
      half: 'tuned',
      pairs: confused.length,
      named: named.length,
      nearer: against.length > 0 ? shareOf(against.filter(Boolean).length, against.length) : null,
      examples: confused.slice(0, 8).map(({ job, heard }) => `${job.wanted.text} > ${heard}`),
    },
  ];
}

const lexiconOf = (texts: string[]): Lexicon =>
  lexiconFor([...new Set(texts.flatMap((text) => text.split(/[^a-z']+/)).filter(Boolean))]);
