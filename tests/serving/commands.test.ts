import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { build, isBuilt, sourcesHash } from '../../src/serving/building.mjs';
import { servedHere, servedToPhones } from '../../src/serving/messages.mjs';
import { readOptions } from '../../src/serving/options.mjs';

const start = (...words: string[]) =>
  spawnSync(process.execPath, ['src/serving/start.mjs', ...words], { encoding: 'utf8' });

describe('npm start', () => {
  it('explains itself', () => {
    const { status, stdout } = start('--help');
    expect(status).toBe(0);
    expect(stdout).toContain('--phone');
    expect(stdout).toContain('--port N');
  });

  it('refuses a word it does not know, with the words it does', () => {
    const { status, stderr } = start('--fone');
    expect(status).toBe(2);
    expect(stderr).toContain('--fone');
    expect(stderr).toContain('--phone');
    expect(stderr).not.toContain('    at ');
  });

  it.each(['eighty', '70000', '-1', '80.5'])('refuses port %s', (port) => {
    expect(() => readOptions([`--port=${port}`])).toThrow('whole number from 0 to 65535');
  });

  it('reads its options', () => {
    expect(readOptions([])).toEqual({ help: false, phone: false, port: null });
    expect(readOptions(['--phone', '--port', '8443'])).toEqual({
      help: false,
      phone: true,
      port: 8443,
    });
  });

  it('prints the address', () => {
    expect(servedHere(4180)).toContain('Sayso is at http://localhost:4180');
  });

  it('tells a phone where to go, what it will ask, and that it does not install offline', () => {
    const said = servedToPhones(4180, ['192.168.1.20', '10.0.0.7']);
    expect(said).toContain('https://192.168.1.20:4180');
    expect(said).toContain('https://10.0.0.7:4180');
    expect(said).toMatch(/not private/);
    expect(said).toMatch(/microphone/);
    expect(said).toMatch(/does not install the page for\s+offline use/);
  });

  it('says so where no network is there', () => {
    expect(servedToPhones(4180, [])).toContain('Join the same Wi-Fi');
  });
});

describe('the build', () => {
  it('that fails says why and how to look closer, and leaves nothing that counts as built', async () => {
    const root = mkdtempSync(join(tmpdir(), 'sayso-building-'));
    writeFileSync(join(root, 'package.json'), '{ "type": "module" }');
    writeFileSync(join(root, 'vite.config.ts'), "throw new Error('bell-hinge.yaml, line 3');");
    await expect(build(root)).rejects.toThrow(/bell-hinge.yaml, line 3[^]*sayso -- scripts/);
    expect(isBuilt(root)).toBe(false);
    rmSync(root, { recursive: true });
  });

  it('is done again only when a source has changed, not for the files it copies itself', () => {
    const root = mkdtempSync(join(tmpdir(), 'sayso-building-'));
    const write = (path: string, text: string) => {
      mkdirSync(join(root, path, '..'), { recursive: true });
      writeFileSync(join(root, path), text);
    };
    write('.gitignore', 'public/ear/encoder.onnx\npublic/voice/\n');
    write('src/main.tsx', 'one');
    expect(isBuilt(root)).toBe(false);
    write('dist/.built', sourcesHash(root));
    expect(isBuilt(root)).toBe(true);

    write('public/ear/encoder.onnx', 'copied');
    write('public/voice/slt.bin', 'copied');
    expect(isBuilt(root)).toBe(true);

    write('public/ear/phone-head.onnx', 'trained');
    expect(isBuilt(root)).toBe(false);
    write('dist/.built', sourcesHash(root));
    write('scripts-cues/en/says.yaml', 'say.halted: Halted.');
    expect(isBuilt(root)).toBe(false);
    rmSync(root, { recursive: true });
  });
});
