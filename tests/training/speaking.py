"""Speaks the lines of the text file with many voices, on every core, into shards of sound.

  python3 speaking.py TEXT.json FOLDER COUNT SEED SPLIT      (SPLIT: taught or kept)

Programs are looked for in .train/speaking (see prepare.sh), else on the path. The kept voices are
spoken by for the report alone and never taught.
"""
import json
import os
import pickle
import random
import subprocess
import sys
import tempfile
from multiprocessing import Pool

for name in ('OMP_NUM_THREADS', 'OPENBLAS_NUM_THREADS', 'MKL_NUM_THREADS'):
    os.environ[name] = '1'
import numpy as np

RATE = 16000
SHARD = 500
LONGEST_SECONDS = 5.5
CARRIED = os.environ.get('SPEAKING', '')
LOADER = [f'{CARRIED}/lib/ld-linux-x86-64.so.2', '--library-path', f'{CARRIED}/lib'] if CARRIED else []
PITCH = {'slt': 170, 'awb': 120, 'kal16': 100, 'kal': 100, 'rms': 95}
ACCENTS = ['en-us'] * 6 + ['en-gb'] * 3 + ['en-gb-x-rp'] * 2
ACCENTS += ['en-029', 'en-gb-x-gbclan', 'en-gb-x-gbcwmd', 'en-us-nyc']
VARIANTS = (
    'f1 f2 f3 f4 f5 m1 m2 m3 m4 m5 m6 m7 m8 Alex Alicia Andrea Andy Annie Denis Diogo Gene Gene2 '
    'Henrique Hugo Jacky Lee Marco Mario Michael Mike Nguyen adam anika antonio aunty belinda '
    'benjamin boris caleb david ed edward edward2 grandma grandpa gustave iven iven2 iven3 john '
    'kaukovalta klatt klatt2 klatt3 klatt4 linda marcelo max michel miguel norbert pablo paul pedro '
    'quincy rob robert sandro shelby steph steph2 steph3 travis victor zac'
).split()
GNU_VOICES = ['male', 'male', 'female', 'large_child', 'small_child']


def program(name):
    return LOADER + [f'{CARRIED}/bin/{name}'] if CARRIED else [name]


def resampled(sound, ratio):
    """So many times as many samples, without folding."""
    if abs(ratio - 1) < 1e-4:
        return sound
    out = int(round(len(sound) * ratio))
    spectrum = np.fft.rfft(sound)
    wanted = np.zeros(out // 2 + 1, complex)
    both = min(len(spectrum), len(wanted))
    wanted[:both] = spectrum[:both]
    return np.fft.irfft(wanted, out) * ratio


def read(path):
    with open(path, 'rb') as file:
        data = file.read()
    os.unlink(path)
    rate = int.from_bytes(data[24:28], 'little')
    channels = int.from_bytes(data[22:24], 'little')
    body = data[44:44 + (len(data) - 44) // (2 * channels) * 2 * channels]
    sound = np.frombuffer(body, np.int16).astype(np.float32)
    return sound[::channels] / 32768, rate


def punctuated(words, dice):
    spaced = [word + (',' if dice.random() < .06 and at < len(words) - 1 else '') for at, word in enumerate(words)]
    return ' '.join(spaced) + dice.choice(['', '', '.', '.', '!', '?'])


def flite(voice, text, path, dice, warp):
    stretch = dice.uniform(.66, 1.25) * warp
    args = ['-voice', voice, '--setf', f'duration_stretch={stretch:.2f}']
    if dice.random() < .75:
        pitch = PITCH[voice] * dice.uniform(.72, 1.4) / warp
        args += ['--setf', f'int_f0_target_mean={pitch:.0f}']
    if dice.random() < .4:
        args += ['--setf', f'int_f0_target_stddev={dice.uniform(6, 40):.0f}']
    return program('flite') + args + ['-t', text, '-o', path]


def espeak(accent, variant, text, path, dice, warp):
    pace, pitch = dice.uniform(115, 250) / warp, dice.randint(20, 80)
    args = ['-v', f'{accent}+{variant}', '-s', f'{max(80, pace):.0f}', '-p', str(pitch), '-w', path]
    return program('espeak-ng') + args + [text]


def spoken(task):
    """One utterance: sound of 16 kHz, phones, rivals, voice; None where the engine failed."""
    line, number, seed, split = task
    dice = random.Random(seed * 1_000_003 + number)
    path = f'{tempfile.gettempdir()}/said-{os.getpid()}.wav'
    warp = dice.uniform(.82, 1.22) if dice.random() < .7 else 1.0
    text = punctuated(line['words'], dice)
    if split == 'kept':
        warp = 1.0
        if dice.random() < .6:
            voice = 'flite rms'
            command = flite('rms', text, path, dice, warp)
        else:
            voice = 'espeak en-gb-scotland'
            command = espeak('en-gb-scotland', dice.choice(['m2', 'f4', 'm7', 'f2']), text, path, dice, warp)
    elif dice.random() < .5:
        name = dice.choice(['slt'] * 5 + ['awb'] * 5 + ['kal16'] * 3 + ['kal'])
        voice = f'flite {name}'
        command = flite(name, text, path, dice, warp)
    else:
        accent = dice.choice(ACCENTS)
        voice = f'espeak {accent}'
        command = espeak(accent, dice.choice(VARIANTS), text, path, dice, warp)
    env = dict(os.environ, ESPEAK_DATA_PATH=CARRIED) if CARRIED else None
    try:
        quiet = subprocess.DEVNULL
        subprocess.run(command, env=env, stdout=quiet, stderr=quiet, timeout=20, check=True)
        sound, rate = read(path)
    except (OSError, subprocess.SubprocessError):
        return None
    sound = resampled(sound, RATE / rate / warp)
    return trimmed(sound, line, voice)


def trimmed(sound, line, voice):
    loud = np.flatnonzero(np.abs(sound) > .01 * np.abs(sound).max()) if len(sound) else []
    if len(loud) < 800:
        return None
    sound = sound[max(0, loud[0] - 160):loud[-1] + 320]
    if len(sound) > RATE * LONGEST_SECONDS:
        return None
    sound = (sound / np.abs(sound).max() * 16384).astype(np.int16)
    return sound, line['phones'], line['rivals'], voice


def saved(found, path):
    with open(path + '.part', 'wb') as file:
        pickle.dump(found, file)
    os.rename(path + '.part', path)


def main():
    text, folder, count, seed, split = sys.argv[1:6]
    os.makedirs(folder, exist_ok=True)
    with open(text) as file:
        lines = json.load(file)['kept' if split == 'kept' else 'lines']
    dice = random.Random(int(seed))
    order = [dice.randrange(len(lines)) for _ in range(int(count))]
    tasks = ((lines[at], number, int(seed), split) for number, at in enumerate(order))
    shard, made, failed = [], 0, 0
    with Pool(len(os.sched_getaffinity(0))) as pool:
        for result in pool.imap_unordered(spoken, tasks, chunksize=16):
            if result is None:
                failed += 1
                continue
            shard.append(result)
            if len(shard) == SHARD:
                saved(shard, f'{folder}/{split}{made:04d}.pickle')
                shard, made = [], made + 1
    if shard:
        saved(shard, f'{folder}/{split}{made:04d}.pickle')
    open(f'{folder}/{split}.done', 'w').close()
    print(f'{split}: {int(count) - failed} spoken, {failed} failed', flush=True)


if __name__ == '__main__':
    main()
