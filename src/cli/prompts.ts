import { promptsOf } from '../domain/hearing/prompts';
import { WrongUsage } from './refused';
import { answer, bookOf, parse, type Verb } from './verb';

export const prompts: Verb = {
  does: 'lists every prompt id with the replies it expects',
  usage: 'Usage: sayso prompts [--language en]\n\nPrints {"prompt","expects"} a line.',
  run(args) {
    const { values, positionals } = parse(args, []);
    if (positionals.length > 0) throw new WrongUsage(`Too much: ${positionals.join(' ')}.`);
    for (const prompt of promptsOf(bookOf(values.language))) answer(prompt);
    return 0;
  },
};
