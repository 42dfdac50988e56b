"""How a checkpoint does on labelled real photographs. They measure; nothing is trained on them.

    python3 evaluate.py CHECKPOINT.pt --photos ../shared/real-photos [--instances ../shared/real-instances]
        [--overlays FOLDER] [--points FILE.json] [--scales 0.5,1]

Prints, per threshold and scene, the percent of labelled conductor points found and of background points hit, and
Dice over the photographs with masks. `--points` keeps the log-odds at every point, which is what calibrate.py reads.
"""
import argparse
import json
from pathlib import Path

import numpy as np
import torch
import torch.nn.functional as F
from PIL import Image, ImageDraw

from net import COLORS, load_net, wire_logit

THRESHOLDS = (0.2, 0.35, 0.5, 0.7)


def read(path, device):
    pixels = np.array(Image.open(path).convert('RGB'))
    return torch.from_numpy(pixels).permute(2, 0, 1)[None].float().to(device) / 255


@torch.no_grad()
def outputs(net, x, scale):
    """All planes at the photo's size, looked at `scale` of it: full [1, 10, h, w] and half [1, 15, h, w]."""
    h, w = x.shape[-2:]
    size = [max(64, round(v * scale / 32) * 32) for v in (h, w)]
    full, half = net(F.interpolate(x, size, mode='bilinear', antialias=True, align_corners=False))
    up = lambda y: F.interpolate(y.float(), (h, w), mode='bilinear', align_corners=False)
    return up(full), up(half)


def log_odds(net, x, scales):
    """Mean log-odds of a conductor over the scales, [h, w], and the color scores at the finest."""
    seen = [outputs(net, x, s) for s in scales]
    return torch.stack([wire_logit(f)[0, 0] for f, _ in seen]).mean(0).cpu(), seen[-1][1][0, :13].cpu()


def overlay(path, z, image, threshold):
    photo = np.asarray(Image.open(path).convert('RGB')).astype(np.float32)
    p = torch.sigmoid(z).numpy()[..., None]
    shown = photo * (0.35 + 0.65 * (p > threshold)) * (1 - 0.35 * (p > threshold)) + np.array([40, 255, 90]) * 0.35 * (p > threshold)
    picture = Image.fromarray(np.concatenate([photo, shown], 1).clip(0, 255).astype(np.uint8))
    draw = ImageDraw.Draw(picture)
    for kind in ('points', 'background'):
        for q in image[kind]:
            x, y = q['x'], q['y']
            hit = p[min(p.shape[0] - 1, int(y)), min(p.shape[1] - 1, int(x)), 0] > threshold
            good = hit == (kind == 'points')
            for dx in (0, photo.shape[1]):
                draw.ellipse([x + dx - 7, y - 7, x + dx + 7, y + 7], outline='cyan' if good else 'red', width=3)
                if kind == 'background':
                    draw.line([x + dx - 5, y, x + dx + 5, y], fill='cyan' if good else 'red', width=2)
    return picture


def photo_points(net, folder, scales, device, overlays=None, threshold=0.35):
    """One row a labelled point: photo, source, scene, whether on a conductor, log-odds, color by label and by network."""
    rows = []
    for image in json.loads((Path(folder) / 'index.json').read_text())['images']:
        path = Path(folder) / image['file']
        z, color = log_odds(net, read(path, device), scales)
        for kind in ('points', 'background'):
            for q in image[kind]:
                y, x = min(z.shape[0] - 1, int(q['y'])), min(z.shape[1] - 1, int(q['x']))
                rows.append({'photo': image['file'], 'source': image['source'], 'scene': image['scene'],
                             'conductor': kind == 'points', 'logOdds': round(z[y, x].item(), 4), 'label': q.get('color'),
                             'color': COLORS[int(color[:, y, x].argmax())]})
        if overlays:
            picture = overlay(path, z, image, threshold)
            picture.thumbnail((1600, 1600))
            picture.save(Path(overlays) / f"{image['file'][:3]}.jpg", quality=80)
    return rows


def report(rows, thresholds=THRESHOLDS):
    scenes = sorted({r['scene'] for r in rows})
    odds = np.array([r['logOdds'] for r in rows])
    on = np.array([r['conductor'] for r in rows])
    scene = np.array([r['scene'] for r in rows])
    for t in thresholds:
        hit = odds > np.log(t / (1 - t))
        share = lambda mask: round(100 * float(hit[mask].mean()), 1) if mask.any() else None
        print(t, 'found', share(on), 'background hit', share(~on),
              {s: (share(on & (scene == s)), share(~on & (scene == s))) for s in scenes}, flush=True)
    # The yardstick: how much is found when at most 3 in 100 background points are hit.
    worst = np.sort(odds[~on])[::-1]
    for allowed in (0.01, 0.03):
        t = worst[int(allowed * len(worst))]
        hit = odds > t
        share = lambda mask: round(100 * float(hit[mask].mean()), 1) if mask.any() else None
        print(f'background <= {100 * allowed:.0f} %: threshold {1 / (1 + np.exp(-t)):.2f} found', share(on),
              {s: share(on & (scene == s)) for s in scenes}, flush=True)
    named = [r for r in rows if r['label'] in COLORS]
    print('network names the labelled color', round(100 * np.mean([r['color'] == r['label'] for r in named]), 1), flush=True)


def dice(net, folder, scales, device, thresholds=THRESHOLDS):
    """Percent Dice of conductor against background over all pictures with masks, per threshold."""
    sums = {t: [0, 0] for t in thresholds}
    for image in json.loads((Path(folder) / 'index.json').read_text())['images']:
        runs = json.loads((Path(folder) / image['labels']).read_text())['runs']
        truth = np.repeat(np.array(runs[0::2]) > 0, runs[1::2]).reshape(image['height'], image['width'])
        z, _ = log_odds(net, read(Path(folder) / image['file'], device), scales)
        for t in thresholds:
            found = torch.sigmoid(z).numpy() > t
            sums[t][0] += 2 * (found & truth).sum()
            sums[t][1] += found.sum() + truth.sum()
    return {t: round(100 * float(a / b), 1) for t, (a, b) in sums.items()}


def main():
    p = argparse.ArgumentParser()
    p.add_argument('checkpoint')
    p.add_argument('--photos')
    p.add_argument('--instances')
    p.add_argument('--overlays')
    p.add_argument('--points')
    p.add_argument('--scales', default='0.5,1')
    p.add_argument('--threshold', type=float, default=0.35, help='of the overlays')
    args = p.parse_args()
    device = 'cuda' if torch.cuda.is_available() else 'cpu'
    net, scales = load_net(args.checkpoint, device), [float(s) for s in args.scales.split(',')]
    if args.overlays:
        Path(args.overlays).mkdir(parents=True, exist_ok=True)
    if args.photos:
        rows = photo_points(net, args.photos, scales, device, args.overlays, args.threshold)
        report(rows)
        if args.points:
            Path(args.points).write_text(json.dumps(rows, indent=0))
    if args.instances:
        print('Dice', dice(net, args.instances, scales, device), flush=True)


if __name__ == '__main__':
    main()
