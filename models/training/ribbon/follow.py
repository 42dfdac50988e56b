"""Straightens conductors of rendered pictures on the GPU, about as src/vision/ribbon/fine.ts does with traced ones.

The center lines come from the label planes, with the errors of a tracer put on: an axis beside the true one, a width
that is off, a wobble, and lines that run on over whatever lies on top of a conductor or beyond its end.
"""
import torch

ACROSS = 12
# Rows a diameter are as many as cells across it.
ROWS = 160
CLIPPED = 252 / 255
# Diameters a line runs on over other things before it counts as ended.
RUNS_ON = 1.5


def start_points(labels, per_picture, least_half_width=3.0):
    """Pixels to start from, [n, per_picture, 2] (x, y) whole numbers; every conductor about equally often, marked ones more."""
    instance = labels['instance']
    n, h, w = instance.shape
    flat = instance.reshape(n, -1).long().clamp(0, 1023) + torch.arange(n, device=instance.device)[:, None] * 1024
    count = lambda mask: torch.bincount(flat[mask], minlength=n * 1024).float()
    marks = (labels['covering'] == 3) | (labels['covering'] == 2) | (((labels['stripe'] & 15) > 0) & (labels['stripe'] < 48) & ((labels['stripe'] & 15) < 15))
    every = torch.ones_like(flat, dtype=torch.bool)
    area, marked = count(every), count(marks.reshape(n, -1))
    weight = (2.0 + 3.0 * (marked > 0.02 * area).float()) / area.clamp(min=30) ** 0.75
    half = labels['geometry'][:, 3].float()
    # Stubs shorter than a diameter and a half say nothing.
    long_enough = area[flat].reshape(n, h, w) > 6 * half * half
    ok = (instance > 0) & (labels['covering'] != 4) & (half > least_half_width) & long_enough
    p = weight[flat].reshape(n, -1) * ok.reshape(n, -1).float() + 1e-12
    at = torch.multinomial(p, per_picture, replacement=True)
    return torch.stack([at % w, at // w], -1)


def _read(plane, picture, x, y):
    """Nearest pixel of `plane` [n, h, w] or [n, c, h, w] at float places (pixel corners at whole numbers)."""
    h, w = plane.shape[-2:]
    xi, yi = x.floor().long().clamp(0, w - 1), y.floor().long().clamp(0, h - 1)
    return plane[picture, yi, xi] if plane.ndim == 3 else plane[picture, :, yi, xi]


def center_lines(labels, starts):
    """Rows of each conductor: centers [m, ROWS, 2], directions [m, ROWS, 2], half widths [m, ROWS], seen [m, ROWS]."""
    n, per, _ = starts.shape
    d = starts.device
    picture = torch.arange(n, device=d).repeat_interleave(per)
    begin = starts.reshape(-1, 2).float() + 0.5
    geometry, instance = labels['geometry'], labels['instance']
    h, w = instance.shape[-2:]
    main = _read(instance, picture, begin[:, 0], begin[:, 1])

    def axis(at):
        g = _read(geometry, picture2, at[:, 0], at[:, 1]).float()
        t = 0.5 * torch.atan2(g[:, 1], g[:, 0])
        t = torch.where(t < 0, t + torch.pi, t)
        return torch.stack([t.cos(), t.sin()], 1), g[:, 2], g[:, 3].clamp(1, 300)

    # Both ways at once.
    picture2, main2 = picture.repeat(2), main.repeat(2)
    at = begin.repeat(2, 1)
    way, across, half = axis(at)
    at = at - torch.stack([-way[:, 1], way[:, 0]], 1) * (across * half)[:, None]
    sign = torch.cat([torch.ones(len(begin), device=d), -torch.ones(len(begin), device=d)])
    way = way * sign[:, None]
    patience = torch.where(torch.rand(len(begin), device=d) < 0.12, 5.0, RUNS_ON).repeat(2) * ACROSS
    lost = torch.zeros(len(at), device=d)
    alive = torch.ones(len(at), dtype=torch.bool, device=d)
    rows = []
    for _ in range(ROWS // 2):
        rows.append((at, way, half, alive))
        step = half * (2 / ACROSS)
        at = at + way * step[:, None]
        inside = (at[:, 0] > 1) & (at[:, 1] > 1) & (at[:, 0] < w - 1) & (at[:, 1] < h - 1)
        own = (_read(instance, picture2, at[:, 0], at[:, 1]) == main2) & inside
        new, across, wide = axis(at)
        new = new * torch.sign((new * way).sum(1, keepdim=True) + 1e-6)
        off = torch.stack([-new[:, 1], new[:, 0]], 1)
        # The label's across is signed for t in [0, pi): the sign turns with the direction.
        side = torch.where((new[:, 1] > 0) | ((new[:, 1] == 0) & (new[:, 0] > 0)), 1.0, -1.0)
        smooth = way + 0.5 * new
        smooth = smooth / smooth.norm(dim=1, keepdim=True).clamp(min=1e-6)
        o = own[:, None]
        at = torch.where(o, at - 0.3 * off * (side * across * wide)[:, None], at)
        way = torch.where(o, smooth, way)
        half = torch.where(own, 0.8 * half + 0.2 * wide, half)
        lost = torch.where(own, torch.zeros_like(lost), lost + 1)
        alive = alive & inside & (lost < patience)
    m = len(begin)
    stack = lambda k: torch.stack([r[k] for r in rows], 1)
    parts = []
    for k in range(4):
        s = stack(k)
        back, forth = s[m:].flip(1), s[:m]
        if k == 1:
            back = -back
        parts.append(torch.cat([back, forth], 1))
    return picture, main, *parts


def wobble(m, rows, d, knots=6):
    """Smooth noise along the rows, [m, rows]."""
    return torch.nn.functional.interpolate(torch.randn(m, 1, knots, device=d), rows, mode='linear', align_corners=True)[:, 0]


def ribbons(linear, clipped, wire, labels, per_picture):
    """Cells of `per_picture` conductors a picture.

    linear [n, 3, h, w]: the stored picture in linear light; clipped [n, h, w]: 1 where a channel is; wire [n, h, w].
    Returns rgb [m, ROWS, 12, 3], usable, wire, label [m, ROWS, 12] (CELLS of net.py), seen [m, ROWS], width [m], striped [m].
    """
    picture, main, at, way, half, seen = center_lines(labels, start_points(labels, per_picture))
    m, rows, _ = at.shape
    d = at.device
    jitter = lambda s: s * torch.randn(m, 1, device=d)
    half = half.median(1, keepdim=True).values * 0.5 + half * 0.5
    half = half * (jitter(0.10) + 0.05 * wobble(m, rows, d)).clamp(-0.3, 0.4).exp()
    off = (jitter(0.07) + 0.05 * wobble(m, rows, d)) * half
    normal = torch.stack([-way[..., 1], way[..., 0]], -1)
    x = (2 * torch.arange(ACROSS, device=d) + 1) / ACROSS - 1
    place = at[:, :, None] + normal[:, :, None] * (off[..., None] + half[..., None] * x)[..., None]
    n, _, h, w = linear.shape
    per = m // n
    # All ribbons of a picture in one call; they stand in the order of the pictures.
    grid = place.reshape(n, per * rows, ACROSS, 2)
    size = torch.tensor([w, h], device=d)
    rgb = torch.nn.functional.grid_sample(linear, 2 * grid / size - 1, mode='bilinear', align_corners=False)
    rgb = rgb.permute(0, 2, 3, 1).reshape(m, rows, ACROSS, 3)
    px, py = place[..., 0], place[..., 1]
    pic = picture[:, None, None].expand(m, rows, ACROSS)
    read = lambda plane: _read(plane, pic, px, py)
    inside = (px > 1) & (py > 1) & (px < w - 1) & (py < h - 1)
    usable = inside & seen[..., None] & (read(clipped) == 0)
    covering, stripe = read(labels['covering']), read(labels['stripe'])
    own = (read(labels['instance']) == main[:, None, None]) & inside
    low = stripe & 15
    label = torch.full((m, rows, ACROSS), 4, device=d)
    label[own & ((covering == 1) | (covering == 4))] = 0
    label[own & (low > 0) & (low < 15)] = 1
    label[own & (low == 15)] = 5
    label[own & (covering == 3)] = 2
    label[own & (covering == 2)] = 3
    # How it is striped: by what is seen of it; too little is not asked about.
    inner = (slice(None), slice(None), slice(1, -1))
    asked = (own & seen[..., None])[inner]
    on = asked & (label[inner] == 1)
    share = on.sum((1, 2)) / asked.sum((1, 2)).clamp(min=1)
    kinds = torch.stack([(on & (stripe[inner] >> 4 == k)).sum((1, 2)) for k in range(3)], 1)
    striped = torch.where(share > 0.02, 1 + kinds.argmax(1), torch.where(share > 0, torch.full_like(main, -100, dtype=torch.long), torch.zeros_like(main, dtype=torch.long)))
    return {'rgb': rgb, 'usable': usable, 'wire': read(wire), 'label': label, 'seen': seen, 'width': 2 * half.median(1).values, 'striped': striped,
            'color': _read(labels['color'], picture, at[:, rows // 2, 0], at[:, rows // 2, 1])}
