"""Bodies of insulation under lamps through cameras: what a reading of each name may look like.

Every number comes from palette.json (which says where from) or from the tables in test/published.
"""

import json
import pathlib

import numpy as np

import virtual

HERE = pathlib.Path(__file__).resolve().parent
PUBLISHED = HERE.parent.parent / "test" / "published"
PALETTE = json.loads((HERE / "palette.json").read_text())
SPECTRA = json.loads((PUBLISHED / "spectra.json").read_text())
MUNSELL = {e["notation"]: e for e in json.loads((PUBLISHED / "munsell-subset.json").read_text())["entries"]}
RAL = {r["ral"]: r for r in json.loads((PUBLISHED / "insulation-centers.json").read_text())["ral"]["rows"]}

NAMES = list(PALETTE["names"])
METALS = ["copper", "tinned"]
WL = np.arange(380, 731, 5)
OBSERVER = np.stack([SPECTRA["observer"][k] for k in ("xbar", "ybar", "zbar")], 1)
LAMPS = {**{k: np.array(v["spd"], float) for k, v in SPECTRA["illuminants"].items()}, **virtual.lamps(WL)}
CAMERAS = {k: np.stack([v[c] for c in "RGB"], 1).astype(float) for k, v in SPECTRA["cameras"].items()}
CAMERAS |= virtual.camera_variants(CAMERAS[PALETTE["camera"]["fitted"][0]], OBSERVER, WL)
CHART = np.stack([np.interp(WL, np.arange(380, 731, 10), r) for r in SPECTRA["colorchecker"]["reflectance"].values()])

# IEC 61966-2-1 primaries, white D65.
SRGB_TO_XYZ = np.array([[0.4124564, 0.3575761, 0.1804375], [0.2126729, 0.7151522, 0.0721750], [0.0193339, 0.1191920, 0.9503041]])
XYZ_TO_SRGB = np.linalg.inv(SRGB_TO_XYZ)
D65 = SRGB_TO_XYZ.sum(1)
D50 = np.array([0.96422, 1.0, 0.82521])
BRADFORD = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])


def adapt(xyz, source, target):
    """Bradford adaptation of XYZ from one white to another."""
    scale = (BRADFORD @ target) / (BRADFORD @ source)
    return xyz @ (np.linalg.inv(BRADFORD) @ np.diag(scale) @ BRADFORD).T


def lab_to_xyz(lab, white=D65):
    fy = (lab[..., 0] + 16) / 116
    f = np.stack([fy + lab[..., 1] / 500, fy, fy - lab[..., 2] / 200], -1)
    return np.where(f > 6 / 29, f**3, 3 * (6 / 29) ** 2 * (f - 4 / 29)) * white


def xyz_to_lab(xyz, white=D65):
    t = xyz / white
    f = np.where(t > (6 / 29) ** 3, np.cbrt(t), t / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.stack([116 * f[..., 1] - 16, 500 * (f[..., 0] - f[..., 1]), 200 * (f[..., 1] - f[..., 2])], -1)


def center_lab(entry):
    """Lab under D65 of one entry of the palette."""
    if "munsell" in entry:
        return np.array(MUNSELL[entry["munsell"]]["lab_D65"])
    if "ral" in entry:
        lab50 = np.array(RAL[entry["ral"]]["lab_D50"])
        return xyz_to_lab(adapt(lab_to_xyz(lab50, D50), D50, D65))
    return np.array(entry["lab"], float)


def reflectance(lab):
    """Smooth reflectance spectra (n x 71) whose color under D65 is close to `lab` (n x 3).

    A sigmoid of a quadratic in wavelength, fitted by damped Newton steps; the family is that of Jakob and Hanika,
    "A low-dimensional function space for efficient spectral upsampling", Computer Graphics Forum 38(2), 2019.
    """
    target = lab_to_xyz(lab)
    t = (WL - 555.0) / 175.0
    basis = np.stack([np.ones_like(t), t, t**2], 1)
    weight = LAMPS["D65"][:, None] * OBSERVER
    weight = weight / weight[:, 1].sum()
    white = weight.sum(0)
    target = target / D65 * white
    y = np.clip(target[:, 1], 0.01, 0.97)
    coef = np.stack([np.log(y / (1 - y)), np.zeros_like(y), np.zeros_like(y)], 1)
    damp = np.full(len(lab), 1e-2)

    def residual(c):
        r = 1 / (1 + np.exp(-np.clip(c @ basis.T, -30, 30)))
        # cube roots: errors weigh as they are seen
        return r, np.cbrt(r @ weight) - np.cbrt(np.maximum(target, 1e-5))

    r, e = residual(coef)
    for _ in range(60):
        slope = r * (1 - r)
        d = np.einsum("nw,wk,wc->nck", slope, basis, weight) / (3 * np.cbrt(r @ weight) ** 2)[:, :, None]
        h = np.einsum("nck,ncl->nkl", d, d)
        g = np.einsum("nck,nc->nk", d, e)
        step = np.linalg.solve(h + damp[:, None, None] * (np.eye(3) * (1e-3 + np.einsum("nkk->n", h)[:, None, None])), g[..., None])[..., 0]
        trial = coef - step
        r2, e2 = residual(trial)
        better = (e2**2).sum(1) < (e**2).sum(1)
        coef[better], r[better], e[better] = trial[better], r2[better], e2[better]
        damp = np.where(better, damp * 0.5, damp * 4).clip(1e-8, 1e6)
    return r


def bodies(name, n, rng, aged=True, ageing=None):
    """Lab of n bodies of a name: maker's center and spread, then ageing (palette.json's unless another is given)."""
    entries = PALETTE["names"].get(name) or PALETTE["metal"][name]
    weights = np.array([e["weight"] for e in entries], float)
    labs = np.stack([center_lab(e) for e in entries])[rng.choice(len(entries), n, p=weights / weights.sum())]
    chroma = np.hypot(labs[:, 1], labs[:, 2])
    neutral = PALETTE["neutralSpread"]
    spread = PALETTE["spread"]
    hue = np.arctan2(labs[:, 2], labs[:, 1]) + np.radians(spread["hueDeg"]) * rng.normal(size=n)
    c2 = chroma * np.exp(spread["chroma"] * rng.normal(size=n))
    colored = np.stack([labs[:, 0] + spread["value"] * rng.normal(size=n), c2 * np.cos(hue), c2 * np.sin(hue)], 1)
    plain = labs + rng.normal(size=(n, 3)) * [neutral["value"], neutral["a"], neutral["b"]]
    out = np.where((chroma < 12)[:, None] & (name in ("black", "gray", "white", "tinned")), plain, colored)
    if name == "black":
        out[:, 0] = np.abs(labs[:, 0] + rng.normal(size=n) * 3.5)
    if aged:
        out = age(name, out, rng, ageing or PALETTE["ageing"])
    out[:, 0] = out[:, 0].clip(2.5, 97)
    return out


def age(name, lab, rng, a):
    n = len(lab)
    lab = lab.copy()

    def struck(part):
        return rng.random(n) < part["probability"]

    def between(lo_hi):
        return rng.uniform(*lo_hi, size=n)

    m = struck(a["fading"])
    scale = np.where(m, between(a["fading"]["chromaScale"]), 1)
    lab[:, 1:] *= scale[:, None]
    lab[:, 0] += np.where(m, between(a["fading"]["lift"]), 0) * (0.4 if name == "white" else 1)
    if name in a["yellowing"]["names"]:
        m = struck(a["yellowing"])
        for axis, key in enumerate(("dL", "da", "db")):
            lab[:, axis] += np.where(m, between(a["yellowing"][key]), 0)
    m = struck(a["dust"])
    share = np.where(m, between(a["dust"]["share"]), 0)[:, None]
    mixed = lab_to_xyz(lab) * (1 - share) + lab_to_xyz(np.array(a["dust"]["lab"], float)) * share
    lab = xyz_to_lab(mixed)
    m = struck(a["heat"])
    lab[:, 0] += np.where(m, between(a["heat"]["dL"]), 0)
    lab[:, 2] += np.where(m, between(a["heat"]["db"]), 0)
    return lab


def color_matrix(camera, lamp):
    """3 x 3 from white-balanced camera values to linear sRGB, least squares on the chart under the lamp; white kept."""
    sens = CAMERAS[camera] * LAMPS[lamp][:, None]
    raw = (CHART @ sens) / sens.sum(0)
    w65 = LAMPS["D65"][:, None] * OBSERVER
    xyz = (CHART @ w65) / w65[:, 1].sum()
    rgb = (xyz / (w65.sum(0) / w65[:, 1].sum()) * D65) @ XYZ_TO_SRGB.T
    lum = np.maximum(rgb.mean(1, keepdims=True), 0.03)
    m, *_ = np.linalg.lstsq(raw / lum, rgb / lum, rcond=None)
    return m / m.sum(0, keepdims=True)


MATRICES = {(c, l): color_matrix(c, l) for c in CAMERAS for l in LAMPS}


def encode(x):
    x = np.clip(x, 0, 1)
    return np.where(x <= 0.0031308, 12.92 * x, 1.055 * x ** (1 / 2.4) - 0.055)


def decode(v):
    return np.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)


def through(refl, lamps, camera):
    """Linear sRGB (white = 1, light removed) of reflectances each under its own lamp, through one camera."""
    out = np.empty((len(refl), 3))
    for lamp in set(lamps):
        pick = lamps == lamp
        sens = CAMERAS[camera] * LAMPS[lamp][:, None]
        # Phones choose a matrix between a daylight and a tungsten one; the mismatch is part of what is simulated.
        near = "A" if lamp in virtual.WARM else "D65"
        out[pick] = (refl[pick] @ sens) / sens.sum(0) @ MATRICES[camera, near]
    return out


def surface(rgb, rng):
    """Shading, gloss, veil and bounce on white-referred bodies."""
    s = PALETTE["surface"]
    n = len(rgb)
    shade = 2 ** np.clip(s["shadingMean"] + s["shadingSd"] * rng.normal(size=n), s["shadingMin"], s["shadingMax"])
    neighbor = rgb[rng.permutation(n)]
    bounce = s["bounce"] * rng.random((n, 1)) ** 2 * 2
    lit = rgb * (1 - bounce) + rgb * neighbor * bounce

    def tint():
        return np.exp(s["tint"] * rng.normal(size=(n, 3)))

    mirrored = s["reflection"] * rng.uniform(*s["surroundings"], (n, 1)) * np.sqrt(shade[:, None])
    veil = rng.exponential(s["veil"], (n, 1))
    return lit * shade[:, None] + mirrored * tint() + veil * tint()


def processing(n, rng):
    """Saturation and contrast of phone processing, n x 1 each."""
    c = PALETTE["camera"]
    return rng.uniform(*c["saturation"], (n, 1)), rng.uniform(*c["contrast"], (n, 1)) * rng.random((n, 1))


def develop(rgb, look, white=0.8):
    """Phone processing on white-referred values: saturation, contrast, sRGB; returned decoded to linear, 0 to 1."""
    sat, k = look
    y = rgb @ SRGB_TO_XYZ[1]
    rgb = np.maximum(y[:, None] + sat * (rgb - y[:, None]), 0)
    return decode(curve(encode(rgb * white), k))


def curve(v, k):
    return v * (1 - k) + (v * v * (3 - 2 * v)) * k


def developed_white(look, white=0.8):
    return decode(curve(encode(np.full_like(look[1], white)), look[1]))


def oklab(rgb):
    """OKLab (Ottosson 2020) of linear sRGB."""
    lms = rgb @ np.array([[0.4122214708, 0.5363325363, 0.0514459929], [0.2119034982, 0.6806995451, 0.1073969566], [0.0883024619, 0.2817188376, 0.6299787005]]).T
    return np.cbrt(np.maximum(lms, 1e-9)) @ np.array([[0.2104542553, 0.7936177850, -0.0040720468], [1.9779984951, -2.4285922050, 0.4505937099], [0.0259040371, 0.7827717662, -0.8086757660]]).T


def features(rgb):
    """(a/L, b/L, log2 Y): the first two do not change with shading (OKLab is homogeneous in linear light)."""
    lab = oklab(rgb)
    y = np.maximum(rgb @ SRGB_TO_XYZ[1], 1e-5)
    return np.stack([lab[:, 1] / lab[:, 0], lab[:, 2] / lab[:, 0], np.log2(y)], 1)


def seen(name, n, rng, lamps, cameras, aged=True, ageing=None):
    """n white-referred linear sRGB bodies of a name, each under its own lamp and camera, before phone processing."""
    if name == "green-yellow":
        # Too thin to be seen as two colors; IEC 60445 gives each of them 30 to 70 % of the surface.
        share = rng.uniform(0.3, 0.7, (n, 1))
        both = [seen(c, n, rng, lamps, cameras, aged, ageing) for c in ("green", "yellow")]
        return share * both[0] + (1 - share) * both[1]
    refl = reflectance(bodies(name, n, rng, aged and name not in METALS, ageing))
    rgb = np.empty((n, 3))
    for camera in set(cameras):
        pick = cameras == camera
        rgb[pick] = through(refl[pick], lamps[pick], camera)
    return np.maximum(rgb, 0.0008)


def draw_lamps(mix, n, rng):
    keys = [k for k in mix if k != "about"]
    p = np.array([mix[k] for k in keys])
    return rng.choice(keys, n, p=p / p.sum())


def readings(name, n, rng):
    """n simulated readings of a name for fitting: white-referred linear sRGB, light removed, processing left in."""
    lamps = draw_lamps(PALETTE["light"], n, rng)
    cameras = rng.choice(PALETTE["camera"]["fitted"], n)
    look = processing(n, rng)
    return develop(surface(seen(name, n, rng, lamps, cameras), rng), look) / developed_white(look)
