import { closeSync, openSync, writeFileSync } from 'node:fs';
import { warmUpToMix } from '../mixing/warmUp';
import { Refused, WrongUsage } from './refused';
import { answer, bookOf, mustBeSpoken, onlyOne, parse, type Verb } from './verb';
import { groupSecondsIn, groupStretch, plannedWarmUp, warmUpOf } from './warmUps';

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
    const toMix = warmUpToMix(plan, groupSecondsIn(book.language), groupStretch());
    writeFileSync(out, await soundFileOf(toMix));
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
