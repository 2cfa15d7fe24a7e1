import type { Vector } from '../domain/tilt/vector';
import type { TiltTrouble } from '../ports';
import type { MotionEvent, MotionWindow, SensorFailure } from './motionWindow';

/** One way in which a browser tells gravity. */
export interface Source {
  /** Returns what switches it off. Nothing is told before it has returned. */
  start(told: { reading(vector: Vector): void; failed(why: TiltTrouble): void }): () => void;
}

/** Readings a second: enough for a limb, and what browsers give without asking for more. */
const FREQUENCY = 50;

const vectorOf = ({ x, y, z }: { x?: unknown; y?: unknown; z?: unknown }): Vector | null =>
  typeof x === 'number' && typeof y === 'number' && typeof z === 'number' ? { x, y, z } : null;

/** GravitySensor, which leaves the movement out, and Accelerometer, where the browser has them. */
export const genericSource = ({ GravitySensor, Accelerometer }: MotionWindow): Source[] =>
  [GravitySensor, Accelerometer].flatMap((Sensor) => {
    if (Sensor === undefined) return [];
    const source: Source = {
      start({ reading, failed }) {
        try {
          const sensor = new Sensor({ frequency: FREQUENCY });
          sensor.addEventListener('reading', () => {
            const vector = vectorOf(sensor);
            if (vector !== null) reading(vector);
          });
          sensor.addEventListener('error', (event) => failed(troubleOf(event)));
          sensor.start();
          return () => sensor.stop();
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
