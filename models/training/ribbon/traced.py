"""Ribbons of lines as the program itself traces them, packed for training.

    python3 traced.py pack DUMP.jsonl OUT.npz
    python3 traced.py watch LINES PACKED          # every LINES/*.jsonl, again and again; packed ones are deleted

Dumps come from test/vision/ribbon/dump.ts.
"""
import sys

import numpy as np

from data import BESIDE, load, planes
from net import stripe_odds

ROWS, STRIDE = 160, 120
LEAST_WIDTH, LEAST_SEEN = 5, 16
# Of the readers' inputs, those that were seen come first; SIZE is how wide the conductor is.
PIXEL, SIZE = 5, 8
LAYOUTS = {'along': 1, 'spiral': 2, 'rings': 3}


def striped(d):
    """Index into LAYOUTS of net.py of a whole conductor, 0 none, -100 not to be asked: too little of it is in sight."""
    inner = d['label'][:, 1:-1]
    share = (inner == 1).sum() / max(1, (inner != 4).sum())
    if not d['stripe'] or share == 0:
        return 0
    return LAYOUTS[d['stripe']['layout']] if share > 0.02 else -100


def windows(d):
    """Pieces of ROWS rows; the last is filled up with rows that are not seen."""
    rows = len(d['rgb'])
    for a in range(0, max(1, rows - ROWS + STRIDE), STRIDE):
        b = min(rows, a + ROWS)
        if d['seen'][a:b].sum() < LEAST_SEEN:
            continue
        fill = lambda v, kind: np.concatenate([v[a:b], np.zeros((ROWS - (b - a), *v.shape[1:]), v.dtype)]).astype(kind)
        label = fill(d['label'], 'u1')
        label[b - a:] = 4
        yield {'rgb': fill(d['rgb'], 'f2'), 'usable': fill(d['usable'], 'u1'), 'said': fill(d['said'], 'i1'), 'label': label,
               'seen': fill(d['seen'], '?'), 'width': np.float32(d['width']), 'striped': np.int16(striped(d))}


def pack(dump, out):
    every = [w for d in load([dump]) if d['width'] >= LEAST_WIDTH for w in windows(d)]
    if every:
        np.savez(out, **{k: np.stack([w[k] for w in every]) for k in every[0]})


def read(path, device):
    """Packed ribbons as they were seen."""
    import torch
    file = np.load(path)
    give = lambda k, kind: torch.tensor(file[k]).to(device, kind)
    return {'rgb': give('rgb', torch.float16), 'usable': give('usable', torch.bool), 'said': give('said', torch.int8),
            'label': give('label', torch.uint8), 'seen': give('seen', torch.bool), 'width': give('width', torch.float32),
            'striped': give('striped', torch.int64)}


def ready(path, device, narrow):
    """Ribbons as they are kept: pixel, said, ok and size of `joined` (data.py), label y, where it counts w, striped g, odds.

    `odds`: how often each is drawn. Marked ones twice as often; plain ones that the `narrow` reader is sure of a third as
    often, for the others are not asked about them.
    """
    import torch
    out = []
    r = read(path, device)
    for k in range(0, len(r['width']), 512):
        part = {key: v[k:k + 512] for key, v in r.items()}
        x = planes(part['rgb'].float(), part['usable'], part['said'], part['width'])
        own = part['usable'][:, :, BESIDE:-BESIDE]
        marks = ((part['label'] > 0) & (part['label'] < 4)).float().mean((1, 2)) > 0.01
        odds = 1 + marks.float()
        if narrow is not None:
            with torch.no_grad():
                cells, layout = narrow(narrow.sees(x))
            doubts = stripe_odds(layout) > -1
            doubts |= (cells.softmax(1)[:, 2:4].mean(3) > 0.3).any(1).any(1)
            odds = torch.where(doubts | marks, odds, odds / 3)
        out.append({'pixel': x[:, :PIXEL].half(), 'said': part['said'].movedim(-1, 1).contiguous(), 'ok': part['usable'],
                    'size': x[:, SIZE, 0, 0].half(), 'y': part['label'], 'w': own & part['seen'][..., None], 'g': part['striped'],
                    'odds': odds})
    return {k: torch.cat([o[k] for o in out]) for k in out[0]}


def watch(lines, packed):
    """Packs dumps as they are moved into `lines`; what is packed is moved into place, so that readers find it whole."""
    import time
    from pathlib import Path
    while True:
        for dump in sorted(Path(lines).glob('*.jsonl')):
            part = dump.with_suffix('.npz')
            pack(dump, part)
            if part.exists():
                part.rename(Path(packed) / part.name)
            dump.unlink()
        time.sleep(1)


if __name__ == '__main__':
    {'pack': pack, 'watch': watch}[sys.argv[1]](*sys.argv[2:])
