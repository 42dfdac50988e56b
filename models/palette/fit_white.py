"""Prints how far a fully lit white lies above the bright end of a simulated picture, in stops: mean and deviation.

    python3 models/palette/fit_white.py

WHITE_ABOVE in src/color/light/bright-end.ts is the mean. The palette's and the calibration's worlds, 200 pictures each;
pictures whose bright end is cut off are left out.
"""

import numpy as np

import make_pictures as mp
import simulate as s

# As in src/color/light/bright-end.ts.
BRIGHT_SHARE, CUT_OFF = 0.97, 0.88


def main():
    palette = {"camera": s.PALETTE["camera"]["fitted"], "light": s.PALETTE["light"], "ageing": s.PALETTE["ageing"]}
    above = []
    for world in (palette, s.PALETTE["calibration"]):
        for picture in mp.pictures(200, 41, world):
            bright = np.quantile(s.decode(picture["levels"] / 255) @ s.SRGB_TO_XYZ[1], BRIGHT_SHARE)
            if bright < CUT_OFF:
                above.append(np.log2(picture["white"] / bright))
    print(f"{len(above)} pictures: {np.mean(above):.2f} stops, deviation {np.std(above):.2f}")


if __name__ == "__main__":
    main()
