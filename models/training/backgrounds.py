"""Photographs without conductors: backdrops for the renderer, and pictures in which nothing is to be found."""
import json
import random
from pathlib import Path

import numpy as np
import torch
import torch.nn.functional as F
from PIL import Image

from camera import smooth, to_linear


def load_backgrounds(folder, device, limit=None):
    """sRGB pictures [m, 3, 512, 512] as uint8 on `device`, and one sampling weight each.

    Cord-like things (rods, tubing, branches) are the hardest to tell from conductors and count twice.
    """
    entries = json.loads((Path(folder) / 'index.json').read_text())
    entries = entries[::max(1, len(entries) // limit)][:limit] if limit else entries
    pictures = [np.asarray(Image.open(Path(folder) / e['file']).convert('RGB')) for e in entries]
    pixels = torch.from_numpy(np.stack(pictures)).permute(0, 3, 1, 2).contiguous().to(device)
    weights = torch.tensor([2.0 if e['group'] == 'cord-like' else 1.0 for e in entries], device=device)
    return pixels, weights


def linear_backdrops(pixels):
    """The same in linear light as float32, in the form that the renderer takes."""
    return torch.cat([to_linear(p[None].float() / 255) for p in pixels]).contiguous()


def random_cut(pictures, least, size):
    """The same random square, at least `least` wide, of each of `pictures` [n, 3, s, s], brought to `size` (h, w)."""
    side = random.randint(least, pictures.shape[-1])
    top, left = (random.randint(0, pictures.shape[-1] - side) for _ in range(2))
    return F.interpolate(pictures[..., top:top + side, left:left + side], size, mode='bilinear',
                         antialias=side > size[0], align_corners=False)


def scenery(linear, background, pictures, share):
    """For a `share` of the pictures (the last ones), a photograph in place of everything that is no conductor: conductors
    before clutter that no renderer thought of.

    linear [n, 3, h, w]; background: 1 where no conductor is, [n, 1, h, w]; pictures [m, 3, s, s] linear. Half of the
    conductors throw a soft shadow on it, or a pasted look would give them away.
    """
    n, _, h, w = linear.shape
    k = min(n, int(share * n + random.random()))
    if k == 0:
        return linear
    d = linear.device
    crops = []
    for i in torch.randint(0, len(pictures), (k,)).tolist():
        crops.append(random_cut(pictures[i:i + 1], pictures.shape[-1] // 3, (h, w)))
    ground = torch.cat(crops)
    if random.random() < 0.5:
        ground = ground.flip(-1)
    mean = lambda x: x.mean((1, 2, 3), keepdim=True) + 1e-4
    ground = ground / mean(ground) * mean(linear[-k:]) * (torch.randn(k, 1, 1, 1, device=d) * 0.6).exp()
    free = background[-k:]
    reach = random.choice((4, 8, 16))
    cover = smooth(torch.roll(1 - free, (random.randint(0, 2 * reach), random.randint(-reach, reach)), (2, 3)), reach)
    dark = torch.rand(k, 1, 1, 1, device=d) * (torch.rand(k, 1, 1, 1, device=d) < 0.5)
    ground = ground * (1 - 0.8 * dark * cover)
    return torch.cat([linear[:-k], linear[-k:] * (1 - free) + ground * free])


def negatives(pixels, weights, n, size):
    """`n` random crops [n, 3, size, size] in 0..1 of pictures that hold no conductor."""
    picked = pixels[torch.multinomial(weights, n, replacement=True)].float() / 255
    x = random_cut(picked, size * 2 // 3, (size, size))
    if torch.rand(1) < 0.5:
        x = x.flip(-1)
    return x.transpose(-1, -2) if torch.rand(1) < 0.25 else x
