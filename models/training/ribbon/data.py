"""Straightened conductors as the readers see them: src/color/ribbon/cells.ts and reader.ts, the same constants."""
import base64
import json
import math

import numpy as np
import torch

ACROSS = 12
# Columns on either side of a conductor that a dump knows: BESIDE of src/flow/conductor.ts.
BESIDE = 2
# How likely a conductor is, then the planes of SAID of src/flow/conductor.ts, and by what they are multiplied (reader.ts).
SAID_SCALE = (1 / 4, 1 / 4, 1, 1, 1 / 4, 1 / 4, 1 / 4)
# What a dump writes as a byte for 1 (dump.ts).
SAID_STEPS = 15
SOFT, DARKEST = 0.12, 0.0015


def load(paths):
    """Lines of test/vision/ribbon/dump.ts. One dictionary a conductor: rgb [L, 16, 3] linear, usable [L, 16], said [L, 16, 7]
    in steps of a dump, label [L, 12], ..."""
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
            if 'prn' in d:
                label[own & (plane('prn', 'u1') > 0)] = 5
            label[own & (covering == 3)] = 2
            label[own & (covering == 2)] = 3

            def wide(key, kind, *each):
                own = np.frombuffer(base64.b64decode(d[key]), kind).reshape(*shape, *each)
                out = np.frombuffer(base64.b64decode(d[f'beside{key.capitalize()}']), kind).reshape(d['length'], 2 * BESIDE, *each)
                return np.concatenate([out[:, :BESIDE], own, out[:, BESIDE:]], 1)

            rgb = wide('rgb', '<f4', 3)
            truth = d['truth']
            real = truth is not None and truth['covering'] == 1 and d['purity'] > 0.5
            out.append({
                'id': d['id'], 'rgb': rgb, 'usable': wide('usable', 'u1'), 'said': wide('said', 'i1', len(SAID_SCALE)), 'label': label,
                'seen': rgb[:, BESIDE:-BESIDE].sum((1, 2)) > 0, 'width': d['widthPx'], 'real': real, 'color': truth['color'] if real else '',
                'stripe': truth['stripe'] if real else None, 'purity': d['purity'],
            })
    return out


def saturations(rgb):
    """Softened saturations s, t and log2 luminance z of linear sRGB [..., 3]."""
    r, g, b = rgb.unbind(-1)
    root = lambda v: v.clamp(min=0) ** (1 / 3)
    l = root(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b)
    m = root(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b)
    e = root(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b)
    soft = 0.2104542553 * l + 0.793617785 * m - 0.0040720468 * e + SOFT
    s = (1.9779984951 * l - 2.428592205 * m + 0.4505937099 * e) / soft
    t = (0.0259040371 * l + 0.7827717662 * m - 0.808675766 * e) / soft
    return s, t, (0.2126 * r + 0.7152 * g + 0.0722 * b + DARKEST).log2()


def planes(rgb, usable, said, width):
    """The readers' input [m, 15, L, 16], of which `Reader.sees` takes what one looks at.

    rgb [m, L, 16, 3] linear, usable [m, L, 16], said [m, L, 16, 7] in steps of a dump, width [m] pixels; the outer BESIDE columns are not the conductor's
    own. Middle values are taken of its own ones, away from the rims.
    """
    m, rows, columns, _ = rgb.shape
    ok = usable.float()
    s, t, z = saturations(rgb)
    core = usable.bool().clone()
    core[:, :, :BESIDE + 2] = False
    core[:, :, columns - BESIDE - 2:] = False

    def less_middle(v):
        middle = torch.where(core, v, torch.full_like(v, math.nan)).reshape(m, -1).nanmedian(1).values.nan_to_num(0)
        return v - middle[:, None, None]

    ds, dt, dz = less_middle(s), less_middle(t), less_middle(z)
    pixel = torch.stack([8 * ds, 8 * dt, 0.5 * dz, 5 * torch.hypot(s, t), 0.3 * (z + 4)], 1) * ok[:, None]
    return joined(pixel, said.movedim(-1, 1), ok, (width.clamp(min=1) / 12).log().clamp(-2, 2))


def joined(pixel, said, ok, size):
    """The readers' input of what was seen of each cell [m, 5, L, 16] and said of it [m, 7, L, 16], of `ok` [m, L, 16] and size [m]."""
    m, _, rows, columns = pixel.shape
    x = ((2 * (torch.arange(columns, device=pixel.device) - BESIDE) + 1) / ACROSS - 1).abs().expand(m, 1, rows, columns)
    scale = torch.tensor(SAID_SCALE, device=pixel.device)[:, None, None] / SAID_STEPS
    said = said.float() * scale
    size = size.float()[:, None, None, None].expand(m, 1, rows, columns)
    return torch.cat([pixel.float(), x, said[:, :1], ok.float()[:, None], size, said[:, 1:]], 1)
