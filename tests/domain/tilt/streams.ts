/**
 * What a motion sensor would tell, made by the rotations of gl-matrix, which the domain does not
 * use: a phone strapped to a limb, the limb tilted, turned about its own line, and a sensor with
 * an offset and noise.
 */
import { quat, vec3 } from 'gl-matrix';
import { GRAVITY } from '../../../src/domain/tilt/following';
import type { Sample } from '../../../src/domain/tilt/following';
import type { Vector } from '../../../src/domain/tilt/vector';

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** A limb in space: degrees. */
export interface Limb {
  /** From upright. */
  tilt: number;
  /** In which direction it tilts, about the vertical. */
  towards: number;
  /** How it is turned about its own line, the phone with it. */
  roll: number;
}

/** How a phone is fastened, and what its sensor adds to the truth. */
export interface Phone {
  /** Its long edge from the limb's line, about its width and out of its screen, degrees. */
  strapped: [number, number];
  /** m/s², in the phone's own axes. */
  offset: Vector;
}

export const PLAIN: Phone = { strapped: [0, 0], offset: { x: 0, y: 0, z: 0 } };

/** What the sensor tells of a limb at rest: the direction of up in the phone's own axes, times g. */
export function atRest({ tilt, towards, roll }: Limb, { strapped, offset }: Phone): Vector {
  // The limb's line is its own y axis; the world's up is its y axis too.
  const turn = quat.create();
  quat.rotateY(turn, turn, radians(towards));
  quat.rotateZ(turn, turn, radians(tilt));
  quat.rotateY(turn, turn, radians(roll));
  quat.rotateX(turn, turn, radians(strapped[0]));
  quat.rotateZ(turn, turn, radians(strapped[1]));
  const up = vec3.transformQuat(vec3.create(), [0, GRAVITY, 0], quat.invert(quat.create(), turn));
  return { x: up[0] + offset.x, y: up[1] + offset.y, z: up[2] + offset.z };
}

/** Even noise from a seed, between -1 and 1 (Park and Miller's generator). */
export function noiseOf(seed: number): () => number {
  let state = (seed % 2147483646) + 1;
  return () => {
    state = (state * 48271) % 2147483647;
    return (2 * state) / 2147483647 - 1;
  };
}

/** `seconds` of readings, 50 a second, from that time on; `at` says where the limb is at a second. */
export function stream(
  seconds: number,
  at: (second: number) => Vector,
  { fromMilliseconds = 0, noise = (): number => 0, amplitude = 0 } = {},
): Sample[] {
  return Array.from({ length: Math.round(seconds * 50) + 1 }, (_, index) => {
    const { x, y, z } = at(index / 50);
    return {
      atMilliseconds: fromMilliseconds + index * 20,
      vector: {
        x: x + amplitude * noise(),
        y: y + amplitude * noise(),
        z: z + amplitude * noise(),
      },
    };
  });
}
