"""Trains heads side by side on speech as it is spoken, each batch in new rooms and new noise.

  python3 training.py SPEECH ENCODER.onnx OUT SECONDS SEED NAME,NAME... [BATCH]

NAME: one of VARIANTS. Writes OUT/NAME.pt (weights, averaged over the last steps) and OUT/log.txt.
"""
import glob
import os
import pickle
import sys
import time
from contextlib import nullcontext
from multiprocessing import Pool

import numpy as np
import torch
import torch.nn.functional as F

import rooms
from encoder import Encoder
from head import Head

# `rivals`: weight of telling the right row of phones from rows that sound almost the same.
VARIANTS = {
    'small': dict(size=dict(width=192, blocks=6), rate=2.5e-3),
    'states': dict(size=dict(width=288, blocks=7, far=(2, 5)), rate=1.5e-3),
    'tones': dict(size=dict(width=288, blocks=7, far=(2, 5), tones=True), rate=1.5e-3),
    'rivals': dict(size=dict(width=288, blocks=7, far=(2, 5), tones=True), rate=1.5e-3, rivals=.3),
    'rivals24': dict(
        size=dict(width=288, blocks=7, far=(2, 5), tones=True, apart=2), rate=1.5e-3, rivals=.3
    ),
    'told': dict(size=dict(width=288, blocks=7, far=(2, 5)), rate=1.5e-3, rivals=.3),
    'alone': dict(size=dict(width=192, blocks=8, far=(3, 6), alone=True), rate=2e-3, rivals=.3),
    'alone24': dict(
        size=dict(width=192, blocks=8, far=(3, 6), alone=True, apart=2), rate=2e-3, rivals=.3
    ),
    'wide24': dict(
        size=dict(width=288, blocks=10, far=(2, 5, 8), alone=True, apart=2), rate=1.6e-3, rivals=.3
    ),
    'broad': dict(size=dict(width=288, blocks=8, far=(3, 6), alone=True), rate=1.5e-3, rivals=.3),
    'slim': dict(size=dict(width=240, blocks=6, far=(1, 4), tones=True), rate=1.8e-3, rivals=.3),
}
RIVALS = 4
RIVAL_ROWS = 96
# People's recordings are few beside what is spoken: each is drawn so often.
PEOPLE_TIMES = 8
# One step in so many is of clips that break off in mid-speech, as sound does that is still coming in.
BROKEN_OFF_EVERY = 3
BROKEN_OFF_WEIGHT = 2.
# Half a second, in rows of a head with one every 24 ms.
LAST_ROWS = 21


class Taught:
    """One head, its optimiser and its running average."""

    def __init__(self, name, device):
        plan = VARIANTS[name]
        self.name, self.rate, self.weight = name, plan['rate'], plan.get('rivals', 0)
        self.head = Head(**plan['size']).to(device)
        start = f"{os.environ.get('START', '')}/{name}.pt"
        start = start if os.path.exists(start) else None
        going = f"{os.environ.get('GOING', '')}/{name}.going.pt"
        if start:
            learnt = {k: v.float() for k, v in torch.load(start)['weights'].items()}
            self.head.load_state_dict(thinned(learnt, self.head.state_dict()))
        # A head that has learnt before goes on gently, and with rivals from the beginning.
        self.rate *= float(os.environ.get('GENTLY', '1')) if start else 1
        self.begun = 0 if start else .15
        self.mean = {k: v.detach().clone() for k, v in self.head.state_dict().items()}
        parameters = list(self.head.parameters())
        self.optimiser = torch.optim.AdamW(
            parameters, lr=1e-3, weight_decay=.02, betas=(.9, .98), **({'fused': True} if device == 'cuda' else {})
        )
        self.count = sum(p.numel() for p in parameters)
        self.losses, self.broken_off = [], []
        self.elder = Head(**plan['size']).to(device).eval()
        if os.path.exists(going):
            kept = torch.load(going, map_location=device, weights_only=False)
            self.head.load_state_dict(kept['head'])
            self.optimiser.load_state_dict(kept['optimiser'])
            self.mean, self.rate, self.begun = kept['mean'], kept['rate'], kept['begun']

    def put_by(self, path):
        """All that the next part of the same run goes on from."""
        torch.save(dict(
            head=self.head.state_dict(), optimiser=self.optimiser.state_dict(), mean=self.mean,
            rate=self.rate, begun=self.begun,
        ), path)

    def step(self, states, sound, targets, share, steps):
        self.pace(share, steps)
        with brief(sound):
            logits = self.head(states, sound, hidden_tones)
        log = F.log_softmax(logits.float(), -1)
        cost = unlikely(log, targets['phones'], targets['lengths'])
        loss = (cost / (targets['lengths'] + 2)).mean()
        if self.weight > 0 and 'rows' in targets and share > self.begun:
            rows = targets['rows']
            many = log[rows].repeat_interleave(1 + RIVALS, 0)
            costs = unlikely(many, targets['choices'], targets['choice_lengths'])
            costs = costs.view(-1, 1 + RIVALS) + targets['missing']
            told = -F.log_softmax(-costs, 1)[:, 0]
            loss = loss + self.weight * min(1, (share - self.begun) / .1) * told.mean()
        self.losses.append(loss.detach())
        self.learn(loss, share, steps)

    def step_broken_off(self, whole, part, share, steps):
        """Rows of a clip's beginning as they are once all of it is heard; whole, part: states and sound."""
        self.pace(share, steps)
        self.elder.load_state_dict(self.mean)
        with torch.no_grad(), brief(part[1]):
            told = F.softmax(self.elder(*whole).float(), -1)
        with brief(part[1]):
            logits = self.head(*part, hidden_tones)
        rows = logits.shape[1]
        loss = F.kl_div(F.log_softmax(logits.float(), -1), told[:, :rows], reduction='none').sum(-1).mean()
        self.broken_off.append(loss.detach())
        self.learn(BROKEN_OFF_WEIGHT * loss, share, steps)

    def pace(self, share, steps):
        rate = self.rate * min(1, (steps + 1) / (400 if share < .3 else 30)) * (.5 * (1 + np.cos(np.pi * share)) + .004)
        for group in self.optimiser.param_groups:
            group['lr'] = rate

    def learn(self, loss, share, steps):
        self.optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(self.head.parameters(), 2.)
        self.optimiser.step()
        with torch.no_grad():
            held = self.head.state_dict()
            keep = min(.999, 1 - 10 / (steps + 20)) if share < .3 else .999
            means = list(self.mean.values())
            torch._foreach_mul_(means, keep)
            torch._foreach_add_(means, [held[k] for k in self.mean], alpha=1 - keep)

    def averaged(self):
        head = Head(**VARIANTS[self.name]['size']).to(next(self.head.parameters()).device)
        head.load_state_dict(self.mean)
        return head.eval()


def thinned(learnt, wanted):
    """Weights of a head with a row every 12 ms, for one with a row every 24; others are left as they are.

    Of a state's two rows the mean; what was near reaches as far in time as before, over half the rows.
    """
    if 'up.bias' not in learnt or learnt['up.bias'].shape == wanted['up.bias'].shape:
        return learnt
    found = dict(learnt)
    for name, held in learnt.items():
        if name.startswith('up.'):
            found[name] = held.unflatten(0, (2, -1)).mean(0)
        elif name.endswith('.over.weight'):
            # Every second place and half of each beside it; the rest of the places are empty.
            held = F.pad(held, (1, 1))
            near = held[..., 1::2] + (held[..., :-1:2] + held[..., 2::2]) / 2
            empty = (wanted[name].shape[-1] - near.shape[-1]) // 2
            found[name] = F.pad(near, (empty, empty))
    return found


def brief(sound):
    """Short numbers on the accelerator, whole ones elsewhere."""
    return torch.autocast('cuda', dtype=torch.bfloat16) if sound.is_cuda else nullcontext()


def unlikely(log, phones, lengths):
    """Costs of rows of phones: log [clips, rows, outputs]."""
    rows = torch.full((log.shape[0],), log.shape[1], dtype=torch.long, device=log.device)
    return F.ctc_loss(
        log.transpose(0, 1), phones, rows, lengths, blank=0, reduction='none', zero_infinity=True
    )


def hidden_tones(tones):
    """Some tones and some moments are hidden."""
    clips, rows, count = tones.shape
    device = tones.device
    at = torch.arange(count, device=device)[None]
    low = torch.rand(clips, 1, device=device) * count
    wide = torch.rand(clips, 1, device=device) * 10
    tones = tones * (1 - ((at >= low) & (at < low + wide)).float())[:, None]
    return hidden_moments(tones, 10)


def hidden_moments(x, most):
    clips, rows = x.shape[:2]
    at = torch.arange(rows, device=x.device)[None]
    for _ in range(2):
        low = torch.rand(clips, 1, device=x.device) * rows
        wide = torch.rand(clips, 1, device=x.device) * most * (torch.rand(clips, 1, device=x.device) < .5)
        x = x * (1 - ((at >= low) & (at < low + wide)).float())[..., None]
    return x


def padded(rows, device):
    most = max(1, max(len(row) for row in rows))
    table = np.zeros((len(rows), most), np.int64)
    for at, row in enumerate(rows):
        table[at, :len(row)] = row
    lengths = np.array([len(row) for row in rows], np.int64)
    return torch.from_numpy(table).to(device), torch.from_numpy(lengths).to(device)


def targets_of(bank, which, dice):
    phones, lengths = padded([bank.phones[i] for i in which], bank.device)
    rows = [at for at, i in enumerate(which) if bank.rivals[i]][:RIVAL_ROWS]
    if not rows:
        return dict(phones=phones, lengths=lengths)
    choices, missing = [], []
    for at in rows:
        rivals = list(bank.rivals[which[at]])
        dice.shuffle(rivals)
        rivals = rivals[:RIVALS]
        lack = RIVALS - len(rivals)
        choices += [bank.phones[which[at]], *rivals, *([bank.phones[which[at]]] * lack)]
        missing.append([0.] * (1 + len(rivals)) + [1e4] * lack)
    table, counts = padded(choices, bank.device)
    return dict(
        phones=phones, lengths=lengths, rows=torch.tensor(rows, device=bank.device), choices=table,
        choice_lengths=counts, missing=torch.tensor(missing, device=bank.device),
    )


def best_row(log):
    """Phones of the likeliest row of each clip."""
    found = []
    for row in log.argmax(-1).cpu().numpy():
        keep = (row != np.concatenate([[-1], row[:-1]])) & (row > 0)
        found.append(row[keep].tolist())
    return found


def edits(a, b):
    row = list(range(len(b) + 1))
    for i, x in enumerate(a):
        new = [i + 1]
        for j, y in enumerate(b):
            new.append(min(row[j] + (x != y), row[j + 1] + 1, new[j] + 1))
        row = new
    return row[-1]


class Exam:
    """Clips of the kept voices at fixed distances to noise; states are made once."""

    def __init__(self, bank, noises, encoder, count):
        bank.noises = noises
        self.sets = {}
        for decibels in (35, 10, 5):
            batches = []
            chosen = set(np.random.default_rng(7).permutation(len(bank.order))[:count].tolist())
            order = [i for i in bank.order if i in chosen]
            for at in range(0, len(order), 128):
                which = order[at:at + 128]
                sound = rooms.clips(bank, which, decibels, seed=7 + at)
                part = rooms.broken_off(sound)
                rivals = [[bank.phones[i], *bank.rivals[i][:6]] for i in which]
                batches.append((
                    sound, encoder(sound), [bank.phones[i] for i in which], rivals, part, encoder(part),
                ))
            self.sets[decibels] = batches

    @torch.no_grad()
    def marks(self, head):
        """A line: share of phones wrong, of clips taken for a rival, of rows lost where sound breaks off, by distance to noise."""
        told = []
        for decibels, batches in self.sets.items():
            wrong = phones = mistaken = clips = lost = begun = 0
            for sound, states, right, rivals, part, part_states in batches:
                with brief(sound):
                    log = F.log_softmax(head(states, sound).float(), -1)
                for found, wanted in zip(best_row(log), right):
                    wrong += edits(found, wanted)
                    phones += len(wanted)
                # Phones of the last half second before the sound breaks off that are told once more follows.
                with brief(part):
                    early = head(part_states, part).argmax(-1)
                rows = early.shape[1]
                late = slice(max(0, rows - LAST_ROWS), rows - 2)
                once = log.argmax(-1)[:, late]
                lost += int(((once > 0) & (once != early[:, late])).sum())
                begun += int((once > 0).sum())
                counts = [len(r) for r in rivals]
                table, lengths = padded([r for row in rivals for r in row], log.device)
                many = log.repeat_interleave(torch.tensor(counts, device=log.device), 0)
                costs = unlikely(many, table, lengths).split(counts)
                mistaken += sum(int(c.argmin() > 0) for c in costs)
                clips += len(costs)
            told.append(
                f'{decibels} dB {100 * wrong / phones:.2f}/{100 * mistaken / clips:.2f}/{100 * lost / max(1, begun):.2f}'
            )
        return ', '.join(told)


def arrived(folder, split, known):
    paths = [p for p in sorted(glob.glob(f'{folder}/{split}*.pickle')) if p not in known]
    known.update(paths)
    found = []
    for path in paths:
        with open(path, 'rb') as file:
            found += pickle.load(file)
    return found


def main():
    folder, model, out, seconds, seed, names = sys.argv[1:7]
    size = int(sys.argv[7]) if len(sys.argv) > 7 else 256
    seconds, seed = float(seconds), int(seed)
    os.makedirs(out, exist_ok=True)
    log = open(f'{out}/log.txt', 'a')

    def tell(*words):
        print(*words, flush=True)
        print(*words, file=log, flush=True)

    pieces = int(os.environ.get('NOISE_PIECES', '10'))
    kinds = ['music'] * pieces + ['drops'] * pieces + ['hums'] * (pieces // 2)
    with Pool(min(8, len(os.sched_getaffinity(0)))) as pool:
        made = pool.map(rooms.noise_piece, [(k, 20, seed * 100 + i) for i, k in enumerate(kinds)])
    device = 'cuda' if torch.cuda.is_available() else 'cpu'
    torch.backends.cuda.matmul.allow_tf32 = True
    torch.backends.cudnn.allow_tf32 = False
    torch.manual_seed(seed)
    dice = np.random.default_rng(seed)
    encoder = Encoder(model).to(device).eval()
    bank, exam_bank, known = rooms.Bank(device), rooms.Bank(device), set()
    for kind in ('music', 'drops', 'hums'):
        bank.add_noise(kind, [p for k, p in zip(kinds, made) if k == kind])
    bank.add(arrived(folder, 'taught', known))
    bank.add(arrived(folder, 'people', known), PEOPLE_TIMES)
    taught = [Taught(name, device) for name in names.split(',')]
    for each in taught:
        tell(each.name, f'{each.count / 1e6:.2f} M')
    exam = None
    # A run in parts: PART=I/N is the Ith, from 0, and goes on from what GOING holds.
    part, parts = (int(n) for n in os.environ.get('PART', '0/1').split('/'))
    began, steps, looked = time.time(), 0, time.time()
    while True:
        share = (part + (time.time() - began) / seconds) / parts
        if time.time() - began >= seconds:
            break
        if steps % BROKEN_OFF_EVERY == 1:
            sound = rooms.clips(bank, list(bank.neighbours(size, dice)))
            begun = rooms.broken_off(sound)
            whole_states = begun_states = None
            if not all(each.head.alone for each in taught):
                whole_states, begun_states = encoder(sound), hidden_moments(encoder(begun), 5)
                begun_states = begun_states + .02 * torch.randn_like(begun_states)
            for each in taught:
                each.step_broken_off((whole_states, sound), (begun_states, begun), share, steps)
            steps += 1
            continue
        if steps % 12 == 11:
            sound = rooms.only_noise(bank, size // 2, crowd=steps % 24 == 11)
            phones, lengths = padded([[]] * (size // 2), device)
            targets = dict(phones=phones, lengths=lengths)
        else:
            which = list(bank.neighbours(size, dice))
            sound = rooms.clips(bank, which)
            targets = targets_of(bank, which, dice)
        states = None
        if not all(each.head.alone for each in taught):
            states = hidden_moments(encoder(sound), 5)
            states = states + .02 * torch.randn_like(states)
        for each in taught:
            each.step(states, sound, targets, share, steps)
        steps += 1
        if time.time() - looked > 12:
            looked = time.time()
            more = arrived(folder, 'taught', known)
            if more:
                bank.add(more)
            if exam is None and os.path.exists(f'{folder}/kept.done'):
                exam_bank.add(arrived(folder, 'kept', set()))
                exam = Exam(exam_bank, bank.noises, encoder, int(os.environ.get('EXAM', '1500')))
            losses = ' '.join(
                f'{e.name} {torch.stack(e.losses[-150:]).mean().item():.3f}, '
                f'broken off {torch.stack(e.broken_off[-50:]).mean().item():.3f}' for e in taught
            )
            tell(f'{time.time() - began:.0f} s, {steps} steps, {len(bank.lengths)} utterances: {losses}')
    if exam is None and os.path.exists(f'{folder}/kept.done'):
        exam_bank.add(arrived(folder, 'kept', set()))
        exam = Exam(exam_bank, bank.noises, encoder, int(os.environ.get('EXAM', '1500')))
    hours = sum(bank.lengths) / 16000 / 3600
    tell(f'{steps} steps of {size}, {len(bank.lengths)} utterances, {hours:.1f} hours')
    unmet = arrived(folder, 'unmet', set())
    met = None
    if unmet:
        unmet_bank = rooms.Bank(device)
        unmet_bank.add(unmet)
        met = Exam(unmet_bank, bank.noises, encoder, len(unmet))
    for each in taught:
        if parts > 1:
            each.put_by(f'{out}/{each.name}.going.pt')
        head = each.averaged()
        weights = {k: v.float().cpu() for k, v in head.state_dict().items()}
        torch.save(dict(size=VARIANTS[each.name]['size'], weights=weights), f'{out}/{each.name}.pt')
        if exam is not None:
            tell(each.name, 'phones wrong/taken for a rival/rows lost where sound breaks off, %:', exam.marks(head))
        if met is not None:
            tell(each.name, 'the same, people who were not taught:', met.marks(head))


if __name__ == '__main__':
    main()
