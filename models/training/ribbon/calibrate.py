"""Fits src/color/ribbon/mark-calibration.ts: log-odds of readers to log-odds that hold.

Usage: python3 calibrate.py SHAPE:STATE.pt[:PARTS]... DUMP.jsonl...   (dumps of scenes that nobody was trained on)
Of several readers the mean is calibrated: of a stripe's log-odds by their parts, of what each cell is in equal shares.
Prints precision and recall by threshold too, so that a shift toward fewer wrong marks can be judged.
"""
import sys

import numpy as np
import torch

from data import BESIDE, load, planes
from net import Reader, stripe_odds

LEAST_CELLS, SHORTEST, BRIDGED = 6, 4, 3


def logit(p):
    return float(np.log(np.clip(p, 0.005, 0.995) / (1 - np.clip(p, 0.005, 0.995))))


def runs(on, gap):
    """Stretches [from, to) of rows; gaps up to `gap` rows are bridged."""
    out = []
    for i in np.flatnonzero(on):
        if out and i - out[-1][1] <= gap:
            out[-1][1] = i + 1
        else:
            out.append([i, i + 1])
    return out


def fit(x, y, ridge=0.05):
    """Scale and shift of a logistic fit."""
    z = np.c_[np.ones(len(x)), x]
    w = np.zeros(2)
    for _ in range(50):
        p = 1 / (1 + np.exp(-z @ w))
        w -= np.linalg.solve((z * (p * (1 - p))[:, None]).T @ z + ridge * np.eye(2), z.T @ (p - y) + ridge * np.r_[0, w[1]])
    return w[1], w[0]


def report(name, score, right, asked):
    """`right`: 1 where what was told is so; `asked`: how many there were to find."""
    scale, shift = fit(score, right) if len(score) > 4 else (1.0, 0.0)
    print(f'{name}: scale {scale:.2f} shift {shift:.2f} ({len(score)} told at all, {int(right.sum())} rightly, {asked} there)')
    for t in (-1, 0, 0.5, 1, 1.5, 2, 2.5, 3, 4):
        told = score > t
        if told.any():
            print(f'  above {t:4}: precision {right[told].mean():.3f} recall {right[told].sum() / max(1, asked):.3f} ({told.sum()})')


@torch.no_grad()
def told(readers, x):
    """What the cells of one ribbon are [L, 12, 6], and the log-odds of a stripe."""
    kinds, odds = 0, 0
    for net, parts in readers:
        cells, layout = net(net.sees(x))
        kinds = kinds + cells[0].softmax(0).permute(1, 2, 0).numpy() / len(readers)
        odds += parts * float(stripe_odds(layout))
    return kinds, odds / sum(parts for _, parts in readers)


def main():
    torch.set_num_threads(1)
    dumps = [a for a in sys.argv[1:] if ':' not in a]
    readers = []
    for shape, state, *parts in (a.split(':') for a in sys.argv[1:] if ':' in a):
        net = Reader(shape)
        net.load_state_dict(torch.load(state, map_location='cpu'))
        readers.append((net.eval(), float(parts[0]) if parts else 1.0))
    stripes, tapes, bare, there = [], [], [], {1: 0, 2: 0, 3: 0}
    for d in load(dumps):
        if not d['real'] or d['purity'] < 0.6 or d['width'] < 4 or d['seen'].sum() < 8:
            continue
        whole = len(d['rgb']) // 2 * 2
        one = lambda key: torch.tensor(d[key][:whole].copy())[None]
        x = planes(one('rgb'), one('usable'), one('said'), torch.tensor([float(d['width'])]))
        p, odds = told(readers, x)
        ok = d['usable'][:whole, BESIDE:-BESIDE] > 0
        label = d['label'][:whole]
        share = (label == 1)[:, 1:-1].sum() / max(1, (label != 4)[:, 1:-1].sum())
        if d['color'] != 'green-yellow' and (ok & (p[..., 1] > 0.5)).sum() >= LEAST_CELLS:
            stripes.append((odds, float(bool(d['stripe']) and share > 0.005)))
        there[1] += bool(d['stripe']) and share > 0.02
        for kind, out in ((2, tapes), (3, bare)):
            inner, seen = p[:, 1:-1, kind], ok[:, 1:-1]
            row = np.where(seen.sum(1) >= 3, (inner * seen).sum(1) / np.maximum(1, seen.sum(1)), 0)
            true = [r for r in runs((label[:, 1:-1] == kind).mean(1) > 0.5, 0) if r[1] - r[0] >= 6]
            there[kind] += len(true)
            for a, b in runs(row > 0.5, BRIDGED):
                if b - a < SHORTEST:
                    continue
                hit = any(min(b, t) - max(a, s) > 0.5 * min(b - a, t - s) for s, t in true)
                out.append((logit((inner * seen)[a:b].sum() / max(1, seen[a:b].sum())), float(hit)))
    for name, list_, kind in (('stripe', stripes, 1), ('tape', tapes, 2), ('bare', bare, 3)):
        a = np.array(list_, float).reshape(-1, 2)
        report(name, a[:, 0], a[:, 1], there[kind])


if __name__ == '__main__':
    main()
