import { statSync } from 'node:fs';
import { Refused } from './refused';
import { checkFolder } from '../cues/checking';
import { lexiconFor } from '../ear/lexicon';
import { answer, onlyOne, parse, SCRIPTS, shownPath, type Verb } from './verb';

export const scripts: Verb = {
  does: 'checks every cue script: schema, references, length, reachability, likeness',
  usage:
    'Usage: sayso scripts [DIR] [--language en]\n\n' +
    'Checks every file under scripts-cues (or DIR). Prints {"file","line","field","problem"} a\n' +
    'line and exits 1 if there is any. Files are named as seen from here, or from DIR.',
  run(args) {
    const { values, positionals } = parse(args, []);
    const folder = onlyOne(positionals) ?? SCRIPTS;
    if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) {
      throw new Refused(
        `${folder}: there is no such folder. Name the one that holds the languages.`,
      );
    }
    const problems = checkFolder(folder, values.language ?? 'en', lexiconFor);
    for (const { file, line, field, problem } of problems) {
      answer({ file: shownPath(file, folder), line, field, problem });
    }
    return problems.length > 0 ? 1 : 0;
  },
};
