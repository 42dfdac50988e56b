"""Turns log-odds learned on renders into probabilities that hold on photographs.

    python3 calibrate.py points.json --out calibration.json     (points.json: evaluate.py --points)

A line through the log-odds (scale, shift) is fitted so that background points are hit at no more than the given
share while as many conductor points as possible are found, then so that probabilities are honest there. With few
points per source, what it promises is checked by leaving one source out at a time.
"""
import argparse
import json
from collections import defaultdict
from pathlib import Path

import numpy as np


def fit(odds, on, steps=4000, rate=0.05):
    """Scale and shift of least cross entropy with conductor and background points weighing the same in all."""
    weight = np.where(on, 0.5 / max(1, on.sum()), 0.5 / max(1, (~on).sum()))
    a, b = 1.0, 0.0
    for _ in range(steps):
        p = 1 / (1 + np.exp(-np.clip(a * odds + b, -30, 30)))
        g = weight * (p - on)
        a, b = max(0.05, a - rate * float((g * odds).sum())), b - rate * 10 * float(g.sum())
    return a, b


def threshold_for(odds, on, allowed):
    """Log-odds a third of the way from the last background point that may be hit to the first that may not: tracing
    after this adds hits of its own, so not the middle."""
    background = np.sort(odds[~on])[::-1]
    k = int(np.floor(allowed * len(background)))
    above = background[k - 1] if k else background[0] + 1
    return float(above + (background[k] - above) / 3)


def main():
    p = argparse.ArgumentParser()
    p.add_argument('points')
    p.add_argument('--out')
    p.add_argument('--allowed', type=float, default=0.03)
    args = p.parse_args()
    rows = json.loads(Path(args.points).read_text())
    odds, on = np.array([r['logOdds'] for r in rows]), np.array([r['conductor'] for r in rows])
    source, scene = np.array([r['source'] for r in rows]), np.array([r['scene'] for r in rows])
    share = lambda hit, mask: round(100 * float(hit[mask].mean()), 1) if mask.any() else None
    out_of_fold, honest = np.zeros(len(rows), bool), np.zeros(len(rows))
    for s in sorted(set(source)):
        rest = source != s
        t = threshold_for(odds[rest], on[rest], args.allowed)
        out_of_fold[~rest] = odds[~rest] > t
        a, b = fit(odds[rest], on[rest])
        honest[~rest] = 1 / (1 + np.exp(-(a * odds[~rest] + b)))
    t = threshold_for(odds, on, args.allowed)
    for name, hit in (('all points', odds > t), ('each source left out in turn', out_of_fold)):
        print(name, 'found', share(hit, on), 'background hit', share(hit, ~on),
              {s: (share(hit, on & (scene == s)), share(hit, ~on & (scene == s))) for s in sorted(set(scene))})
    bins = defaultdict(list)
    for value, truth in zip(honest, on):
        bins[min(4, int(value * 5))].append(truth)
    print('left-out probability: share that is conductor', {f'{k / 5:.1f}-{(k + 1) / 5:.1f}': (round(float(np.mean(v)), 2), len(v)) for k, v in sorted(bins.items())})
    a, _ = fit(odds, on)
    # The shift is chosen so that probability one half stands at the threshold.
    calibration = {'scale': round(a, 4), 'shift': round(-a * t, 4), 'threshold': round(1 / (1 + np.exp(-t)), 4),
                   'points': int(on.sum()), 'backgroundPoints': int((~on).sum()), 'sources': len(set(source)),
                   'found': share(odds > t, on), 'backgroundHit': share(odds > t, ~on),
                   'foundLeftOut': share(out_of_fold, on), 'backgroundHitLeftOut': share(out_of_fold, ~on)}
    print(calibration)
    if args.out:
        Path(args.out).write_text(json.dumps(calibration, indent=2) + '\n')


if __name__ == '__main__':
    main()
