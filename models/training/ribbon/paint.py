"""Paints stripes and tape on plain straightened conductors, so that every body meets every mark."""
import warnings

import numpy as np
from scipy.ndimage import gaussian_filter

FINE = 3
# A row or column without a usable cell has no median; that is met below.
warnings.filterwarnings('ignore', message='All-NaN slice')


def shading(rgb, usable):
    """Smooth relative light over the ribbon: a parabola across, a running mean along."""
    y = rgb @ np.array([0.2126, 0.7152, 0.0722]) + 1e-4
    z = np.where(usable > 0, np.log2(y), np.nan)
    column = np.nanmedian(z, 0) if np.isfinite(z).any() else np.zeros(z.shape[1])
    x = np.linspace(-1, 1, z.shape[1])
    good = np.isfinite(column)
    fit = np.polyval(np.polyfit(x[good], column[good], 2), x) if good.sum() > 3 else np.zeros_like(x)
    row = np.nanmedian(z - fit, 1)
    row = np.where(np.isfinite(row), row, np.nanmedian(row) if np.isfinite(row).any() else 0)
    row = gaussian_filter(row, 6)
    return 2.0 ** (np.clip(fit - np.median(fit), -2, 1.5)[None] + np.clip(row - np.median(row), -2, 2)[:, None])


def mask_of(rng, kind, length, across):
    """Soft mask [L, 12] of a mark on the front of a cylinder, and its hard version."""
    rows = (np.arange(length * FINE) + 0.5) / FINE
    x = (np.arange(across * FINE) + 0.5) / (across * FINE) * 2 - 1
    phi = np.arcsin(np.clip(x, -1, 1))[None]
    d = across
    i = rows[:, None]
    if kind == 'along':
        count = 1 if rng.random() < 0.6 else rng.integers(2, 4)
        width = rng.uniform(0.06, 0.2) if count == 1 else rng.uniform(0.15, 0.35)
        turns = i / (d * np.exp(rng.uniform(np.log(15), np.log(60)))) if rng.random() < 0.4 else 0 * i
        at = (phi / (2 * np.pi) + rng.random() + turns) * count % 1
        on = np.abs(at - 0.5) < width / 2
    elif kind == 'spiral':
        pitch = d * np.exp(rng.uniform(np.log(2), np.log(8)))
        at = (i / pitch * rng.choice([-1, 1]) + phi / (2 * np.pi) + rng.random()) % 1
        on = np.abs(at - 0.5) < rng.uniform(0.13, 0.33) / 2
    elif kind == 'rings':
        pitch = d * np.exp(rng.uniform(np.log(1.5), np.log(6)))
        at = (i / pitch + rng.random() + 0 * phi) % 1
        on = np.abs(at - 0.5) < rng.uniform(0.13, 0.33) / 2
    else:
        size = d * np.exp(rng.uniform(np.log(0.8), np.log(7)))
        start = rng.choice([0.0, length - size, rng.uniform(-size / 2, length - size / 2)])
        tilt = rng.normal(0, 0.1) * d * x[None] + rng.normal(0, 0.12) * d * np.sqrt(1 - x[None] ** 2)
        on = (i + tilt >= start) & (i + tilt < start + size)
    soft = on.astype(np.float32).reshape(length, FINE, across, FINE).mean((1, 3))
    return soft, soft > 0.5


def paint(rng, d, donor, kind):
    """A painted copy: rgb, label. `donor` is the linear RGB of the mark's color under the same light."""
    length, across, _ = d['rgb'].shape
    soft, hard = mask_of(rng, kind, length, across)
    cell = max(0.3, d['width'] / across)
    soft = gaussian_filter(soft, min(3.0, d['blur'] / cell))[..., None]
    light = shading(d['rgb'], d['usable'])[..., None]
    mark = np.asarray(donor)[None, None] * light
    gloss = np.clip(d['rgb'].min(-1, keepdims=True) - np.median(d['rgb'].min(-1)) * 2.2 * light, 0, 1)
    mark = mark + gloss
    noise = rng.normal(0, 0.004 + 0.02 * rng.random(), mark.shape) * np.sqrt(np.maximum(mark, 0.02) / 0.2) * 0.5
    noise = gaussian_filter(noise, (0.6, 0.6, 0))
    rgb = np.clip(d['rgb'] * (1 - soft) + (mark + noise) * soft, 0, 1)
    label = d['label'].copy()
    own = (label == 0) | (label == 1)
    label[own & hard] = 2 if kind == 'tape' else 1
    usable = d['usable'] * (rgb.max(-1) < 0.975)
    return rgb.astype(np.float32), usable, label
