"""Trains the estimate of the light from the picture's colors and writes what ships of it.

    python3 models/palette/train_light.py [--epochs 40] [--processes 2] [--scale 1]

Makes src/color/light/chroma-weights.ts and test/color/light-parity.json (what NumPy makes of three pictures, with loops
of its own). Needs NumPy and PyTorch, on a GPU where there is one; 44,000 pictures take 16 processes 4 minutes and training
half a minute on an H100, hours on two cores; --scale 0.1 makes a tenth of the pictures.

The idea is Barron's, "Convolutional Color Constancy", ICCV 2015: a light moves all log chromaticities of a picture alike,
so a histogram of them is looked at by a filter that moves along. Here the filter is a small network of convolutions, and
its answer is the mean and covariance of a map over the light, trained for the likelihood of the true one. Lights are drawn
far and wide, with no regard to what white balance leaves, so that the answer is a likelihood without a prior. Pictures are
of the palette's and the calibration's world (palette.json), surroundings of the second more colorful; what is measured
(make_pictures.py, heldOut) is of neither.
"""

import argparse
import base64
import json
import math
import multiprocessing
import pathlib

import numpy as np

import make_pictures as mp
import simulate as s

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
BINS, WIDTH = 32, 0.1
REACH = BINS * WIDTH / 2
CHANNELS = 8
# Side and spacing of the kernels, first to last.
KERNELS = [(5, 1), (3, 2), (3, 4), (3, 8), (3, 1)]
# No answer is surer than this variance.
FLOOR = 6e-4
CLIPPED, BLACK = 250, 4
# Bare log ratios of a channel this dark are noise; edges fainter than this in one channel too.
DARK, FAINT = 1e-4, 2e-4
BRIGHT_SHARE = 0.1
LINEAR = s.decode(np.arange(256) / 255)
AROUND = mp.AROUND


def wide(_lamp, _casts, rng):
    return rng.uniform(-0.5, 0.5) * np.array([1, -1.25]) + rng.normal(size=2) * 0.12


def splat(u, v, w):
    """Histogram whose points are shared out to the four nearest bins; ends collect what lies beyond. Sums to 1."""
    hist = np.zeros((BINS, BINS))
    x, y = (np.clip((t + REACH) / WIDTH - 0.5, 0, BINS - 1.001) for t in (u, v))
    i, j = x.astype(int), y.astype(int)
    for a, wa in ((0, 1 - (x - i)), (1, x - i)):
        for b, wb in ((0, 1 - (y - j)), (1, y - j)):
            np.add.at(hist, (i + a, j + b), wa * wb * w)
    return hist / max(hist.sum(), 1e-9)


def histograms(levels):
    """4 x BINS x BINS of an 8-bit picture: all cells, cells by their light, the brightest, edges. Square roots."""
    pad = np.pad(levels, ((0, 1), (0, 1), (0, 0)), mode="edge")
    four = np.stack([pad[dy : dy + levels.shape[0], dx : dx + levels.shape[1]] for dy in (0, 1) for dx in (0, 1)])
    rgb = LINEAR[four].mean(0)
    top = four.max((0, 3))
    usable = (top < CLIPPED) & (top > BLACK)
    log = np.log(np.maximum(rgb, 1e-9))
    u, v = log[..., 0] - log[..., 1], log[..., 2] - log[..., 1]
    light = rgb @ s.SRGB_TO_XYZ[1]
    on = usable & (rgb.min(-1) > DARK)
    if on.sum() < 64:
        return None
    bright = on & (light >= np.sort(light[on])[int((1 - BRIGHT_SHARE) * on.sum())])
    edge = np.hypot(rgb[:-1, 1:] - rgb[:-1, :-1], rgb[1:, :-1] - rgb[:-1, :-1])
    near = on[:-1, :-1] & on[:-1, 1:] & on[1:, :-1] & (edge.min(-1) > FAINT)
    e = np.log(edge[near])
    return np.sqrt(np.stack([
        splat(u[on], v[on], np.ones(on.sum())), splat(u[on], v[on], light[on]), splat(u[bright], v[bright], np.ones(bright.sum())),
        splat(e[:, 0] - e[:, 1], e[:, 2] - e[:, 1], edge[near].sum(-1)),
    ]))


def make(task):
    kind, seed, count = task
    if kind == "calibration":
        more = [[40, 10, -25], [50, -25, 10], [45, 30, 25], [65, 20, 50], [30, 0, -5]]
        mp.AROUND = [(lab, 1) for lab in [*(lab for lab, _ in AROUND), *more]]
        world = s.PALETTE["calibration"]
    else:
        mp.AROUND = AROUND
        world = {"camera": s.PALETTE["camera"]["fitted"], "light": s.PALETTE["light"], "ageing": s.PALETTE["ageing"]}
    made = [(histograms(p["levels"]), p["cast"]) for p in mp.pictures(count, seed, world, wide)]
    made = [(h, cast) for h, cast in made if h is not None]
    return np.array([h for h, _ in made], np.float16), np.array([cast for _, cast in made], np.float32)


def train(hists, casts, epochs):
    import torch

    torch.manual_seed(0)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    sizes = [4, *[CHANNELS] * (len(KERNELS) - 1), 1]
    layers = []
    for k, (side, apart) in enumerate(KERNELS):
        layers += [torch.nn.Conv2d(sizes[k], sizes[k + 1], side, padding=apart * (side // 2), dilation=apart), torch.nn.ReLU()]
    net = torch.nn.Sequential(*layers[:-1]).to(device)
    grid = (torch.arange(BINS, device=device) + 0.5) * WIDTH - REACH
    x, t = torch.tensor(hists).to(device), torch.tensor(casts).to(device)
    batch = 256 if len(x) > 5000 else 64
    rate, steps = 6e-3, epochs * (len(x) // batch)
    step = torch.optim.AdamW(net.parameters(), lr=rate, weight_decay=1e-3)
    plan = torch.optim.lr_scheduler.OneCycleLR(step, rate, total_steps=steps + 1)
    for epoch in range(epochs):
        order = torch.randperm(len(x), device=device)
        for k in range(len(x) // batch):
            pick = order[k * batch : (k + 1) * batch]
            p = torch.softmax(net(x[pick].float()).flatten(1), 1).view(-1, BINS, BINS)
            pu, pv = p.sum(2), p.sum(1)
            u, v = (pu * grid).sum(1), (pv * grid).sum(1)
            du, dv = grid - u[:, None], grid - v[:, None]
            a, c = (pu * du**2).sum(1) + FLOOR, (pv * dv**2).sum(1) + FLOOR
            b = torch.einsum("nij,ni,nj->n", p, du, dv)
            eu, ev = t[pick, 0] - u, t[pick, 1] - v
            det = a * c - b * b
            loss = (0.5 * (torch.log(det) + (c * eu**2 - 2 * b * eu * ev + a * ev**2) / det) + math.log(2 * math.pi)).clamp(max=12).mean()
            step.zero_grad()
            loss.backward()
            torch.nn.utils.clip_grad_norm_(net.parameters(), 1)
            step.step()
            plan.step()
        print(f"epoch {epoch + 1}: {loss.item():.3f}", flush=True)
    return [p.detach().cpu().numpy().astype(np.float16) for p in net.parameters()]


def answer(hist, weights):
    """Mean and covariance (uu, uv, vv) of the light, by loops over the kernels' places."""
    h = hist.astype(float)
    for k, (side, apart) in enumerate(KERNELS):
        w, bias = weights[2 * k].astype(float), weights[2 * k + 1].astype(float)
        reach = apart * (side // 2)
        padded = np.pad(h, ((0, 0), (reach, reach), (reach, reach)))
        h = np.zeros((w.shape[0], BINS, BINS)) + bias[:, None, None]
        for i in range(side):
            for j in range(side):
                h += np.tensordot(w[:, :, i, j], padded[:, i * apart : i * apart + BINS, j * apart : j * apart + BINS], 1)
        if k < len(KERNELS) - 1:
            h = np.maximum(h, 0)
    p = np.exp(h[0] - h[0].max())
    p /= p.sum()
    grid = (np.arange(BINS) + 0.5) * WIDTH - REACH
    u, v = (p.sum(1) * grid).sum(), (p.sum(0) * grid).sum()
    du, dv = grid - u, grid - v
    return [u, v, (p.sum(1) * du**2).sum() + FLOOR, du @ p @ dv, (p.sum(0) * dv**2).sum() + FLOOR]


def main():
    args = argparse.ArgumentParser()
    args.add_argument("--epochs", type=int, default=40)
    args.add_argument("--processes", type=int, default=2)
    args.add_argument("--scale", type=float, default=1)
    args.add_argument("--out", type=pathlib.Path, default=ROOT)
    args = args.parse_args()
    tasks = [("palette", 1000 + k, int(1500 * args.scale)) for k in range(16)]
    tasks += [("calibration", 2000 + k, int(1250 * args.scale)) for k in range(16)]
    with multiprocessing.get_context("spawn").Pool(args.processes) as pool:
        made = pool.map(make, tasks, chunksize=1)
    weights = train(np.concatenate([h for h, _ in made]), np.concatenate([c for _, c in made]), args.epochs)
    flat = np.concatenate([w.ravel() for w in weights]).astype(">f2")
    out = args.out / "src/color/light/chroma-weights.ts"
    out.parent.mkdir(parents=True, exist_ok=True)
    out.write_text(f"""/**
 * Weights of the estimate of the light (models/palette/train_light.py, which made this), IEC 60559 binary16, four
 * hexadecimal digits each, in the order of its layers; do not edit.
 */
export const CHROMA_WEIGHTS =
  '{flat.tobytes().hex()}';
""")
    cases = []
    for picture in mp.pictures(3, 77):
        levels = np.ascontiguousarray(picture["levels"][20:60, 30:90])
        hist = histograms(levels)
        cases.append({
            "width": levels.shape[1], "height": levels.shape[0], "rgb": base64.b64encode(levels.tobytes()).decode(),
            "modes": [round(float(h.max()), 6) for h in hist], "light": [round(float(v), 6) for v in answer(hist, weights)],
        })
    parity = args.out / "test/color/light-parity.json"
    parity.parent.mkdir(parents=True, exist_ok=True)
    parity.write_text(json.dumps({"made": "models/palette/train_light.py", "cases": cases}) + "\n")


if __name__ == "__main__":
    main()
