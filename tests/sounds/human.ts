import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';

/** A recording of a person and what is said in it. */
export interface HumanPhrase {
  path: string;
  text: string;
}

const PHRASES = '/usr/share/asterisk/sounds/en_US_f_Allison';
const PHRASE_TEXTS = '/usr/share/doc/asterisk-core-sounds-en/core-sounds-en.txt.gz';
const READ = '/usr/share/pocketsphinx/test/data/librivox';
const PACKAGES = ['asterisk-core-sounds-en-wav', 'pocketsphinx-testdata'];

/** Recordings of Debian's packages, installed now where they are missing; else why there are none. */
export function humanPhrases(): { phrases: HumanPhrase[]; missing: string[] } {
  const missing: string[] = [];
  if (!existsSync(PHRASE_TEXTS) || !existsSync(READ))
    try {
      console.error(`installing ${PACKAGES.join(', ')}`);
      execFileSync('apt-get', ['install', '-y', ...PACKAGES], { stdio: 'ignore' });
    } catch {
      missing.push(`human speech: "apt-get install ${PACKAGES.join(' ')}" did not succeed`);
    }
  return {
    phrases: [...prompts(), ...sentences()].filter(({ path }) => existsSync(path)),
    missing,
  };
}

/** Sentences in brackets are tones; what a folder holds are digits and letters. */
function prompts(): HumanPhrase[] {
  if (!existsSync(PHRASE_TEXTS)) return [];
  return gunzipSync(readFileSync(PHRASE_TEXTS))
    .toString('utf8')
    .split('\n')
    .flatMap((line) => {
      const [, name, text] = /^([\w-]+): *([^[].*)$/.exec(line.trim()) ?? [];
      return name === undefined || text === undefined
        ? []
        : [{ path: join(PHRASES, `${name}.wav`), text }];
    });
}

function sentences(): HumanPhrase[] {
  if (!existsSync(join(READ, 'transcription'))) return [];
  return readFileSync(join(READ, 'transcription'), 'utf8')
    .split('\n')
    .flatMap((line) => {
      const [, text, name] = /^<s> (.*) <\/s> \((.*)\)/.exec(line) ?? [];
      return name === undefined || text === undefined
        ? []
        : [{ path: join(READ, `${name}.wav`), text }];
    });
}
