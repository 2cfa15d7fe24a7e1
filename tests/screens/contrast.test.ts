import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

/**
 * Contrast by WCAG 2.2 (relative luminance, success criterion 1.4.6: 7:1 for text; 1.4.11: 3:1 for
 * the edges of controls), computed from the style sheets themselves.
 */
const TEXT_RATIO = 7;
const EDGE_RATIO = 3;

const folder = join(import.meta.dirname, '../../src/screens');
const sheets = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.css'))
  .map((file) => ({ file, text: readFileSync(join(folder, file), 'utf8') }));
const tokens = sheets.find(({ file }) => file.endsWith('tokens.css'))?.text ?? '';
const [light = '', dark = ''] = tokens.split('prefers-color-scheme: dark');

const colours = (text: string): Map<string, string> =>
  new Map(
    [...text.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, name, hex]) => [name!, hex!]),
  );
const schemes = {
  light: colours(light),
  dark: new Map([...colours(light), ...colours(dark)]),
};

const luminance = (hex: string): number => {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const channel = parseInt(hex.slice(at, at + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
};
const ratio = (one: string, other: string): number => {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high! + 0.05) / (low! + 0.05);
};

/** Every rule's own text and ground; a rule with text alone stands on paper and on cards. */
const rules = sheets
  .flatMap(({ text }) => [...text.matchAll(/([^{}]+)\{([^{}]*)\}/g)])
  .map(([, selector, body]) => ({
    selector: selector!.trim(),
    text: /(?:^|[\s;])color: var\(--([a-z-]+)\)/.exec(body!)?.[1],
    ground: /background: var\(--([a-z-]+)\)/.exec(body!)?.[1],
    edge: /border(?:-color)?: [^;]*var\(--([a-z-]+)\)/.exec(body!)?.[1],
  }));
const pairs = rules.flatMap(({ selector, text, ground }) =>
  text === undefined
    ? []
    : (ground === undefined ? ['paper', 'card'] : [ground]).map((under) => ({
        selector,
        text,
        under,
      })),
);

describe.each(['light', 'dark'] as const)('in %s', (scheme) => {
  const colour = (name: string): string => schemes[scheme].get(name) ?? `no --${name}`;

  it('every text has 7:1 on its ground', () => {
    expect(pairs.length).toBeGreaterThan(20);
    const weak = pairs
      .map((pair) => ({ ...pair, ratio: ratio(colour(pair.text), colour(pair.under)) }))
      .filter((pair) => !(pair.ratio >= TEXT_RATIO));
    expect(weak).toEqual([]);
  });

  it('every edge of a control and the focus ring have 3:1 on paper and on cards', () => {
    const edges = new Set([...rules.flatMap(({ edge }) => edge ?? []), 'focus']);
    expect(edges.size).toBeGreaterThan(2);
    const weak = [...edges].flatMap((edge) =>
      ['paper', 'card']
        .filter((under) => !(ratio(colour(edge), colour(under)) >= EDGE_RATIO))
        .map((under) => `${edge} on ${under}`),
    );
    expect(weak).toEqual([]);
  });
});

it('black on white is 21:1, so the formula is the published one', () => {
  expect(ratio('#000000', '#ffffff')).toBeCloseTo(21, 5);
  expect(ratio('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
});

it('no style sheet but the tokens names a colour of its own', () => {
  const own = sheets
    .filter(({ file }) => !file.endsWith('tokens.css'))
    .filter(({ text }) => /#[0-9a-f]{3,8}\b|rgb|hsl|oklch/i.test(text));
  expect(own.map(({ file }) => file)).toEqual([]);
});

it('both schemes define the same colours', () => {
  expect([...colours(dark).keys()].sort()).toEqual([...colours(light).keys()].sort());
});
