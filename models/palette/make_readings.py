"""Prints simulated photos as JSON Lines: on cameras, lamps and ageing that the palette was not fitted on; or, for
fitting a calibration that shares nothing with what is measured (--for calibration), on others again.

    python3 models/palette/make_readings.py [--photos 3000] [--seed 1] [--for measuring] | npx tsx test/color/measure/simulated.ts

A line: {"cast": [ln r/g, ln b/g] left by the camera, "seen": the same with the error of an estimate,
"anchor": luminance of white, "paper": linear sRGB of white paper held beside them, "bodies": [{"name", "rgb": linear sRGB, "width", "blur", "noise"}]}.
"""

import argparse
import json

import numpy as np

import simulate as s

# The same widths as src/color/light/estimate-light.ts, which says where they come from.
NEUTRAL = np.array([[0.0075, -0.0058], [-0.0058, 0.0095]])
STATISTICS = np.array([[0.075, -0.03], [-0.03, 0.095]])
LAMP_SHARE = 0.12


def lamp_cast(lamp):
    w = s.LAMPS[lamp] @ s.OBSERVER
    r, g, b = np.maximum(s.XYZ_TO_SRGB @ (w / w[1]), 0.02)
    return np.log([r / g, b / g])


def main():
    args = argparse.ArgumentParser()
    args.add_argument("--photos", type=int, default=3000)
    args.add_argument("--seed", type=int, default=1)
    args.add_argument("--for", dest="purpose", choices=["calibration", "measuring"], default="measuring")
    args = args.parse_args()
    rng = np.random.default_rng(args.seed)
    held = s.PALETTE["heldOut" if args.purpose == "measuring" else "calibration"]
    scene = s.PALETTE["heldOut"]["scene"]
    counts = rng.integers(scene["conductors"][0], scene["conductors"][1] + 1, args.photos)
    photo = np.repeat(np.arange(args.photos), counts)
    prior = {k: v for k, v in s.PALETTE["prior"].items() if k in s.NAMES}
    p = np.sqrt(np.array(list(prior.values())))
    palettes = [rng.choice(list(prior), rng.integers(scene["colors"][0], scene["colors"][1] + 1), p=p / p.sum()) for _ in range(args.photos)]
    names = np.array([rng.choice(palettes[i]) for i in photo])
    lamp = s.draw_lamps(held["light"], args.photos, rng)
    camera = rng.choice(held["camera"], args.photos)
    rgb = np.empty((len(photo), 3))
    for name in prior:
        pick = names == name
        rgb[pick] = s.seen(name, pick.sum(), rng, lamp[photo[pick]], camera[photo[pick]], True, held["ageing"])
    cast = rng.multivariate_normal([0, 0], NEUTRAL, args.photos)
    odd = rng.random(args.photos) < LAMP_SHARE
    casts = {k: lamp_cast(k) for k in held["light"] if k in s.LAMPS}
    left = np.stack([casts[k] for k in lamp]) * rng.uniform(0.15, 0.5, (args.photos, 1))
    cast = np.where(odd[:, None], left + rng.normal(size=(args.photos, 2)) * 0.05, cast)
    estimate = cast + rng.multivariate_normal([0, 0], STATISTICS, args.photos)
    light = np.stack([np.exp(cast[:, 0]), np.ones(args.photos), np.exp(cast[:, 1])], 1)
    sat, k = s.processing(args.photos, rng)
    exposure = 2 ** (scene["exposureSd"] * rng.normal(size=args.photos))
    lit = s.surface(rgb, rng) * light[photo] * exposure[photo, None]
    out = s.develop(lit, (sat[photo], k[photo]))
    noise = np.exp(rng.uniform(*np.log(scene["noise"]), args.photos))
    width = np.exp(rng.uniform(*np.log(scene["width"]), len(photo)))
    blur = rng.uniform(*scene["blur"], args.photos)
    # Noise of the mean of a few independent samples, as it stands in 8-bit levels after compression.
    out = np.maximum(out + rng.normal(size=out.shape) * noise[photo, None] * np.sqrt(np.maximum(out, 0.02) / 0.2) / np.sqrt(8), 0)
    out = s.decode(np.clip(np.round(s.encode(out) * 255 + 0.7 * rng.normal(size=out.shape)), 0, 255) / 255)
    white = s.developed_white((sat, k))[:, 0]
    # Numbers of its own, so that the conductors stay the same with and without paper.
    own = np.random.default_rng([args.seed, 1])
    paper = s.PALETTE["heldOut"]["paper"]
    shade = 2 ** np.minimum(0, paper["shadingMean"] + paper["shadingSd"] * own.normal(size=(args.photos, 1)))
    sheet = paper["reflectance"] * shade * light * exposure[:, None] * np.exp(paper["tint"] * own.normal(size=(args.photos, 3)))
    sheet = np.clip(s.develop(sheet, (sat, k)), 0, 1)
    for i in range(args.photos):
        rows = np.flatnonzero(photo == i)
        print(json.dumps({
            "lamp": str(lamp[i]),
            "cast": [round(float(v), 4) for v in cast[i]],
            "seen": [round(float(v), 4) for v in estimate[i]],
            "anchor": round(float(white[i]), 4),
            "paper": [round(float(v), 5) for v in sheet[i]],
            "bodies": [{"name": str(names[r]), "rgb": [round(float(v), 5) for v in out[r]], "width": round(float(width[r]), 1), "blur": round(float(blur[i]), 2), "noise": round(float(noise[i]), 4)} for r in rows],
        }))


if __name__ == "__main__":
    main()
