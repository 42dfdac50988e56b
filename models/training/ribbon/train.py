"""Trains the reader on rendered conductors and writes src/color/ribbon/reader-weights.ts.

Usage: python3 train.py OUT.ts STEPS DUMP.jsonl... [--resume STATE.pt]
DUMP files are made by `npx tsx test/vision/ribbon/dump.ts FOLDER OUT.jsonl` from scenes of `build/marked` with seeds
below 2^60. OUT.ts.pt is the state to resume from; a resumed run only lets the learning rate fall.
"""
import sys

import numpy as np
import torch
import torch.nn.functional as F

from data import LAYOUTS, load, planes
from net import Reader
from paint import paint

ROWS, BATCH = 120, 24
CELL_WEIGHT = torch.tensor([1.0, 2.5, 4.0, 3.0, 0.7])


def sample(rng, all_, marked, plain, by_color):
    kind, draw = None, rng.random()
    if draw < 0.4:
        d = plain[rng.integers(len(plain))]
        kind = rng.choice(['along', 'along', 'spiral', 'rings', 'tape', 'tape', 'tape', 'none'])
    else:
        d = marked[rng.integers(len(marked))] if draw < 0.75 else all_[rng.integers(len(all_))]
    rgb, usable, label, wire = d['rgb'], d['usable'], d['label'], d['wire']
    if kind and kind != 'none':
        other = [c for c in by_color if c != d['color']]
        color = by_color[other[rng.integers(len(other))]]
        rgb, usable, label = paint(rng, d, color[rng.integers(len(color))], kind)
    if rng.random() < 0.25:
        wire = None
    seen = np.repeat(d['seen'][:, None], 12, 1)
    n = len(rgb)
    size = ROWS if rng.random() < 0.7 else rng.integers(20, ROWS)
    at = rng.integers(0, max(1, n - size + 1))
    if kind is None and n > size and rng.random() < 0.7:
        rows = np.flatnonzero(((label == 1) | (label == 2) | (label == 3)).mean(1) > 0.1)
        if len(rows):
            at = int(np.clip(rows[rng.integers(len(rows))] - rng.integers(size), 0, n - size))
    cut = slice(at, at + size)
    angle = rng.uniform(0, 2 * np.pi)
    stretch = rng.uniform(0.8, 1.2)
    x = planes(rgb[cut], usable[cut], None if wire is None else wire[cut], d['width'], d['blur'],
               (stretch * np.cos(angle), stretch * np.sin(angle)))
    y, w = label[cut].copy(), (seen[cut] & (usable[cut] > 0)).astype(np.float32)
    x[..., :5] += rng.normal(0, 0.03, x[..., :5].shape)
    if rng.random() < 0.5:
        x, y, w = x[::-1], y[::-1], w[::-1]
    if rng.random() < 0.5:
        x, y, w = x[:, ::-1], y[:, ::-1], w[:, ::-1]
    own = (y != 4)
    striped = (y == 1)[:, 1:-1].sum() / max(1, own[:, 1:-1].sum())
    layout = kind if kind in LAYOUTS else (d['stripe'] or {}).get('layout', 'plain') if kind is None else 'plain'
    if d['color'] == 'green-yellow' and kind is None:
        layout = 'along'
    g = LAYOUTS.index(layout) if striped > 0.02 else 0
    if g and striped < 0.04 and rng.random() < 0.5:
        g = -100
    pad = ROWS - len(x)
    if pad > 0:
        x = np.concatenate([x, np.zeros((pad, 12, 10), np.float32)])
        y = np.concatenate([y, np.full((pad, 12), 4)])
        w = np.concatenate([w, np.zeros((pad, 12), np.float32)])
    return x, y, w, g


def main():
    out, steps, *rest = sys.argv[1:]
    resume = rest[rest.index('--resume') + 1] if '--resume' in rest else None
    data = load([r for r in rest if r not in ('--resume', resume)])
    data = [d for d in data if d['seen'].sum() >= 8]
    print(len(data), 'conductors')
    plain = [d for d in data if d['real'] and not d['stripe'] and d['color'] != 'green-yellow' and (d['label'] == 0).mean() > 0.6]
    marked = [d for d in data if np.isin(d['label'], (1, 2, 3)).mean() > 0.01]
    by_color = {}
    for d in data:
        ok = (d['label'] == 0) & (d['usable'] > 0)
        if d['real'] and not d['stripe'] and ok.sum() > 20:
            by_color.setdefault(d['color'], []).append(np.median(d['rgb'][ok], 0))
    rng = np.random.default_rng(8 if resume else 7)
    torch.manual_seed(7)
    torch.set_num_threads(1)  # more threads spin on a shared machine
    net = Reader().to(memory_format=torch.channels_last)
    optimizer = torch.optim.AdamW(net.parameters(), 3e-3, weight_decay=1e-3)
    plan = torch.optim.lr_scheduler.OneCycleLR(optimizer, 6e-3, int(steps), pct_start=0.01 if resume else 0.3)
    if resume:
        net.load_state_dict(torch.load(resume))
    total = 0.0
    for step in range(int(steps)):
        parts = [sample(rng, data, marked, plain, by_color) for _ in range(BATCH)]
        x = torch.tensor(np.stack([p[0] for p in parts])).permute(0, 3, 1, 2)  # channels last already
        y = torch.tensor(np.stack([p[1] for p in parts])).long()
        w = torch.tensor(np.stack([p[2] for p in parts]))
        g = torch.tensor([p[3] for p in parts])
        cells, layout = net(x)
        loss = (F.cross_entropy(cells, y, CELL_WEIGHT, reduction='none') * w).sum() / (w.sum() + 1) + 0.5 * F.cross_entropy(layout, g)
        optimizer.zero_grad()
        loss.backward()
        torch.nn.utils.clip_grad_norm_(net.parameters(), 1.0)
        optimizer.step()
        plan.step()
        total += loss.item()
        if step % 200 == 199:
            print(step + 1, round(total / 200, 4), flush=True)
            total = 0.0
            write(net, out)
    write(net, out)


def write(net, out):
    """All weights in order of the modules, float16, four hexadecimal digits each."""
    torch.save(net.state_dict(), out + '.pt')
    flat = np.concatenate([p.detach().numpy().ravel() for p in net.state_dict().values()]).astype('>f2')
    text = flat.tobytes().hex()
    with open(out, 'w') as f:
        f.write(f"""/**
 * Weights of the reader (models/training/ribbon/net.py), IEC 60559 binary16, four hexadecimal digits each, in the order
 * of its modules; made by models/training/ribbon/train.py; do not edit.
 */
export const READER_WEIGHTS =
  '{text}';
""")


if __name__ == '__main__':
    main()
