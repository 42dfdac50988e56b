"""Photographs without conductors: backdrops for the renderer, and pictures in which nothing is to be found."""
import json
from pathlib import Path

import numpy as np
import torch
from PIL import Image

from camera import to_linear


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


def negatives(pixels, weights, n, size):
    """`n` random crops [n, 3, size, size] in 0..1 of pictures that hold no conductor."""
    picked = pixels[torch.multinomial(weights, n, replacement=True)].float() / 255
    side = int(torch.randint(size * 2 // 3, picked.shape[-1] + 1, (1,)))
    top, left = (int(torch.randint(0, picked.shape[-1] - side + 1, (1,))) for _ in range(2))
    x = torch.nn.functional.interpolate(picked[..., top:top + side, left:left + side], (size, size), mode='bilinear',
                                        antialias=side > size, align_corners=False)
    if torch.rand(1) < 0.5:
        x = x.flip(-1)
    return x.transpose(-1, -2) if torch.rand(1) < 0.25 else x
