import { hear } from './hear';
import { plan } from './plan';
import { prompts } from './prompts';
import { Refused, WrongUsage } from './refused';
import { rehearseVerb } from './rehearse';
import { render } from './render';
import { scripts } from './scripts';
import { sheet } from './sheet';
import type { Verb } from './verb';

const VERBS: Record<string, Verb> = {
  hear,
  rehearse: rehearseVerb,
  render,
  scripts,
  plan,
  sheet,
  prompts,
};

const overview = () =>
  [
    'Usage: npm run -s sayso -- VERB ...',
    '',
    ...Object.entries(VERBS).map(([name, { does }]) => `  ${name.padEnd(10)}${does}`),
    '',
    'Every verb takes --language (default en) and --help.',
    'Exit 0: done. 1: the input was refused. 2: wrong usage.',
  ].join('\n');

/** Runs one verb; gives the exit status. Answers go to standard output, the rest to standard error. */
export async function run([name, ...rest]: string[]): Promise<number> {
  if (name === undefined || name === '--help') {
    (name === undefined ? console.error : console.log)(overview());
    return name === undefined ? 2 : 0;
  }
  const verb = VERBS[name];
  if (verb === undefined) {
    console.error(`There is no verb "${name}".\n\n${overview()}`);
    return 2;
  }
  if (rest.includes('--help')) {
    console.log(verb.usage);
    return 0;
  }
  try {
    return await verb.run(rest);
  } catch (problem) {
    if (problem instanceof WrongUsage) {
      console.error(`${problem.message}\n\n${verb.usage}`);
      return 2;
    }
    if (problem instanceof Refused) {
      console.error(problem.message);
      return 1;
    }
    throw problem;
  }
}
