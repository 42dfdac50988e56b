#include "hands.hpp"

#include "joints.hpp"

namespace hp {

int skin(Builder& b) {
  Rng& r = b.rng;
  if (r.chance(0.2f)) {
    int c = r.chance(0.4f) ? b.pigment(pgDeviceBlack, r.range(0.8f, 2)) : r.chance(0.5f) ? b.named(r.one_of({(int)kBlue, (int)kOrange, (int)kGray, (int)kWhite})) : b.pigment(pgCardboard);
    return b.textured(kCloth, c, b.pigment(pgDust), r.log(0.6f, 1.5f), 0.35f);
  }
  int m = b.textured(kSkin, b.blend(pgSkinLight, pgSkinDark, r.u(), r.range(0.8f, 1.1f)), b.blend(pgSkinLight, pgToolRed, r.range(0.1f, 0.3f), 0.8f), r.range(4, 9), r.range(0.2f, 0.6f));
  b.mat(m).rough = r.range(0.35f, 0.6f);
  return m;
}

static int nail_of(Builder& b, int mat) {
  Material n = b.mat(mat);
  if (n.tex == kCloth) return mat;
  n.base = b.blend(pgSkinLight, pgPaper, 0.35f, b.rng.range(0.8f, 1));
  n.tex = kPlain;
  n.rough = 0.25f;
  return b.add(n);
}

/** Chain of rounded phalanges through the points with radii from r0 to r1, and a nail at the end facing `up`. */
static void chain(Builder& b, const std::vector<Vec3>& p, float r0, float r1, int mat, int nail, Vec3 up) {
  int n = (int)p.size();
  for (int i = 0; i + 1 < n; i++) b.round_cone(p[i], p[i + 1], mixf(r0, r1, (float)i / (n - 1)), mixf(r0, r1, (i + 1.0f) / (n - 1)), mat);
  Vec3 d = unit(p[n - 1] - p[n - 2]);
  Vec3 u = unit(up - d * dot(up, d));
  b.capsule(p[n - 1] + u * (r1 * 0.6f) - d * (r1 * 0.25f), p[n - 1] + u * (r1 * 0.52f) + d * (r1 * 0.5f), r1 * 0.47f, nail);
}

void hand_pinch(Builder& b, float gap, int mat) {
  Rng& r = b.rng;
  int nail = nail_of(b, mat);
  float k = r.range(0.85f, 1.15f), z = gap + 7.5f * k;
  // thumb above, index below, the others curled behind it
  chain(b, {v3(-14, -72, 10) * k, v3(-12, -36, z / k + 5) * k, v3(0, 3, z / k) * k}, 11 * k, 8.2f * k, mat, nail, v3(0, 0, 1));
  chain(b, {v3(6, -78, -14) * k, v3(14, -38, -z / k - 10) * k, v3(8, -8, -z / k - 6) * k, v3(2, 8, -z / k) * k}, 10.5f * k, 7.5f * k, mat, nail, v3(0, 1, -0.5f));
  for (int i = 1; i <= 3; i++) {
    float x = 8 + 19 * i, y = -r.range(0, 14) * i;
    chain(b, {v3(x * 0.8f, -80 - 2.0f * i, -16) * k, v3(x, -40 + y * 0.3f, -34) * k, v3(x - 2, -10 + y, -26) * k, v3(x - 6, -6 + y, -12) * k}, 10 * k, (7.4f - 0.4f * i) * k, mat, nail, v3(0.2f, 1, 0));
  }
  // palm and wrist
  for (int i = 0; i < 5; i++) b.round_cone(v3(-8 + 17.0f * i, -78, -14) * k, v3(6 + 9.0f * i, -150, -12) * k, 14 * k, 19 * k, mat);
  b.round_cone(v3(24, -150, -12) * k, v3(24, -320, -14) * k, 30 * k, 36 * k, mat);
}

void hand_open(Builder& b, int mat) {
  Rng& r = b.rng;
  int nail = nail_of(b, mat);
  float k = r.range(0.9f, 1.15f);
  const float len[] = {74, 82, 76, 60};
  for (int i = 0; i < 4; i++) {
    float y = (1.5f - i) * 20, c = r.range(0.05f, 0.5f), L = len[i];
    chain(b, {v3(0, y, -9) * k, v3(L * 0.45f, y * 1.08f, -9 + 6 * c) * k, v3(L * 0.75f, y * 1.12f, -7 + 22 * c) * k, v3(L * (1 - 0.15f * c), y * 1.14f, -4 + 44 * c) * k}, 9.5f * k, 7.3f * k, mat, nail, v3(1, 0, -0.6f));
    b.round_cone(v3(0, y, -9) * k, v3(-85, y * 0.75f, -12) * k, 10.5f * k, 15 * k, mat);
  }
  chain(b, {v3(-70, 40, -10) * k, v3(-30, 58, -4) * k, v3(4, 66, 4) * k}, 14 * k, 8.5f * k, mat, nail, v3(0, 0.4f, 1));
  b.round_cone(v3(-90, 0, -14) * k, v3(-300, 0, -18) * k, 30 * k, 36 * k, mat);
}

void finger(Builder& b, int mat) {
  float k = b.rng.range(0.85f, 1.2f);
  chain(b, {v3(4, -90, 26) * k, v3(2, -48, 22) * k, v3(0, -22, 15) * k, v3(0, -7, 8) * k}, 10.5f * k, 7.4f * k, mat, nail_of(b, mat), v3(0, 0.3f, 1));
  b.round_cone(v3(4, -90, 26) * k, v3(20, -170, 34) * k, 12 * k, 30 * k, mat);
}

void tool(Builder& b, int kind, float s) {
  Rng& r = b.rng;
  int steel = b.metal(b.pigment(pgSteel, r.range(0.6f, 1.2f)), r.range(0.15f, 0.4f));
  int grip = r.chance(0.5f) ? b.paint(b.named(r.one_of({(int)kRed, (int)kYellow, (int)kBlue, (int)kOrange, (int)kGreen, (int)kBlack})), 0.05f, r.range(0.2f, 0.5f)) : b.plastic(0);
  switch (kind) {
    case 0: {
      float sr = s * r.range(0.018f, 0.03f), hr = s * r.range(0.07f, 0.12f), L = s * r.range(0.5f, 1);
      b.cylinder(v3(sr * 4, 0, hr), v3(L, 0, hr), sr, steel);
      b.box(v3(sr * 2.2f, 0, hr), v3(sr * 2.4f, sr * 1.5f, sr * 0.35f), steel, 0);
      b.cone(v3(L, 0, hr), v3(L + s * 0.08f, 0, hr), hr * 0.5f, hr, grip);
      b.capsule(v3(L + s * 0.12f, 0, hr), v3(L + s * 0.6f, 0, hr), hr, grip);
      int other = b.plastic(0);
      for (int i = 0; i < 3; i++) b.ring(v3(L + s * (0.2f + 0.14f * i), 0, hr), v3(1, 0, 0), hr * 0.97f, hr * 0.08f, other, 12);
      break;
    }
    case 1: {
      float w = s * 0.06f;
      for (int q = -1; q <= 1; q += 2) {
        b.round_cone(v3(0, q * w * 0.25f, w), v3(s * 0.25f, q * w * 0.7f, w), w * 0.3f, w, steel);
        b.rod({v3(s * 0.3f, -q * w * 0.4f, w), v3(s * 0.45f, -q * w * 1.6f, w), v3(s * 0.7f, -q * w * 2.6f, w), v3(s, -q * w * 2.2f, w)}, w * 0.75f, grip);
      }
      b.cylinder(v3(s * 0.27f, 0, 0), v3(s * 0.27f, 0, w * 2.1f), w * 0.8f, steel);
      break;
    }
    case 2: {
      float pr = s * 0.035f;
      b.cone(v3(0, 0, pr * 2), v3(s * 0.12f, 0, pr * 2), pr * 0.1f, pr * 0.3f, steel);
      b.cone(v3(s * 0.12f, 0, pr * 2), v3(s * 0.2f, 0, pr * 2), pr * 1.2f, pr * 1.7f, grip);
      b.capsule(v3(s * 0.2f, 0, pr * 2), v3(s, 0, pr * 2), pr * 1.3f, grip);
      break;
    }
    case 3:
      for (int q = -1; q <= 1; q += 2) b.box(v3(s * 0.5f, q * s * 0.03f, s * 0.02f), v3(s * 0.5f, s * 0.012f, s * 0.02f), steel, 0.3f, turn(v3(0, 0, 1), q * 0.045f));
      break;
    case 4: {
      int m = b.label_material(r.chance(0.4f) ? b.pigment(pgSteel) : r.chance(0.5f) ? b.pigment(pgLabelYellow) : b.pigment(pgPaper), b.pigment(pgInk), 2.2f);
      float w = s * r.range(0.06f, 0.12f);
      b.span(v3(0, -w, 0), v3(s * 1.6f, w, 0.8f), m, 0.2f);
      int ink = b.paint(b.pigment(pgInk));
      int n = 60;
      for (int i = 0; i < n; i++) {
        float x = s * 1.6f * (i + 0.5f) / n, l = w * (i % 10 == 0 ? 0.9f : i % 5 == 0 ? 0.65f : 0.4f);
        b.box(v3(x, w - l * 0.5f, 0.83f), v3(0.16f + 0.001f * s, l * 0.5f, 0.03f), ink, 0);
      }
      break;
    }
    default: {
      int core = b.textured(kCardboard, b.pigment(pgCardboard), b.pigment(pgDirt), 3, 0.4f);
      int tape = b.paint(b.named(b.any_color()), 0.05f, 0.3f);
      float R = s * 0.35f, h = s * r.range(0.15f, 0.3f);
      b.tube(v3(0, 0, 0), v3(0, 0, h), R, R, tape);
      b.tube(v3(0, 0, 0), v3(0, 0, h), R * 0.62f, R * 0.62f, core);
      for (int i = 0; i < 5; i++) b.ring(v3(0, 0, h), v3(0, 0, 1), R * (0.66f + 0.08f * i), R * 0.042f, i ? tape : core, 24);
    }
  }
}

}  // namespace hp
