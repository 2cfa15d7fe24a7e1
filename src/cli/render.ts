import { closeSync, openSync, writeFileSync } from 'node:fs';
import type { Heard, WarmUpPlan } from '../domain/warmUp/planning';
import { sharedManner, type Manner } from '../voice/manner';
import type { Said, TimedEvent } from './rehearsalHall';
import { Refused, WrongUsage } from './refused';
import { answer, bookOf, mustBeSpoken, onlyOne, parse, type Verb } from './verb';
import { groupSecondsIn, plannedWarmUp, warmUpOf } from './warmUps';

export const render: Verb = {
  does: 'a warm-up for a group as one sound file, for a speaker without a phone',
  usage:
    'Usage: sayso render WARM-UP --out FILE.wav [--minutes N] [--language en]\n\n' +
    'Writes 16-bit mono PCM and prints {"file","seconds","leftOut"}. With --minutes it ends then:\n' +
    'the work becomes shorter, then breaths, rounds and blocks fewer; cautions are always said.',
  async run(args) {
    const { values, positionals } = parse(args, ['out', 'minutes']);
    const book = bookOf(values.language);
    const warmUp = warmUpOf(book, onlyOne(positionals));
    const { out } = values;
    if (out === undefined) throw new WrongUsage('Name the sound file: --out FILE.wav.');
    mustBeSpoken(book);
    const plan = plannedWarmUp(book, warmUp, values.minutes);
    mustBeWritable(out);
    const { soundFileOf } = await import('./sounding');
    writeFileSync(out, await soundFileOf(soundsOf(plan, groupSecondsIn(book.language))));
    answer({ file: out, seconds: plan.totalSeconds, leftOut: plan.leftOut });
    return 0;
  },
};

/** Looked at before the sound is made, which takes seconds; what lies there is left alone. */
function mustBeWritable(path: string): void {
  try {
    closeSync(openSync(path, 'a'));
  } catch (problem) {
    throw new Refused(`${path}: cannot be written (${(problem as Error).message}).`);
  }
}

/** A file is as loud as it can be: the speaker has a knob. */
const LOUD = { volume: 1 };

/** What sounds of a plan, for `soundFileOf`: spoken to a group, its counts at their own pace. */
export function soundsOf(
  { heard }: Pick<WarmUpPlan, 'heard'>,
  secondsOf: (text: string) => number,
): { said: Said[]; timeline: TimedEvent[] } {
  const group = sharedManner();
  group.speakFor('group');
  const cues: Manner = { ...group.now(), ...LOUD };
  const counts: Manner = { stretch: 1, ...LOUD };
  const said = heard.flatMap((one): Said[] => {
    if (one.do === 'tone' || one.text === null) return [];
    const isCount = one.do === 'beat';
    const seconds = isCount ? secondsOf(one.text) : one.seconds;
    return [
      {
        ...{ text: one.text, fromSeconds: one.atSeconds, toSeconds: one.atSeconds + seconds },
        ...{ isCutOff: false, manner: isCount ? counts : cues, ...(isCount && { isCount }) },
      },
    ];
  });
  return { said, timeline: heard.flatMap(toneOf) };
}

const toneOf = (one: Heard): TimedEvent[] => {
  if (one.do === 'tone') return [{ type: 'tone', name: one.name, atSeconds: one.atSeconds }];
  if (one.do === 'beat' && one.text === null)
    return [{ type: 'tone', name: 'countdown', atSeconds: one.atSeconds }];
  return [];
};
