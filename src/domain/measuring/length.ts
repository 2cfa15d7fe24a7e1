/** What is measured, and between which limits it can lie, in millimetres. */
export interface Measure {
  /** As it begins a sentence: "A stature". */
  name: string;
  from: number;
  to: number;
  /** How it may be written, for the error. */
  example: string;
}

export const STATURE: Measure = {
  name: 'A stature',
  from: 1000,
  to: 2300,
  example: `175 cm, 1.75 m or 5'9"`,
};
export const KNEE: Measure = {
  name: 'A knee height',
  from: 250,
  to: 700,
  example: '48 cm or 19 in, from the floor to the middle of the kneecap',
};
export const SOLE: Measure = { name: 'A sole', from: 0, to: 80, example: '2 cm or 20 mm' };
export const BELL_HANDLE: Measure = {
  name: 'A bell handle',
  from: 100,
  to: 500,
  example: '28 cm or 11 in, from the floor to the top of the handle',
};
export const BLOCK: Measure = { name: 'A block', from: 1, to: 600, example: '10 cm or 4 in' };

const MILLIMETRES = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 } as const;
type Unit = keyof typeof MILLIMETRES;
const UNITS: readonly Unit[] = ['mm', 'cm', 'm', 'in', 'ft'];
/** A bare number is never taken for these: "5.9" is as often five foot nine as it is 5.9 feet. */
const NEVER_BARE: readonly Unit[] = ['in', 'ft'];

const SPELLINGS: Record<Unit, RegExp> = {
  mm: /^(mm|millimet(re|er)s?)$/,
  cm: /^(cms?|centimet(re|er)s?)$/,
  m: /^(m|met(re|er)s?)$/,
  in: /^("|in|inch|inches)$/,
  ft: /^('|ft|foot|feet)$/,
};

interface Part {
  /** More than one where a comma may stand for thousands. */
  values: number[];
  /** Its digits as written. */
  digits: string;
  unit: Unit | null;
}

const PART = String.raw`(\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?|\d+/\d+)\s*('|"|[a-z]+)?\.?`;
const LENGTH = new RegExp(String.raw`^${PART}(?:\s*(?:,|\band\b)?\s*${PART})?$`);

/**
 * A length as people type it or a recogniser writes it, in millimetres to a tenth: "175 cm",
 * "1.75 m", "1,75 m", "1 m 75", `5'9"`, "5 ft 9 in", "5-foot-9", "69 in", "9½ in", with straight
 * or curly quotes. A number without a unit is read only where exactly one unit makes it possible,
 * and that unit is metric: 175, 1.75 and 1750 are clear for a stature, 48 for a knee; 69 (inches?)
 * and 5.9 (feet?) are not. Throws RangeError for anything else, with what to write.
 *
 * @example readLength(`5'9"`, STATURE) // 1752.6
 */
export function readLength(text: string, measure: Measure): number {
  const parts = partsOf(text);
  if (parts === null) {
    throw new RangeError(
      `"${text}" is no length. Write a number and its unit, such as ${measure.example}.`,
    );
  }
  const [first, second] = parts;
  if (second !== undefined) return inRange(text, measure, joined(text, measure, first, second));
  if (first.unit === null) return bare(text, measure, first);
  const perUnit = MILLIMETRES[first.unit];
  const found = first.values.map((value) => value * perUnit);
  // Of "1,750 mm" only the thousands, and of "1,750 m" only the decimals can be a stature.
  return inRange(text, measure, found.find((each) => isIn(measure, each)) ?? found[0] ?? NaN);
}

function partsOf(text: string): [Part, Part?] | null {
  const plain = text
    .replace(/½/g, ' 1/2')
    .replace(/¼/g, ' 1/4')
    .replace(/¾/g, ' 3/4')
    .trim()
    .toLowerCase()
    .replace(/[’‘′´`]/g, "'")
    .replace(/[“”″]|''/g, '"')
    // "5-foot-9"; a minus before the number stays and is refused.
    .replace(/-(?=[a-z])|(?<=[a-z'"])-/g, ' ');
  const [, one, oneUnit, other, otherUnit] = LENGTH.exec(plain) ?? [];
  const first = partOf(one, oneUnit);
  if (first === null) return null;
  if (other === undefined) return [first];
  const second = partOf(other, otherUnit);
  return second === null ? null : [first, second];
}

function partOf(number: string | undefined, unit: string | undefined): Part | null {
  if (number === undefined) return null;
  const known = UNITS.find((each) => SPELLINGS[each].test(unit ?? ''));
  if (unit !== undefined && known === undefined) return null;
  const pieces = number.split(/\s+/);
  const digits = pieces.find((piece) => !piece.includes('/')) ?? '0';
  const [top = 0, bottom = 1] =
    pieces
      .find((piece) => piece.includes('/'))
      ?.split('/')
      .map(Number) ?? [];
  if (!(top < bottom)) return null;
  const decimal = Number(digits.replace(',', '.')) + top / bottom;
  const thousands = /^\d{1,3},\d{3}$/.test(digits) ? [Number(digits.replace(',', ''))] : [];
  return { values: [decimal, ...thousands], digits, unit: known ?? null };
}

/** "5 ft 9 in", "5 foot 9", "1 m 75 cm", "1 m 75"; nothing else has two parts. */
function joined(text: string, { example }: Measure, first: Part, second: Part): number {
  const [whole = 0] = first.values;
  const [rest = 0] = second.values;
  const isWhole = Number.isInteger(whole);
  if (isWhole && first.unit === 'ft' && (second.unit === 'in' || second.unit === null)) {
    if (rest >= 12) {
      throw new RangeError(`"${text}": after feet come 0 to 11 inches. Such as ${example}.`);
    }
    return whole * MILLIMETRES.ft + rest * MILLIMETRES.in;
  }
  // "1 m 8" is as likely 1.8 as 1.08 metres.
  const isCentimetres =
    second.unit === 'cm' || /^\d\d$/.test(second.unit === null ? second.digits : '');
  if (isWhole && first.unit === 'm' && isCentimetres && rest < 100) {
    return whole * MILLIMETRES.m + rest * MILLIMETRES.cm;
  }
  throw new RangeError(
    `"${text}" is no length. Write one number and its unit, such as ${example}.`,
  );
}

function bare(text: string, measure: Measure, { values }: Part): number {
  const readings = UNITS.flatMap((unit) =>
    values.map((value) => ({ unit, value, millimetres: value * MILLIMETRES[unit] })),
  ).filter(({ millimetres }) => isIn(measure, millimetres));
  const [only] = readings;
  // Nothing is nothing in every unit.
  if (only?.millimetres === 0) return 0;
  if (only !== undefined && readings.length === 1 && !NEVER_BARE.includes(only.unit)) {
    return tenths(only.millimetres);
  }
  const could = readings.map(({ value, unit }) => `${value} ${unit}`).join(' or ');
  throw new RangeError(
    could === ''
      ? `"${text}" has no unit, and is no ${nounOf(measure)} in any. Such as ${measure.example}.`
      : `"${text}" has no unit: is it ${could}? Write the unit.`,
  );
}

function inRange(text: string, measure: Measure, millimetres: number): number {
  const length = tenths(millimetres);
  if (isIn(measure, length)) return length;
  const { name, from, to, example } = measure;
  throw new RangeError(
    `"${text}" is ${length} mm. ${name} is ${from} to ${to} mm: check number and unit, such as ${example}.`,
  );
}

const isIn = ({ from, to }: Measure, millimetres: number): boolean =>
  millimetres >= from && millimetres <= to;
const nounOf = ({ name }: Measure): string => name.replace(/^An? /, '');
/** Tenths of a millimetre are beyond any tape measure. */
const tenths = (millimetres: number): number => Math.round(millimetres * 10) / 10;
