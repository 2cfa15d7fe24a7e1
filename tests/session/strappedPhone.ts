/** A phone strapped to a limb that a test moves: 50 readings a second on the virtual clock. */
import type { Clock, Level, LevelOn, TiltTelling, TiltTrouble } from '../../src/ports';
import type { Vector } from '../../src/domain/tilt/vector';
import { atRest, noiseOf, PLAIN } from '../domain/tilt/streams';

export function strappedPhone(on: LevelOn) {
  const listeners = new Set<(telling: TiltTelling) => void>();
  const noise = noiseOf(7);
  let tilt = 0;
  let isSilent = false;
  let shake = 0;
  const tell = (telling: TiltTelling) => [...listeners].forEach((listener) => listener(telling));
  const now = (): Vector => {
    const { x, y, z } = atRest({ tilt, towards: 20, roll: 50 }, PLAIN);
    return { x: x + 0.05 * noise(), y: y + 0.05 * noise() + shake, z: z + 0.05 * noise() };
  };
  const level: Level = {
    on,
    line: atRest({ tilt: 0, towards: 0, roll: 0 }, PLAIN),
    sensor: {
      listen(onTelling) {
        listeners.add(onTelling);
        return () => listeners.delete(onTelling);
      },
    },
  };
  return {
    level,
    /** How many listen. */
    listening: () => listeners.size,
    run(clock: Clock) {
      const next = () => {
        if (!isSilent)
          tell({ type: 'reading', sample: { vector: now(), atMilliseconds: clock.now() } });
        clock.setTimeout(next, 20);
      };
      next();
    },
    tilt: (degrees: number) => {
      tilt = degrees;
    },
    shake: (metresASecondSquared: number) => {
      shake = metresASecondSquared;
    },
    /** It tells nothing more, without a word. */
    fallSilent: (silent = true) => {
      isSilent = silent;
    },
    lose: (why: TiltTrouble) => {
      isSilent = true;
      tell({ type: 'lost', why });
    },
  };
}
