#include "devices.hpp"

#include <algorithm>

namespace hp {

void screw(Builder& b, Vec3 p, Vec3 n, float r, int mat) {
  if (mat < 0) mat = b.rng.chance(0.75f) ? b.zinc() : b.brass();
  n = unit(n);
  b.cone(p, p + n * (r * 0.45f), r, r * 0.85f, mat);
  Vec3 t = normal_to(n), s = cross(n, t);
  float a = b.rng.range(0, kPi);
  Vec3 u = t * cosf(a) + s * sinf(a), v = cross(n, u);
  int dark = b.paint(b.gray(0.02f));
  Quat q = Builder::axes(u, v);
  b.box(p + n * (r * 0.45f), v3(r * 0.75f, r * 0.12f, r * 0.03f), dark, 0, q);
  if (b.rng.chance(0.5f)) b.box(p + n * (r * 0.45f), v3(r * 0.12f, r * 0.6f, r * 0.03f), dark, 0, q);
}

DeviceLook device_look(Builder& b, int kind) {
  Rng& r = b.rng;
  DeviceLook k;
  k.body = b.plastic(kind);
  k.face = r.chance(0.7f) ? k.body : b.plastic();
  k.handle = r.chance(0.6f) ? b.plastic(0) : b.plastic();
  k.accent = b.paint(b.pigment(r.one_of({(int)pgTerminalGreen, (int)pgTerminalOrange, (int)pgToolBlue, (int)pgToolRed, (int)pgLabelYellow, (int)pgPaper}), r.range(0.6f, 1)));
  k.dark = b.paint(b.gray(0.012f), 0.02f, 0.8f);
  bool inverse = r.chance(0.3f);
  k.label = b.label_material(inverse ? b.pigment(pgDeviceBlack) : b.pigment(pgPaper, r.range(0.75f, 0.95f)), inverse ? b.pigment(pgPaper) : b.pigment(pgInk), r.range(1, 2.6f));
  k.metal = r.chance(0.7f) ? b.zinc() : b.brass();
  return k;
}

std::vector<Vec3> plug_breaker(Builder& b, const DeviceLook& k, int poles, float length, float pitch, float height) {
  Rng& r = b.rng;
  std::vector<Vec3> entries;
  float w = poles * pitch * 0.5f - 0.25f;
  b.span(v3(0, -w, height * 0.25f), v3(length, w, height), k.body, 1.2f);
  // raised middle with the handle
  float hx = length * 0.38f;
  b.span(v3(hx - 14, -w + 0.6f, height), v3(hx + 14, w - 0.6f, height + 5), k.face, 1.5f);
  float swing = r.chance(0.8f) ? 5 : -5;
  b.box(v3(hx + swing * 0.4f, 0, height + 8), v3(4.5f, std::min(w * 0.6f, pitch * 0.3f), 5), k.handle, 1.2f, turn(v3(0, 1, 0), swing * 0.08f));
  if (r.chance(0.7f)) b.box(v3(hx + 24, 0, height + 0.06f), v3(6, w * 0.7f, 0.06f), k.label, 0);
  for (int i = 0; i < poles; i++) {
    float y = (i - 0.5f * (poles - 1)) * pitch;
    // step down toward the terminal, screw from the front, opening at the end
    b.span(v3(length - 13, y - pitch * 0.32f, height), v3(length - 0.6f, y + pitch * 0.32f, height + 0.1f), k.dark, 0);
    screw(b, v3(length - 7, y, height - 1.2f), v3(0, 0, 1), 3.6f, k.metal);
    b.span(v3(length - 0.5f, y - 4.5f, height * 0.45f), v3(length + 0.1f, y + 4.5f, height * 0.45f + 11), k.dark, 0);
    b.span(v3(length - 3, y - 3.6f, height * 0.45f + 7.5f), v3(length + 0.4f, y + 3.6f, height * 0.45f + 10), k.metal, 0.3f);
    entries.push_back(v3(length - 2, y, height * 0.45f + 4));
  }
  return entries;
}

void modular(Builder& b, const DeviceLook& k, float width, int poles) {
  Rng& r = b.rng;
  float w = width * 0.5f - 0.2f;
  b.span(v3(-w, -kModularEntry, 5), v3(w, kModularEntry, 44), k.body, 1.2f);
  b.span(v3(-w, -22.5f, 44), v3(w, 22.5f, 60), k.face, 1.2f);
  float pw = width / poles;
  for (int i = 0; i < poles; i++) {
    float x = (i - 0.5f * (poles - 1)) * pw;
    for (int s = -1; s <= 1; s += 2) {
      b.cylinder(v3(x, s * 33.0f, 43), v3(x, s * 33.0f, 44.1f), 4.2f, k.dark);
      screw(b, v3(x, s * 33.0f, 43), v3(0, 0, 1), 3.3f, k.metal);
      b.span(v3(x - 4.5f, s > 0 ? kModularEntry - 0.3f : -kModularEntry - 0.1f, 17), v3(x + 4.5f, s > 0 ? kModularEntry + 0.1f : -kModularEntry + 0.3f, 29), k.dark, 0);
    }
  }
  if (r.chance(0.8f)) {
    // toggle, common over the poles
    b.span(v3(-w * 0.6f, -8, 60), v3(w * 0.6f, 8, 60.2f), k.dark, 0);
    b.box(v3(0, r.chance(0.8f) ? 3.5f : -3.5f, 63), v3(w * 0.5f, 4, 5), k.handle, 1);
  } else {
    b.box(v3(0, 2, 60.3f), v3(w * 0.5f, 5, 0.3f), k.accent, 0.2f);
  }
  b.box(v3(0, -16, 60.06f), v3(w * 0.85f, 4.5f, 0.06f), k.label, 0);
  if (r.chance(0.5f)) b.box(v3(0, 15, 60.06f), v3(w * 0.8f, 3, 0.06f), r.chance(0.5f) ? k.accent : k.label, 0);
}

void din_rail(Builder& b, float L) {
  int m = b.zinc();
  b.span(v3(-L / 2, -12, 0), v3(L / 2, 12, 1), m, 0);
  for (int s = -1; s <= 1; s += 2) {
    b.span(v3(-L / 2, s > 0 ? 11.0f : -12.0f, 0), v3(L / 2, s > 0 ? 12.0f : -11.0f, 7.5f), m, 0.3f);
    b.span(v3(-L / 2, s > 0 ? 11.0f : -17.5f, 6.5f), v3(L / 2, s > 0 ? 17.5f : -11.0f, 7.5f), m, 0.3f);
  }
  int dark = b.paint(b.gray(0.05f));
  for (float x = -L / 2 + 12; x < L / 2; x += 25) b.span(v3(x, -2.6f, 1), v3(x + 15, 2.6f, 1.05f), dark, 0);
}

void terminal_row(Builder& b, int n, float w, float h, float d, int body) {
  Rng& r = b.rng;
  int dark = b.paint(b.gray(0.015f)), metal = b.zinc();
  int tag = b.label_material(b.pigment(pgPaper, 0.9f), b.pigment(pgInk), w * 0.4f);
  int blue = b.plastic(1), earth = b.paint(b.named(kGreen));
  b.mat(blue).base = b.named(kBlue);
  int jumper = r.chance(0.3f) ? b.paint(b.named(kRed)) : -1;
  for (int i = 0; i < n; i++) {
    float x = (i - 0.5f * (n - 1)) * w;
    int m = r.chance(0.06f) ? blue : r.chance(0.05f) ? earth : body;
    b.span(v3(x - w * 0.48f, -h * 0.5f, 3), v3(x + w * 0.48f, h * 0.5f, d * 0.72f), m, 0.5f);
    b.span(v3(x - w * 0.48f, -h * 0.28f, d * 0.7f), v3(x + w * 0.48f, h * 0.28f, d), m, 0.5f);
    for (int s = -1; s <= 1; s += 2) {
      b.cylinder(v3(x, s * h * 0.34f, d * 0.72f - 1), v3(x, s * h * 0.34f, d * 0.72f + 0.05f), w * 0.36f, dark);
      b.cylinder(v3(x, s * h * 0.34f, d * 0.72f - 1), v3(x, s * h * 0.34f, d * 0.72f - 0.4f), w * 0.3f, metal);
      b.span(v3(x - w * 0.3f, s * (h * 0.5f) - 0.1f, d * 0.35f), v3(x + w * 0.3f, s * (h * 0.5f) + 0.1f, d * 0.35f + w * 0.8f), dark, 0);
    }
    if (r.chance(0.9f)) b.span(v3(x - w * 0.42f, -h * 0.25f, d), v3(x + w * 0.42f, -h * 0.12f, d + 0.4f), tag, 0.1f);
    if (jumper >= 0 && r.chance(0.4f)) b.span(v3(x - w * 0.5f, -1.5f, d), v3(x + w * 0.5f, 1.5f, d + 1), jumper, 0.2f);
  }
}

void relay(Builder& b, const DeviceLook& k, float w, float h, float d) {
  Rng& r = b.rng;
  b.span(v3(-w / 2, -h / 2, 3), v3(w / 2, h / 2, d * 0.65f), k.body, 1.2f);
  b.span(v3(-w / 2 + 1, -h * 0.3f, d * 0.6f), v3(w / 2 - 1, h * 0.3f, d), k.face, 1.5f);
  int n = std::max(2, (int)(w / 11));
  for (int i = 0; i < n; i++) {
    float x = (i - 0.5f * (n - 1)) * w / n;
    for (int s = -1; s <= 1; s += 2) {
      b.span(v3(x - w / n * 0.38f, s * h * 0.42f - h * 0.06f, d * 0.65f), v3(x + w / n * 0.38f, s * h * 0.42f + h * 0.06f, d * 0.65f + 0.1f), k.dark, 0);
      screw(b, v3(x, s * h * 0.42f, d * 0.65f), v3(0, 0, 1), w / n * 0.28f, k.metal);
    }
  }
  b.box(v3(0, 0, d + 0.06f), v3(w * 0.36f, h * 0.18f, 0.06f), k.label, 0);
  if (r.chance(0.5f)) b.box(v3(0, h * 0.22f, d + 0.2f), v3(w * 0.12f, h * 0.04f, 0.8f), k.accent, 0.3f);
}

void trunking(Builder& b, float L, float width, float height, int mat, bool lid) {
  b.span(v3(-L / 2, -width / 2, 0), v3(L / 2, width / 2, 1.5f), mat, 0.2f);
  float pitch = b.rng.range(8, 12.5f), finger = pitch * b.rng.range(0.45f, 0.65f);
  for (int s = -1; s <= 1; s += 2) {
    float y0 = s * width / 2 - (s > 0 ? 1.6f : 0), y1 = y0 + 1.6f;
    b.span(v3(-L / 2, y0, 0), v3(L / 2, y1, height * 0.2f), mat, 0.2f);
    for (float x = -L / 2; x < L / 2; x += pitch) b.span(v3(x, y0, 0), v3(x + finger, y1, height), mat, 0.5f);
  }
  if (lid) b.span(v3(-L / 2, -width / 2 - 1, height), v3(L / 2, width / 2 + 1, height + 1.8f), mat, 0.8f);
}

void screw_bar(Builder& b, int n, float pitch, float width, float height, int barMat) {
  b.span(v3(-width / 2, -n * pitch / 2 - 4, 0), v3(width / 2, n * pitch / 2 + 4, height), barMat, 0.8f);
  int dark = b.paint(b.gray(0.015f)), head = b.rng.chance(0.6f) ? b.zinc() : b.brass();
  for (int i = 0; i < n; i++) {
    float y = (i - 0.5f * (n - 1)) * pitch;
    screw(b, v3(0, y, height), v3(0, 0, 1), pitch * 0.36f, head);
    for (int s = -1; s <= 1; s += 2) b.cylinder(v3(s * width * 0.5f - s * 0.3f, y, height * 0.5f), v3(s * (width * 0.5f + 0.06f), y, height * 0.5f), pitch * 0.3f, dark);
  }
}

void lug(Builder& b, float r, int mat) {
  float w = r * 1.5f;
  b.span(v3(-w, -w * 2, -w), v3(w, 0, w * 1.1f), mat, r * 0.25f);
  int dark = b.paint(b.gray(0.01f));
  b.cylinder(v3(0, -0.4f, 0), v3(0, 0.06f, 0), r * 1.05f, dark);
  screw(b, v3(0, -w, w * 1.1f), v3(0, 0, 1), r * 0.75f, mat);
  b.span(v3(-w, -w * 3.6f, -w), v3(w, -w * 2, -w * 0.45f), mat, 0.5f);
}

void conduit_end(Builder& b, float r, bool plasticBushing) {
  Rng& g = b.rng;
  int m = b.zinc(), dark = b.paint(b.gray(0.01f), 0.02f, 0.9f);
  int bush = plasticBushing ? b.plastic(g.chance(0.5f) ? 0 : 4) : m;
  b.cone(v3(0, 0, 0), v3(0, 0, 4), r * 1.35f, r * 1.35f, m);
  for (int i = 0; i < 8; i++) {
    float a = 2 * kPi * i / 8;
    b.box(v3(cosf(a) * r * 1.4f, sinf(a) * r * 1.4f, 2), v3(r * 0.16f, r * 0.22f, 2), m, 0.4f, turn(v3(0, 0, 1), a));
  }
  b.tube(v3(0, 0, 0), v3(0, 0, 10), r * 1.15f, r * 1.15f, bush);
  b.ring(v3(0, 0, 10), v3(0, 0, 1), r * 1.07f, r * 0.12f, bush, 18);
  b.tube(v3(0, 0, 0), v3(0, 0, 10), r, r, bush);
  b.cylinder(v3(0, 0, 3.9f), v3(0, 0, 4.2f), r, dark);
}

void knockout(Builder& b, float r, bool open, int wall) {
  if (open) {
    b.cylinder(v3(0, 0, -1), v3(0, 0, 0.15f), r, b.paint(b.gray(0.008f), 0.02f, 0.9f));
    return;
  }
  b.ring(v3(0, 0, 0), v3(0, 0, 1), r, 0.35f, wall, 24);
  if (b.rng.chance(0.5f)) b.ring(v3(0, 0, 0), v3(0, 0, 1), r * 1.35f, 0.35f, wall, 26);
  b.cylinder(v3(0, 0, -1), v3(0, 0, 0.3f), r * 0.93f, wall);
}

void twist_connector(Builder& b, float size, int mat) {
  b.cone(v3(0, 0, 0), v3(0, 0, size * 0.35f), size * 0.42f, size * 0.36f, mat);
  b.cone(v3(0, 0, size * 0.35f), v3(0, 0, size), size * 0.36f, size * 0.2f, mat);
  b.sphere(v3(0, 0, size * 0.98f), size * 0.19f, mat);
  int n = 12;
  for (int i = 0; i < n; i++) {
    float a = 2 * kPi * i / n;
    Vec3 d = v3(cosf(a), sinf(a), 0);
    b.capsule(d * (size * 0.35f) + v3(0, 0, size * 0.3f), d * (size * 0.21f) + v3(0, 0, size * 0.95f), size * 0.035f, mat);
  }
  if (b.rng.chance(0.4f))
    for (int s = -1; s <= 1; s += 2) b.box(v3(s * size * 0.42f, 0, size * 0.3f), v3(size * 0.14f, size * 0.07f, size * 0.26f), mat, size * 0.05f);
  b.cylinder(v3(0, 0, -0.1f), v3(0, 0, 0.1f), size * 0.38f, b.paint(b.gray(0.01f)));
}

void circuit_board(Builder& b, float w, float h) {
  Rng& r = b.rng;
  int mask = r.chance(0.65f) ? b.pigment(pgBoardGreen, r.range(0.6f, 1.3f)) : r.chance(0.6f) ? b.pigment(pgBoardBlue, r.range(0.6f, 1.3f)) : r.chance(0.5f) ? b.pigment(pgDeviceBlack) : b.pigment(pgToolRed, 0.7f);
  int bd = b.textured(kBoard, mask, b.blend(pgBoardGreen, pgBrass, 0.3f, 1.2f), r.range(0.8f, 2.2f), 1);
  b.mat(bd).second = b.blend(pgBoardGreen, pgTerminalGreen, r.u(), r.range(0.5f, 1));
  b.mat(bd).print = b.pigment(pgPaper, 0.9f);
  b.mat(bd).rough = 0.25f;
  b.mat(bd).specular = 0.05f;
  b.span(v3(-w / 2, -h / 2, 0), v3(w / 2, h / 2, 1.6f), bd, 0.2f);
  int black = b.plastic(0), metal = b.zinc(), white = b.plastic(2), odd = b.plastic(4), tan = b.paint(b.pigment(pgRope));
  int mark = b.label_material(b.pigment(pgDeviceBlack), b.pigment(pgPaper, 0.6f), 1.2f);
  int n = std::min(60, (int)(w * h / 130) + 4);
  for (int i = 0; i < n; i++) {
    Vec3 p = v3(r.range(-0.46f, 0.46f) * w, r.range(-0.46f, 0.46f) * h, 1.6f);
    switch (r.pick(0, 6)) {
      case 0: case 1: {
        Vec3 d = v3(r.log(1, 7), r.log(1, 7), r.log(0.5f, 2));
        b.box(p + v3(0, 0, d.z), d, r.chance(0.5f) ? mark : black, 0.2f);
        int pins = (int)(d.x / 0.65f);
        for (int k = 0; k < pins && d.x > 2; k++)
          for (int s = -1; s <= 1; s += 2) b.box(p + v3((k - 0.5f * (pins - 1)) * 1.27f, s * (d.y + 0.5f), 0.3f), v3(0.25f, 0.6f, 0.2f), metal, 0);
        break;
      }
      case 2: b.cylinder(p, p + v3(0, 0, r.range(5, 14)), r.range(2, 5), r.chance(0.5f) ? black : b.plastic()); break;
      case 3: b.box(p + v3(0, 0, 0.4f), v3(0.5f, 1.0f, 0.4f), r.chance(0.5f) ? tan : black, 0.1f); b.box(p + v3(0, 0, 0.41f), v3(0.55f, 0.3f, 0.38f), metal, 0); break;
      case 4: {  // pin header
        int k = r.pick(2, 10);
        b.box(p + v3(0, 0, 1.3f), v3(k * 1.27f, 1.27f, 1.3f), black, 0.2f);
        for (int q = 0; q < k; q++) b.box(p + v3((q - 0.5f * (k - 1)) * 2.54f, 0, 4), v3(0.3f, 0.3f, 4), b.brass(), 0.1f);
        break;
      }
      case 5: b.box(p + v3(0, 0, 2.5f), v3(r.range(3, 8), r.range(2, 6), 2.5f), r.chance(0.4f) ? odd : r.chance(0.5f) ? white : metal, 0.5f); break;
      default: b.cylinder(p + v3(-3, 0, 1.2f), p + v3(3, 0, 1.2f), 1.1f, tan); break;
    }
  }
}

void label(Builder& b, float w, float h, int paper) {
  int p = paper >= 0 ? paper : b.rng.chance(0.7f) ? b.pigment(pgPaper, b.rng.range(0.7f, 0.95f)) : b.pigment(pgLabelYellow, b.rng.range(0.8f, 1));
  b.box(v3(0, 0, 0.08f), v3(w / 2, h / 2, 0.08f), b.label_material(p, b.pigment(pgInk), b.rng.range(0.08f, 0.2f) * h), 0);
}

}  // namespace hp
