import { Howl } from 'howler';

/** How music stands beside what is said: as it is, under words, or not at all. */
export type MusicLevel = 'full' | 'under' | 'off';

/** The athlete's own music, from a file of this device. It never leaves it. */
export interface Music {
  /**
   * Plays the file over and over, from a tap. `failed` is called where the browser cannot play it;
   * the one before is gone in any case.
   */
  play(file: File, failed: () => void): void;
  /** No music any more. */
  remove(): void;
  level(level: MusicLevel): void;
}

/** As loud as the voice at its usual step would bury it; under words about 16 dB less. */
const SHARES: Record<MusicLevel, number> = { full: 0.5, under: 0.08, off: 0 };
/** Gives way fast, comes back slowly, so that it does not pump between two lines. */
const AWAY_MILLISECONDS = 60;
const BACK_MILLISECONDS = 900;

export function createMusic(): Music {
  let track: { howl: Howl; address: string } | null = null;
  let at: MusicLevel = 'full';
  const remove = () => {
    track?.howl.unload();
    if (track !== null) URL.revokeObjectURL(track.address);
    track = null;
  };
  return {
    play(file, failed) {
      remove();
      const address = URL.createObjectURL(file);
      const ends = /\.([a-z0-9]+)$/i.exec(file.name)?.[1]?.toLowerCase() ?? 'mp3';
      const howl = new Howl({
        src: address,
        format: [ends],
        // Streamed: an hour of music would fill the memory.
        html5: true,
        loop: true,
        volume: SHARES[at],
      });
      const fail = () => {
        if (track?.howl !== howl) return;
        remove();
        failed();
      };
      howl.on('loaderror', fail);
      howl.on('playerror', fail);
      track = { howl, address };
      howl.play();
    },
    remove,
    level(level) {
      if (level === at) return;
      const from = SHARES[at];
      at = level;
      const milliseconds = SHARES[level] < from ? AWAY_MILLISECONDS : BACK_MILLISECONDS;
      track?.howl.fade(from, SHARES[level], milliseconds);
    },
  };
}
