import type { Clock, TiltSensor, TiltTelling, TiltTrouble } from '../ports';
import { genericSource, motionSource, type Source } from './sources';
import type { MotionWindow } from './motionWindow';

/** How long a sensor may take to tell its first reading, the browser's question left aside. */
const FIRST_MILLISECONDS = 2000;

/** A sensor that has to be switched on inside a tap. */
export interface DeviceTilt extends TiltSensor {
  /** Null once it tells readings, else why it does not. Inside a tap, for browsers that ask. */
  open(): Promise<TiltTrouble | null>;
  /** Switches it off; whoever listens hears nothing more. */
  close(): void;
}

/**
 * The motion sensor of this device: the first of GravitySensor, Accelerometer (W3C Generic Sensor
 * API) and `devicemotion` (W3C Device Orientation and Motion) that tells a reading. Each tells the
 * axes of the phone: x along its width, y along its long edge, z out of its screen.
 */
export function createDeviceTilt({
  scope,
  clock,
}: {
  scope: MotionWindow;
  clock: Clock;
}): DeviceTilt {
  const listeners = new Set<(telling: TiltTelling) => void>();
  let leave: (() => void) | null = null;
  let opening: Promise<TiltTrouble | null> | null = null;
  const tell = (telling: TiltTelling) => {
    for (const listener of [...listeners]) listener(telling);
  };

  const begin = (source: Source) =>
    new Promise<TiltTrouble | null>((resolve) => {
      const waiting = clock.setTimeout(() => fail('no-sensor'), FIRST_MILLISECONDS);
      let isTelling = false;
      const cancel = source.start({
        reading(vector) {
          if (!isTelling) {
            isTelling = true;
            clock.clearTimeout(waiting);
            leave = cancel;
            resolve(null);
          }
          tell({ type: 'reading', sample: { vector, atMilliseconds: clock.now() } });
        },
        failed: (why) => (isTelling ? lose(why) : fail(why)),
      });
      const fail = (why: TiltTrouble) => {
        clock.clearTimeout(waiting);
        cancel();
        resolve(why);
      };
    });

  function lose(why: TiltTrouble) {
    close();
    tell({ type: 'lost', why });
  }
  function close() {
    leave?.();
    leave = null;
  }

  async function first(): Promise<TiltTrouble | null> {
    if (!scope.isSecureContext) return 'insecure';
    // Asked before anything is awaited: a browser that asks wants it inside the tap.
    const asked = scope.DeviceMotionEvent?.requestPermission?.();
    const troubles: TiltTrouble[] = [];
    const answer = await asked?.catch(() => 'denied' as const);
    if (answer === 'denied') return 'denied';
    for (const source of [...genericSource(scope, clock), ...motionSource(scope)]) {
      const trouble = await begin(source);
      if (trouble === null) return null;
      troubles.push(trouble);
    }
    return troubles.includes('denied') ? 'denied' : 'no-sensor';
  }

  return {
    open() {
      if (leave !== null) return Promise.resolve(null);
      opening ??= first().finally(() => {
        opening = null;
      });
      return opening;
    },
    close,
    listen(onTelling) {
      listeners.add(onTelling);
      return () => void listeners.delete(onTelling);
    },
  };
}
