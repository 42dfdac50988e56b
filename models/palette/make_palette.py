"""Makes src/color/palette/palette-data.ts: run `python3 models/palette/make_palette.py` from the project's root.

Simulates readings of every name (simulate.py) and fits a small Gaussian mixture per name to their features.
"""

import json
import pathlib

import numpy as np

import simulate as s

COMPONENTS = {"default": 6, "green": 8, "blue": 8, "red": 8, "brown": 8}
SAMPLES = 6000
FLOOR = np.diag([0.006**2, 0.006**2, 0.15**2])


def fit(x, k, rng, rounds=80):
    """Expectation-maximization; returns weights, means, covariances."""
    n, d = x.shape
    scale = x.std(0)
    means = [x[rng.integers(n)]]
    for _ in range(k - 1):
        dist = np.min([(((x - m) / scale) ** 2).sum(1) for m in means], 0)
        means.append(x[rng.choice(n, p=dist / dist.sum())])
    means = np.stack(means)
    covs = np.stack([np.cov(x.T) / k + FLOOR] * k)
    weights = np.full(k, 1 / k)
    for _ in range(rounds):
        logs = np.stack([np.log(w) + log_normal(x, m, c) for w, m, c in zip(weights, means, covs)], 1)
        top = logs.max(1, keepdims=True)
        resp = np.exp(logs - top)
        resp /= resp.sum(1, keepdims=True)
        mass = resp.sum(0) + 1e-6
        weights = mass / mass.sum()
        means = resp.T @ x / mass[:, None]
        for j in range(k):
            e = x - means[j]
            covs[j] = (resp[:, j, None] * e).T @ e / mass[j] + FLOOR
    return weights, means, covs


def log_normal(x, m, c):
    e = x - m
    return -0.5 * (np.einsum("ni,ij,nj->n", e, np.linalg.inv(c), e) + np.log(np.linalg.det(c)) + x.shape[1] * np.log(2 * np.pi))


def center(name, rng):
    parts = ["green", "yellow"] if name == "green-yellow" else [name]
    return np.mean([s.bodies(p, 4000, rng, aged=False).mean(0) for p in parts], 0)


def main():
    rng = np.random.default_rng(20250)
    prior = s.PALETTE["prior"]
    out = {}
    for name in [*s.NAMES, "green-yellow", *s.METALS]:
        x = s.features(s.readings(name, SAMPLES, rng))
        w, m, c = fit(x, COMPONENTS.get(name, COMPONENTS["default"]), rng)
        out[name] = {
            "prior": prior[name],
            "center": [round(float(v), 2) for v in center(name, rng)],
            "parts": [
                [round(float(v), 5) for v in (w[j], *m[j], c[j, 0, 0], c[j, 0, 1], c[j, 0, 2], c[j, 1, 1], c[j, 1, 2], c[j, 2, 2])]
                for j in np.argsort(-w)
            ],
        }
        print(f"{name:10s} mean {np.round(x.mean(0), 3)} sd {np.round(x.std(0), 3)}")
    root = pathlib.Path(__file__).resolve().parents[2]
    lines = [
        "// Made by models/palette/make_palette.py from models/palette/palette.json and test/published; do not edit.",
        "import type { PaletteData } from './types';",
        "",
        "export const PALETTE_DATA: PaletteData = " + json.dumps(out) + ";",
        "",
    ]
    (root / "src/color/palette/palette-data.ts").write_text("\n".join(lines))


if __name__ == "__main__":
    main()
