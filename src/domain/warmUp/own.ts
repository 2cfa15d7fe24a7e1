/** Warm-ups of a coach's own. */
import type { DrillScript } from '../script';

/** What the leader shows of a drill where nothing else was typed: what good looks like. */
export const demoOf = ({ good }: Pick<DrillScript, 'good'>): string => good;

/** Longer ones are cut: they name files. */
const ID_MOST = 40;

/** A name for files, of plain letters of the name, that none of these has yet. */
export function idFor(name: string, taken: readonly string[]): string {
  const plain = name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/gu, '-')
    .replace(/^[-\d]+/u, '')
    .slice(0, ID_MOST)
    .replace(/-+$/u, '');
  const id = plain === '' ? 'warm-up' : plain;
  for (let number = 1; ; number += 1) {
    const numbered = number === 1 ? id : `${id}-${number}`;
    if (!taken.includes(numbered)) return numbered;
  }
}
