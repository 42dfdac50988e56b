"""Renders scenes on one GPU as fast as they are traced, in the form that test/vision/ribbon/dump.ts reads.

    python3 scenes.py --library libhprender.so --out FOLDER --seed FIRST [--chunk 32] [--ahead 24]

Writes FOLDER/ready/N, a folder of `chunk` scenes each, moved into place when whole, and waits while `ahead` of them lie
there. What render/tool/marked.cpp knows of each conductor is taken from the label planes: what does not show is not said.
"""
import argparse
import json
import random
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
import sys

import numpy as np
import torch
from PIL import Image

sys.path.append(str(Path(__file__).parent.parent))
from camera import photograph, to_srgb, uniform  # noqa: E402
from mixture import MIXTURE  # noqa: E402
from renderer import Renderer  # noqa: E402

# Sides, pixels: the larger ones show what a phone's photo does, which is looked at with 1600.
SIDES = (640, 640, 832, 1088)
# Share of a batch that is photographed badly (camera.py), the rest gets exposure only: scenes.ts photographs those.
ROUGH = 0.3
LAYOUT_WORDS = ('along', 'spiral', 'rings')
PRINT = 15


def most(values, kinds):
    """The commonest of small whole numbers, or `kinds` - 1 where there are none."""
    return int(np.bincount(values, minlength=kinds)[:kinds].argmax()) if len(values) else kinds - 1


def conductors(covering, color, stripe, instance):
    """What is to be seen of each conductor, as rows of marked.cpp."""
    rows = []
    for one in np.unique(instance):
        if one == 0:
            continue
        at = instance == one
        cov, col, low = covering[at], color[at], stripe[at]
        kinds = low & 15
        on = (kinds > 0) & (kinds < PRINT)
        body = (cov == 1) | (cov == 4)
        rows.append({
            'instance': int(one), 'color': most(col[body & (col < 13)], 13) if (body & (col < 13)).any() else 0,
            'covering': 4 if (cov == 4).sum() > (cov == 1).sum() else 1, 'bare': not body.any(), 'tinned': False,
            'print': float((kinds == PRINT).any()), 'fade': [0, 0], 'outer': 3, 'metal': 2, 'strip': [0, 0],
            'stripe': LAYOUT_WORDS[most(low[on] >> 4, 3)] if on.any() else '',
            'stripeColor': most(kinds[on] - 1, 13) if on.any() else 255, 'sleeves': []})
    return rows


def write(folder, seed, rgb, planes):
    covering, color, stripe, instance = planes
    Image.fromarray(rgb).save(folder / f'{seed}.png', compress_level=1)
    with open(folder / f'{seed}.bin', 'wb') as f:
        for plane in (covering, color, stripe):
            f.write(plane.tobytes())
        f.write(instance.astype('<u2').tobytes())
    (folder / f'{seed}.json').write_text(json.dumps({'layout': 'any', 'size': len(rgb), 'conductors': conductors(*planes)}))


def main():
    p = argparse.ArgumentParser()
    p.add_argument('--library', required=True)
    p.add_argument('--out', required=True)
    p.add_argument('--seed', type=int, required=True)
    p.add_argument('--chunk', type=int, default=32)
    p.add_argument('--ahead', type=int, default=24)
    p.add_argument('--chunks', type=int, default=10 ** 9)
    p.add_argument('--side', type=int, help='one side for all')
    args = p.parse_args()
    d = torch.device('cuda' if torch.cuda.is_available() else 'cpu')
    renderer = Renderer(args.library, d, None, None, 6)
    renderer.mark(0.85)
    mixture = renderer.mixture(MIXTURE)
    out = Path(args.out)
    (out / 'ready').mkdir(parents=True, exist_ok=True)
    (out / 'making').mkdir(exist_ok=True)
    seeds = lambda k: range(args.seed + k * args.chunk, args.seed + (k + 1) * args.chunk)
    following = renderer.prepare(list(seeds(0)), mixture)
    with ThreadPoolExecutor(4) as writers:
        for k in range(args.chunks):
            while len(list((out / 'ready').iterdir())) >= args.ahead:
                time.sleep(0.5)
            side = args.side or random.choice(SIDES)
            planes = renderer.submit(following, side)
            following = renderer.prepare(list(seeds(k + 1)), mixture)
            linear = planes['rgb'].nan_to_num(0, 0, 0).clamp(0, 60000)
            n = len(linear)
            rough = int(n * ROUGH)
            peak = linear.reshape(n, -1)[:, ::37].quantile(0.97, dim=1).reshape(n, 1, 1, 1) + 1e-4
            plain = to_srgb((linear[rough:] * uniform(n - rough, 0.3, 1.1, d) / peak[rough:]).clamp(0, 1))
            stored = torch.cat([photograph(linear[:rough]), plain]) if rough else plain
            rgb = (stored.clamp(0, 1) * 255).round().byte().permute(0, 2, 3, 1).contiguous().cpu().numpy()
            labels = [planes[key].cpu().numpy() for key in ('covering', 'color', 'stripe', 'instance')]
            labels[3] = labels[3].astype(np.uint16)
            making = out / 'making' / str(k)
            making.mkdir()
            jobs = [writers.submit(write, making, seed, rgb[i], [plane[i] for plane in labels]) for i, seed in enumerate(seeds(k))]
            for job in jobs:
                job.result()
            making.rename(out / 'ready' / str(k))
    renderer.submit(following, 8)


if __name__ == '__main__':
    main()
