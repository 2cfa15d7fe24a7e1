"""Rooms, microphones and noise for many clips at a time, on the accelerator.

A clip is speech somewhere in silence, at another pace and size of head, in an echo, through a
microphone, in noise of a loudness drawn for it, at the loudness that the ear brings sound to.
"""
import math

import numpy as np
import torch
import torch.nn.functional as F

RATE = 16000
PEAK = 0.5
KNOTS = (0, 200, 500, 1000, 2000, 3200, 4800, 6500, 8000)


def music(seconds, dice):
    """Struck and held chords over a beat."""
    length = int(seconds * RATE)
    sound = 1e-3 * dice.standard_normal(length)
    at = 0
    while at < length:
        hold = int(dice.uniform(.12, .7) * RATE)
        most = min(int(hold * 1.5), length - at)
        time = np.arange(most) / RATE
        root = 110 * 2 ** (dice.integers(0, 36) / 12)
        for step in dice.choice([0, 3, 4, 7, 10, 12], size=dice.integers(1, 4), replace=False):
            fade = np.exp(-time * dice.uniform(.5, 8))
            for harmonic in range(1, dice.integers(3, 10)):
                pitch = root * 2 ** (step / 12) * harmonic
                if pitch < 7500:
                    wave = np.sin(2 * np.pi * pitch * time + dice.uniform(0, 6))
                    sound[at:at + most] += wave * fade / harmonic
        at += int(hold * dice.uniform(.4, 1))
    beat = int(dice.uniform(.25, .6) * RATE)
    for at in range(int(dice.integers(0, beat)), length, beat):
        most = min(2400, length - at)
        fade = np.exp(-np.arange(most) / dice.uniform(150, 900))
        sound[at:at + most] += dice.standard_normal(most) * fade * dice.uniform(.3, 2)
        time = np.arange(most) / RATE
        sound[at:at + most] += np.sin(2 * np.pi * 55 * time) * fade * dice.uniform(0, 4)
    return sound


def drops(seconds, dice):
    """Plates, bars and doors: a thump, a burst and ringing metal."""
    length = int(seconds * RATE)
    sound = 3e-3 * dice.standard_normal(length)
    at = 0
    while at < length:
        most = min(int(dice.uniform(.03, .6) * RATE), length - at)
        time = np.arange(most) / RATE
        knock = dice.standard_normal(most) * np.exp(-time * dice.uniform(15, 120)) * dice.uniform(.2, 1)
        knock += np.sin(2 * np.pi * dice.uniform(40, 140) * time) * np.exp(-time * 25) * dice.uniform(0, 1.5)
        for _ in range(dice.integers(0, 7)):
            ring = np.sin(2 * np.pi * dice.uniform(300, 6500) * time)
            knock += ring * np.exp(-time * dice.uniform(4, 40)) * dice.uniform(0, .4)
        sound[at:at + most] += knock * dice.uniform(.2, 1)
        at += int(dice.uniform(.1, 1.2) * RATE)
    return sound


def hums(seconds, dice):
    """Mains, fans and machines over a quiet room."""
    time = np.arange(int(seconds * RATE)) / RATE
    base = dice.choice([50, 60, 100, 120, dice.uniform(60, 400)])
    wave = sum(
        np.sin(2 * np.pi * base * k * time + dice.uniform(0, 6)) * dice.uniform(.05, 1) / k
        for k in range(1, 14)
    )
    return wave * (1 + .3 * np.sin(2 * np.pi * dice.uniform(.2, 9) * time)) + .1 * dice.standard_normal(len(time))


def noise_piece(task):
    """A piece of one of the three kinds, at one loudness."""
    kind, seconds, seed = task
    dice = np.random.default_rng(seed)
    sound = {'music': music, 'drops': drops, 'hums': hums}[kind](seconds, dice)
    return (sound / np.sqrt((sound ** 2).mean()) * 1000).clip(-32000, 32000).astype(np.int16)


class Bank:
    """Everything that was spoken, by length, and pieces of noise, in the accelerator's memory."""

    def __init__(self, device):
        self.device = device
        self.sound = torch.zeros(0, dtype=torch.int16, device=device)
        self.starts, self.lengths, self.phones, self.rivals = [], [], [], []
        self.voices = []
        self.noises = {}

    def add(self, found, times=1):
        """Takes in what was spoken; `times`: how often each is drawn beside the others."""
        at = self.sound.numel()
        pieces = [torch.from_numpy(np.concatenate([sound for sound, *_ in found])).to(self.device)]
        for sound, phones, rivals, voice in found:
            self.starts += [at] * times
            self.lengths += [len(sound)] * times
            self.phones += [phones] * times
            self.rivals += [rivals] * times
            self.voices += [voice] * times
            at += len(sound)
        self.sound = torch.cat([self.sound] + pieces)
        self.order = np.argsort(np.array(self.lengths), kind='stable')
        self.start = torch.tensor(self.starts, device=self.device)
        self.length = torch.tensor(self.lengths, device=self.device)

    def add_noise(self, kind, pieces):
        self.noises[kind] = torch.from_numpy(np.concatenate(pieces)).to(self.device)

    def neighbours(self, count, dice):
        """So many utterances of about one length."""
        window = max(3 * count, len(self.order) // 10)
        first = int(dice.integers(-window // 2, len(self.order) - window // 2))
        low = min(max(first, 0), max(0, len(self.order) - window))
        return dice.choice(self.order[low:low + window], count, replace=len(self.order) < 2 * count)


def dice_between(low, high):
    return low + float(torch.rand(1)) * (high - low)


def between(low, high, count, device):
    return torch.rand(count, device=device) * (high - low) + low


def crops(sound, count, length, pace):
    """Pieces from anywhere of a long sound, at these paces, each at the same loudness."""
    span = int(length * 1.3) + 2
    start = torch.randint(0, max(1, sound.numel() - span), (count, 1), device=sound.device)
    at = torch.arange(length, device=sound.device)[None] * pace[:, None]
    whole = at.long()
    part = at - whole
    index = (start + whole).clamp(max=sound.numel() - 2)
    piece = sound[index].float() * (1 - part) + sound[index + 1].float() * part
    return piece / piece.pow(2).mean(1, keepdim=True).add(1).sqrt()


def spoken(bank, which, pace, before, length):
    """Utterances after so many samples of silence; `pace` [clips, samples or 1]: samples read a sample."""
    device = bank.device
    index = torch.as_tensor(which, device=device)
    start, most = bank.start[index], bank.length[index]
    first = before.long()[:, None]
    here = torch.arange(length, device=device)[None]
    read = (pace.expand(-1, length) * (here > first)).cumsum(1, dtype=torch.float64).float()
    inside = (here >= first) & (read < (most - 1)[:, None])
    whole = torch.minimum(read.floor(), (most - 2)[:, None].float()).long()
    part = (read - whole).clamp(0, 1)
    index = start[:, None] + whole
    piece = bank.sound[index].float() * (1 - part) + bank.sound[index + 1].float() * part
    return piece * inside / 32768


def smooth(count, knots, length, most, device):
    """Curves of 1 and about that: straight between so many places, `most` away at most."""
    rough = 1 + between(-most, most, count * knots, device).view(count, 1, knots)
    return F.interpolate(rough, length, mode='linear', align_corners=True)[:, 0]


def other_mouths(speech, share):
    """The same pitch out of heads of another shape: the envelope of the spectrum is bent.

    Each formant moves its own way: places of the spectrum are read at 0.78 to 1.28 times their height.
    """
    count, length = speech.shape
    device = speech.device
    size, step, soft = 512, 128, 28
    window = torch.hann_window(size, device=device)
    notes = torch.stft(speech, size, step, window=window, return_complex=True)
    rows = notes.shape[1]
    loud = torch.log(notes.abs().pow(2) + 1e-6) / 2
    kept = torch.fft.irfft(loud.transpose(1, 2), dim=2)
    lift = torch.zeros(kept.shape[2], device=device)
    lift[:soft] = 1
    lift[-soft + 1:] = 1
    envelope = torch.fft.rfft(kept * lift, dim=2).real
    bend = smooth(count, 8, rows, .12, device) * between(.88, 1.14, count, device)[:, None]
    bend = torch.where(torch.rand(count, 1, device=device) < share, bend, torch.ones_like(bend))
    place = (torch.arange(rows, device=device)[None] * bend).clamp(0, rows - 1.001)
    whole = place.floor().long()[:, None].expand(-1, envelope.shape[1], -1)
    part = (place - place.floor())[:, None]
    bent = envelope.gather(2, whole) * (1 - part) + envelope.gather(2, whole + 1) * part
    gain = torch.exp((bent - envelope).clamp(-2.5, 2.5)).transpose(1, 2)
    return torch.istft(notes * gain, size, step, window=window, length=length)


def filtered(sound, echo):
    """Through a room and a microphone of its own each."""
    count, length = sound.shape
    device = sound.device
    tail = int(.7 * RATE)
    size = 1 << math.ceil(math.log2(length + tail))
    spectrum = torch.fft.rfft(sound, size)
    fades = between(.08, .75, count, device)[:, None]
    time = torch.arange(tail, device=device)[None] / RATE
    room = torch.randn(count, tail, device=device) * torch.exp(-6.9 * time / fades)
    gap = between(0, .012, count, device)[:, None]
    room = room * (time > gap)
    # Walls take the high notes first.
    dull = torch.fft.rfft(room, size)
    notes = torch.linspace(0, 1, size // 2 + 1, device=device)[None]
    dull = dull / (1 + notes * between(0, 6, count, device)[:, None])
    room = torch.fft.irfft(dull, size)[:, :tail]
    room = room / room.pow(2).sum(1, keepdim=True).sqrt() * between(.1, 1.2, count, device)[:, None]
    room = room * (torch.rand(count, 1, device=device) < echo)
    room[:, 0] = 1
    spectrum = spectrum * torch.fft.rfft(room, size)
    hertz = notes * RATE / 2
    gains = between(-8, 8, count * len(KNOTS), device).view(count, -1)
    gains = gains * (torch.rand(count, 1, device=device) < .75)
    edges = torch.tensor(KNOTS, device=device, dtype=torch.float)
    left = (torch.bucketize(hertz[0], edges) - 1).clamp(0, len(KNOTS) - 2)
    share = (hertz[0] - edges[left]) / (edges[left + 1] - edges[left])
    spectrum = spectrum * 10 ** ((gains[:, left] * (1 - share) + gains[:, left + 1] * share) / 20)
    return torch.fft.irfft(spectrum * microphone(hertz, count), size)[:, :length]


def microphone(hertz, count):
    """Small microphones lose the low notes, telephones the high ones too."""
    device = hertz.device
    top = between(3300, 7500, count, device)[:, None]
    foot = between(80, 450, count, device)[:, None]
    high = torch.where(torch.rand(count, 1, device=device) < .3, 1 / (1 + (hertz / top) ** 12), 1.)
    low = torch.where(torch.rand(count, 1, device=device) < .2, 1 - 1 / (1 + (hertz / foot) ** 4), 1.)
    return high * low


def coloured(count, length, device):
    """From white to brown, the commonest pink."""
    size = length + length % 2
    notes = torch.arange(size // 2 + 1, device=device, dtype=torch.float)
    notes[0] = 1
    slope = torch.where(
        torch.rand(count, device=device) < .7,
        between(.7, 1.3, count, device),
        between(0, 2, count, device),
    )
    shape = torch.randn(count, size // 2 + 1, 2, device=device)
    spectrum = torch.view_as_complex(shape) * notes[None] ** (-slope[:, None] / 2)
    sound = torch.fft.irfft(spectrum, size)[:, :length]
    return sound / sound.pow(2).mean(1, keepdim=True).sqrt()


# Share of clips whose noise is mostly of this kind.
KINDS = (('coloured', .3), ('babble', .27), ('music', .13), ('drops', .12), ('hums', .06), ('other', .12))


def noise(bank, count, length, kinds=KINDS):
    """Noise of power 1; the second result says which clips have one other voice in it."""
    device = bank.device
    pace = between(.85, 1.2, count, device)
    babble = torch.zeros(count, length, device=device)
    for voice in range(7):
        gain = between(.4, 1, count, device) * (torch.rand(count, device=device) < (1 if voice < 3 else .6))
        babble += crops(bank.sound, count, length, pace) * gain[:, None]
    made = {
        'coloured': coloured(count, length, device),
        'babble': babble,
        'other': crops(bank.sound, count, length, pace),
        **{kind: crops(sound, count, length, pace) for kind, sound in bank.noises.items()},
    }
    shares = torch.tensor([share for _, share in kinds], device=device)
    main = torch.multinomial(shares, count, replacement=True)
    out = torch.zeros(count, length, device=device)
    for at, (kind, _) in enumerate(kinds):
        sound = made[kind] / made[kind].pow(2).mean(1, keepdim=True).add(1e-9).sqrt()
        out += sound * (main == at)[:, None]
    under = coloured(count, length, device) * between(0, .35, count, device)[:, None]
    out = out + under
    alone = torch.tensor([kind == 'other' for kind, _ in kinds], device=device)[main]
    return out / out.pow(2).mean(1, keepdim=True).add(1e-9).sqrt(), alone


def loudness(sound):
    """Power of the parts that are spoken."""
    frames = sound[:, :sound.shape[1] // 320 * 320].reshape(sound.shape[0], -1, 320).pow(2).mean(2)
    loud = (frames > frames.amax(1, keepdim=True) * 1e-3).float()
    return ((frames * loud).sum(1) / loud.sum(1).clamp(min=1)).add(1e-9)


def clips(bank, which, decibels=None, kinds=KINDS, seed=None):
    """Sound [clips, samples]; with `decibels` all at that distance to noise, else from -2 to 60."""
    device = bank.device
    if seed is not None:
        torch.manual_seed(seed)
    count = len(which)
    taught = decibels is None
    longest = max(bank.lengths[i] for i in which) / (.82 if taught else 1)
    # The ear hears sound on its way: often there is much before the words, or after them.
    around = dice_between(.5, 2.2) if taught and float(torch.rand(1)) < .4 else .45
    length = math.ceil((longest + around * RATE) / 1024) * 1024
    if taught:
        # People speed up and slow down, and their pitch wanders with it.
        pace = between(.87, 1.16, count, device)[:, None] * smooth(count, 6, length, .09, device)
        pace = pace.clamp(.83, 1.3)
    else:
        pace = torch.ones(count, 1, device=device)
    spare = length - bank.length[torch.as_tensor(which, device=device)] / pace.mean(1)
    before = between(.02, max(.5, around - .2), count, device) * RATE
    before = torch.minimum(before, spare - .05 * RATE).clamp(min=0)
    speech = spoken(bank, which, pace, before, length)
    if taught:
        speech = filtered(other_mouths(speech, .6), .5)
    power = loudness(speech)
    sound, alone = noise(bank, count, length, kinds)
    if taught:
        under = between(-2, 30, count, device)
        quiet = torch.rand(count, device=device) < .14
        under = torch.where(quiet, between(30, 60, count, device), under)
        under = torch.where(alone, between(7, 25, count, device), under)
    else:
        under = torch.full((count,), float(decibels), device=device)
    mixed = speech + sound * (power.sqrt() * 10 ** (-under / 20))[:, None]
    if taught:
        top = mixed.abs().amax(1, keepdim=True)
        cut = torch.where(torch.rand(count, 1, device=device) < .07, between(.15, .7, count, device)[:, None], 1.)
        mixed = torch.maximum(torch.minimum(mixed, top * cut), -top * cut)
    return mixed / mixed.abs().amax(1, keepdim=True).clamp(min=1e-6) * PEAK


def broken_off(sound):
    """The beginning of every clip, at the loudness that the ear brings sound to."""
    length = sound.shape[1]
    part = sound[:, :max(min(length, 8 * 1024), int(length * dice_between(.3, 1))) // 384 * 384]
    return part / part.abs().amax(1, keepdim=True).clamp(min=1e-6) * PEAK


QUIET_KINDS = tuple((kind, share) for kind, share in KINDS if kind not in ('babble', 'other'))


def only_noise(bank, count, crowd):
    """No words at all; with `crowd` many voices at once, of which none can be told."""
    length = int(torch.randint(10, 60, (1,)).item()) * 1024
    sound, _ = noise(bank, count, length, (('babble', 1.0),) if crowd else QUIET_KINDS)
    return sound / sound.abs().amax(1, keepdim=True) * PEAK
