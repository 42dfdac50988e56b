"""Prints small pictures of simulated scenes as JSON Lines, to try the estimate of the light on pictures.

    python3 models/palette/make_pictures.py [--photos 600] [--seed 5] | npx tsx test/color/measure/light.ts

The held-out camera, lamps and ageing. A picture shows an enclosure (its wall and up to five plates and labels: paints,
galvanized metal, wood, cardboard, black plastic; assumed), conductors across it as lit cylinders, a soft shadow, noise, 8 bits. A third of
them are lit by a second lamp from one side (assumed). A line: {"width", "height", "rgb": base64 of 8-bit sRGB, "cast":
[ln r/g, ln b/g] of the light in the middle, "left" and "right" of it, "mixed": whether two lamps meet, "noise": in linear
light at mid gray, "conductors": [{"name", "row" in the middle column, "width" in pixels}]}.
"""

import argparse
import base64
import json

import numpy as np

import make_readings as m
import simulate as s

WIDTH, HEIGHT = 128, 96
# CIELAB of what stands around conductors and how often it is met. Assumed.
AROUND = [
    ([62, 0, 1], 3), ([70, -1, 3], 2), ([48, 0, -1], 2), ([84, 0, 4], 2), ([90, 0, 2], 1), ([22, 0, 0], 2), ([35, 1, 2], 1),
    ([66, 8, 24], 1.5), ([58, 10, 22], 1), ([72, 2, 14], 1), ([55, -6, -8], 0.7), ([45, 25, 20], 0.5), ([75, -2, 40], 0.3),
]


def paint(rng, n):
    weights = np.array([w for _, w in AROUND])
    lab = np.array([lab for lab, _ in AROUND], float)[rng.choice(len(AROUND), n, p=weights / weights.sum())]
    return np.clip(lab + rng.normal(size=(n, 3)) * [5, 1.5, 2.5], [3, -100, -100], [96, 100, 100])


def cast_of(lamp, casts, rng):
    if rng.random() < m.LAMP_SHARE:
        return casts[lamp] * rng.uniform(0.15, 0.5) + rng.normal(size=2) * 0.05
    return rng.multivariate_normal([0, 0], m.NEUTRAL)


def pictures(photos, seed, world=None, cast_of=cast_of):
    """Yields `photos` pictures as dictionaries, `levels` (HEIGHT x WIDTH x 3, 8 bits) and what is true of it (`white`: luminance
    of a white where the picture is lit best). `world` holds
    camera, light and ageing (the held-out one when left out), `cast_of` what the white balance leaves of a lamp."""
    rng = np.random.default_rng(seed)
    scene = s.PALETTE["heldOut"]["scene"]
    held = world or s.PALETTE["heldOut"]
    prior = {k: v for k, v in s.PALETTE["prior"].items() if k in s.NAMES}
    p = np.sqrt(np.array(list(prior.values())))
    casts = {k: m.lamp_cast(k) for k in held["light"] if k in s.LAMPS}
    yy, xx = np.mgrid[0:HEIGHT, 0:WIDTH].astype(float)
    for count in range(photos):
        camera = held["camera"][count % len(held["camera"])]
        lamp = s.draw_lamps(held["light"], 1, rng)[0]
        white = cast_of(lamp, casts, rng)
        mixed = rng.random() < 1 / 3
        # The second lamp differs from the first as lamps do; the camera balanced for the first.
        other = white + (rng.normal(size=2) * 0.04 + np.array([1, -1.1]) * rng.choice([-1, 1]) * rng.uniform(0.15, 0.45))
        side = 1 / (1 + np.exp(-(xx - WIDTH * rng.uniform(0.3, 0.7)) / (WIDTH * 0.08))) if mixed else np.zeros_like(xx)
        cast = white + side[..., None] * (other - white)
        light = np.stack([np.exp(cast[..., 0]), np.ones_like(xx), np.exp(cast[..., 1])], -1)

        plates = rng.integers(1, 6)
        flats = s.through(s.reflectance(paint(rng, plates + 1)), np.array([lamp] * (plates + 1)), camera)
        picture = np.broadcast_to(flats[0], (HEIGHT, WIDTH, 3)).copy()
        for k in range(plates):
            x, y = rng.integers(0, WIDTH - 12), rng.integers(0, HEIGHT - 10)
            picture[y : y + rng.integers(8, 60), x : x + rng.integers(10, 70)] = flats[k + 1]
        shade = 2 ** (-0.9 * rng.random() * np.hypot((xx - WIDTH * rng.random()) / WIDTH, (yy - HEIGHT * rng.random()) / HEIGHT) * 2)
        shade = shade * 2 ** (-rng.uniform(0, 1.5))

        n = rng.integers(scene["conductors"][0], scene["conductors"][1] + 1)
        colors = rng.choice(list(prior), rng.integers(scene["colors"][0], scene["colors"][1] + 1), p=p / p.sum())
        names = rng.choice(colors, n)
        body = np.concatenate([s.seen(str(name), 1, rng, np.array([lamp]), np.array([camera]), True, held["ageing"]) for name in names])
        rows = np.sort(rng.choice(np.arange(6, HEIGHT - 6), n, replace=False))
        widths = rng.uniform(3, 9, n)
        for k in range(n):
            slope = rng.uniform(-0.08, 0.08)
            t = (yy - rows[k] - slope * (xx - WIDTH / 2)) / (widths[k] / 2)
            on = np.abs(t) < 1
            round_ = np.sqrt(np.maximum(0, 1 - t**2))
            glint = 0.35 * rng.random() ** 2 * np.exp(-(((t + 0.3) / 0.15) ** 2))
            picture = np.where(on[..., None], body[k] * (0.2 + 0.8 * round_)[..., None] + glint[..., None], picture)
        exposure = 2 ** (0.5 * rng.normal())
        look = s.processing(1, rng)
        lit = (picture * shade[..., None] * light * exposure + 0.002).reshape(-1, 3)
        look = tuple(np.broadcast_to(v, (len(lit), 1)) for v in look)
        out = s.develop(lit, look)
        noise = np.exp(rng.uniform(*np.log(scene["noise"])))
        out = out + rng.normal(size=out.shape) * noise * np.sqrt(np.maximum(out, 0.02) / 0.2)
        levels = np.round(s.encode(out) * 255).astype(np.uint8).reshape(HEIGHT, WIDTH, 3)
        yield {
            "levels": levels, "white": s.develop(np.full((1, 3), shade.max() * exposure), tuple(v[:1] for v in look))[0, 1], "mixed": bool(mixed), "noise": noise, "cast": cast[HEIGHT // 2, WIDTH // 2],
            "left": cast[HEIGHT // 2, WIDTH // 6], "right": cast[HEIGHT // 2, WIDTH * 5 // 6],
            "conductors": [{"name": str(names[k]), "row": int(rows[k]), "width": round(float(widths[k]), 1)} for k in range(n)],
        }


def main():
    args = argparse.ArgumentParser()
    args.add_argument("--photos", type=int, default=600)
    args.add_argument("--seed", type=int, default=5)
    args = args.parse_args()
    for picture in pictures(args.photos, args.seed):
        print(json.dumps({
            "width": WIDTH, "height": HEIGHT, "rgb": base64.b64encode(picture["levels"].tobytes()).decode(),
            "mixed": picture["mixed"], "noise": round(float(picture["noise"]), 4), "conductors": picture["conductors"],
            **{k: [round(float(v), 4) for v in picture[k]] for k in ("cast", "left", "right")},
        }))


if __name__ == "__main__":
    main()
