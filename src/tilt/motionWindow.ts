/** What of a browser window tells motion; every part of it may be missing. */
export interface MotionWindow {
  isSecureContext: boolean;
  GravitySensor?: new (options: { frequency: number }) => MotionSensor;
  Accelerometer?: new (options: { frequency: number }) => MotionSensor;
  /** Some browsers ask a person first, inside a tap. */
  DeviceMotionEvent?: {
    prototype?: unknown;
    requestPermission?: () => Promise<'granted' | 'denied'>;
  };
  addEventListener(type: 'devicemotion', listener: (event: MotionEvent) => void): void;
  removeEventListener(type: 'devicemotion', listener: (event: MotionEvent) => void): void;
}

/** A sensor of the Generic Sensor API; the axes are null before its first reading. */
export interface MotionSensor {
  readonly x: number | null | undefined;
  readonly y: number | null | undefined;
  readonly z: number | null | undefined;
  addEventListener(type: 'reading' | 'error', listener: (event: SensorFailure) => void): void;
  start(): void;
  stop(): void;
}

/** Of an `error` event. */
export interface SensorFailure {
  error?: { name: string };
}

export interface MotionEvent {
  accelerationIncludingGravity: {
    x: number | null;
    y: number | null;
    z: number | null;
  } | null;
}
