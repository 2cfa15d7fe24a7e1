"""Recorded people as shards beside what is spoken: people.py FOLDER SPEECH [DECODER...]

FOLDER holds N.opus (pieces of speech behind one another) and N.json (from, length in samples of
16 kHz, phones, voice). The last N is kept from the training: SPEECH/unmet.pickle.
"""
import json
import subprocess
import sys
import tempfile
from multiprocessing import Pool

import numpy as np

from speaking import read, saved


def pieces(task):
    folder, number, decoder = task
    path = f'{tempfile.gettempdir()}/people-{number}.wav'
    subprocess.run([*decoder, '--quiet', '--rate', '16000', f'{folder}/{number}.opus', path], check=True)
    sound, rate = read(path)
    assert rate == 16000, rate
    with open(f'{folder}/{number}.json') as file:
        rows = json.load(file)
    found = []
    for row in rows:
        piece = sound[row['from']:row['from'] + row['length']]
        if len(piece) < row['length'] or np.abs(piece).max() < .01:
            continue
        found.append((
            (piece / np.abs(piece).max() * 16384).astype(np.int16), row['phones'], [], f"person {row['voice']}",
        ))
    return found


def main():
    folder, speech, *decoder = sys.argv[1:]
    with Pool(8) as pool:
        found = pool.map(pieces, [(folder, number, decoder or ['opusdec']) for number in range(8)])
    for number, each in enumerate(found[:-1]):
        saved(each, f'{speech}/people{number}.pickle')
    saved(found[-1][:400], f'{speech}/unmet.pickle')
    saved(found[-1][400:], f'{speech}/people7.pickle')
    print(f'{sum(len(each) for each in found)} pieces of people')


if __name__ == '__main__':
    main()
