"""Ribbons of lines as the program itself traces them, packed for training.

    python3 traced.py pack DUMP.jsonl OUT.npz
    python3 traced.py watch LINES PACKED          # every LINES/*.jsonl, again and again; packed ones are deleted

Lines drawn by follow.py err as we think a tracer errs; these err as it does. Dumps come from test/vision/ribbon/dump.ts.
"""
import sys

import numpy as np

from data import load

ACROSS, ROWS, STRIDE = 12, 160, 120
LEAST_WIDTH, LEAST_SEEN = 5, 16
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
        yield {'rgb': fill(d['rgb'], 'f2'), 'usable': fill(d['usable'], 'u1'), 'wire': fill(d['wire'], 'f2'), 'label': label,
               'seen': fill(d['seen'], '?'), 'width': np.float32(d['width']), 'striped': np.int16(striped(d))}


def pack(dump, out):
    every = [w for d in load([dump]) if d['width'] >= LEAST_WIDTH for w in windows(d)]
    if every:
        np.savez(out, **{k: np.stack([w[k] for w in every]) for k in every[0]})


def read(paths, device):
    """The packed ribbons of all `paths` as `ribbons` of follow.py returns them."""
    import torch
    files = [np.load(p) for p in paths]
    join = lambda k, kind: torch.tensor(np.concatenate([f[k] for f in files])).to(device, kind)
    return {'rgb': join('rgb', torch.float16), 'usable': join('usable', torch.bool), 'wire': join('wire', torch.float16),
            'label': join('label', torch.uint8), 'seen': join('seen', torch.bool), 'width': join('width', torch.float32),
            'striped': join('striped', torch.int64)}


def sample(traced, count):
    """`count` of them, as training takes them; marked ones twice as often."""
    import torch
    if 'odds' not in traced:
        marks = ((traced['label'] > 0) & (traced['label'] < 4)).float().mean((1, 2)) > 0.01
        traced['odds'] = 1 + marks.float()
    index = torch.multinomial(traced['odds'], count, replacement=True)
    r = {k: v[index] for k, v in traced.items() if k != 'odds'}
    return {**r, 'rgb': r['rgb'].float(), 'wire': r['wire'].float(), 'label': r['label'].long()}


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
