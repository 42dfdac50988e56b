#include "joints.hpp"

#include <algorithm>

#include "devices.hpp"

namespace hp {

int connector_plastic(Builder& b) {
  Rng& r = b.rng;
  const float w[] = {0.38f, 0.22f, 0.1f, 0.1f, 0.09f, 0.08f, 0.03f};
  int c;
  switch (r.weighted(w)) {
    case 0: c = b.pigment(pgToolRed, r.range(0.6f, 1.2f)); break;
    case 1: c = b.pigment(pgLabelYellow, r.range(0.7f, 1)); break;
    case 2: c = b.blend(pgBeige, pgCardboard, r.range(0.2f, 1), r.range(0.7f, 1.1f)); break;
    case 3: c = b.pigment(pgDeviceGray, r.range(0.7f, 1.3f)); break;
    case 4: c = b.pigment(pgToolBlue, r.range(0.6f, 1.2f)); break;
    case 5: c = b.pigment(pgTerminalOrange, r.range(0.7f, 1.1f)); break;
    default: c = b.pigment(pgDeviceBlack, r.range(1, 2)); break;
  }
  int m = b.paint(c, r.range(0.035f, 0.06f), r.range(0.12f, 0.45f));
  b.mat(m).dirt = r.chance(0.25f) ? r.u() * 0.4f : 0;
  b.mat(m).dirtColor = b.pigment(pgDirt);
  return m;
}

float connector_size(Rng& r, int count, float d) { return (d * sqrtf((float)std::max(count, 2)) * 1.25f + 2) / 0.76f * r.range(1.0f, 1.6f); }

void wire_cap(Builder& b, float s, int mat) {
  Rng& r = b.rng;
  if (r.chance(0.4f)) {
    twist_connector(b, s, mat);
    return;
  }
  float R = s * r.range(0.3f, 0.4f), L = s * r.range(1, 1.35f), tip = R * r.range(0.45f, 0.75f), skirt = L * r.range(0.12f, 0.35f);
  b.cone(v3(0, 0, 0), v3(0, 0, skirt), R * 1.08f, R * 1.04f, mat);
  b.cone(v3(0, 0, skirt), v3(0, 0, L), R * 0.93f, tip, mat);
  int n = r.pick(6, 10);
  for (int i = 0; i < n; i++) {
    float a = 2 * kPi * i / n;
    Vec3 d = v3(cosf(a), sinf(a), 0);
    b.capsule(d * (R * 0.88f) + v3(0, 0, skirt), d * (tip * 0.9f) + v3(0, 0, L - tip * 0.1f), R * 0.16f, mat);
  }
  if (r.chance(0.6f)) b.ring(v3(0, 0, L), v3(0, 0, 1), tip * 0.75f, tip * 0.14f, mat, 10);
  b.cylinder(v3(0, 0, -0.1f), v3(0, 0, 0.1f), R * 0.95f, b.paint(b.gray(0.01f)));
  if (r.chance(0.25f)) b.cylinder(v3(0, 0, -s * 0.2f), v3(0, 0, 0), R * 0.7f, b.paint(b.named(r.one_of({(int)kYellow, (int)kOrange, (int)kWhite})), 0.04f, 0.4f));
}

std::vector<Vec3> lever_connector(Builder& b, int n, float pitch) {
  Rng& r = b.rng;
  float w = n * pitch * 0.5f + 0.8f, len = r.range(12, 20), h = r.range(6, 9);
  int body = b.paint(r.chance(0.75f) ? b.gray(r.range(0.3f, 0.75f)) : b.pigment(pgDeviceGray), 0.05f, 0.2f);
  int lever = b.paint(r.chance(0.75f) ? b.pigment(pgTerminalOrange, r.range(0.8f, 1.1f)) : b.named(r.pick(0, 11)), 0.05f, 0.3f);
  int dark = b.paint(b.gray(0.02f), 0.02f, 0.8f);
  b.span(v3(-w, 0, 0), v3(w, len, h), body, 0.8f);
  std::vector<Vec3> ports;
  for (int i = 0; i < n; i++) {
    float x = (i - 0.5f * (n - 1)) * pitch;
    bool up = r.chance(0.12f);
    if (up) b.box(v3(x, len * 0.55f, h + len * 0.3f), v3(pitch * 0.4f, 0.8f, len * 0.35f), lever, 0.5f, turn(v3(1, 0, 0), -0.3f));
    else b.box(v3(x, len * 0.5f, h + 0.7f), v3(pitch * 0.4f, len * 0.42f, 0.8f), lever, 0.5f);
    b.box(v3(x, 0, h * 0.45f), v3(pitch * 0.38f, 0.1f, h * 0.32f), dark, 0);
    ports.push_back(v3(x, 0, h * 0.45f));
  }
  return ports;
}

std::vector<Vec3> pin_plug(Builder& b, int n, float pitch) {
  Rng& r = b.rng;
  float w = n * pitch * 0.5f + r.range(0.3f, 1), len = pitch * r.range(1.8f, 5.5f), h = pitch * r.range(0.6f, 1.3f);
  const float shares[] = {0.5f, 0.3f, 0.1f, 0.1f};
  int kind = r.weighted(shares);
  int body = kind == 0 ? b.plastic(2) : kind == 1 ? b.plastic(0) : kind == 2 ? b.plastic(4) : b.paint(b.pigment(pgTerminalGreen, r.range(0.6f, 1)), 0.05f, 0.35f);
  int dark = b.paint(b.gray(0.015f), 0.02f, 0.8f), metal = b.tin();
  b.span(v3(-w, 0, -h), v3(w, len, h), body, pitch * 0.1f);
  if (r.chance(0.6f)) b.span(v3(-w - 0.4f, len * 0.45f, -h * 0.8f), v3(w + 0.4f, len * 0.6f, h * 1.1f), body, pitch * 0.08f);
  bool slots = r.chance(0.7f);
  std::vector<Vec3> pins;
  for (int i = 0; i < n; i++) {
    float x = (i - 0.5f * (n - 1)) * pitch;
    if (slots) {
      b.span(v3(x - pitch * 0.3f, len * 0.25f, h - 0.02f), v3(x + pitch * 0.3f, len * 0.6f, h + 0.03f), r.chance(0.8f) ? dark : metal, 0);
    }
    b.box(v3(x, 0, 0), v3(pitch * 0.36f, 0.06f, h * 0.6f), dark, 0);
    pins.push_back(v3(x, 0, 0));
  }
  return pins;
}

void crimp_terminal(Builder& b, int kind, float d, int metal) {
  float w = d * 0.75f, t = fmaxf(d * 0.12f, 0.35f);
  b.tube(v3(0, -d * 0.3f, 0), v3(0, d * 1.5f, 0), d * 0.5f, d * 0.42f, metal);
  b.span(v3(-w * 0.5f, d * 1.3f, -t), v3(w * 0.5f, d * 2.2f, t), metal, t * 0.5f);
  float y = d * 2.1f;
  if (kind == 0) {
    b.ring(v3(0, y + w * 0.95f, 0), v3(0, 0, 1), w * 0.8f, w * 0.34f, metal, 14);
  } else if (kind == 1) {
    for (int s = -1; s <= 1; s += 2) b.span(v3(s * w * 0.7f - w * 0.22f, y, -t), v3(s * w * 0.7f + w * 0.22f, y + w * 2, t), metal, t * 0.5f);
    b.span(v3(-w * 0.9f, y - w * 0.2f, -t), v3(w * 0.9f, y + w * 0.35f, t), metal, t * 0.5f);
  } else if (kind == 2) {
    b.span(v3(-w * 0.85f, y - w * 0.2f, -t), v3(w * 0.85f, y + w * 2.4f, t), metal, t * 0.5f);
  } else {
    b.span(v3(-w, y - w * 0.1f, -t), v3(w, y + w * 2, t), metal, t * 0.5f);
    for (int s = -1; s <= 1; s += 2) b.span(v3(s * w - t, y, -t), v3(s * w + t, y + w * 2, t + w * 0.5f), metal, t * 0.5f);
  }
}

void corrugated(Builder& b, const std::vector<Vec3>& points, float R, int mat) {
  b.mat(mat).tex = kRibs;
  b.mat(mat).texScale = R * b.rng.range(0.3f, 0.55f);
  b.mat(mat).texAmount = b.rng.range(0.6f, 1.0f);
  b.rod(points, R, mat);
}

void gland(Builder& b, float rr, int mat) {
  float R = rr * 1.7f;
  b.cylinder(v3(0, 0, 0), v3(0, 0, R * 0.5f), R * 1.15f, mat);
  for (int i = 0; i < 3; i++) b.box(v3(0, 0, R * 0.25f), v3(R * 1.22f, R * 0.7f, R * 0.25f), mat, 0.4f, turn(v3(0, 0, 1), i * kPi / 3));
  b.cylinder(v3(0, 0, R * 0.5f), v3(0, 0, R * 1.1f), R * 0.95f, mat);
  b.cone(v3(0, 0, R * 1.1f), v3(0, 0, R * 1.7f), R * 0.95f, rr * 1.15f, mat);
}

void tape_sheet(Builder& b, float w, float h, float top, int mat) {
  Rng& r = b.rng;
  int nx = std::max(2, std::min(9, (int)(w / 5))), ny = std::max(1, std::min(6, (int)(h / 6)));
  float dx = w / nx, dy = h / ny;
  for (int i = 0; i < nx; i++)
    for (int j = 0; j < ny; j++) {
      Quat q = turn(v3(1, 0, 0), r.gauss() * 0.05f) * turn(v3(0, 1, 0), r.gauss() * 0.05f);
      b.box(v3((i + 0.5f) * dx - w / 2, (j + 0.5f) * dy - h / 2, top + r.gauss() * 0.05f), v3(dx * 0.53f, dy * 0.53f, 0.12f), mat, 0, q);
    }
}

void clamp(Builder& b, float R, int mat) {
  float w = fmaxf(R * 0.9f, 3);
  const int N = 8;
  for (int i = 0; i < N; i++) {
    float a = kPi * (i + 0.5f) / N;
    b.box(v3(0, cosf(a) * (R + 0.5f), sinf(a) * (R + 0.5f)), v3(w, R * 0.24f, 0.6f), mat, 0.2f, turn(v3(1, 0, 0), a - kPi / 2));
  }
  for (int s = -1; s <= 1; s += 2) {
    b.box(v3(0, s * (R * 1.9f), -R * 0.4f), v3(w, R * 0.9f, 0.7f), mat, 0.3f);
    b.box(v3(0, s * (R + 0.5f), -R * 0.2f), v3(w, 0.6f, R * 0.3f), mat, 0.2f);
    screw(b, v3(0, s * R * 2.1f, -R * 0.4f + 0.7f), v3(0, 0, 1), fmaxf(R * 0.45f, 1.6f));
  }
}

}  // namespace hp
