"""Writes a checkpoint as the files that the browser loads, and the fixture that proves both compute the same.

    python3 export.py CHECKPOINT.pt --out ../network --fixture ../../test/vision/network [--calibration calibration.json]

weights.bin     float16, little endian, batch norm folded, kernels in the order of tfjs (HWIO; depthwise HWC1)
manifest.json   the layers in order of execution, where each weight lies, sha-256 of weights.bin, calibration, self-test
parity.json/.bin  an input and samples of every layer's output, float32, computed by PyTorch from the rounded weights
"""
import argparse
import hashlib
import json
from pathlib import Path

import numpy as np
import torch
import torch.nn.functional as F

from net import FULL, HALF, MEAN, SPREAD, Net, load_net

SAMPLES = 300


class Exporter:
    """Walks the network once, recording layers and folded weights, and computes the same with the rounded weights."""

    def __init__(self):
        self.layers, self.blob, self.values = [], bytearray(), {}

    def store(self, array):
        rounded = np.ascontiguousarray(array, dtype='<f2')
        at = len(self.blob)
        self.blob += rounded.tobytes()
        return {'offset': at, 'shape': list(rounded.shape)}, torch.from_numpy(rounded.astype(np.float32))

    def add(self, layer, value):
        layer['id'] = len(self.layers)
        self.layers.append(layer)
        self.values[layer['id']] = value
        return layer['id']

    def conv(self, x, conv, norm=None, relu6=False, order=None):
        """`order`: new order of the output channels, or None."""
        w = conv.weight.detach().double()
        b = conv.bias.detach().double() if conv.bias is not None else torch.zeros(w.shape[0], dtype=torch.double)
        if norm is not None:
            gain = norm.weight.detach().double() / (norm.running_var.double() + norm.eps).sqrt()
            w, b = w * gain[:, None, None, None], b * gain + norm.bias.detach().double() - norm.running_mean.double() * gain
        if order is not None:
            w, b = w[order], b[order]
        depthwise = conv.groups > 1
        kernel, kw = self.store((w.permute(2, 3, 0, 1) if depthwise else w.permute(2, 3, 1, 0)).numpy())
        bias, bw = self.store(b.numpy())
        kt = kw.permute(2, 3, 0, 1) if depthwise else kw.permute(3, 2, 0, 1)
        y = F.conv2d(self.values[x], kt, bw, conv.stride, conv.padding, groups=conv.groups)
        y = F.relu6(y) if relu6 else y
        return self.add({'op': 'depthwise' if depthwise else 'conv', 'in': [x], 'stride': conv.stride[0], 'pad': conv.padding[0],
                         'relu6': relu6, 'kernel': kernel, 'bias': bias}, y)

    def unit(self, x, sequence):
        return self.conv(x, sequence[0], sequence[1], relu6=len(sequence) > 2)

    def sum(self, a, b):
        return self.add({'op': 'add', 'in': [a, b]}, self.values[a] + self.values[b])

    def block(self, x, block):
        y = self.unit(self.unit(self.unit(x, block.widen), block.look), block.narrow)
        return self.sum(x, y) if block.residual else y

    def net(self, net, x):
        at = self.add({'op': 'input', 'in': []}, x)
        at = self.add({'op': 'normalize', 'in': [at], 'mean': MEAN, 'spread': SPREAD}, (x - MEAN) / SPREAD)
        skips = [self.unit(at, net.stem)]
        for down in net.down:
            at = skips[-1]
            for block in down:
                at = self.block(at, block)
            skips.append(at)
        at = skips[-1]
        for up, skip in zip(net.up, reversed(skips[:-1])):
            lifted = self.unit(at, up.lift)
            size = self.values[skip].shape[-2:]
            lifted = self.add({'op': 'resize', 'in': [lifted, skip]},
                              F.interpolate(self.values[lifted], size=size, mode='bilinear', align_corners=False))
            at = self.sum(lifted, self.unit(skip, up.skip))
            for block in up.refine:
                at = self.block(at, block)
        at = self.unit(at, net.head)
        # Pixel shuffle takes channel c*4 + cell, depthToSpace cell*c_out + c: reorder the channels that feed it.
        order = torch.arange(len(FULL) * 4).reshape(len(FULL), 4).T.reshape(-1)
        fine = self.conv(at, net.fine, order=order)
        back = self.values[fine][:, torch.argsort(order)]
        full = self.add({'op': 'depthToSpace', 'in': [fine], 'block': 2}, F.pixel_shuffle(back, 2))
        half = self.conv(at, net.coarse)
        return full, half


def pattern(h, w):
    """A picture any program can make: colored waves and steps from whole numbers, [1, 3, h, w] in 0..1."""
    y, x, c = np.meshgrid(np.arange(h), np.arange(w), np.arange(3), indexing='ij')
    values = ((x * x * 3 + y * y * 5 + x * y * 2 + c * 37) % 101) / 100 * 0.5 + (((x // 8 + y // 8 * 2 + c) % 5) / 4) * 0.5
    return torch.from_numpy(values.astype(np.float32)).permute(2, 0, 1)[None]


def samples(value):
    """Up to SAMPLES evenly spaced values of a layer in NHWC order: step and values."""
    flat = value[0].permute(1, 2, 0).reshape(-1)
    step = max(1, len(flat) // SAMPLES)
    # A step that shares no factor with the channel count visits all channels.
    while step > 1 and np.gcd(step, value.shape[1]) != 1:
        step += 1
    return step, flat[::step].numpy().astype('<f4')


@torch.no_grad()
def main():
    p = argparse.ArgumentParser()
    p.add_argument('checkpoint')
    p.add_argument('--out', required=True)
    p.add_argument('--fixture')
    p.add_argument('--version', default='1')
    p.add_argument('--calibration')
    args = p.parse_args()
    net = load_net(args.checkpoint)
    out = Path(args.out)
    out.mkdir(parents=True, exist_ok=True)

    test = Exporter()
    full, half = test.net(net, pattern(64, 64))
    plain = net(pattern(64, 64))
    worst = max(float((test.values[i] - v).abs().max()) for i, v in ((full, plain[0]), (half, plain[1])))
    print('layers', len(test.layers), 'bytes', len(test.blob), 'largest change of a score by rounding to float16', round(worst, 4))

    blob = bytes(test.blob)
    (out / 'weights.bin').write_bytes(blob)
    answers = []
    for name, at in (('full', full), ('half', half)):
        step, values = samples(test.values[at])
        answers.append({'output': name, 'step': step * 7, 'values': [round(float(v), 4) for v in values[::7]]})
    calibration = json.loads(Path(args.calibration).read_text()) if args.calibration else {'scale': 1, 'shift': 0, 'threshold': 0.35}
    state = torch.load(args.checkpoint, map_location='cpu')['state']
    manifest = {
        'format': 1, 'version': args.version, 'images': state['images'], 'sha256': hashlib.sha256(blob).hexdigest(),
        'bytes': len(blob), 'multiple': 32, 'full': {'layer': full, 'channels': FULL}, 'half': {'layer': half, 'channels': HALF},
        'calibration': calibration, 'selfTest': {'height': 64, 'width': 64, 'tolerance': 0.05, 'answers': answers},
        'layers': test.layers,
    }
    lines = ',\n'.join('    ' + json.dumps(layer) for layer in test.layers)
    head = json.dumps({k: v for k, v in manifest.items() if k != 'layers'}, indent=2)
    (out / 'manifest.json').write_text(f'{head[:-2]},\n  "layers": [\n{lines}\n  ]\n}}\n')

    if args.fixture:
        folder = Path(args.fixture)
        folder.mkdir(parents=True, exist_ok=True)
        run = Exporter()
        run.net(net, pattern(64, 96))
        index, data = [], b''
        for layer in run.layers:
            step, values = samples(run.values[layer['id']])
            index.append({'layer': layer['id'], 'step': step, 'count': len(values)})
            data += values.tobytes()
        (folder / 'parity.bin').write_bytes(data)
        (folder / 'parity.json').write_text(json.dumps({'sha256': manifest['sha256'], 'height': 64, 'width': 96, 'layers': index}) + '\n')


if __name__ == '__main__':
    main()
