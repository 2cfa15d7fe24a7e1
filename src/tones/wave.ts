/** What a WAV file of so many samples begins with: 16-bit mono PCM. */
export const waveHeader = (samples: number, sampleRate: number): Uint8Array<ArrayBuffer> => {
  const bytes = new Uint8Array(44);
  const view = new DataView(bytes.buffer);
  const text = (at: number, word: string) => {
    for (let index = 0; index < word.length; index += 1) bytes[at + index] = word.charCodeAt(index);
  };
  text(0, 'RIFF');
  view.setUint32(4, 36 + samples * 2, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * 2, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  text(36, 'data');
  view.setUint32(40, samples * 2, true);
  return bytes;
};

/** These samples (mono, -1 to 1, clipped beyond) as they follow the header. */
export const waveSamples = (samples: Float32Array): Uint8Array<ArrayBuffer> => {
  const bytes = new Uint8Array(samples.length * 2);
  const view = new DataView(bytes.buffer);
  samples.forEach((sample, at) => {
    view.setInt16(at * 2, Math.round(Math.max(-1, Math.min(1, sample)) * 32767), true);
  });
  return bytes;
};

/** A whole WAV file of these samples. */
export const waveFile = (samples: Float32Array, sampleRate: number): Uint8Array<ArrayBuffer> => {
  const bytes = new Uint8Array(44 + samples.length * 2);
  bytes.set(waveHeader(samples.length, sampleRate));
  bytes.set(waveSamples(samples), 44);
  return bytes;
};

/** The same file as an address that a player can load without a network. */
export const waveAddress = (samples: Float32Array, sampleRate: number): string => {
  let binary = '';
  for (const byte of waveFile(samples, sampleRate)) binary += String.fromCharCode(byte);
  return `data:audio/wav;base64,${btoa(binary)}`;
};
