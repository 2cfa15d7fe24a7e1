import type { AngleTool } from '../findings';
import { FIGURES, valueOf, type UsableFigure } from './figures';
import type { Motion } from './motion';

export interface DetectableChange {
  /** A change has to exceed this. */
  degrees: number;
  percent: 90 | 95;
  /** False where the error is so wide that a change is noted but never called one. */
  mayBeCalled: boolean;
  figure: UsableFigure;
}

/**
 * The minimal detectable change of an angle overhead, by tool and motion: inclinometer, active 8
 * degrees (Kolber 2011), passive 34 (Dougherty 2015); by eye 30 at the least (Hayes 2001), so only
 * noted. Null where nothing is published.
 */
export function detectableChange(tool: AngleTool, motion: Motion): DetectableChange | null {
  switch (tool) {
    case 'inclinometer':
      return motion === 'active'
        ? entry(FIGURES.inclinometerActiveMdc90Degrees, 90, true)
        : entry(FIGURES.inclinometerPassiveMdc95Degrees, 95, true);
    case 'eye':
      return entry(FIGURES.byEyeMdc95Degrees, 95, false);
    case 'goniometer':
    case 'tilt-sensor':
      return null;
  }
}

const entry = (figure: UsableFigure, percent: 90 | 95, mayBeCalled: boolean): DetectableChange => ({
  degrees: valueOf(figure),
  percent,
  mayBeCalled,
  figure,
});
