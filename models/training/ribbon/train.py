"""Trains readers on ribbons that traced.py packs, also while this runs, on one GPU.

    python3 train.py narrow wide outer --packed PACKED --out OUT --stop-at $(($(date +%s) + 560)) [--resume OUT] [--part 0 0.3]
        [--narrow OUT/narrow.pt]

Writes OUT/SHAPE.pt, the running mean of the weights; `export.py` makes TypeScript of it. A training that goes on over several
calls says with --part which part of the whole each is.
"""
import argparse
import math
import random
import time
from pathlib import Path

import torch
import torch.nn.functional as F

import traced
from data import ACROSS, BESIDE, joined
from net import ALL, SHAPES, Reader, stripe_odds
from traced import PIXEL

CELL_WEIGHT = [1.0, 2.0, 1.6, 2.0, 0.8, 1.5]
# Of the inputs: what is said of a cell from here on, besides whether it lies on a conductor (WIRE).
WIRE, SAID = 6, 9
# A stripe is not asked about where less than this of the insulation in sight is of the body's color.
ONLY_STRIPE = 0.15
# What is said of a whole conductor against what is said of its cells.
LAYOUT_WEIGHT = 1.0
# Of so many files one only tells how it goes.
HELD_OUT = 40


class Kept:
    """At most so many ribbons; a new one takes the place of the oldest."""

    def __init__(self, most):
        self.most, self.given, self.room = most, 0, None

    def __len__(self):
        return min(self.most, self.given)

    def add(self, more):
        if self.room is None:
            self.room = {k: torch.zeros((self.most, *v.shape[1:]), dtype=v.dtype, device=v.device) for k, v in more.items()}
        n = len(more['g'])
        place = torch.arange(self.given, self.given + n, device=more['g'].device) % self.most
        for k, v in more.items():
            self.room[k][place] = v
        self.given += n

    def __getitem__(self, key):
        return self.room[key][:len(self)]


class Lines:
    """Ribbons with what has been packed since; files are moved into place, so each is whole."""

    def __init__(self, folder, device, narrow, most):
        self.folder, self.device, self.narrow = Path(folder), device, narrow
        self.known, self.learned, self.held = set(), Kept(most), Kept(most // HELD_OUT)

    def grow(self):
        fresh = sorted(set(self.folder.glob('*.npz')) - self.known)
        for path in fresh:
            into = self.held if int(path.stem) % HELD_OUT == 0 else self.learned
            into.add(traced.ready(path, self.device, self.narrow))
        self.known |= set(fresh)
        return bool(fresh)


def shown(x, y, w, g):
    """Ribbons as nobody has seen them: other hues, more noise, a part of their length, from either end and side."""
    m, rows, d = len(x), x.shape[2], x.device
    rand = lambda *shape: torch.rand(*shape, device=d)
    # Hue differences are turned and stretched, so that no pair of colors is special.
    angle = rand(m) * 2 * math.pi * (rand(m) < 0.5)
    stretch = 0.8 + 0.4 * rand(m)
    c, s = (stretch * f(angle) for f in (torch.cos, torch.sin))
    c, s = c[:, None, None], s[:, None, None]
    x = torch.cat([(c * x[:, 0] - s * x[:, 1])[:, None], (s * x[:, 0] + c * x[:, 1])[:, None], x[:, 2:]], 1)
    pixel = x[:, :PIXEL] + (0.04 * rand(m)).reshape(m, 1, 1, 1) * torch.randn(m, PIXEL, rows, x.shape[3], device=d)
    # The segmentation may err where nothing else does: parts of what it says are left out.
    heard = lambda share, planes: x[:, planes] * (rand(m, 1, 1, 1) > share)
    x = torch.cat([pixel, x[:, PIXEL:WIRE], heard(0.15, slice(WIRE, WIRE + 1)), x[:, WIRE + 1:SAID], heard(0.1, slice(SAID, SAID + 3)),
                   heard(0.1, slice(SAID + 3, None))], 1)
    # Nothing but tape in sight, or but stripe: nobody could tell it from insulation, so it is not asked about.
    share = lambda *kinds: sum((y == k).float() for k in kinds).mul(w).sum((1, 2)) / w.sum((1, 2)).clamp(min=1)
    w = torch.where((share(0, 1) < 0.03)[:, None, None] & (y == 2), 0.0, w)
    only = share(0) < ONLY_STRIPE * share(0, 1)
    w = torch.where(only[:, None, None] & (y < 2), 0.0, w)
    g = torch.where(only, -100, g)
    # A conductor is often seen for a part of its length only.
    size = torch.where(rand(m) < 0.6, torch.full((m,), rows, device=d), torch.randint(24, rows, (m,), device=d))
    first = (rand(m) * (rows - size + 1)).long()
    row = torch.arange(rows, device=d)
    cut = ((row >= first[:, None]) & (row < (first + size)[:, None]))[:, :, None].float()
    x = x * cut[:, None]
    w = w * cut
    # What lies beside is not always known.
    column = torch.arange(x.shape[3], device=d)
    outer = (column < BESIDE) | (column >= x.shape[3] - BESIDE)
    x = x * ~(outer & (rand(m) < 0.08)[:, None])[:, None, None]
    for axis in (1, 2):
        if random.random() < 0.5:
            x, y, w = x.flip(axis + 1), y.flip(axis), w.flip(axis)
    left = share_left(y, w)
    # Too little of a stripe left in sight is not asked about, none is none.
    return x, y, w, torch.where(left > 0.02, g, torch.where((left > 0) | (g < 0), -100, 0))


def share_left(y, w):
    """Share of the seen own cells that are stripe after cutting, by which the whole conductor is asked about."""
    inner = slice(1, -1)
    own = ((y != 4) * w)[:, :, inner].sum((1, 2))
    return ((y == 1) * w)[:, :, inner].sum((1, 2)) / own.clamp(min=1)


def drawn(lines, index):
    return (whole(lines, index), lines['y'][index].long(), lines['w'][index].float(), lines['g'][index])


def whole(lines, index):
    """The readers' input of some of the kept ribbons."""
    return joined(*(lines[key][index] for key in ('pixel', 'said', 'ok', 'size')))


class Learner:
    """A reader being trained, and the running mean of its weights, which is what is kept."""

    def __init__(self, shape, device, args):
        self.shape, self.device, self.path = shape, device, Path(args.out) / f'{shape}.pt'
        self.net, self.mean = Reader(shape).to(device), Reader(shape).to(device)
        if args.resume:
            self.net.load_state_dict(torch.load(Path(args.resume) / f'{shape}.pt', map_location=device))
        self.mean.load_state_dict(self.net.state_dict())
        self.net.compiled = args.compile
        self.run = torch.compile(self.net) if args.compile else self.net
        self.optimizer = torch.optim.AdamW(self.net.parameters(), args.learning_rate, weight_decay=1e-3, fused=device.type == 'cuda')
        self.weight = torch.tensor(CELL_WEIGHT, device=device)
        self.sums = torch.zeros(2, device=device)

    def compile(self, batch):
        """Compiling takes half a minute, which may as well pass while ribbons are packed."""
        with torch.autocast(self.device.type, torch.bfloat16, enabled=self.device.type == 'cuda'):
            cells, layout = self.run(self.net.sees(torch.zeros(batch, ALL, traced.ROWS, ACROSS + 2 * BESIDE, device=self.device)))
        (cells.float().mean() + layout.float().mean()).backward()
        self.optimizer.zero_grad(set_to_none=True)

    def learn(self, x, y, w, g, lr, step):
        for group in self.optimizer.param_groups:
            group['lr'] = lr
        with torch.autocast(self.device.type, torch.bfloat16, enabled=self.device.type == 'cuda'):
            cells, layout = self.run(self.net.sees(x))
        of_cells = (F.cross_entropy(cells.float(), y, self.weight, reduction='none') * w).sum() / (w.sum() + 1)
        of_layout = F.cross_entropy(layout.float(), g, ignore_index=-100)
        self.optimizer.zero_grad(set_to_none=True)
        (of_cells + LAYOUT_WEIGHT * of_layout).backward()
        torch.nn.utils.clip_grad_norm_(self.net.parameters(), 1.0)
        self.optimizer.step()
        with torch.no_grad():
            torch._foreach_lerp_(list(self.mean.parameters()), list(self.net.parameters()), 1 - min(0.999, (step + 1) / (step + 20)))
            self.sums += torch.stack([of_cells.detach(), of_layout.detach()])

    def told(self, steps):
        cells, layout = (self.sums / steps).tolist()
        self.sums.zero_()
        return f'cells {cells:.4f} layout {layout:.4f}'

    def save(self):
        torch.save(self.mean.state_dict(), self.path)

    @torch.no_grad()
    def judged(self, lines):
        """Recall of stripes at precisions of 98, 95 and 90 % on ribbons never learned from, and of cells of tape at 95 and 90 %."""
        odds, tape = [], []
        for k in range(0, len(lines['g']), 512):
            cells, layout = self.mean(self.mean.sees(whole(lines, slice(k, k + 512))))
            odds.append(stripe_odds(layout))
            tape.append(cells.softmax(1)[:, 2])
        asked = lines['g'] > -1
        first = recalls(torch.cat(odds)[asked], lines['g'][asked] > 0, (0.98, 0.95, 0.9))
        on = lines['w']
        second = recalls(torch.cat(tape)[on], lines['y'][on] == 2, (0.95, 0.9))
        return 'stripe ' + ' '.join(first) + ' tape ' + ' '.join(second)


def recalls(score, right, precisions):
    order = score.argsort(descending=True)
    hits = right[order].float().cumsum(0)
    precision = hits / torch.arange(1, len(hits) + 1, device=hits.device)
    return [f'{float((hits * (precision >= p)).max() / right.sum().clamp(min=1)):.3f}' for p in precisions]


def main():
    p = argparse.ArgumentParser()
    p.add_argument('shapes', nargs='+', choices=list(SHAPES))
    p.add_argument('--packed', required=True)
    p.add_argument('--out', required=True)
    p.add_argument('--stop-at', type=float, required=True)
    p.add_argument('--resume', help='folder of weights to begin with')
    p.add_argument('--part', type=float, nargs=2, default=(0, 1), help='shares of the whole training')
    p.add_argument('--narrow', help='weights of the narrow reader, which says what the wide one is to look at')
    p.add_argument('--batch', type=int, default=768)
    p.add_argument('--most', type=int, default=900000, help='ribbons kept, 48 KB each; the oldest are forgotten')
    p.add_argument('--least', type=int, default=6000, help='ribbons to begin with')
    p.add_argument('--learning-rate', type=float, default=2e-3)
    p.add_argument('--last-rate', type=float, default=1e-5)
    p.add_argument('--compile', action='store_true')
    args = p.parse_args()
    began = time.time()
    say = lambda *w: print(f'{time.time() - began:6.1f}s', *w, flush=True)
    d = torch.device('cuda' if torch.cuda.is_available() else 'cpu')
    torch.backends.cudnn.benchmark = True
    torch.set_float32_matmul_precision('high')
    learners = [Learner(shape, d, args) for shape in args.shapes]
    narrow = None
    if args.narrow:
        narrow = Reader('narrow').to(d)
        narrow.load_state_dict(torch.load(args.narrow, map_location=d))
    say(*(sum(p.numel() for p in one.net.parameters()) for one in learners), 'weights')
    for one in learners:
        if args.compile:
            one.compile(args.batch)
    say('compiled')
    lines = Lines(args.packed, d, narrow, args.most)
    step, looked, last, first, order, used = 0, 0.0, time.time(), None, None, 0
    while time.time() < args.stop_at - 15:
        if time.time() - looked > 20 or not step:
            if lines.grow():
                order = None
            looked = time.time()
        if not len(lines.held) or len(lines.learned) < args.least and not step:
            time.sleep(1)
            continue
        if order is None or used + args.batch * len(learners) > len(order):
            order, used = torch.multinomial(lines.learned['odds'], 64 * args.batch * len(learners), replacement=True), 0
        first = first or time.time()
        share = min(1, (time.time() - first) / max(1, args.stop_at - 15 - first))
        share = args.part[0] + share * (args.part[1] - args.part[0])
        lr = args.last_rate + (args.learning_rate - args.last_rate) * (0.5 + 0.5 * math.cos(math.pi * share))
        for one in learners:
            seen = shown(*drawn(lines.learned, order[used:used + args.batch]))
            used += args.batch
            one.learn(*seen, lr * min(1, (step + 1) / 200), step)
        step += 1
        every = 50 if step <= 100 else 500
        if step % every == 0:
            now = time.time()
            say(f'step {step} share {share:.2f} {every / (now - last):.1f} steps/s of {lines.learned.given}')
            last = now
            for one in learners:
                say(' ', one.shape, one.told(every))
                one.save()
        if step % 2000 == 0:
            for one in learners:
                say(f'step {step} of {len(lines.held)} held out:', one.shape, one.judged(lines.held))
            last = time.time()
    for one in learners:
        one.save()
        if len(lines.held):
            say('done', step, 'steps;', one.shape, one.judged(lines.held))


if __name__ == '__main__':
    main()
