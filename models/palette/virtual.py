"""Cameras and lamps that calibration is fitted on, so that the published ones stay for measuring.

Cameras: the palette's camera with each channel moved and widened (published cameras differ from each other by such
amounts: Jiang, Liu, Gu, Suesstrunk, "What is the space of spectral sensitivity functions for digital color cameras?",
WACV 2013, from memory; the amounts here are assumed), and one that sees as an eye does. Lamps: black bodies by Planck's
law, and phosphor LEDs as a narrow blue and a broad yellow bell (shape assumed).
"""

import numpy as np

# nm each channel is moved, and the factor by which it is widened about its peak: as much as leaves the error on the
# 24-patch chart about where the palette's camera has it (1.6 dE76 on average under D65; these have 1.5 to 2.2, the eye 0.2).
CHANGED = {
    "virtual-1": ((4, 3, 2), (1.0, 1.0, 1.0)),
    "virtual-2": ((-8, -6, -4), (1.0, 1.0, 1.0)),
    "virtual-3": ((3, -4, 2), (1.08, 1.05, 1.05)),
    "virtual-4": ((-6, 6, -4), (0.9, 0.92, 0.92)),
    "virtual-5": ((-6, 4, 3), (1.12, 1.06, 1.08)),
}

# Hunt, Pointer and Estevez's cones from XYZ (Fairchild, Color Appearance Models, from memory), then sharpened by half.
CONES = np.array([[0.38971, 0.68898, -0.07868], [-0.22981, 1.1834, 0.04641], [0, 0, 1]])


def camera_variants(base, observer, wl):
    out = {}
    for name, (shift, width) in CHANGED.items():
        channels = []
        for c in range(3):
            peak = wl[np.argmax(base[:, c])]
            channels.append(np.interp(peak + (wl - shift[c] - peak) / width[c], wl, base[:, c], left=0, right=0))
        out[name] = np.stack(channels, 1)
    cones = np.maximum(observer @ CONES.T, 0)
    red = np.maximum(cones[:, 0] - 0.5 * cones[:, 1], 0)
    out["virtual-6"] = np.stack([red, cones[:, 1], cones[:, 2]], 1)
    return out


def planck(kelvin, wl):
    """Relative spectral power of a black body, 1 at 560 nm. c2 = 14388 um K (CODATA)."""
    power = lambda nm: nm**-5.0 / (np.exp(1.4388e7 / (nm * kelvin)) - 1)
    return power(wl.astype(float)) / power(560.0)


def led(blue_share, phosphor_nm, wl):
    bell = lambda at, fwhm: np.exp(-4 * np.log(2) * ((wl - at) / fwhm) ** 2)
    return blue_share * bell(452, 22) + bell(phosphor_nm, 125)


def lamps(wl):
    return {
        **{f"planck-{k}": planck(k, wl) for k in (2400, 3200, 4500, 8000)},
        "led-2900": led(0.45, 600, wl),
        "led-5000": led(1.05, 562, wl),
    }


WARM = ("A", "LED-B1", "HP1", "HP3", "planck-2400", "planck-3200", "led-2900")
