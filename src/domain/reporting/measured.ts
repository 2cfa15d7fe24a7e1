/**
 * What the angles of a session say, by the rules of measuring: the change from the first try to
 * the retest, the difference of the sides, the coach's line, and the norm as context. Rules 12.15
 * to 12.17 of deciding/RULES.md.
 */
import type { Area, Side } from '../areas';
import type { Sex } from '../athlete';
import type { AngleTool } from '../findings';
import { changeSince } from '../measuring/changeSince';
import { FIGURES, type FigureStatus } from '../measuring/figures';
import { normBand, NORM, type NormBand } from '../measuring/norms';
import { sideDifference } from '../measuring/sideDifference';
import type { CheckId } from '../script';
import { standing, type CheckReport, type Given } from './areaReport';

/** An angle as it was read, in degrees. */
export interface Angle {
  degrees: number;
  tool: AngleTool;
}

/** Where a number comes from, and how far it was checked. */
export interface Sourced {
  source: string;
  status: FigureStatus;
}

/** How an angle changed. */
export interface AngleChange {
  verdict: 'better' | 'worse' | 'within-error' | 'not-comparable';
  /** Now less before; more is more range. Null where they cannot be compared. */
  degrees: number | null;
  /** False where it may be noted but never called a change: by eye, or not comparable. */
  mayBeCalled: boolean;
  /** The minimal detectable change that it was held against, or null where none is known. */
  mdc: ({ degrees: number; percent: 90 | 95 } & Sourced) | null;
  /** Why it is not comparable; else null. */
  why: 'other-tool' | 'nothing-published' | null;
}

/** Where the angle lies among healthy young adults: context, never a verdict. */
export interface NormContext extends NormBand, Sourced {
  sex: Sex;
  /** The tool of that study, and how far it is known that it was this one. */
  tool: AngleTool;
  toolStatus: FigureStatus;
}

/** The angles of one side of a check (side null where it has none). */
export interface SideMeasured {
  side: Side | null;
  first: Angle | null;
  retest: Angle | null;
  /** That of the retest where there was one, which may have none. */
  stands: Angle | null;
  /** Null unless an angle is there at first and in the retest. */
  change: AngleChange | null;
  /** What stands against the coach's own line; null outside overhead, or where no angle stands. */
  passLine: { degrees: number; verdict: 'reached' | 'under' } | null;
  norm: NormContext | null;
}

/** The angles of one check that has any. */
export interface CheckMeasured {
  area: Area;
  check: CheckId;
  sides: SideMeasured[];
  /** Of the angles that stand; null unless both sides have one, by one tool. */
  sideDifference:
    | ({
        verdict: 'none' | 'noted' | 'called';
        degrees: number;
        lower: Side | null;
        tool: AngleTool;
      } & Sourced)
    | null;
}

/** What is known besides the angles. */
export interface Around {
  passLineDegrees: number;
  sex: Sex | undefined;
}

/** The angles of all checks that have any, in the order of the checks. */
export function measuredOf(checks: readonly CheckReport[], around: Around): CheckMeasured[] {
  const heads = checks.filter(
    ({ check }, at) => checks.findIndex((one) => one.check === check) === at,
  );
  return heads.flatMap(({ area, check }) => {
    const reports = checks.filter((report) => report.check === check);
    const sides = reports.map((report) => sideOf(report, around));
    if (sides.every(({ first, retest }) => first === null && retest === null)) return [];
    return [{ area, check, sides, sideDifference: differenceOf(check, reports) }];
  });
}

/** The angle that was said with a result; what was left untested has none. */
export const angleOf = (given: Given | null): Angle | null =>
  given === null || given.result === 'not-tested' || given.angleDegrees === null
    ? null
    : { degrees: given.angleDegrees, tool: given.tool ?? 'eye' };

/** The angle that stands: that of the retest where there was one, be it none. */
const standingAngle = (report: CheckReport): Angle | null => angleOf(standing(report));

function sideOf(report: CheckReport, { passLineDegrees, sex }: Around): SideMeasured {
  const { check, side } = report;
  const [first, retest] = [angleOf(report.first), angleOf(report.retest)];
  const stands = standingAngle(report);
  const hasLine = stands !== null && report.area === 'overhead';
  const band = normBand(check, stands?.tool ?? null, sex, stands?.degrees ?? null);
  return {
    side,
    first,
    retest,
    stands,
    change: first === null || retest === null ? null : changeOf(check, first, retest),
    passLine: hasLine
      ? {
          degrees: passLineDegrees,
          verdict: stands.degrees < passLineDegrees ? 'under' : 'reached',
        }
      : null,
    norm: band === null || sex === undefined ? null : { ...band, ...NORM, sex },
  };
}

/** The change between two angles of the same check and side, held against the error of the tool. */
export function changeOf(check: CheckId, before: Angle, now: Angle): AngleChange {
  const measured = ({ degrees, tool }: Angle) => ({
    check,
    side: null,
    angleDegrees: degrees,
    tool,
  });
  const change = changeSince(measured(before), measured(now));
  if (change.change === 'not-comparable') {
    const why = change.why === 'other-tool' ? 'other-tool' : 'nothing-published';
    return { verdict: 'not-comparable', degrees: null, mayBeCalled: false, mdc: null, why };
  }
  const { degrees, percent, mayBeCalled, figure } = change.error;
  const { source, status } = figure;
  return {
    verdict: change.change,
    degrees: change.differenceDegrees,
    mayBeCalled,
    mdc: { degrees, percent, source, status },
    why: null,
  };
}

function differenceOf(
  check: CheckId,
  reports: readonly CheckReport[],
): CheckMeasured['sideDifference'] {
  const angleAt = (side: Side) => {
    const report = reports.find((one) => one.side === side);
    return report === undefined ? null : standingAngle(report);
  };
  const [left, right] = [angleAt('left'), angleAt('right')];
  if (left === null || right === null) return null;
  const measured = ({ degrees, tool }: Angle, side: Side) => ({
    check,
    side,
    angleDegrees: degrees,
    tool,
  });
  const found = sideDifference(measured(left, 'left'), measured(right, 'right'));
  if (found === null) return null;
  const { verdict, differenceDegrees, lower } = found;
  const { source, status } =
    verdict === 'called' ? FIGURES.sideCalledDegrees : FIGURES.sideNotedDegrees;
  return { verdict, degrees: differenceDegrees, lower, tool: left.tool, source, status };
}
