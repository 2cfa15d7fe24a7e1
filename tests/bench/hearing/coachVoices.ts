import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { lexiconFor } from '../../../src/ear/lexicon';
import { readWav } from '../../../src/ear/node';
import { SPEAKERS, spokenBy, trimmed, type Half, type Speaker } from '../../sounds/speakers';

/** Somebody who reads the voice check and then coaches. */
export interface Coach {
  name: string;
  half: Half;
  /** Speaks as the voice does, or with phones exchanged. */
  kind: 'plain' | 'accent';
  say: (text: string, rate: number) => Promise<Float32Array>;
}

type Accent = (phones: string[]) => string[];

const exchanging =
  (phones: Record<string, string>): Accent =>
  (row) =>
    row.flatMap((phone) => (phones[phone] ?? phone).split(' ').filter((each) => each !== ''));

const HARD: Record<string, string> = { B: 'P', D: 'T', G: 'K', V: 'F', Z: 'S', JH: 'CH' };
const hardEnd: Accent = (row) =>
  row.map((phone, at) => (at === row.length - 1 ? (HARD[phone] ?? phone) : phone));

/**
 * Invented accents, by what is often told of people who learnt English late (from memory): no
 * proof of how real people speak, but a mismatch that no voice here has by itself.
 */
const ACCENTS: Record<string, Accent> = {
  'hard endings': (row) => hardEnd(exchanging({ W: 'V', TH: 'S', DH: 'Z', AE: 'EH' })(row)),
  'five vowels': exchanging({ IH: 'IY', AE: 'AA', AH: 'AA', V: 'B', Z: 'S', SH: 'CH', UH: 'UW' }),
  'no breath': exchanging({ HH: '', TH: 'T', DH: 'D', IH: 'IY', UH: 'UW', AH: 'AA', CH: 'SH' }),
  'w for v': (row) =>
    hardEnd(
      exchanging({ W: 'V', V: 'W', TH: 'T', DH: 'D', AE: 'EH', AO: 'OW', UH: 'UW', ER: 'EH R' })(
        row,
      ),
    ),
};

const run = promisify(execFile);
const cache = fileURLToPath(new URL('../../../.cache/speech/', import.meta.url));

/** A voice of flite that is handed phones, those of the lexicon put through an accent. */
async function withAccent(voice: string, accent: string, text: string, rate: number) {
  const name = createHash('sha1').update([voice, accent, rate, text].join('|')).digest('hex');
  const path = join(cache, `accent-${name.slice(0, 20)}.wav`);
  if (!existsSync(path)) {
    mkdirSync(cache, { recursive: true });
    const words = text.toLowerCase().match(/[a-z']+/g) ?? [];
    const lexicon = lexiconFor(words);
    const row = words.flatMap((word) => ACCENTS[accent]?.(lexicon[word]?.[0] ?? []) ?? []);
    const phones = ['pau', ...row.map((phone) => phone.toLowerCase()), 'pau'].join(' ');
    const stretch = `duration_stretch=${(1 / rate).toFixed(3)}`;
    const part = `${path}.${process.pid}.part`;
    await run('flite', ['-voice', voice, '--setf', stretch, '-p', phones, '-o', part]);
    renameSync(part, path);
  }
  return trimmed(await readWav(path));
}

const accented = (half: Half, voice: string, accent: string): Coach => ({
  name: `flite ${voice}, ${accent}`,
  half,
  kind: 'accent',
  say: (text, rate) => withAccent(voice, accent, text, rate),
});

const plain = (speaker: Speaker): Coach => ({
  name: speaker.name,
  half: speaker.half,
  kind: 'plain',
  say: (text, rate) => spokenBy({ speaker, text, rate }),
});

const espeak = (voice: string): Speaker => ({
  name: `espeak ${voice}`,
  half: 'tuned',
  engine: 'espeak',
  voice,
});

/**
 * The coaches of a half. The tuned ones chose what is learnt of a coach: voices that did not teach
 * the head, so that there is something to learn; the reported ones touched nothing.
 */
export const coachesOf = (half: Half, here: Speaker[]): Coach[] =>
  half === 'reported'
    ? [
        ...SPEAKERS.filter(
          (speaker) =>
            speaker.half === 'reported' && here.some(({ name }) => name === speaker.name),
        ).map(plain),
        accented('reported', 'rms', 'no breath'),
        accented('reported', 'rms', 'w for v'),
      ]
    : [
        ...['en-gb-x-gbcwmd+RicishayMax2', 'en-029+croak', 'en-us-nyc+AnxiousAndy'].map((voice) =>
          plain(espeak(voice)),
        ),
        accented('tuned', 'awb', 'hard endings'),
        accented('tuned', 'slt', 'five vowels'),
        accented('tuned', 'slt', 'hard endings'),
      ];
