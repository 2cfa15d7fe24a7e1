import { ConsoleStdout, File, OpenFile, PreopenDirectory, WASI } from '@bjorn3/browser_wasi_shim';
import type { Sound } from '../sounding/playing';
import { readWave, trimmed } from './sound';
import { SAYSO_VOICE, type ShippedVoice } from './voices';

/** The shipped synthesiser, ready to speak. */
export interface Flite {
  /**
   * Speaks `text` (plain English, default voice {@link SAYSO_VOICE}): mono at 16 kHz, silence
   * at both ends cut, every line as loud as the others. The same text and voice always give the same samples; text
   * with nothing to pronounce gives none. Throws where the synthesiser fails.
   */
  synthesize(text: string, voice?: ShippedVoice): Sound;
}

const OUTPUT = 'line.wav';
const EMPTY: Sound = { samples: new Float32Array(0), sampleRate: 16000 };

/** The synthesiser reads ASCII: typographic signs become what they stand for. */
export const plainText = (text: string): string =>
  text
    .replace(/[‘’]/g, "'")
    .replace(/[“”]/g, '"')
    .replace(/°/g, ' degrees ')
    .replace(/[–—…]/g, ', ')
    .normalize('NFKD')
    .replace(/[^\x20-\x7e]/g, (sign) => (/\s/.test(sign) ? ' ' : ''))
    .replace(/\s+/g, ' ')
    .trim();

/** Speaks through a compiled flite.wasm; each line runs in a fresh instance (about 10 ms). */
export const fliteOf = (module: WebAssembly.Module): Flite => ({
  synthesize(text, voice = SAYSO_VOICE) {
    const plain = plainText(text);
    if (!/[A-Za-z0-9]/.test(plain)) return EMPTY;
    const folder = new PreopenDirectory('/', new Map());
    let complaint = '';
    const listen = ConsoleStdout.lineBuffered((line) => {
      complaint += `${line} `;
    });
    const wasi = new WASI(
      [
        'flite',
        ...['-voice', voice.name],
        ...['--setf', `duration_stretch=${String(voice.stretch)}`],
        ...['-t', plain, '-o', OUTPUT],
      ],
      [],
      [new OpenFile(new File([])), listen, listen, folder],
      { debug: false },
    );
    const instance = new WebAssembly.Instance(module, {
      wasi_snapshot_preview1: wasi.wasiImport,
    });
    const status = wasi.start(instance as Parameters<typeof wasi.start>[0]);
    const file = folder.dir.contents.get(OUTPUT);
    if (status !== 0 || !(file instanceof File)) {
      throw new Error(
        `The shipped voice could not say "${plain}": ${complaint || `exit ${String(status)}`}`,
      );
    }
    return trimmed(readWave(file.data), voice.isClear);
  },
});
