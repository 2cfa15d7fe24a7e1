/** What is wrong with a warm-up, whoever wrote it: a file of scripts, or a coach in the builder. */
import { repliesHeardIn } from '../hearing/heardIn';
import { EXHALE_SECONDS, LONGEST_CUE_SECONDS } from '../pacing/line';
import { say } from '../saying';
import type { CueBook } from '../script';
import { unspeakable } from '../spokenText';
import {
  BREATHS,
  CHANGE_SECONDS,
  MOST_TURNS,
  ROUNDS,
  WORK_SECONDS,
  type WarmUp,
  type WarmUpBlock,
  type WarmUpPart,
} from './warmUp';

/** Where it is, such as `parts, 0, blocks, 2, workSeconds`, and what must be there. */
export interface WarmUpProblem {
  path: (string | number)[];
  problem: string;
}

/** Every number, name and drill that cannot be; empty where it can be planned and led. */
export function warmUpProblems(book: CueBook, { name, parts }: WarmUp): WarmUpProblem[] {
  const turns = parts.reduce((sum, part) => sum + part.rounds * sizeOf(part), 0);
  return [
    ...textProblem(['name'], name),
    ...(parts.length === 0 ? [{ path: ['parts'], problem: 'needs at least one part' }] : []),
    ...(turns > MOST_TURNS
      ? [{ path: ['parts'], problem: `has ${turns} turns in all; ${MOST_TURNS} at most` }]
      : []),
    ...parts.flatMap((part, at) => partProblems(book, part, ['parts', at])),
  ];
}

/**
 * What of its own words could not be spoken well: a line that lasts too long, or that would itself
 * be heard as a reply. Scripts are held to the same; `secondsOf` is the usual pace.
 */
export function wordingProblems(
  book: CueBook,
  { name, parts }: WarmUp,
  secondsOf: (text: string) => number,
): WarmUpProblem[] {
  const welcome = say(book.lines, 'group.welcome', { name, minutes: '' });
  return [
    ...wordingProblem(book, ['name'], welcome, secondsOf),
    ...parts.flatMap((part, at) => {
      const isStations = part.arrangement === 'stations';
      const field = isStations ? 'stations' : 'blocks';
      return (isStations ? part.stations : part.blocks).flatMap((each, index) => {
        const path = ['parts', at, field, index];
        const named =
          'name' in each
            ? wordingProblem(
                book,
                [...path, 'name'],
                say(book.lines, 'group.next', { name: each.name }),
                secondsOf,
              )
            : [];
        return [...named, ...wordingProblem(book, [...path, 'demo'], each.demo, secondsOf)];
      });
    }),
  ];
}

type Path = WarmUpProblem['path'];

function wordingProblem(
  book: CueBook,
  path: Path,
  text: string,
  secondsOf: (text: string) => number,
): WarmUpProblem[] {
  const seconds = secondsOf(text);
  if (seconds >= LONGEST_CUE_SECONDS) {
    const problem = `takes ${seconds.toFixed(1)} s to say; less than ${LONGEST_CUE_SECONDS} s is allowed`;
    return [{ path, problem }];
  }
  const heard = repliesHeardIn(book, 'idle', text);
  return heard.length === 0
    ? []
    : [
        {
          path,
          problem: `would itself be heard as a reply: ${heard.join(', ')}; word it otherwise`,
        },
      ];
}

const sizeOf = (part: WarmUpPart): number =>
  part.arrangement === 'stations' ? part.stations.length : part.blocks.length;

function partProblems(book: CueBook, part: WarmUpPart, path: Path): WarmUpProblem[] {
  const rounds = wholeProblem([...path, 'rounds'], part.rounds, ROUNDS);
  if (part.arrangement === 'together')
    return [
      ...rounds,
      ...(part.blocks.length === 0
        ? [{ path: [...path, 'blocks'], problem: 'needs at least one block' }]
        : []),
      ...part.blocks.flatMap((block, at) => blockProblems(book, block, [...path, 'blocks', at])),
    ];
  return [
    ...rounds,
    ...secondsProblem([...path, 'workSeconds'], part.workSeconds, WORK_SECONDS),
    ...secondsProblem([...path, 'changeSeconds'], part.changeSeconds, CHANGE_SECONDS),
    ...(part.stations.length < 2
      ? [{ path: [...path, 'stations'], problem: 'needs at least two stations' }]
      : []),
    ...part.stations.flatMap(({ drill, demo }, at) => [
      ...drillProblem(book, [...path, 'stations', at, 'drill'], drill),
      ...textProblem([...path, 'stations', at, 'demo'], demo),
    ]),
  ];
}

function blockProblems(book: CueBook, block: WarmUpBlock, path: Path): WarmUpProblem[] {
  const same = [
    ...textProblem([...path, 'demo'], block.demo),
    ...secondsProblem([...path, 'changeSeconds'], block.changeSeconds, CHANGE_SECONDS),
  ];
  return block.do === 'work'
    ? [
        ...drillProblem(book, [...path, 'drill'], block.drill),
        ...same,
        ...secondsProblem([...path, 'workSeconds'], block.workSeconds, WORK_SECONDS),
      ]
    : [
        ...textProblem([...path, 'name'], block.name),
        ...same,
        ...wholeProblem([...path, 'breaths'], block.breaths, BREATHS),
        ...wholeProblem([...path, 'exhaleSeconds'], block.exhaleSeconds, EXHALE_SECONDS),
      ];
}

interface Range {
  least: number;
  most: number;
}

const isIn = (value: number, { least, most }: Range): boolean => value >= least && value <= most;

const secondsProblem = (path: Path, value: number, range: Range): WarmUpProblem[] =>
  isIn(value, range) ? [] : [{ path, problem: `must be ${range.least} to ${range.most} seconds` }];

const wholeProblem = (path: Path, value: number, range: Range): WarmUpProblem[] =>
  Number.isInteger(value) && isIn(value, range)
    ? []
    : [{ path, problem: `must be a whole number, ${range.least} to ${range.most}` }];

function textProblem(path: Path, text: string): WarmUpProblem[] {
  const problem = unspeakable(text);
  return problem === null ? [] : [{ path, problem }];
}

const drillProblem = (book: CueBook, path: Path, drill: string): WarmUpProblem[] =>
  Object.hasOwn(book.drills, drill)
    ? []
    : [
        {
          path,
          problem: `there is no drill of that name; known: ${Object.keys(book.drills).join(', ') || 'none'}`,
        },
      ];
