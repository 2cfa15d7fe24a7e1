import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { unpackedRnc } from './rnc';

/** A line that somebody says: 16 kHz mono, -1 to 1. */
export interface Recording {
  /** Which of the two works, and which of its lines. */
  name: string;
  samples: Float32Array;
}

/** Both works are free, and lie in Debian; their voices speak English in some forty parts. */
export const PACKAGES = ['beneath-a-steel-sky', 'flight-of-the-amazon-queen'];
const RATE = 16_000;
const TOLD_RATE = 11_025;
const SPEECH = { from: 50_000, below: 59_000 };
/** Before the sound of a line of the first. */
const LINE_HEADER_BYTES = 22;
/** Of one frame of MPEG 2.5, layer 3. */
const FRAME_SAMPLES = 576;
const KILOBITS = [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160];

/** All lines of both works under `folder`, where their packages were unpacked. Needs Debian's ffmpeg. */
export function recordings(folder: string): Recording[] {
  const at = (path: string) => readFileSync(join(folder, 'usr/share/scummvm', path));
  return [
    ...cut(
      packedLines(at('beneath-a-steel-sky/sky.dnr'), at('beneath-a-steel-sky/sky.dsk')),
      `-f u8 -ar ${TOLD_RATE} -ac 1`,
    ),
    ...cut(framedLines(at('flight-of-the-amazon-queen/queen.1c')), '-f mp3'),
  ];
}

interface Line {
  name: string;
  bytes: Uint8Array;
  /** At TOLD_RATE. */
  samples: number;
}

/** A list of 8 bytes a file: number, place in 23 bits, in sixteens where the 24th is set, and size in 22. */
function packedLines(list: Buffer, disk: Buffer): Line[] {
  return Array.from({ length: list.readUInt32LE(0) }, (_, at) => list.subarray(4 + 8 * at))
    .map((row) => ({
      number: row.readUInt16LE(0),
      place: (row.readUIntLE(2, 3) & 0x7fffff) * (row.readUIntLE(2, 3) >> 23 ? 16 : 1),
      size: row.readUIntLE(5, 3) & 0x3fffff,
    }))
    .filter(({ number }) => number >= SPEECH.from && number < SPEECH.below)
    .map(({ number, place, size }) => {
      const bytes = unpackedRnc(disk.subarray(place + LINE_HEADER_BYTES, place + size));
      return { name: `sky ${number}`, bytes, samples: bytes.length };
    });
}

/** A table of 21 bytes a file after 15: name, bundle, place and size; speech ends in .SB and is MPEG sound. */
function framedLines(archive: Buffer): Line[] {
  return Array.from({ length: archive.readUInt16BE(13) }, (_, at) => archive.subarray(15 + 21 * at))
    .map((row) => ({
      name: row.toString('latin1', 0, 12).replace(/\0.*$/s, ''),
      place: row.readUInt32BE(13),
      size: row.readUInt32BE(17),
    }))
    .filter(({ name }) => name.endsWith('.SB'))
    .map(({ name, place, size }) => {
      const bytes = archive.subarray(place, place + size);
      return { name: `queen ${name}`, bytes, samples: framesIn(bytes) * FRAME_SAMPLES };
    });
}

function framesIn(bytes: Uint8Array): number {
  let frames = 0;
  for (let at = 0; at + 4 <= bytes.length;) {
    const [first = 0, second = 0, third = 0] = bytes.subarray(at, at + 3);
    const kilobits = KILOBITS[third >> 4] ?? 0;
    if (first !== 0xff || (second & 0xe0) !== 0xe0 || kilobits === 0) {
      at += 1;
      continue;
    }
    at += Math.floor((72_000 * kilobits) / TOLD_RATE) + ((third >> 1) & 1);
    frames += 1;
  }
  return frames;
}

/** All lines behind one another are decoded at once, then cut apart again. */
function* cut(lines: Line[], told: string): Generator<Recording> {
  const pcm = execFileSync(
    'ffmpeg',
    `-loglevel error ${told} -i - -f s16le -ac 1 -ar ${RATE} -`.split(' '),
    { input: Buffer.concat(lines.map(({ bytes }) => bytes)), maxBuffer: 2 ** 30 },
  );
  const scaled = (samples: number) => Math.round((samples * RATE) / TOLD_RATE);
  let at = 0;
  for (const { name, samples } of lines) {
    const sound = new Int16Array(pcm.buffer, pcm.byteOffset + 2 * scaled(at), scaled(samples));
    yield { name, samples: Float32Array.from(sound, (sample) => sample / 32_768) };
    at += samples;
  }
}
