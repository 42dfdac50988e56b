"""From scene-linear light to a picture as a phone would have stored it and a forum re-posted it.

Everything is vectorised over the batch, on whatever device the input lies. Each step draws its own parameters, one
set a picture. The ranges are assumptions about hand-held photos, not measurements; they are wide on purpose.
Geometry never changes, so labels stay valid (a re-posted photo goes down and up again at the same size).
"""
import math

import torch
import torch.nn.functional as F


def uniform(n, low, high, device, extra=3):
    """`n` numbers in low..high shaped [n, 1, 1, 1] (with `extra` trailing axes)."""
    return (low + (high - low) * torch.rand(n, device=device)).reshape(n, *([1] * extra))


def log_uniform(n, low, high, device, extra=3):
    return uniform(n, math.log(low), math.log(high), device, extra).exp()


def gate(n, share, device):
    """1 for about `share` of the pictures, else 0."""
    return (torch.rand(n, device=device) < share).float().reshape(n, 1, 1, 1)


def to_linear(x):
    """sRGB-encoded to linear, IEC 61966-2-1."""
    return torch.where(x <= 0.04045, x / 12.92, ((x.clamp(min=0) + 0.055) / 1.055) ** 2.4)


def to_srgb(x):
    """Linear to sRGB-encoded, IEC 61966-2-1."""
    x = x.clamp(min=0)
    return torch.where(x <= 0.0031308, x * 12.92, 1.055 * x.clamp(min=1e-6) ** (1 / 2.4) - 0.055)


def luma(x):
    return 0.2126 * x[:, 0:1] + 0.7152 * x[:, 1:2] + 0.0722 * x[:, 2:3]


def smooth(x, factor):
    """A cheap wide blur: down by `factor` and up again."""
    h, w = x.shape[-2:]
    y = F.avg_pool2d(x, factor, ceil_mode=True, count_include_pad=False)
    return F.interpolate(y, (h, w), mode='bilinear', align_corners=False)


def expose(x):
    """Exposure, vignetting and what is left of the light's cast after the camera's white balance."""
    n, d = x.shape[0], x.device
    mean = x.mean((1, 2, 3), keepdim=True) + 1e-4
    peak = x.reshape(n, -1)[:, ::37].quantile(0.97, dim=1).reshape(n, 1, 1, 1) + 1e-4
    # Cameras meter somewhere between the mean and the highlights.
    by_mean, by_peak = log_uniform(n, 0.06, 0.42, d) / mean, log_uniform(n, 0.5, 1.5, d) / peak
    # (closer to the highlights: bright conductors before black velvet are seldom burnt out).
    mix = uniform(n, 0, 1, d) ** 1.7
    x = x * (by_mean.log() * mix + by_peak.log() * (1 - mix)).exp()
    cast = torch.randn(n, 3, 1, 1, device=d) * (0.035 + 0.09 * gate(n, 0.2, d))
    x = x * cast.exp()
    h, w = x.shape[-2:]
    yy = torch.linspace(-1, 1, h, device=d).reshape(1, 1, h, 1) - uniform(n, -0.4, 0.4, d)
    xx = torch.linspace(-1, 1, w, device=d).reshape(1, 1, 1, w) - uniform(n, -0.4, 0.4, d)
    return x * (1 - uniform(n, 0, 0.4, d) * gate(n, 0.4, d) * (xx * xx + yy * yy) / 2).clamp(min=0.1)


def blur_kernels(n, device, size=11):
    """One kernel a picture: soft lens or disc of defocus, dragged along a line where the hand moved."""
    r = size // 2
    axis = torch.arange(-r, r + 1, device=device).float()
    yy, xx = axis.reshape(1, 1, size, 1), axis.reshape(1, 1, 1, size)
    kind = torch.rand(n, device=device).reshape(n, 1, 1, 1)
    sigma = torch.where(kind < 0.5, uniform(n, 0.25, 0.7, device), uniform(n, 0.5, 1.7, device))
    disc = uniform(n, 0.8, 3.2, device)
    length = uniform(n, 0.5, 7, device) * gate(n, 0.15, device)
    angle = uniform(n, 0, math.pi, device)
    steps = torch.linspace(-0.5, 0.5, 7, device=device).reshape(1, 7, 1, 1)
    d2 = (xx - steps * length * angle.cos()) ** 2 + (yy - steps * length * angle.sin()) ** 2
    soft = (-d2 / (2 * sigma * sigma)).exp()
    hard = torch.sigmoid((disc - d2.clamp(min=1e-6).sqrt()) * 4)
    k = torch.where(kind > 0.88, hard, soft).sum(1)
    return k / k.sum((1, 2), keepdim=True)


def blur(x):
    n, c, h, w = x.shape
    k = blur_kernels(n, x.device).repeat_interleave(c, 0)[:, None].to(x.dtype)
    r = k.shape[-1] // 2
    y = F.pad(x, (r, r, r, r), mode='reflect').reshape(1, n * c, h + 2 * r, w + 2 * r)
    return F.conv2d(y, k, groups=n * c).reshape(n, c, h, w)


def sense(x):
    """Shot and read noise, partly coarse as denoisers leave it, and for some a Bayer mosaic filled in again."""
    n, d = x.shape[0], x.device
    h, w = x.shape[-2:]
    shot, read = log_uniform(n, 1e-5, 6e-3, d), log_uniform(n, 5e-4, 0.012, d)
    fine = torch.randn_like(x)
    coarse = F.interpolate(torch.randn(n, 3, (h + 1) // 2, (w + 1) // 2, device=d, dtype=x.dtype), (h, w),
                           mode='bilinear', align_corners=False)
    mixed = fine + coarse * uniform(n, 0, 1.5, d) * gate(n, 0.5, d)
    x = x + mixed * (shot * x.clamp(min=0) + read * read).sqrt()
    mosaic = gate(n, 0.25, d)
    mask = torch.zeros(3, h, w, device=d, dtype=x.dtype)
    mask[0, 0::2, 0::2] = mask[1, 0::2, 1::2] = mask[1, 1::2, 0::2] = mask[2, 1::2, 1::2] = 1
    cross = torch.tensor([[0, 1, 0], [1, 4, 1], [0, 1, 0]], device=d, dtype=x.dtype) / 4
    box = torch.tensor([[1, 2, 1], [2, 4, 2], [1, 2, 1]], device=d, dtype=x.dtype) / 4
    filled = F.conv2d(x * mask, torch.stack([box, cross, box])[:, None], padding=1, groups=3)
    return x * (1 - mosaic) + filled * mosaic


def develop(x):
    """Tone curve, local tone mapping, veil, contrast and saturation; linear in, sRGB-encoded out, 0..1."""
    n, d = x.shape[0], x.device
    x = x.clamp(min=0)
    # Phones lift shadows by a local gain.
    light = luma(x)
    around = smooth(light, 32) + 0.02
    lift = uniform(n, 0, 0.5, d) * gate(n, 0.4, d)
    x = x * (around / (around.mean((1, 2, 3), keepdim=True))) ** -lift
    x = x + uniform(n, 0, 0.06, d) * gate(n, 0.25, d) * x.mean((1, 2, 3), keepdim=True) * 2
    kind = torch.rand(n, device=d).reshape(n, 1, 1, 1)
    plain = to_srgb(x.clamp(0, 1))
    power = x.clamp(1e-6, 1) ** (1 / uniform(n, 1.7, 2.7, d))
    # Rational film-like shoulder, scaled so that 1 stays near 1.
    shoulder = to_srgb((x * (1 + x / 4) / (1 + x)) * 1.6).clamp(0, 1)
    y = torch.where(kind < 0.45, plain, torch.where(kind < 0.7, power, shoulder))
    curve = uniform(n, -0.15, 0.5, d)
    y = y * (1 - curve) + curve * y * y * (3 - 2 * y)
    gray = luma(y)
    return (gray + (y - gray) * uniform(n, 0.55, 1.5, d)).clamp(0, 1)


def sharpen(y):
    n, d = y.shape[0], y.device
    narrow = F.avg_pool2d(F.pad(y, (1, 1, 1, 1), mode='replicate'), 3, 1)
    wide = F.avg_pool2d(F.pad(y, (2, 2, 2, 2), mode='replicate'), 5, 1)
    base = torch.where(torch.rand(n, device=d).reshape(n, 1, 1, 1) < 0.6, narrow, wide)
    return (y + uniform(n, 0, 1.2, d) * gate(n, 0.55, d) * (y - base)).clamp(0, 1)


# Example quantization tables of ITU-T T.81 (JPEG), Annex K, tables K.1 and K.2.
LUMA_TABLE = torch.tensor([
    [16, 11, 10, 16, 24, 40, 51, 61], [12, 12, 14, 19, 26, 58, 60, 55], [14, 13, 16, 24, 40, 57, 69, 56],
    [14, 17, 22, 29, 51, 87, 80, 62], [18, 22, 37, 56, 68, 109, 103, 77], [24, 35, 55, 64, 81, 104, 113, 92],
    [49, 64, 78, 87, 103, 121, 120, 101], [72, 92, 95, 98, 112, 100, 103, 99]], dtype=torch.float32)
CHROMA_TABLE = torch.tensor([
    [17, 18, 24, 47, 99, 99, 99, 99], [18, 21, 26, 66, 99, 99, 99, 99], [24, 26, 56, 99, 99, 99, 99, 99],
    [47, 66, 99, 99, 99, 99, 99, 99]] + [[99] * 8] * 4, dtype=torch.float32)
DCT = torch.tensor([[math.sqrt((1 if k == 0 else 2) / 8) * math.cos((2 * i + 1) * k * math.pi / 16)
                     for i in range(8)] for k in range(8)], dtype=torch.float32)


def quantize_blocks(x, table):
    """8 x 8 DCT of [n, h, w] (multiples of 8, levels -128..127), rounded by `table` [n, 8, 8], and back."""
    n, h, w = x.shape
    d = DCT.to(x.device)
    b = x.reshape(n, h // 8, 8, w // 8, 8).permute(0, 1, 3, 2, 4)
    t = table[:, None, None]
    q = ((d @ b @ d.T) / t).round() * t
    return (d.T @ q @ d).permute(0, 1, 3, 2, 4).reshape(n, h, w)


def jpeg(y, quality):
    """JPEG by the book (4:2:0 chroma, Annex K tables scaled by `quality` [n] in 1..100); y in 0..1, any size."""
    n, _, h, w = y.shape
    scale = torch.where(quality < 50, 5000 / quality, 200 - 2 * quality).reshape(n, 1, 1)
    tables = [((t.to(y.device) * scale + 50) / 100).floor().clamp(1, 255) for t in (LUMA_TABLE, CHROMA_TABLE)]
    ph, pw = -h % 16, -w % 16
    z = F.pad(y, (0, pw, 0, ph), mode='replicate') * 255
    r, g, b = z[:, 0], z[:, 1], z[:, 2]
    yy = 0.299 * r + 0.587 * g + 0.114 * b - 128
    cb, cr = -0.168736 * r - 0.331264 * g + 0.5 * b, 0.5 * r - 0.418688 * g - 0.081312 * b
    small = F.avg_pool2d(torch.stack([cb, cr], 1), 2)
    yy = quantize_blocks(yy, tables[0]) + 128
    both = torch.stack([quantize_blocks(small[:, i], tables[1]) for i in range(2)], 1)
    both = F.interpolate(both, yy.shape[-2:], mode='bilinear', align_corners=False)
    cb, cr = both[:, 0], both[:, 1]
    out = torch.stack([yy + 1.402 * cr, yy - 0.344136 * cb - 0.714136 * cr, yy + 1.772 * cb], 1)
    return (out[..., :h, :w] / 255).clamp(0, 1)


def compress(y):
    """Stored once or twice; a part of the batch was made smaller and larger again in between."""
    n, d = y.shape[0], y.device
    h, w = y.shape[-2:]
    once = gate(n, 0.75, d)
    first = jpeg(y, uniform(n, 40, 97, d, 0))
    y = first * once + y * (1 - once)
    k = n // 5
    if k:
        size = [max(32, round(s * float(torch.empty(1).uniform_(0.45, 0.95)))) for s in (h, w)]
        small = jpeg(F.interpolate(y[:k], size, mode='bilinear', antialias=True, align_corners=False),
                     uniform(k, 45, 95, d, 0))
        again = F.interpolate(small, (h, w), mode='bicubic', align_corners=False).clamp(0, 1)
        y = torch.cat([again, y[k:]])
    return (y * 255).round() / 255


def plain_backdrop(linear, background, share):
    """For a `share` of the pictures, an even backdrop in place of everything that is no conductor: black, white or any
    color, lit unevenly, as when conductors are laid out for their portrait. `background`: 1 there, [n, 1, h, w]."""
    n, d = linear.shape[0], linear.device
    h, w = linear.shape[-2:]
    kind = torch.rand(n, device=d).reshape(n, 1, 1, 1)
    level = torch.where(kind < 0.45, log_uniform(n, 1e-4, 0.02, d), log_uniform(n, 0.05, 1, d))
    tint = (torch.randn(n, 3, 1, 1, device=d) * torch.where(kind < 0.8, 0.05, 0.5)).exp()
    light = F.interpolate(torch.randn(n, 1, 3, 3, device=d) * 0.25, (h, w), mode='bicubic', align_corners=False).exp()
    # What shadows and shading the rendered ground had stays in part.
    shading = (luma(linear) / (luma(linear).mean((1, 2, 3), keepdim=True) + 1e-4)).clamp(0.2, 2) ** uniform(n, 0, 0.5, d)
    even = level * tint * light * shading
    swap = gate(n, share, d) * background
    return linear * (1 - swap) + even * swap


def photograph(linear):
    """Scene-linear [n, 3, h, w] to stored sRGB pictures in 0..1. Pictures should come in random order."""
    x = expose(linear.float())
    x = blur(x)
    x = sense(x)
    return compress(sharpen(develop(x)))


def rephotograph(srgb):
    """A light touch for pictures that a camera made already: exposure, noise, contrast, compression."""
    n, d = srgb.shape[0], srgb.device
    x = to_linear(srgb) * log_uniform(n, 0.55, 1.6, d) * (torch.randn(n, 3, 1, 1, device=d) * 0.05).exp()
    x = x + torch.randn_like(x) * log_uniform(n, 5e-4, 0.01, d)
    y = to_srgb(x.clamp(0, 1))
    gray = luma(y)
    y = (gray + (y - gray) * uniform(n, 0.6, 1.3, d)).clamp(0, 1)
    return compress(sharpen(y))
