"""Trains the reader on conductors of scenes that are rendered as it goes, on one GPU.

    python3 train.py --library libhprender.so --network ../checkpoint.pt --out FOLDER --stop-at $(($(date +%s) + 560))

Trains the narrow and the wide reader on the same ribbons and writes FOLDER/narrow.pt and FOLDER/wide.pt; `export.py` makes
TypeScript of them. Seeds are counted from --seed on; those from 2^60 on are never trained on.
"""
import argparse
import json
import math
import random
import sys
import time
from pathlib import Path

import torch
import torch.nn.functional as F

HERE = Path(__file__).parent
sys.path.append(str(HERE.parent))
import traced  # noqa: E402
from data import planes  # noqa: E402
from follow import ribbons  # noqa: E402
from mixture import MIXTURE  # noqa: E402
from net import CELLS, SHAPES, Reader  # noqa: E402


def sibling(name, folder):
    """A module of the folder above under a name of its own: both folders have a net.py."""
    import importlib.util
    spec = importlib.util.spec_from_file_location(f'network_{name}', folder / f'{name}.py')
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


network = sibling('net', HERE.parent)
from camera import jpeg, photograph, to_linear, to_srgb, uniform  # noqa: E402
from renderer import Pool, Renderer  # noqa: E402

SIZE = 640
CELL_WEIGHT = [1.0, 2.0, 1.6, 2.0, 0.8, 1.5]
# Sides at which the network looks: src/vision/network/segmenter.ts enlarges or shrinks to about its budget.
LOOKS = (512, 640, 832)


def plain_camera(linear):
    """A good phone held still: test/vision/ribbon/scenes.ts draws the same ranges. Stored sRGB in 0..1."""
    n, d = len(linear), linear.device
    peak = linear.reshape(n, -1)[:, ::37].quantile(0.97, dim=1).reshape(n, 1, 1, 1) + 1e-4
    y = to_srgb((linear * uniform(n, 0.45, 1.1, d) / peak).clamp(0, 1))
    sigma = uniform(n, 0.3, 0.9, d)
    axis = torch.arange(-3, 4, device=d).float()
    k = (-axis ** 2 / (2 * sigma.reshape(n, 1) ** 2)).exp()
    k = (k / k.sum(1, keepdim=True)).repeat_interleave(3, 0)
    y = F.pad(y, (3, 3, 3, 3), mode='replicate').reshape(1, 3 * n, linear.shape[-2] + 6, linear.shape[-1] + 6)
    y = F.conv2d(F.conv2d(y, k[:, None, :, None], groups=3 * n), k[:, None, None, :], groups=3 * n).reshape(linear.shape)
    y = (y + torch.randn_like(y) * uniform(n, 1, 4, d) / 255).clamp(0, 1)
    return (jpeg(y, uniform(n, 80, 96, d, 0)) * 255).round() / 255


@torch.no_grad()
def examples(net, calibration, picked, per_picture):
    """Ribbons of rendered scenes as `ribbons` returns them, seen through one of two cameras and by the network."""
    x = picked['rgb'].float()
    rough = len(x) // 4
    stored = torch.cat([photograph(x[:rough]), plain_camera(x[rough:])])
    side = random.choice(LOOKS)
    look = F.interpolate(stored, (side, side), mode='bilinear', antialias=True, align_corners=False)
    with torch.autocast(look.device.type, torch.bfloat16):
        full = torch.cat([net(look[i:i + 8])[0] for i in range(0, len(look), 8)]).float()
    z = network.wire_logit(full) * calibration['scale'] + calibration['shift']
    wire = F.interpolate(z, (SIZE, SIZE), mode='bilinear', align_corners=False)[:, 0].sigmoid()
    clipped = F.max_pool2d((stored >= 252 / 255).float().amax(1, keepdim=True), 3, 1, 1)[:, 0]
    return ribbons(to_linear(stored), clipped, wire, picked, per_picture)


def drawn(kept, count):
    """`count` ribbons of the batches in `kept`, about equally many of each."""
    per = -(-count // len(kept))
    index = [torch.randint(0, len(b['width']), (per,), device=b['width'].device) for b in kept]
    return {k: torch.cat([b[k][i] for b, i in zip(kept, index)])[:count] for k in kept[0]}


def grown(lines, packed, folder, device):
    """Traced ribbons with what has been packed since; files are moved into place, so each is whole."""
    fresh = sorted(set(Path(folder).glob('*.npz')) - set(packed))
    if not fresh:
        return lines, packed
    more = traced.read(fresh, device)
    both = {k: torch.cat([lines[k], more[k]]) for k in more} if lines else more
    return both, packed + fresh


def inputs(r, train, drawn=0):
    """What the reader sees, what it should say and where that counts. The first `drawn` ribbons never met a tracer."""
    m, d = len(r['width']), r['width'].device
    turn, wire = None, r['wire']
    if train:
        angle = torch.rand(m, device=d) * 2 * math.pi * (torch.rand(m, device=d) < 0.5)
        stretch = 0.8 + 0.4 * torch.rand(m, device=d)
        turn = torch.stack([stretch * angle.cos(), stretch * angle.sin()], 1)
        wire = torch.where(torch.rand(m, 1, 1, device=d) < 0.15, torch.full_like(wire, 0.5), wire)
    x = planes(r['rgb'], r['usable'], wire, r['width'], turn)
    y, w = r['label'], (r['usable'] & r['seen'][..., None]).float()
    if train:
        if drawn:
            x, y, w = (torch.cat([a, b[drawn:]]) for a, b in zip(astray(x[:drawn], y[:drawn], w[:drawn]), (x, y, w)))
        # Nothing but tape in sight: nobody could tell it from insulation, so it is not asked about.
        alone = ((y == 0) | (y == 1)).float().mul(w).sum((1, 2)) < 0.03 * w.sum((1, 2))
        w = torch.where(alone[:, None, None] & (y == 2), 0.0, w)
        x[:, :5] += 0.02 * torch.randn_like(x[:, :5])
        # A conductor is often seen for a part of its length only.
        rows = x.shape[2]
        size = torch.where(torch.rand(m, device=d) < 0.6, torch.full((m,), rows, device=d), torch.randint(24, rows, (m,), device=d))
        first = (torch.rand(m, device=d) * (rows - size + 1)).long()
        row = torch.arange(rows, device=d)
        cut = ((row >= first[:, None]) & (row < (first + size)[:, None]))[:, :, None].float()
        x = x * cut[:, None]
        w = w * cut
        for axis in (1, 2):
            if random.random() < 0.5:
                x, y, w = x.flip(axis + 1), y.flip(axis), w.flip(axis)
    return x, y, w


def astray(x, y, w, share=0.12):
    """Some ribbons go on along another conductor, as traces do that miss a crossing; what follows is not this conductor."""
    m, rows = y.shape[:2]
    row = torch.arange(rows, device=y.device)
    cut = torch.where(torch.rand(m, device=y.device) < share, torch.randint(24, rows - 8, (m,), device=y.device), rows)
    gone = (row >= cut[:, None])[:, :, None]
    other = torch.randperm(m, device=y.device)
    return (torch.where(gone[:, None], x[other], x), torch.where(gone, torch.full_like(y, 4), y),
            torch.where(gone, w[other], w))


def share_left(y, w):
    """Share of the seen own cells that are stripe after cutting, by which the whole conductor is asked about."""
    inner = slice(1, -1)
    own = ((y != 4) * w)[:, :, inner].sum((1, 2))
    return ((y == 1) * w)[:, :, inner].sum((1, 2)) / own.clamp(min=1)


class Learner:
    """A reader being trained, and the running mean of its weights, which is what is kept."""

    def __init__(self, shape, device, args):
        self.shape, self.device, self.path = shape, device, Path(args.out) / f'{shape}.pt'
        self.net, self.mean = Reader(shape).to(device), Reader(shape).to(device)
        if args.resume:
            self.net.load_state_dict(torch.load(Path(args.resume) / f'{shape}.pt', map_location=device))
        self.mean.load_state_dict(self.net.state_dict())
        self.optimizer = torch.optim.AdamW(self.net.parameters(), args.learning_rate, weight_decay=1e-3)
        self.sums = [0.0, 0.0]

    def learn(self, x, y, w, g, lr, weight, step):
        for group in self.optimizer.param_groups:
            group['lr'] = lr
        with torch.autocast(self.device.type, torch.bfloat16, enabled=self.device.type == 'cuda'):
            cells, layout = self.net(x)
        of_cells = (F.cross_entropy(cells.float(), y, weight, reduction='none') * w).sum() / (w.sum() + 1)
        of_layout = F.cross_entropy(layout.float(), g, ignore_index=-100)
        self.optimizer.zero_grad(set_to_none=True)
        (of_cells + 0.6 * of_layout).backward()
        torch.nn.utils.clip_grad_norm_(self.net.parameters(), 1.0)
        self.optimizer.step()
        with torch.no_grad():
            decay = min(0.998, (step + 1) / (step + 20))
            for a, b in zip(self.mean.parameters(), self.net.parameters()):
                a.lerp_(b, 1 - decay)
        self.sums = [self.sums[0] + of_cells.detach(), self.sums[1] + of_layout.detach()]

    def told(self, steps):
        cells, layout = (float(s) / steps for s in self.sums)
        self.sums = [0.0, 0.0]
        return f'{self.shape}: cells {cells:.4f} layout {layout:.4f}'

    def save(self):
        torch.save(self.mean.state_dict(), self.path)


def run():
    p = argparse.ArgumentParser()
    p.add_argument('--library', required=True)
    p.add_argument('--network', required=True)
    p.add_argument('--out', required=True)
    p.add_argument('--stop-at', type=float, required=True)
    p.add_argument('--resume', help='a folder with narrow.pt and wide.pt')
    p.add_argument('--only', choices=list(SHAPES))
    p.add_argument('--seed', type=int, default=1 << 50)
    p.add_argument('--pictures', type=int, default=24)
    p.add_argument('--per-picture', type=int, default=32)
    p.add_argument('--steps', type=int, default=10 ** 9)
    p.add_argument('--learning-rate', type=float, default=2e-3)
    p.add_argument('--pool', type=int, default=768)
    p.add_argument('--uses', type=int, default=4, help='steps taken for each batch of new ribbons')
    p.add_argument('--kept', type=int, default=48, help='batches of ribbons that steps draw from')
    p.add_argument('--traced', help='folder in which traced.py packs ribbons, also while this runs')
    p.add_argument('--traced-share', type=float, default=0.9, help='of each step, once there are many')
    p.add_argument('--validation', type=int, default=192, help='held-out scenes')
    args = p.parse_args()
    began = time.time()
    say = lambda *w: print(f'{time.time() - began:6.1f}s', *w, flush=True)
    d = torch.device('cuda' if torch.cuda.is_available() else 'cpu')
    torch.backends.cudnn.benchmark = True
    torch.set_float32_matmul_precision('high')
    renderer = Renderer(args.library, d, None, None, 4)
    renderer.mark(0.85)
    pool = Pool(renderer, args.pool, SIZE, min(32, args.pool), 6.0, args.seed, renderer.mixture(MIXTURE))
    network_net = network.load_net(args.network, d)
    calibration = json.loads((HERE.parent / 'calibration.json').read_text())
    learners = {s: Learner(s, d, args) for s in SHAPES if args.only in (None, s)}
    weight = torch.tensor(CELL_WEIGHT, device=d)
    say({s: sum(p.numel() for p in one.net.parameters()) for s, one in learners.items()}, 'weights')
    pool.feed(0)
    step, last, kept = 0, time.time(), []
    lines, packed, looked = None, [], 0.0
    while step < args.steps:
        share = (time.time() - began) / max(1, args.stop_at - 20 - began)
        if share >= 1:
            break
        # Making ribbons takes most of the time: each is seen several times, cut and turned anew.
        if step % args.uses == 0:
            index = torch.randint(0, pool.filled, (args.pictures,), device=d)
            picked = {k: v[index] for k, v in pool.planes.items()}
            fresh = examples(network_net, calibration, picked, args.per_picture)
            pool.feed(args.pictures)
            kept = (kept + [fresh])[-args.kept:]
        if args.traced and time.time() - looked > 20:
            lines, packed = grown(lines, packed, args.traced, d)
            looked = time.time()
        total = args.pictures * args.per_picture
        known = len(lines['width']) if lines else 0
        # A few lines are not seen over and over again while more are being traced.
        of_lines = int(total * args.traced_share * min(1, known / 8192))
        r = drawn(kept, total - of_lines)
        if of_lines:
            more = traced.sample(lines, of_lines)
            r = {k: torch.cat([r[k], more[k]]) for k in more}
        x, y, w = inputs(r, True, total - of_lines)
        left = share_left(y, w)
        # Too little of a stripe left in sight is not asked about, none is none.
        g = torch.where(left > 0.02, r['striped'], torch.where(left > 0, -100, 0))
        lr = args.learning_rate * min(1, (step + 1) / 200) * (0.5 + 0.5 * math.cos(math.pi * min(1, share))) + 1e-5
        for one in learners.values():
            one.learn(x, y, w, g, lr, weight, step)
        step += 1
        every = 20 if step <= 100 else 200
        if step % every == 0:
            now = time.time()
            say(f'step {step} share {share:.2f} {every * len(x) / (now - last):.0f} ribbons/s made {pool.made} traced {known}',
                *(one.told(every) for one in learners.values()))
            last = now
            for one in learners.values():
                one.save()
        if step == 20:
            look_at(r, Path(args.out) / 'ribbons.png')
    pool.stop()
    for one in learners.values():
        one.save()
        if args.validation:
            validate(renderer, one.mean, network_net, calibration, say, args.validation)
    say('done', step, 'steps')


@torch.no_grad()
def validate(renderer, net, network_net, calibration, say, scenes):
    """Held-out scenes, every one marked: how well cells and stripes are told."""
    renderer.mark(1.0)
    torch.manual_seed(1)
    random.seed(1)
    hits, said, there = (torch.zeros(len(CELLS)) for _ in range(3))
    odds, truth = [], []
    for first in range(0, scenes, 32):
        seeds = [(1 << 60) + i for i in range(first, min(scenes, first + 32))]
        picked = renderer.render(seeds, renderer.mixture(MIXTURE), SIZE)
        r = examples(network_net, calibration, picked, 24)
        x, y, w = inputs(r, False)
        cells, layout = net(x)
        best = cells.argmax(1)
        for k in range(len(CELLS)):
            a, b, c = (best == k) & (w > 0), (y == k) & (w > 0), w > 0
            hits[k] += (a & b & c).sum().cpu()
            said[k] += a.sum().cpu()
            there[k] += b.sum().cpu()
        odds.append(torch.logsumexp(layout[:, 1:], 1) - layout[:, 0])
        truth.append(r['striped'])
    for k, name in enumerate(CELLS):
        say(f'{name}: recall {hits[k] / there[k].clamp(min=1):.3f} precision {hits[k] / said[k].clamp(min=1):.3f} of {int(there[k])}')
    odds, truth = torch.cat(odds), torch.cat(truth)
    for bar in (0, 1, 2, 3, 4, 5):
        told = odds > bar
        say(f'striped above {bar}: recall {(told & (truth > 0)).sum() / (truth > 0).sum():.3f}',
            f'precision {(told & (truth > 0)).sum() / (told & (truth > -1)).sum().clamp(min=1):.3f}',
            f'of plain {(told & (truth == 0)).sum() / (truth == 0).sum():.4f}')


def look_at(r, path):
    """Ribbons and their labels side by side, to be looked at."""
    from PIL import Image
    tint = torch.tensor([[60, 60, 60], [255, 230, 40], [230, 60, 200], [250, 140, 40], [10, 10, 10], [120, 200, 255]], device=r['rgb'].device)
    n = min(48, len(r['rgb']))
    rgb = (to_srgb(r['rgb'][:n]) * 255).clamp(0, 255) * r['seen'][:n, :, None, None]
    both = torch.cat([rgb, tint[r['label'][:n]].float(), torch.zeros_like(rgb[:, :, :2])], 2)
    sheet = both.permute(1, 0, 2, 3).reshape(rgb.shape[1], -1, 3)
    Image.fromarray(sheet.byte().cpu().numpy()).resize((sheet.shape[1] * 2, sheet.shape[0] * 4), 0).save(path)


if __name__ == '__main__':
    run()
