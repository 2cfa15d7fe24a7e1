/** A sound file that cannot be heard; `why` says what to do about it. */
export class EarFileError extends Error {
  override name = 'EarFileError';
}

/** Sound of one channel, -1 to 1. */
export interface Sound {
  samples: Float32Array;
  sampleRate: number;
}

const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;

/**
 * The sound of a WAV file: PCM of 8, 16, 24 or 32 bits or 32-bit float; channels are averaged.
 * @throws EarFileError for what is no WAV file, compressed, cut short or empty.
 */
export function soundOf(bytes: Uint8Array, name: string): Sound {
  const refuse = (why: string): never => {
    throw new EarFileError(`${name}: ${why}`);
  };
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tag = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (bytes.length < 12 || tag(0) !== 'RIFF' || tag(8) !== 'WAVE')
    refuse('is no WAV file. Save the sound as WAV (PCM) and try again.');
  let format: { codec: number; channels: number; sampleRate: number; bits: number } | null = null;
  for (let at = 12; at + 8 <= bytes.length;) {
    const length = view.getUint32(at + 4, true);
    const body = at + 8;
    if (tag(at) === 'fmt ' && body + 16 <= bytes.length) {
      const codec = view.getUint16(body, true);
      format = {
        codec: codec === EXTENSIBLE && length >= 26 ? view.getUint16(body + 24, true) : codec,
        channels: view.getUint16(body + 2, true),
        sampleRate: view.getUint32(body + 4, true),
        bits: view.getUint16(body + 14, true),
      };
    } else if (tag(at) === 'data') {
      if (format === null) return refuse('has its sound before its format; it is damaged.');
      const sampleOf = reader(format.codec, format.bits, view);
      if (sampleOf === null)
        return refuse(
          `holds ${format.bits}-bit sound of codec ${format.codec}, which cannot be read. ` +
            'Save it as WAV with 8, 16, 24 or 32-bit PCM or 32-bit float.',
        );
      if (format.channels === 0 || format.sampleRate < 4000 || format.sampleRate > 384000)
        return refuse(
          `says ${format.channels} channels at ${format.sampleRate} samples a second; ` +
            'give one or two channels at 8000 to 48000.',
        );
      // Files that were streamed say 0 or far too much.
      const end = length === 0 ? bytes.length : Math.min(bytes.length, body + length);
      const frameBytes = format.channels * (format.bits / 8);
      const samples = new Float32Array(Math.floor((end - body) / frameBytes));
      if (samples.length === 0) return refuse('is empty. Record the reply again.');
      for (let frame = 0; frame < samples.length; frame += 1) {
        let sum = 0;
        for (let channel = 0; channel < format.channels; channel += 1)
          sum += sampleOf(body + frame * frameBytes + channel * (format.bits / 8));
        samples[frame] = sum / format.channels;
      }
      return { samples, sampleRate: format.sampleRate };
    }
    at = body + length + (length % 2);
  }
  return refuse('holds no sound; it is damaged or cut short.');
}

function reader(codec: number, bits: number, view: DataView): ((at: number) => number) | null {
  if (codec === FLOAT && bits === 32) return (at) => view.getFloat32(at, true) || 0;
  if (codec !== PCM) return null;
  if (bits === 8) return (at) => (view.getUint8(at) - 128) / 128;
  if (bits === 16) return (at) => view.getInt16(at, true) / 0x8000;
  if (bits === 24)
    return (at) => ((view.getInt8(at + 2) << 16) | view.getUint16(at, true)) / 0x800000;
  if (bits === 32) return (at) => view.getInt32(at, true) / 0x80000000;
  return null;
}
