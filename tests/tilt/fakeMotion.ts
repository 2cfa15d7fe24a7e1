/** A browser window whose phone a test holds: each way of telling motion, in any state. */
import type {
  MotionEvent,
  MotionSensor,
  MotionWindow,
  SensorFailure,
} from '../../src/tilt/motionWindow';
import type { Vector } from '../../src/domain/tilt/vector';

export type Way = 'GravitySensor' | 'Accelerometer' | 'devicemotion';

export function fakeMotion(ways: Way[], change: Partial<MotionWindow> = {}) {
  const running = new Set<FakeSensor>();
  const motions = new Set<(event: MotionEvent) => void>();
  const begun: Way[] = [];
  let failure: string | null = null;

  class FakeSensor implements MotionSensor {
    x: number | null = null;
    y: number | null = null;
    z: number | null = null;
    readonly heard = { reading: [] as (() => void)[], error: [] as ((f: SensorFailure) => void)[] };
    constructor(readonly way: Way) {}
    addEventListener(type: 'reading' | 'error', listener: (event: SensorFailure) => void) {
      if (type === 'error') this.heard.error.push(listener);
      else this.heard.reading.push(() => listener({}));
    }
    start() {
      begun.push(this.way);
      running.add(this);
      if (failure !== null) queueMicrotask(() => this.fail(failure ?? ''));
    }
    stop() {
      running.delete(this);
    }
    fail(name: string) {
      for (const listener of this.heard.error) listener({ error: { name } });
    }
    read(vector: Vector) {
      Object.assign(this, vector);
      for (const listener of this.heard.reading) listener();
    }
  }
  const of = (way: Way) =>
    class extends FakeSensor {
      constructor() {
        super(way);
      }
    };
  const scope: MotionWindow = {
    isSecureContext: true,
    ...(ways.includes('GravitySensor') && { GravitySensor: of('GravitySensor') }),
    ...(ways.includes('Accelerometer') && { Accelerometer: of('Accelerometer') }),
    ...(ways.includes('devicemotion') && { DeviceMotionEvent: {} }),
    addEventListener: (_, listener) => {
      begun.push('devicemotion');
      motions.add(listener);
    },
    removeEventListener: (_, listener) => void motions.delete(listener),
    ...change,
  };
  return {
    scope,
    /** The ways that were tried, in order. */
    begun,
    isRunning: () => running.size + motions.size > 0,
    /** The phone lies so. */
    move(vector: Vector) {
      for (const sensor of [...running]) sensor.read(vector);
      for (const hear of [...motions]) hear({ accelerationIncludingGravity: vector });
    },
    /** A device without a sensor tells events without numbers. */
    tellNothing: () =>
      motions.forEach((hear) =>
        hear({ accelerationIncludingGravity: { x: null, y: null, z: null } }),
      ),
    /** Generic sensors that are begun from now on fail so. */
    failFromNow: (name: string) => {
      failure = name;
    },
    break: (name: string) => running.forEach((sensor) => sensor.fail(name)),
  };
}
