import type { Grammar } from '../../src/domain/hearing/grammar';
import { lexiconFor } from '../../src/ear/lexicon';

/** Every one of these phrases and nothing else. */
export const phrases = (prompt: string, said: string[]): Grammar => ({
  prompt,
  states: 2,
  finals: [1],
  arcs: said.map((words) => ({ from: 0, to: 1, words })),
});

export const wordsOf = (grammar: Grammar) => grammar.arcs.flatMap(({ words }) => words.split(' '));

export const lexiconOf = (...grammars: Grammar[]) => lexiconFor(grammars.flatMap(wordsOf), {});

const UNITS =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  );
const TENS = 'twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');

const belowHundred = (n: number): string =>
  n < 20
    ? (UNITS[n] ?? '')
    : [TENS[Math.floor(n / 10) - 2], n % 10 === 0 ? '' : UNITS[n % 10]].join(' ').trim();

/** 0 to 200 as people say them. */
export const NUMBERS = Array.from({ length: 201 }, (_, n) => {
  if (n < 100) return [belowHundred(n)];
  if (n === 200) return ['two hundred'];
  if (n === 100) return ['one hundred', 'a hundred'];
  const rest = belowHundred(n - 100);
  const short = n < 110 ? `one oh ${rest}` : `one ${rest}`;
  return [short, `one hundred and ${rest}`, `a hundred and ${rest}`, `one hundred ${rest}`];
}).flat();

export const RESULTS =
  'pass|clear|clean|held|clean set|pass left|lost|lost it|limited|short|short of range|fail|not a pass|not tested|almost'.split(
    '|',
  );
export const SIDES = 'left|right|both|both sides|left side|right side'.split('|');
export const FAULTS = [
  ...['knees', 'the knees', 'knee', 'his knees', 'her knees'].flatMap((part) =>
    [
      'forward',
      'went forward',
      'came forward',
      'going forward',
      'drifted forward',
      'locked',
      'locked out',
      'caved',
      'caved in',
      'came in',
      'bent',
      'did not come forward',
      'not forward',
    ].map((what) => `${part} ${what}`),
  ),
  ...['back', 'low back', 'the back', 'his back', 'lower back', 'spine'].flatMap((part) =>
    ['rounded', 'rounding', 'arched', 'arching', 'rounded a bit', 'not flat', 'stayed flat'].map(
      (what) => `${part} ${what}`,
    ),
  ),
  ...['shins', 'the shins', 'shin', 'lower legs'].flatMap((part) =>
    ['tilted', 'not vertical', 'forward', 'came forward', 'angled', 'vertical'].map(
      (what) => `${part} ${what}`,
    ),
  ),
  ...['toes', 'toes are', 'toes came', 'toes lifted'].flatMap((part) =>
    ['up', 'off the floor'].map((what) => `${part} ${what}`),
  ),
  ...['bar', 'the bar', 'bar drifted', 'bar went'].flatMap((part) =>
    ['away', 'forward', 'away from the legs', 'off the legs'].map((what) => `${part} ${what}`),
  ),
  ...['hips', 'the hips', 'hips came up', 'hips shot up', 'hips rose'].flatMap((part) =>
    ['first', 'early', 'up first', 'too fast'].map((what) => `${part} ${what}`),
  ),
  ...['shoulders', 'the shoulders', 'chest'].flatMap((part) =>
    ['first', 'forward', 'came up first', 'rose first', 'dropped', 'reached down'].map(
      (what) => `${part} ${what}`,
    ),
  ),
  ...['weight', 'balance'].flatMap((part) =>
    ['forward', 'on the toes', 'on the heels', 'back', 'shifted'].map((what) => `${part} ${what}`),
  ),
  ...['ribs', 'the ribs', 'ribs are', 'no ribs'].flatMap((part) =>
    ['flared', 'up', 'popped', 'flaring'].map((what) => `${part} ${what}`),
  ),
  'squatted it',
  'turned into a squat',
  'heels up',
  'heels came up',
  'locked knees',
  'rounded back',
  'bent knees',
];
export const COMMANDS =
  'stop|stop stop|stop there|pause|hold on|wait|resume|go on|carry on|repeat|say that again|next|back|go back|undo|scratch that|take that back|skip|skip it|ready|rep|done|again|one more|one more time|help|louder|quieter|slower|faster|lighter|heavier|yes|yeah|no|nope|how long|time left|go to the deadlift|go to the bell hinge|skip to the deadlift|finished|quieter please'.split(
    '|',
  );
export const PAIN =
  'pain|no pain|that hurts|it hurts|ow|ouch|sharp pain|new pain|pinch|pinching|something popped|chest pain|dizzy|i feel dizzy|faint|numb|tingling|cannot breathe|knee gave way|back went numb'.split(
    '|',
  );

/** As large as a real prompt's: sides, angles, results, two faults, commands, pain. */
export const hingeCheck = (): Grammar => {
  const [start, sided, angled, graded, measured, faulted, end] = [0, 1, 2, 3, 4, 5, 6] as const;
  const arcs: Grammar['arcs'] = [];
  const add = (from: number, to: number, said: string[]) =>
    said.forEach((words) => arcs.push({ from, to, words }));
  add(start, sided, SIDES);
  for (const from of [start, sided]) add(from, angled, NUMBERS);
  for (const from of [start, sided, angled]) {
    add(from, graded, RESULTS);
    add(from, faulted, FAULTS);
  }
  add(graded, faulted, FAULTS);
  add(graded, measured, NUMBERS);
  add(measured, faulted, FAULTS);
  add(faulted, end, FAULTS);
  add(
    faulted,
    end,
    ['and', 'with'].flatMap((join) => FAULTS.slice(0, 40).map((f) => `${join} ${f}`)),
  );
  add(start, end, [
    ...COMMANDS,
    ...PAIN,
    ...NUMBERS.slice(0, 11).flatMap((n) => [`pain ${n}`, `pain about ${n}`]),
  ]);
  return {
    prompt: 'check/hinge-unloaded',
    states: 7,
    finals: [sided, angled, graded, measured, faulted, end],
    arcs,
  };
};
