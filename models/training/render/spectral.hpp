// The spectral tables and how a pigment becomes linear RGB under a lamp, for a camera with its white balance.
#pragma once
#include "vec.hpp"

namespace hp {

#include "spectral_tables.inc"

/** First pigment row of a color name (0..11). */
inline int pigment_row(int colorName, int variant) { return colorName * kPerName + variant % kPerName; }

/**
 * Linear sRGB of a camera response `raw` (green response of white under its lamp = 1), when the camera balances
 * for the white of lamp `whiteRow`.
 */
inline Vec3 balanced(Vec3 raw, int camera, int whiteRow, Vec3 cast) {
  const float* w = kWhiteTable[camera][whiteRow];
  const float(*m)[3] = kCameraMatrix[camera][whiteRow];
  Vec3 v = v3(raw.x / w[0] * cast.x, raw.y / w[1] * cast.y, raw.z / w[2] * cast.z);
  Vec3 o = v3(m[0][0] * v.x + m[0][1] * v.y + m[0][2] * v.z, m[1][0] * v.x + m[1][1] * v.y + m[1][2] * v.z,
              m[2][0] * v.x + m[2][1] * v.y + m[2][2] * v.z);
  // A camera clips what leaves its gamut; keep a trace so that ratios stay finite.
  return v3(fmaxf(o.x, 1e-4f), fmaxf(o.y, 1e-4f), fmaxf(o.z, 1e-4f));
}

inline Vec3 raw_pigment(int camera, int lamp, int row) {
  const float* p = kPigmentTable[camera][lamp][row];
  return v3(p[0], p[1], p[2]);
}
inline Vec3 raw_white(int camera, int lamp) {
  const float* p = kWhiteTable[camera][lamp];
  return v3(p[0], p[1], p[2]);
}

}  // namespace hp
