#!/usr/bin/env python3
"""Writes spectral_tables.inc: what pigments look like to two cameras under twelve lamps.

Usage: python3 spectral_tables.py ../../../../shared/reference > spectral_tables.inc

Input: spectra.json (CIE illuminants, CIE 1931 observer, color chart reflectances, camera sensitivities) and
insulation-colour-limits.json (Munsell and RAL centers of insulation colors). Both name their sources.

A pigment is a smooth reflectance that has a wanted CIELAB color: R = (1 + tanh z) / 2 with the smallest sum of
squared steps of z (after Burns, "Numerical methods for smoothest reflectance reconstruction", Color Research and
Application 2020), solved by damped Newton steps on the Lagrangian. Where no reflectance reaches the color,
chroma is reduced by 4 % steps. Table: camera response of the pigment divided by the green response of white.
Matrix per camera and lamp: white-preserving least squares from white-balanced camera RGB of the 24 chart patches
to their linear sRGB under D65.
"""
import json
import sys

import numpy as np

ref = sys.argv[1]
S = json.load(open(f'{ref}/spectra.json'))
LIM = json.load(open(f'{ref}/insulation-colour-limits.json'))
five = np.array(S['wavelengths_5nm'])
ten = np.array(S['wavelengths_10nm'])
pick = np.isin(five, ten)
obs = np.stack([np.array(S['observer_CIE1931_2deg']['data'][k])[pick] for k in ('xbar', 'ybar', 'zbar')])
lamp_names = list(S['illuminants']['data'])
lamps = {k: np.array(v['spd'])[pick] for k, v in S['illuminants']['data'].items()}
cams = {k: np.stack([np.array(v[c])[pick] for c in 'RGB']) for k, v in S['cameras'].items()}
chart = np.stack([np.array(v) for v in S['colorchecker24']['reflectance_average30'].values()])
XYZ2RGB = np.array([[3.2404542, -1.5371385, -0.4985314], [-0.9692660, 1.8760108, 0.0415560],
                    [0.0556434, -0.2040259, 1.0572252]])  # IEC 61966-2-1, D65
rng = np.random.default_rng(20120)


def weights(lamp):
    w = obs * lamps[lamp]
    return w / w[1].sum()


W65 = weights('D65')


def lab_to_xyz(lab, white):
    fy = (lab[0] + 16) / 116
    f = np.array([fy + lab[1] / 500, fy, fy - lab[2] / 200])
    x = np.where(f > 6 / 29, f ** 3, 3 * (6 / 29) ** 2 * (f - 4 / 29))
    return x * white


def smoothest(xyz, w):
    """Reflectance of least tanh-slope with that XYZ under the weights, or None."""
    n = w.shape[1]
    D = np.zeros((n, n))
    for i in range(n):
        D[i, i] = 4
        if i > 0:
            D[i, i - 1] = -2
        if i < n - 1:
            D[i, i + 1] = -2
    D[0, 0] = D[-1, -1] = 2
    z = np.zeros(n)
    lam = np.zeros(3)
    for _ in range(60):
        r = (1 + np.tanh(z)) / 2
        d = 1 / np.cosh(z) ** 2 / 2
        d2 = -np.tanh(z) * 2 * d
        J = w * d
        H = D + np.diag(lam @ (w * d2))
        F = np.concatenate([D @ z + J.T @ lam, w @ r - xyz])
        if np.abs(F).max() < 1e-7:
            return r
        K = np.block([[H, J.T], [J, np.zeros((3, 3))]])
        try:
            step = np.linalg.solve(K, -F)
        except np.linalg.LinAlgError:
            return None
        step *= min(1, 1.5 / max(np.abs(step[:n]).max(), 1e-9))
        z = z + step[:n]
        lam = lam + step[n:]
    return None


def pigment(lab, white='D65'):
    w = weights(white)
    lab = np.array(lab, float)
    lab[0] = np.clip(lab[0], 3.5, 96.5)
    for _ in range(30):
        r = smoothest(lab_to_xyz(lab, w.sum(1)), w)
        if r is not None:
            return r
        lab[1:] *= 0.96
    raise SystemExit(f'no reflectance for {lab}')


NAMES = ['black', 'brown', 'red', 'orange', 'yellow', 'green', 'blue', 'violet', 'gray', 'white', 'pink',
         'turquoise']
CODE = dict(zip(NAMES, ['BK', 'BN', 'RD', 'OG', 'YE', 'GN', 'BU', 'VT', 'GY', 'WH', 'PK', 'TQ']))
# Further centers seen on ordinary wire besides the published two (Lab D65, common practice, no source):
EXTRA = {
    'black': [[10, 0, 0], [16, 0, 1], [22, 0, -1]], 'brown': [[26, 12, 14], [32, 18, 22]],
    'red': [[42, 60, 40], [36, 52, 30], [46, 58, 34]], 'orange': [[60, 52, 62], [55, 48, 52]],
    'yellow': [[80, 2, 82], [76, 6, 70]], 'green': [[38, -40, 18], [46, -48, 30]],
    'blue': [[28, 10, -44], [34, 2, -40], [58, -12, -34]], 'violet': [[36, 28, -30], [45, 20, -24]],
    'gray': [[50, 0, 0], [60, 0, 1], [42, 0, -1]], 'white': [[92, 0, 2], [88, 0, 5], [84, 0, 8]],
    'pink': [[62, 42, 2], [72, 28, 6]], 'turquoise': [[60, -32, -12], [66, -28, -4]]}
SPREAD = {'black': (3, 0.7), 'white': (3, 1.5), 'gray': (5, 1.5)}
PER_NAME = 12
rows = []
for name in NAMES:
    centers = [(c['lab_D65_derived'], 'D65') for c in LIM['eia_359a_tia_598']['centres'] if c['code'] == CODE[name]]
    centers += [(c['lab_D50'], 'D50') for c in LIM['iec_60757_ral']['rows'] if c['code'] == CODE[name]]
    centers += [(c, 'D65') for c in EXTRA[name]]
    sl, sc = SPREAD.get(name, (3, 4))
    for k in range(PER_NAME):
        lab, white = centers[k % len(centers)]
        jitter = rng.normal(size=3) * [sl, sc, sc] * (0 if k < len(centers) else 1)
        rows.append((f'{name} {k}', pigment(np.array(lab) + jitter, white)))
# Other stuff of the scenes (Lab D65; the metals' normal reflectance colors are approximate, from memory).
OTHER = [('copper', [68, 22, 30]), ('copper dull', [48, 20, 24]), ('tin', [78, 0, 2]), ('brass', [74, 4, 34]),
         ('zinc', [72, -1, -1]), ('steel', [62, 0, 1]), ('wood light', [74, 8, 26]), ('wood dark', [48, 14, 28]),
         ('cardboard', [62, 9, 24]), ('brick', [42, 28, 26]), ('concrete', [62, 0, 4]), ('board green', [36, -28, 14]),
         ('board blue', [28, 2, -32]), ('skin light', [68, 15, 17]), ('skin dark', [40, 14, 18]), ('dust', [62, 2, 10]),
         ('dirt', [18, 2, 5]), ('paper', [93, 0, 1]), ('light gray enclosure', [81, -1, 2]), ('beige', [82, 2, 14]),
         ('device gray', [55, 0, 1]), ('device black', [14, 0, -1]), ('label yellow', [84, 0, 80]),
         ('label red', [44, 62, 44]), ('tool blue', [30, 6, -42]), ('tool red', [40, 58, 38]),
         ('terminal green', [48, -50, 24]), ('terminal orange', [64, 46, 66]), ('rope', [72, 6, 24]),
         ('ink', [12, 0, 0]), ('carpet', [44, 4, 8]), ('back plate orange', [58, 46, 54])]
for name, lab in OTHER:
    rows.append((name, pigment(lab)))
R = np.stack([r for _, r in rows])

out = print
out('// Made by spectral_tables.py from spectra.json and insulation-colour-limits.json; see there for derivation.')
out('// Spectra: CIE illuminants and observer, chart and camera data as collected by colour-science/colour')
out('// (BSD-3-Clause); cameras: Darrodi, Finlayson, Goodman, Mackiewicz 2015, JOSA A 32(3) 381. Pigment centers:')
out('// Munsell notations of EIA-359-A (from memory) and RAL numbers beside IEC 60757 codes, widened.')
out(f'constexpr int kTableLamps = {len(lamp_names)}, kTableCameras = {len(cams)}, kTablePigments = {len(rows)};')
out(f'constexpr int kPerName = {PER_NAME};')
out('// Pigments: ' + str(PER_NAME) + ' for each of ' + ', '.join(NAMES) + '; then these:')
out('enum OtherPigment : int { ' + ', '.join(
    'pg' + ''.join(w.capitalize() for w in n.split()) + (f' = {PER_NAME * len(NAMES)}' if i == 0 else '')
    for i, (n, _) in enumerate(OTHER)) + ' };')
out('enum LampRow : int { ' + ', '.join('lamp' + n.replace('-', '') for n in lamp_names) + ' };')


def f(x):
    s = f'{x:.4g}'
    return s if '.' in s or 'e' in s else s + '.0'


out('static const float kPigmentTable[kTableCameras][kTableLamps][kTablePigments][3] = {')
whites, mats = [], []
for ck, cs in cams.items():
    out(' {')
    for ln in lamp_names:
        w = cs * lamps[ln]
        g = w[1].sum()
        w = w / g
        white = w.sum(1)
        whites.append(white)
        out('  {' + ','.join('{' + ','.join(f(v) + 'f' for v in w @ r) + '}' for r in R) + '},')
        X = (w @ chart.T).T / white
        Y = (XYZ2RGB @ (W65 @ chart.T)).T
        # rows of M sum to 1: fit the differences against the green channel
        A = np.stack([X[:, 0] - X[:, 1], X[:, 2] - X[:, 1]], 1)
        M = np.zeros((3, 3))
        for i in range(3):
            c, *_ = np.linalg.lstsq(A, Y[:, i] - X[:, 1], rcond=None)
            M[i] = [c[0], 1 - c[0] - c[1], c[1]]
        mats.append(M)
        err = np.sqrt(np.mean((X @ M.T - Y) ** 2))
        print(f'{ck:24s} {ln:7s} rms chart error {err:.4f}', file=sys.stderr)
    out(' },')
out('};')
out('// Response to a perfect white, green = 1.')
out('static const float kWhiteTable[kTableCameras][kTableLamps][3] = {')
n = len(lamp_names)
for c in range(len(cams)):
    out(' {' + ','.join('{' + ','.join(f(v) + 'f' for v in whites[c * n + i]) + '}' for i in range(n)) + '},')
out('};')
out('// White-balanced camera RGB to linear sRGB, rows sum to 1.')
out('static const float kCameraMatrix[kTableCameras][kTableLamps][3][3] = {')
for c in range(len(cams)):
    out(' {' + ','.join('{' + ','.join('{' + ','.join(f(v) + 'f' for v in row) + '}' for row in mats[c * n + i]) + '}'
                        for i in range(n)) + '},')
out('};')
