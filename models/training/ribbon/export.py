"""Writes a reader's weights as TypeScript and the fixture of their test from a trained state.

Usage: python3 export.py narrow|wide|outer STATE.pt ../../../src/color/ribbon/reader-weights[-wide|-outer].ts ../../../test/color/ribbon/reader-parity[-wide|-outer].json
The fixture is a made-up ribbon and what PyTorch says of it with the weights as they are shipped.
"""
import json
import sys

import numpy as np
import torch

from data import BESIDE, SAID_SCALE, SAID_STEPS, planes
from net import Reader


def main():
    shape, state, weights, fixture = sys.argv[1:]
    loaded = torch.load(state, map_location='cpu')
    flat = np.concatenate([p.numpy().ravel() for p in loaded.values()]).astype('>f2')
    with open(weights, 'w') as f:
        f.write(f"""/**
 * Weights of the {shape} reader (models/training/ribbon/net.py), IEC 60559 binary16, four hexadecimal digits each, in the
 * order of its modules; made by models/training/ribbon/export.py; do not edit.
 */
export const {shape.upper()}_WEIGHTS =
  '{flat.tobytes().hex()}';
""")
    net = Reader(shape)
    net.load_state_dict({k: v.half().float() for k, v in loaded.items()})
    net.eval()
    rng = np.random.default_rng(3)
    length = 41
    x = (2 * (np.arange(12 + 2 * BESIDE) - BESIDE) + 1) / 12 - 1
    own = slice(BESIDE, -BESIDE)
    shade = 0.3 + 0.7 * np.sqrt(np.maximum(0, 1 - x ** 2))
    rgb = np.array([0.02, 0.05, 0.3]) * shade[None, :, None] * np.ones((length, 1, 1))
    rgb[:, BESIDE + 5:BESIDE + 7] = np.array([0.6, 0.5, 0.05]) * shade[None, BESIDE + 5:BESIDE + 7, None]
    rgb[28:] = np.array([0.4, 0.03, 0.03]) * shade[None, :, None]
    rgb[:, :BESIDE] = np.array([0.3, 0.3, 0.28])
    rgb[:, -BESIDE:] = np.array([0.05, 0.3, 0.06])
    rgb = np.round(np.clip(rgb + rng.normal(0, 0.004, rgb.shape), 0, 1), 4).astype(np.float32)
    usable = np.ones(rgb.shape[:2], np.uint8)
    usable[3, BESIDE + 4] = 0
    usable[7, 0] = 0
    said = np.round(rng.normal(0, 12, (*rgb.shape[:2], len(SAID_SCALE)))).astype(np.int8)
    inside = planes(*(torch.tensor(v)[None] for v in (rgb, usable, said)), torch.tensor([14.0]))
    inside = net.sees(inside)
    beside = lambda v: np.concatenate([v[:, :BESIDE], v[:, -BESIDE:]], 1)
    numbers = lambda v, digits: [round(float(f), digits) for f in v.ravel()]
    # An odd last row gets a blank one beside it, as zeros outside the ribbon are.
    inside = torch.cat([inside, torch.zeros_like(inside[:, :, :1])], 2)
    with torch.no_grad():
        cells, layout = net(inside)
    json.dump({'made': 'models/training/ribbon/export.py', 'length': length, 'widthPx': 14,
               'rgb': numbers(rgb[:, own], 4), 'usable': usable[:, own].ravel().tolist(), 'said': numbers(said[:, own] / SAID_STEPS, 5),
               'beside': {'rgb': numbers(beside(rgb), 4), 'usable': beside(usable).ravel().tolist(), 'said': numbers(beside(said) / SAID_STEPS, 5)},
               'kinds': numbers(cells[0, :, :length].softmax(0).permute(1, 2, 0), 5),
               'layout': numbers(layout[0], 5)}, open(fixture, 'w'))


if __name__ == '__main__':
    main()
