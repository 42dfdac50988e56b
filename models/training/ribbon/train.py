"""Trains a reader on ribbons that traced.py packs, also while this runs, on one GPU.

    python3 train.py wide --packed PACKED --out OUT --stop-at $(($(date +%s) + 560)) [--resume OUT/wide.pt] [--narrow OUT/narrow.pt]

Writes OUT/wide.pt, the running mean of the weights; `export.py` makes TypeScript of it.
"""
import argparse
import math
import random
import time
from pathlib import Path

import torch
import torch.nn.functional as F

import traced
from data import BESIDE
from net import SHAPES, Reader, stripe_odds

CELL_WEIGHT = [1.0, 2.0, 1.6, 2.0, 0.8, 1.5]
# Planes that hold what was seen of a cell: hues, lightness, strength; and what the segmentation says of it.
PIXEL, SAID = 5, 6
# A stripe is not asked about where less than this of the insulation in sight is of the body's color.
ONLY_STRIPE = 0.15
# What is said of a whole conductor against what is said of its cells.
LAYOUT_WEIGHT = 1.5
# Of so many files one only tells how it goes.
HELD_OUT = 40


class Lines:
    """Ribbons with what has been packed since; files are moved into place, so each is whole."""

    def __init__(self, folder, device, narrow):
        self.folder, self.device, self.narrow = Path(folder), device, narrow
        self.known, self.learned, self.held = set(), None, None

    def grow(self):
        fresh = sorted(set(self.folder.glob('*.npz')) - self.known)
        held = [p for p in fresh if int(p.stem) % HELD_OUT == 0]
        self.learned = self.joined(self.learned, [p for p in fresh if p not in held])
        self.held = self.joined(self.held, held)
        self.known |= set(fresh)
        return bool(fresh)

    def joined(self, had, paths):
        if not paths:
            return had
        more = traced.ready(paths, self.device, self.narrow)
        return {k: torch.cat([had[k], more[k]]) for k in more} if had else more


def shown(x, y, w, g):
    """Ribbons as nobody has seen them: other hues, more noise, a part of their length, from either end and side."""
    m, rows, d = len(x), x.shape[2], x.device
    rand = lambda *shape: torch.rand(*shape, device=d)
    x = x.float()
    # Hue differences are turned and stretched, so that no pair of colors is special.
    angle = rand(m) * 2 * math.pi * (rand(m) < 0.5)
    stretch = 0.8 + 0.4 * rand(m)
    c, s = (stretch * f(angle) for f in (torch.cos, torch.sin))
    c, s = c[:, None, None], s[:, None, None]
    x = torch.cat([(c * x[:, 0] - s * x[:, 1])[:, None], (s * x[:, 0] + c * x[:, 1])[:, None], x[:, 2:]], 1)
    pixel = x[:, :PIXEL] + (0.04 * rand(m)).reshape(m, 1, 1, 1) * torch.randn(m, PIXEL, rows, x.shape[3], device=d)
    said = x[:, SAID:SAID + 1] * (rand(m, 1, 1, 1) > 0.15)
    x = torch.cat([pixel, x[:, PIXEL:SAID], said, x[:, SAID + 1:]], 1)
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
    return (lines['x'][index], lines['y'][index].long(), lines['w'][index].float(), lines['g'][index])


class Learner:
    """A reader being trained, and the running mean of its weights, which is what is kept."""

    def __init__(self, shape, device, args):
        self.shape, self.device, self.path = shape, device, Path(args.out) / f'{shape}.pt'
        self.net, self.mean = Reader(shape).to(device), Reader(shape).to(device)
        if args.resume:
            self.net.load_state_dict(torch.load(args.resume, map_location=device))
        self.mean.load_state_dict(self.net.state_dict())
        self.net.compiled = args.compile
        self.run = torch.compile(self.net) if args.compile else self.net
        self.optimizer = torch.optim.AdamW(self.net.parameters(), args.learning_rate, weight_decay=1e-3, fused=device.type == 'cuda')
        self.weight = torch.tensor(CELL_WEIGHT, device=device)
        self.sums = torch.zeros(2, device=device)

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
            cells, layout = self.mean(self.mean.sees(lines['x'][k:k + 512].float()))
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
    p.add_argument('shape', choices=list(SHAPES))
    p.add_argument('--packed', required=True)
    p.add_argument('--out', required=True)
    p.add_argument('--stop-at', type=float, required=True)
    p.add_argument('--resume', help='weights to begin with')
    p.add_argument('--narrow', help='weights of the narrow reader, which says what the wide one is to look at')
    p.add_argument('--batch', type=int, default=768)
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
    one = Learner(args.shape, d, args)
    narrow = None
    if args.narrow:
        narrow = Reader('narrow').to(d)
        narrow.load_state_dict(torch.load(args.narrow, map_location=d))
    say(sum(p.numel() for p in one.net.parameters()), 'weights')
    lines = Lines(args.packed, d, narrow)
    step, looked, last, first, order, used = 0, 0.0, time.time(), None, None, 0
    while time.time() < args.stop_at - 15:
        if time.time() - looked > 20 or not step:
            if lines.grow():
                order = None
            looked = time.time()
        if not lines.held or not lines.learned or len(lines.learned['g']) < args.least and not step:
            time.sleep(1)
            continue
        if order is None or used + args.batch > len(order):
            order, used = torch.multinomial(lines.learned['odds'], 64 * args.batch, replacement=True), 0
        first = first or time.time()
        share = (time.time() - first) / max(1, args.stop_at - 15 - first)
        lr = args.last_rate + (args.learning_rate - args.last_rate) * (0.5 + 0.5 * math.cos(math.pi * min(1, share)))
        seen = shown(*drawn(lines.learned, order[used:used + args.batch]))
        used += args.batch
        one.learn(*seen, lr * min(1, (step + 1) / 200), step)
        step += 1
        every = 50 if step <= 100 else 500
        if step % every == 0:
            now = time.time()
            say(f'step {step} share {share:.2f} {every / (now - last):.1f} steps/s of {len(lines.learned["g"])}', one.told(every))
            last = now
            one.save()
        if step % 2000 == 0:
            say(f'step {step} of {len(lines.held["g"])} held out:', one.judged(lines.held))
            last = time.time()
    one.save()
    if lines.held:
        say('done', step, 'steps;', one.judged(lines.held))


if __name__ == '__main__':
    main()
