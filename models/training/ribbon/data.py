"""Straightened conductors with their truth (lines of test/vision/ribbon/dump.ts), as the reader sees them."""
import base64
import json

import numpy as np

ACROSS = 12
CLASSES = ('body', 'stripe', 'tape', 'bare', 'other')
LAYOUTS = ('plain', 'along', 'spiral', 'rings')
SOFT, DARKEST = 0.12, 0.0015


def load(paths):
    """One dictionary a conductor: rgb [L, 12, 3] linear, usable, wire, label [L, 12], name, layout, ..."""
    out = []
    for path in paths:
        for line in open(path):
            d = json.loads(line)
            shape = (d['length'], d['across'])
            plane = lambda key, kind: np.frombuffer(base64.b64decode(d[key]), kind).reshape(shape)
            own = (plane('inst', '<u2') == d['main']) & (d['main'] > 0)
            covering, stripe = plane('cov', 'u1'), plane('str', 'u1') > 0
            label = np.full(shape, 4)
            label[own & ((covering == 1) | (covering == 4))] = 0
            label[own & stripe] = 1
            label[own & (covering == 3)] = 2
            label[own & (covering == 2)] = 3
            usable = plane('usable', 'u1')
            seen = (np.frombuffer(base64.b64decode(d['rgb']), '<f4').reshape(*shape, 3).sum((1, 2)) > 0)
            truth = d['truth']
            real = truth is not None and truth['covering'] == 1 and d['purity'] > 0.5
            out.append({
                'id': d['id'], 'rgb': np.frombuffer(base64.b64decode(d['rgb']), '<f4').reshape(*shape, 3),
                'usable': usable, 'wire': plane('wire', '<f4'),
                'label': label, 'seen': seen, 'width': d['widthPx'], 'blur': d['blurPx'], 'step': d['stepPx'],
                'real': real, 'color': truth['color'] if real else '', 'stripe': truth['stripe'] if real else None,
                'print': truth['print'] if real else 0, 'purity': d['purity'],
            })
    return out


def oklab_soft(rgb):
    """Softened saturations and log2 luminance: src/color/ribbon/cells.ts, the same constants."""
    r, g, b = rgb[..., 0], rgb[..., 1], rgb[..., 2]
    l = np.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b)
    m = np.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b)
    e = np.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b)
    soft = 0.2104542553 * l + 0.793617785 * m - 0.0040720468 * e + SOFT
    s = (1.9779984951 * l - 2.428592205 * m + 0.4505937099 * e) / soft
    t = (0.0259040371 * l + 0.7827717662 * m - 0.808675766 * e) / soft
    z = np.log2(0.2126 * r + 0.7152 * g + 0.0722 * b + DARKEST)
    return s, t, z


def planes(rgb, usable, wire, width, blur, turn=(1.0, 0.0)):
    """The reader's input [L, 12, 10]; `wire` None: nothing learned looked. `turn` rotates hue differences (training)."""
    ok = usable > 0
    s, t, z = oklab_soft(rgb)
    core = ok.copy()
    core[:, [0, 1, 10, 11]] = False
    middle = lambda v: float(np.sort(v[core])[core.sum() // 2]) if core.any() else 0.0
    ds, dt, dz = s - middle(s), t - middle(t), z - middle(z)
    c, sn = turn
    x = np.abs((2 * np.arange(ACROSS) + 1) / ACROSS - 1)
    blank = np.ones_like(s)
    kept = None if wire is None else np.clip(wire, 0.02, 0.98)
    said = 0 * blank if wire is None else np.log(kept / (1 - kept)) / 4
    pixel = [8 * (c * ds - sn * dt), 8 * (sn * ds + c * dt), 0.5 * dz, 5 * np.hypot(s, t), 0.3 * (z + 4)]
    return np.stack([p * ok for p in pixel] + [
        blank * x, said, blank * ok, blank * np.clip(np.log(max(1.0, width) / 12), -2, 2), blank * min(2.0, 4 * blur / max(1.0, width))], -1).astype(np.float32)
