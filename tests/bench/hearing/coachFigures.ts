import { proportionOf } from '../../../src/domain/measuring/proportion';
import type { CoachEar } from '../../../src/ear/coach/coachEar';
import { HALVES, type Half } from '../../sounds/speakers';
import type { Coach } from './coachVoices';
import { table } from './printing';

/** Every reply is heard in noise so far below the voice. */
export const LOUD_DECIBELS = 10;

/** What is learnt from: nothing, the voice check, a session, or only a part of the check. */
export const WAYS = [
  'before',
  'voice check',
  'a session',
  'pronunciations alone',
  'swaps alone',
  'offset alone',
] as const;
export type Way = (typeof WAYS)[number];
/** Those that other people's talk is heard by too. */
export const BESIDE_TALK: Way[] = ['before', 'voice check', 'offset alone'];

export interface CoachFigure {
  figure: 'coach';
  half: Half;
  coach: string;
  kind: Coach['kind'] | 'own words';
  way: Way;
  replies: number;
  right: number;
  asked: number;
  wrong: number;
  missed: number;
  talk: number;
  talkActed: number;
  talkAsked: number;
}

/** What the voice check of a coach taught. */
export interface Learnt extends CoachEar {
  figure: 'learnt';
  half: Half;
  coach: string;
}

/** The figures as a table, all coaches of a kind together. */
export function shownOf(figures: CoachFigure[]): string {
  const rows = HALVES.flatMap((half) =>
    (['plain', 'accent', 'own words'] as const).flatMap((kind) =>
      WAYS.flatMap((way) => {
        const some = figures.filter(
          (each) => each.half === half && each.kind === kind && each.way === way,
        );
        const sum = (of: (figure: CoachFigure) => number) =>
          some.reduce((total, figure) => total + of(figure), 0);
        const n = sum(({ replies }) => replies);
        if (n === 0) return [];
        const share = (part: number) => {
          const { from, to } = proportionOf(part, n);
          return `${(100 * (part / n)).toFixed(1)} (${(100 * from).toFixed(1)}-${(100 * to).toFixed(1)})`;
        };
        return [
          [
            `${half}, ${kind}`,
            way,
            `${n}`,
            share(sum(({ right }) => right)),
            share(sum(({ wrong }) => wrong)),
            `${sum(({ asked }) => asked)}`,
            `${sum(({ missed }) => missed)}`,
            `${sum(({ talkActed }) => talkActed)} + ${sum(({ talkAsked }) => talkAsked)} of ${sum(({ talk }) => talk)}`,
          ],
        ];
      }),
    ),
  );
  return table(
    `Fitted to a coach, noise at ${LOUD_DECIBELS} dB, % with 95 % intervals; other talk acted on + asked about`,
    ['coaches', 'learnt from', 'n', 'right', 'acted on, wrong', 'asked', 'missed', 'other talk'],
    rows,
  );
}
