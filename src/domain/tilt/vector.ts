/** What a motion sensor tells: along the phone's width, its long edge and out of its screen, m/s². */
export interface Vector {
  x: number;
  y: number;
  z: number;
}

export const lengthOf = ({ x, y, z }: Vector): number => Math.hypot(x, y, z);

export const isWhole = ({ x, y, z }: Vector): boolean => [x, y, z].every(Number.isFinite);

/** `share` of the way from one to the other. */
export const between = (one: Vector, other: Vector, share: number): Vector => ({
  x: one.x + (other.x - one.x) * share,
  y: one.y + (other.y - one.y) * share,
  z: one.z + (other.z - one.z) * share,
});

/**
 * The angle between two vectors, 0 to 180 degrees. By the tangent of outer and inner product (W.
 * Kahan, "How Futile are Mindless Assessments of Roundoff", 2006; from memory): the arc cosine of
 * the inner product alone loses half of its digits near 0 and 180, where a shin stands. 0 where
 * one of them has no length.
 */
export function degreesBetween(one: Vector, other: Vector): number {
  const outer = lengthOf({
    x: one.y * other.z - one.z * other.y,
    y: one.z * other.x - one.x * other.z,
    z: one.x * other.y - one.y * other.x,
  });
  const inner = one.x * other.x + one.y * other.y + one.z * other.z;
  return (Math.atan2(outer, inner) * 180) / Math.PI;
}
