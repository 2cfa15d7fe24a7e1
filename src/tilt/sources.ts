import type { Vector } from '../domain/tilt/vector';
import type { Clock, TiltTrouble } from '../ports';
import type { MotionEvent, MotionWindow, SensorFailure } from './motionWindow';

/** One way in which a browser tells gravity. */
export interface Source {
  /** Returns what switches it off. Nothing is told before it has returned. */
  start(told: { reading(vector: Vector): void; failed(why: TiltTrouble): void }): () => void;
}

/** Readings a second: enough for a limb, and what browsers give without asking for more. */
const FREQUENCY = 50;
const EVERY_MILLISECONDS = 1000 / FREQUENCY;

const vectorOf = ({ x, y, z }: { x?: unknown; y?: unknown; z?: unknown }): Vector | null =>
  typeof x === 'number' && typeof y === 'number' && typeof z === 'number' ? { x, y, z } : null;

/**
 * GravitySensor, which leaves the movement out, and Accelerometer, where the browser has them. They
 * tell only what has changed by more than their rounding (0.1 m/s² in Chromium), so a phone that is
 * still would seem to have dropped out: what it stands at is told again and again, until it fails.
 */
export const genericSource = (
  { GravitySensor, Accelerometer }: MotionWindow,
  clock: Clock,
): Source[] =>
  [GravitySensor, Accelerometer].flatMap((Sensor) => {
    if (Sensor === undefined) return [];
    const source: Source = {
      start({ reading, failed }) {
        try {
          const sensor = new Sensor({ frequency: FREQUENCY });
          let timer: unknown;
          const tell = () => {
            const vector = vectorOf(sensor);
            if (vector !== null) reading(vector);
            clock.clearTimeout(timer);
            timer = clock.setTimeout(tell, EVERY_MILLISECONDS);
          };
          const stop = () => {
            clock.clearTimeout(timer);
            sensor.stop();
          };
          sensor.addEventListener('reading', tell);
          sensor.addEventListener('error', (event) => {
            clock.clearTimeout(timer);
            failed(troubleOf(event));
          });
          sensor.start();
          return stop;
        } catch (error) {
          // A page that may not use it is told so at once.
          const name = error instanceof Error ? error.name : '';
          queueMicrotask(() => failed(troubleOf({ error: { name } })));
          return () => undefined;
        }
      },
    };
    return [source];
  });

const troubleOf = ({ error }: SensorFailure): TiltTrouble =>
  error?.name === 'NotAllowedError' || error?.name === 'SecurityError' ? 'denied' : 'no-sensor';

/** `devicemotion`; it stays silent, or tells nulls, where the device has no sensor. */
export const motionSource = (scope: MotionWindow): Source[] =>
  scope.DeviceMotionEvent === undefined
    ? []
    : [
        {
          start({ reading }) {
            const hear = ({ accelerationIncludingGravity }: MotionEvent) => {
              const vector = vectorOf(accelerationIncludingGravity ?? {});
              if (vector !== null) reading(vector);
            };
            scope.addEventListener('devicemotion', hear);
            return () => scope.removeEventListener('devicemotion', hear);
          },
        },
      ];
