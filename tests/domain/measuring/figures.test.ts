import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  FIGURES,
  valueOf,
  type Figure,
  type UsableFigure,
} from '../../../src/domain/measuring/figures';

const folder = 'src/domain/measuring';
const functions = readdirSync(folder).filter((file) => file !== 'figures.ts');
const used = functions.flatMap((file) =>
  [...readFileSync(`${folder}/${file}`, 'utf8').matchAll(/\bFIGURES\.(\w+)/g)].map(([, name]) => ({
    file,
    name: name ?? '',
  })),
);

describe('every figure', () => {
  it.each(Object.entries<Figure>(FIGURES))('%s says where it comes from', (_, figure) => {
    expect(Number.isFinite(figure.value)).toBe(true);
    // A published figure names its work and year, or the standard; practice says that it is that.
    expect(figure.source).toMatch(
      figure.status === 'practice' ? /^common practice/ : /\d{4}|ANSUR II|H\.870|competition bell/,
    );
  });

  it('is used, and only by its name', () => {
    const names = Object.keys(FIGURES).sort();
    expect([...new Set(used.map(({ name }) => name))].sort()).toEqual(names);
    // Taken apart or passed on whole, it could be counted with unseen.
    for (const file of functions) {
      const source = readFileSync(`${folder}/${file}`, 'utf8');
      expect(source.replaceAll(/\bFIGURES\.\w+|import \{[^}]*\}/g, ''), file).not.toContain(
        'FIGURES',
      );
    }
  });
});

describe('nothing from memory', () => {
  it('is counted with by any function', () => {
    const figures: Record<string, Figure> = FIGURES;
    const remembered = used.filter(({ name }) => figures[name]?.status === 'from-memory');
    expect(remembered).toEqual([]);
  });

  it('gives its value away', () => {
    const remembered: Figure = { value: 0.667, source: 'a table', status: 'from-memory' };
    expect(() => valueOf(remembered as UsableFigure)).toThrow(/from memory: check it/);
    expect(valueOf({ ...remembered, status: 'published' })).toBe(0.667);
  });
});
