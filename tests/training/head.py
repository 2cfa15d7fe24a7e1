"""The head: states of the encoder, the sound itself as tones, or both, to logits of phones.

Two rows of logits a state, one every 12 ms, or one a state. The small head hears the sound alone.
"""
import math

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

OUTPUTS = 40
STATE = 288
TONES = 64
STEP = 192
WINDOW = 400
# The middle of the first state is sample 447; its two rows lie 96 before and after.
FIRST = 447 - 96 - WINDOW // 2
# Share of taught clips in which the states are heard without the tones; half as many the other way.
ONE_ALONE = .3


def tone_filters():
    def mel(hertz):
        return 2595 * np.log10(1 + hertz / 700)
    edges = 700 * (10 ** (np.linspace(mel(60), mel(7600), TONES + 2) / 2595) - 1)
    hertz = np.arange(257) * 16000 / 512
    rows = [
        np.maximum(0, np.minimum((hertz - a) / (b - a), (c - hertz) / (c - b)))
        for a, b, c in zip(edges, edges[1:], edges[2:])
    ]
    return np.array(rows, np.float32)


class Tones(nn.Module):
    """sound [clips, samples], rows -> [clips, rows, TONES]: logarithms less the clip's mean.

    Without `rows` as many as the sound has.
    """

    def __init__(self):
        super().__init__()
        angle = 2 * np.pi * np.arange(257)[:, None] * np.arange(WINDOW)[None] / 512
        window = np.hanning(WINDOW)[None]
        waves = np.concatenate([np.cos(angle) * window, np.sin(angle) * window])[:, None]
        self.register_buffer('waves', torch.from_numpy(waves.astype(np.float32)), persistent=False)
        self.register_buffer('filters', torch.from_numpy(tone_filters()), persistent=False)

    def forward(self, sound, rows=None):
        parts = F.conv1d(sound[:, None, FIRST:], self.waves, stride=STEP)
        power = parts[:, :257].pow(2) + parts[:, 257:].pow(2)
        tones = torch.log(torch.matmul(self.filters, power) + 1e-4).transpose(1, 2)
        tones = tones if rows is None else tones[:, :rows]
        return (tones - tones.mean(1, keepdim=True)) * .3


class Near(nn.Module):
    """What is near in time: a convolution over each channel, then two layers."""

    def __init__(self, width, reach, inner, drop):
        super().__init__()
        self.over = nn.Conv1d(width, width, reach, padding=reach // 2, groups=width)
        self.norm = nn.LayerNorm(width)
        self.widen = nn.Linear(width, inner)
        self.narrow = nn.Linear(inner, width)
        self.drop = nn.Dropout(drop)

    def forward(self, x):
        y = self.over(x.transpose(1, 2)).transpose(1, 2)
        return x + self.drop(self.narrow(F.silu(self.widen(self.norm(y)))))


class Far(nn.Module):
    """What is far in time: attention over the clip. Places are told by the convolutions."""

    def __init__(self, width, heads, drop):
        super().__init__()
        self.heads = heads
        self.norm = nn.LayerNorm(width)
        self.ask = nn.Linear(width, 3 * width)
        self.give = nn.Linear(width, width)
        self.drop = nn.Dropout(drop)

    def forward(self, x):
        clips, rows, width = x.shape
        q, k, v = self.ask(self.norm(x)).reshape(clips, rows, 3, self.heads, width // self.heads).unbind(2)
        q, k, v = q.transpose(1, 2), k.transpose(1, 2), v.transpose(1, 2)
        scores = torch.matmul(q, k.transpose(2, 3)) / math.sqrt(width // self.heads)
        mixed = torch.matmul(scores.softmax(-1), v).transpose(1, 2).reshape(clips, rows, width)
        return x + self.drop(self.give(mixed))


class Head(nn.Module):
    """width, blocks: size; far: attention after these blocks; tones: whether it hears the sound.

    alone: nothing but the sound. apart: 1 for a row every 12 ms, 2 for one every 24.
    """

    def __init__(
        self, width=192, blocks=6, reach=9, inner=2, far=(), tones=False, alone=False, drop=.1, apart=1
    ):
        super().__init__()
        self.width, self.hears, self.alone, self.apart = width, tones or alone, alone, apart
        if not alone:
            self.norm = nn.LayerNorm(STATE)
            self.up = nn.Linear(STATE, 2 // apart * width)
            self.drop = nn.Dropout(.15)
        if self.hears:
            self.tones = Tones()
            self.first = nn.Conv1d(TONES, width, 5, padding=2)
            self.second = nn.Conv1d(width, width, 3, padding=1, stride=apart)
            self.join = nn.Linear((1 if alone else 2) * width, width)
        layers = []
        for at in range(blocks):
            layers.append(Near(width, reach, inner * width, drop))
            if at in far:
                layers.append(Far(width, width // 48, drop))
        self.layers = nn.ModuleList(layers)
        self.last = nn.LayerNorm(width)
        self.out = nn.Linear(width, OUTPUTS)

    def forward(self, states, sound, hide=None):
        x = self.heard(sound, None, hide) if self.alone else self.upon(states, sound, hide)
        for layer in self.layers:
            x = layer(x)
        return self.out(self.last(x))

    def upon(self, states, sound, hide):
        clips, frames = states.shape[0], states.shape[1]
        x = self.up(self.drop(self.norm(states))).reshape(clips, 2 // self.apart * frames, self.width)
        return self.heard(sound, 2 * frames, hide, x) if self.hears else x

    def heard(self, sound, rows, hide, beside=None):
        tones = self.tones(sound.float(), rows)
        if hide is not None:
            tones = hide(tones)
        y = F.silu(self.first(tones.transpose(1, 2)))
        y = F.silu(self.second(y)).transpose(1, 2)
        if beside is None:
            return self.join(y)
        if hide is not None:
            # Neither learns to rest on the other: what only one of them knows of the taught voices misleads.
            draw = torch.rand(y.shape[0], 1, 1, device=y.device)
            y, beside = y * (draw > ONE_ALONE), beside * (draw < 1 - ONE_ALONE / 2)
        return self.join(torch.cat((beside, y), -1))
