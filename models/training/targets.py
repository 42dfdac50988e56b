"""Crops of rendered scenes, and what the network is to say about them."""
import torch
import torch.nn.functional as F


def crop(planes, index, top, left, window, size, turn):
    """A square window of each scene in `index`, brought to `size`, flipped and transposed by the bits of `turn`.

    Returns rgb [n, 3, size, size] and labels at the same size. `geometry` follows: directions turn with the picture,
    half widths scale with it; the sign of the position across is dropped, so it needs no turning.
    """
    cut = {k: v[..., top:top + window, left:left + window][index] for k, v in planes.items()}
    rgb, geometry = cut['rgb'].float(), cut['geometry'].float()
    if window != size:
        rgb = F.interpolate(rgb, (size, size), mode='bilinear', antialias=window > size, align_corners=False)
        at = ((torch.arange(size, device=rgb.device).float() + 0.5) * (window / size)).long()
        geometry = geometry[:, :, at][..., at]
        for k in ('covering', 'instance', 'color', 'stripe'):
            cut[k] = cut[k][:, at][..., at]
    cos2t, sin2t, across, half_width = geometry.unbind(1)
    half_width = half_width * (size / window)
    across = across.abs()
    if bool(turn & 1) != bool(turn & 2):
        sin2t = -sin2t
    if turn & 4:
        cos2t = -cos2t

    def turned(x):
        if turn & 1:
            x = x.flip(-1)
        if turn & 2:
            x = x.flip(-2)
        return x.transpose(-1, -2) if turn & 4 else x

    labels = {k: turned(cut[k]) for k in ('covering', 'instance', 'color', 'stripe')}
    labels.update(cos2t=turned(cos2t), sin2t=turned(sin2t), across=turned(across), half_width=turned(half_width))
    return turned(rgb), labels


def join(parts):
    """Batches of labels one after the other."""
    return {k: torch.cat([p[k] for p in parts]) for k in parts[0]}


def touching_edges(instance):
    """1 where two different conductors meet within one pixel, [n, 1, h, w]."""
    i = instance[:, None].float()
    high = F.max_pool2d(i, 3, 1, 1)
    low = -F.max_pool2d(-torch.where(i > 0, i, torch.full_like(i, 1e6)), 3, 1, 1)
    return ((high > 0) & (low < high)).float()


def instance_weights(instance, reference=700.0, power=0.4, low=0.5, high=3.0):
    """More weight for small conductors: a short stub counts on a photo as much as a long feeder does."""
    n = instance.shape[0]
    flat = instance.reshape(n, -1).long().clamp(0, 1023) + torch.arange(n, device=instance.device)[:, None] * 1024
    area = torch.bincount(flat.reshape(-1), minlength=n * 1024).float().clamp(min=1)
    weight = ((reference / area) ** power).clamp(low, high)
    return weight[flat].reshape(instance.shape)[:, None]


def is_stripe(plane):
    """Stripe pixels of the label plane; legend print is none (render/api.h)."""
    return ((plane & 15) > 0) & ((plane & 15) < 15)


def make_targets(labels):
    """What each head is to say. Masks say where it is asked; see losses.py."""
    covering = labels['covering'].long()
    kind = torch.zeros_like(covering)
    kind[(covering == 1) | (covering == 3)] = 1
    kind[covering == 2] = 2
    kind[covering == 4] = 3
    wire = (kind > 0)[:, None].float()
    color = labels['color'].long()
    color = torch.where((color > 12) | (covering == 0) | (covering == 2), torch.full_like(color, 13), color)
    # A half-size pixel has a color when its four pixels agree; 255 where they don't.
    c = color[:, None].float()
    top, bottom = F.max_pool2d(c, 2), -F.max_pool2d(-c, 2)
    half_color = torch.where(top == bottom, top, torch.full_like(top, 255))[:, 0].long()
    return {
        'kind': kind, 'wire': wire,
        'weight': instance_weights(labels['instance']) * wire + (1 - wire),
        'tape': (covering == 3)[:, None].float(),
        'edge': touching_edges(labels['instance']),
        'direction': torch.stack([labels['cos2t'], labels['sin2t']], 1),
        'log_half_width': labels['half_width'].clamp(0.5, 400).log()[:, None],
        'center': (1 - labels['across'].clamp(0, 1))[:, None] * wire,
        'color': half_color,
        'stripe': F.max_pool2d(is_stripe(labels['stripe'])[:, None].float(), 2),
    }
