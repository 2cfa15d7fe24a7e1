/** The three parts of the readiness question; each has its checks and its ladder. */
export type Area = 'overhead' | 'squat' | 'hinge';

/** Every area, in the order they are taken through a readiness session. */
export const AREAS: readonly Area[] = ['overhead', 'squat', 'hinge'];

export type Side = 'left' | 'right';

/** Who leads: a coach with hands on, an athlete alone, or one speaker for a group. */
export type Way = 'hands-on' | 'alone' | 'group';
export const WAYS: readonly Way[] = ['hands-on', 'alone', 'group'];

/** What became of an area; `working` carries the last rung held (0 is below rung 1). */
export type AreaOutcome = 'ready' | 'working' | 'referred' | 'unfinished';
