"""Writes test/color/ribbon/reader-parity.json: a made-up ribbon and what the trained reader says of it.

Usage: python3 parity.py STATE.pt OUT.json
"""
import json
import sys

import numpy as np
import torch

from data import planes
from net import Reader


def main():
    state, out = sys.argv[1:]
    net = Reader()
    # The weights as they are shipped: half precision.
    net.load_state_dict({k: v.half().float() for k, v in torch.load(state).items()})
    net.eval()
    rng = np.random.default_rng(3)
    length = 40
    x = (2 * np.arange(12) + 1) / 12 - 1
    shade = 0.3 + 0.7 * np.sqrt(1 - x ** 2)
    rgb = np.array([0.02, 0.05, 0.3]) * shade[None, :, None] * np.ones((length, 1, 1))
    rgb[:, 5:7] = np.array([0.6, 0.5, 0.05]) * shade[None, 5:7, None]
    rgb[28:] = np.array([0.4, 0.03, 0.03]) * shade[None, :, None]
    rgb = np.round(np.clip(rgb + rng.normal(0, 0.004, rgb.shape), 0, 1), 4).astype(np.float32)
    usable = np.ones((length, 12), np.uint8)
    usable[3, 4] = 0
    wire = np.round(rng.uniform(0.7, 1, (length, 12)), 3).astype(np.float32)
    with torch.no_grad():
        cells, layout = net(torch.tensor(planes(rgb, usable, wire, 14.0, 0.8)).permute(2, 0, 1)[None])
    json.dump({'made': 'models/training/ribbon/parity.py', 'length': length, 'widthPx': 14, 'blurPx': 0.8,
               'rgb': [round(float(v), 4) for v in rgb.ravel()], 'usable': usable.ravel().tolist(),
               'wire': [round(float(v), 3) for v in wire.ravel()],
               'kinds': [round(float(v), 5) for v in cells[0].softmax(0).permute(1, 2, 0).ravel()],
               'layout': [round(float(v), 5) for v in layout[0]]}, open(out, 'w'))


if __name__ == '__main__':
    main()
