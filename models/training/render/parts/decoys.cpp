#include "decoys.hpp"

#include <algorithm>

#include "devices.hpp"
#include "hands.hpp"
#include "joints.hpp"
#include "runs.hpp"
#include "surfaces.hpp"

namespace hp {

int vivid(Builder& b) {
  Rng& r = b.rng;
  if (r.chance(0.3f)) return b.plastic();
  int name = r.pick(0, 11);
  int m = b.paint(b.named(name), r.range(0.03f, 0.06f), r.range(0.15f, 0.55f));
  if (r.chance(0.3f)) { b.mat(m).dirt = r.u() * 0.4f; b.mat(m).dirtColor = b.pigment(pgDirt); }
  return m;
}

int any_decoy(Rng& r) {
  // fins, slots, tool, hand, finger, rod, rail, trunking, tray, planks, ring, rope, corrugated, modules, board, print,
  // plug, twist caps, gland, big box, perforated, indicator, knobs, frame, terminals, ribbed modules, sheet, furniture
  static const float w[kDecoys] = {1.2f, 1, 1.2f, 1.3f, 1, 0.35f, 0.7f, 0.5f, 1.6f, 1, 1, 0.5f, 1, 1.4f, 1.1f, 1.2f, 1, 1.5f, 0.8f, 1.4f, 0.7f, 0.7f, 0.9f, 1, 0.7f, 1, 0.6f, 0.7f};
  return r.weighted(w);
}

void printed_lines(Builder& b, float s) {
  Rng& r = b.rng;
  int n = r.pick(2, 12), kind = r.pick(0, 3);
  float a = r.range(0, 6.28f), w = s * r.log(0.002f, 0.03f), gap = s * r.log(0.02f, 0.12f);
  bool one = r.chance(0.5f);
  int ink = b.paint(r.chance(0.4f) ? b.pigment(pgInk) : b.named(r.pick(0, 11)), 0.03f, 0.6f);
  b.push(v3(0, 0, 0.05f), turn(v3(0, 0, 1), a));
  for (int i = 0; i < n; i++) {
    int m = one ? ink : b.paint(b.named(r.pick(0, 11)), 0.03f, 0.6f);
    float y = (i - 0.5f * (n - 1)) * gap;
    if (kind == 0) b.box(v3(r.gauss() * s * 0.05f, y, 0), v3(s * r.range(0.2f, 0.5f), w * 0.5f, 0.04f), m, 0);
    else if (kind == 1) {  // arrow
      if (i > 3) break;
      float L = s * r.range(0.1f, 0.4f);
      Vec3 p = v3(r.range(-0.4f, 0.4f) * s, r.range(-0.4f, 0.4f) * s, 0);
      b.push(p, turn(v3(0, 0, 1), r.range(0, 6.28f)));
      b.box(v3(0, 0, 0), v3(L, w, 0.04f), m, 0);
      for (int q = -1; q <= 1; q += 2) b.box(v3(L * 0.85f, q * L * 0.11f, 0), v3(L * 0.2f, w, 0.04f), m, 0, turn(v3(0, 0, 1), -q * 0.65f));
      b.pop();
    } else if (kind == 2) {  // arc of short bars
      float R = s * r.range(0.1f, 0.5f), a0 = r.range(0, 6.28f), sweep = r.range(0.5f, 5);
      int k = 18;
      if (i > 4) break;
      for (int q = 0; q < k; q++) {
        float t = a0 + sweep * q / k;
        b.box(v3(cosf(t) * R, sinf(t) * R, 0.01f * i), v3(R * sweep / k * 0.53f, w * 0.5f, 0.04f), m, 0, turn(v3(0, 0, 1), t + kPi / 2));
      }
    } else {  // polyline like a wiring diagram
      Vec3 p = v3(r.range(-0.5f, 0.5f) * s, r.range(-0.5f, 0.5f) * s, 0.01f * i);
      for (int q = 0; q < 4; q++) {
        float L = s * r.range(0.05f, 0.25f);
        bool x = (q + i) % 2 == 0;
        if (r.chance(0.5f)) L = -L;
        Vec3 e = p + (x ? v3(L, 0, 0) : v3(0, L, 0));
        b.box((p + e) * 0.5f, v3(x ? fabsf(L) * 0.5f + w * 0.5f : w * 0.5f, x ? w * 0.5f : fabsf(L) * 0.5f + w * 0.5f, 0.04f), m, 0);
        p = e;
      }
    }
  }
  b.pop();
}

void decoy(Builder& b, int kind, float s) {
  Rng& r = b.rng;
  float h = s * 0.5f;
  switch (kind) {
    case 0: {  // cooling fins, louvers, ribs
      int n = r.pick(5, 26), m = r.chance(0.4f) ? vivid(b) : r.chance(0.5f) ? b.steel() : b.plastic(0);
      float pitch = s / n, t = pitch * r.range(0.12f, 0.35f), H = pitch * r.range(0.3f, 3);
      b.span(v3(-h, -h * 0.7f, 0), v3(h, h * 0.7f, 2), m, 0.5f);
      bool round_ = r.chance(0.35f);
      Quat q = turn(v3(0, 1, 0), r.chance(0.3f) ? 0.6f : 0);
      for (int i = 0; i < n; i++) {
        float x = (i + 0.5f) * pitch - h;
        if (round_) b.capsule(v3(x, -h * 0.65f, 2 + H * 0.3f), v3(x, h * 0.65f, 2 + H * 0.3f), t * 1.2f, m);
        else b.box(v3(x, 0, 2 + H * 0.5f), v3(t, h * 0.68f, H * 0.5f), m, t * 0.6f, q);
      }
      break;
    }
    case 1: {  // slots in a plate
      int n = r.pick(4, 22), m = r.chance(0.5f) ? vivid(b) : enclosure_surface(b), d = b.paint(b.gray(0.01f), 0.02f, 0.9f);
      float pitch = s / n, t = pitch * r.range(0.15f, 0.4f), H = r.range(2, 0.4f * s);
      b.span(v3(-h, -h * 0.8f, 0), v3(h, h * 0.8f, H), m, 1.5f);
      int rows = r.pick(1, 3);
      for (int j = 0; j < rows; j++)
        for (int i = 0; i < n; i++) b.box(v3((i + 0.5f) * pitch - h, (j - 0.5f * (rows - 1)) * s * 0.5f / rows, H), v3(t, s * 0.2f / rows, 0.08f), d, 0);
      break;
    }
    case 2: b.push(v3(-h, 0, 0)); tool(b, r.pick(0, 5), s); b.pop(); break;
    case 3: {
      b.push(v3(0, 0, r.range(30, 50)), turn(v3(1, 0, 0), r.gauss() * 0.3f));
      if (r.chance(0.6f)) {
        hand_pinch(b, r.range(2, 14), skin(b));
        b.push(v3(0, 0, 0));
        if (r.chance(0.7f)) {  // holds a part
          int m = vivid(b);
          if (r.chance(0.5f)) b.box(v3(0, 10, 0), v3(r.range(6, 45), r.range(5, 25), r.range(2, 12)), m, 1.2f);
          else b.cylinder(v3(-r.range(5, 40), 4, 0), v3(r.range(5, 40), 4, 0), r.range(3, 12), m);
        }
        b.pop();
      } else {
        hand_open(b, skin(b));
      }
      b.pop();
      break;
    }
    case 4: for (int i = r.pick(1, 3); i > 0; i--) { b.push(v3(r.gauss() * 22, r.gauss() * 10, 0), turn(v3(0, 0, 1), r.gauss() * 0.3f)); finger(b, skin(b)); b.pop(); } break;
    case 5: {  // rod or pipe whose ends show
      float R = s * r.log(0.01f, 0.06f);
      int m = r.chance(0.6f) ? b.steel() : r.chance(0.5f) ? b.copper() : b.plastic();
      float L = h * r.range(0.4f, 0.9f);
      b.cylinder(v3(-L, 0, R), v3(L, 0, R), R, m);
      for (int q = -1; q <= 1; q += 2)
        if (r.chance(0.7f)) b.cylinder(v3(q * L - R * 0.8f, 0, R), v3(q * L + R * 0.8f, 0, R), R * r.range(1.3f, 1.9f), m);
      break;
    }
    case 6: din_rail(b, s * 1.5f); break;
    case 7: trunking(b, s * 1.5f, r.range(25, 60), r.range(30, 60), b.plastic(r.chance(0.6f) ? 1 : -1), r.chance(0.5f)); break;
    case 8: {  // open tray or lid with rounded lips
      int m = r.chance(0.4f) ? vivid(b) : b.plastic(r.chance(0.6f) ? 0 : 2), in = r.chance(0.7f) ? m : b.plastic();
      float w = h * r.range(0.7f, 1.2f), l = h * r.range(0.5f, 1), H = s * r.range(0.05f, 0.3f), t = r.range(1, 3.5f);
      b.span(v3(-w, -l, 0), v3(w, l, 1.2f), in, 0);
      for (int q = -1; q <= 1; q += 2) {
        b.span(v3(q * w - t, -l, 0), v3(q * w + t, l, H), m, t * 0.5f);
        b.span(v3(-w, q * l - t, 0), v3(w, q * l + t, H), m, t * 0.5f);
        b.capsule(v3(q * w, -l, H), v3(q * w, l, H), t * r.range(1, 1.5f), m);
        b.capsule(v3(-w, q * l, H), v3(w, q * l, H), t * r.range(1, 1.5f), m);
      }
      if (r.chance(0.5f))
        for (int q = 0; q < 4; q++) b.cylinder(v3((q & 1 ? 1 : -1) * w * 0.88f, (q & 2 ? 1 : -1) * l * 0.85f, 0), v3((q & 1 ? 1 : -1) * w * 0.88f, (q & 2 ? 1 : -1) * l * 0.85f, H * 0.9f), 3.5f, m);
      break;
    }
    case 9: {  // planks, battens, frames of wood
      int n = r.pick(2, 8);
      float pitch = s * r.range(0.12f, 0.35f);
      for (int i = 0; i < n; i++) {
        int m = b.textured(kWood, b.pigment(pgWoodLight, r.range(0.6f, 1.1f)), b.pigment(pgWoodDark, r.range(0.7f, 1)), r.log(3, 12), r.range(0.3f, 0.9f));
        float y = (i - 0.5f * (n - 1)) * pitch, w = pitch * r.range(0.2f, 0.49f);
        b.box(v3(r.gauss() * 5, y, w * 0.3f), v3(s, w, w * r.range(0.1f, 0.5f)), m, 0.8f, turn(v3(0, 0, 1), r.gauss() * 0.01f));
      }
      break;
    }
    case 10: {  // rings, washers, hoops
      int m = r.chance(0.5f) ? vivid(b) : b.plastic(0);
      float R = h * r.range(0.3f, 0.9f), t = R * r.log(0.04f, 0.2f);
      b.ring(v3(0, 0, t), v3(0, 0, 1), R, t, m, 32);
      if (r.chance(0.5f))
        for (int i = 0; i < 3; i++) { float a = i * 2.1f; b.cylinder(v3(cosf(a) * R * 1.12f, sinf(a) * R * 1.12f, 0), v3(cosf(a) * R * 1.12f, sinf(a) * R * 1.12f, t * 2), R * 0.12f, m); }
      break;
    }
    case 11: {  // rope, cord
      int m = b.textured(kRope, r.chance(0.6f) ? b.pigment(pgRope, r.range(0.6f, 1.1f)) : b.named(r.pick(0, 11)), b.pigment(pgDirt), s * 0.05f, (float)r.pick(3, 7));
      float R = s * r.log(0.01f, 0.04f);
      std::vector<Vec3> p;
      for (int i = 0; i < 5; i++) p.push_back(v3((i - 2) * h * 0.8f, r.gauss() * h * 0.35f, R));
      b.mat(m).texScale = R * r.range(3, 6);
      b.rod(p, R, m);
      break;
    }
    case 12: {  // corrugated tube or smooth hose with a fitting
      float R = s * r.log(0.025f, 0.1f);
      int m = r.chance(0.75f) ? b.paint(b.pigment(pgDeviceBlack, r.range(0.5f, 2)), 0.05f, r.range(0.2f, 0.5f)) : vivid(b);
      float y = r.gauss() * h * 0.4f;
      corrugated(b, {v3(-s, y, R), v3(-h * 0.4f, r.gauss() * h * 0.3f, R), v3(h * 0.3f, r.gauss() * h * 0.3f, R), v3(r.chance(0.5f) ? h * 0.8f : s, -y, R)}, R, m);
      break;
    }
    case 13: {  // row of modules with paddles and stripes of color
      DeviceLook k = device_look(b, r.chance(0.5f) ? 2 : -1);
      if (r.chance(0.35f)) k.body = vivid(b);
      k.handle = vivid(b);
      k.accent = vivid(b);
      int n = r.pick(2, 8);
      float w = r.chance(0.7f) ? 18 : 36;
      for (int i = 0; i < n; i++) {
        b.push(v3((i - 0.5f * (n - 1)) * w, 0, 0));
        if (r.chance(0.15f)) k.body = vivid(b);
        modular(b, k, w, 1);
        if (r.chance(0.4f)) b.box(v3(0, r.range(-30, 30), 44.2f), v3(w * 0.4f, r.range(1, 5), 0.3f), k.accent, 0);
        b.pop();
      }
      break;
    }
    case 14: circuit_board(b, s * 0.8f, s * r.range(0.4f, 0.8f)); break;
    case 15: {
      if (r.chance(0.6f)) b.box(v3(0, 0, 0.02f), v3(h, h * r.range(0.5f, 1), 0.02f), b.label_material(b.pigment(pgPaper, r.range(0.7f, 1)), b.pigment(pgInk), s * r.log(0.01f, 0.06f)), 0);
      printed_lines(b, s);
      break;
    }
    case 16: {
      for (int i = r.pick(1, 4); i > 0; i--) {
        b.push(v3(r.gauss() * h * 0.4f, r.gauss() * h * 0.4f, s * 0.03f), turn(v3(0, 0, 1), r.range(0, 6.28f)));
        if (r.chance(0.7f)) pin_plug(b, r.pick(2, 12), s * r.range(0.02f, 0.06f));
        else lever_connector(b, r.pick(2, 5), s * r.range(0.05f, 0.1f));
        b.pop();
      }
      break;
    }
    case 17: {  // twist connectors, caps
      for (int i = r.pick(1, 5); i > 0; i--) {
        Vec3 d = unit(v3(r.gauss(), r.gauss(), r.gauss() * 0.3f));
        float q = s * r.range(0.15f, 0.4f);
        b.push(v3(r.gauss() * h * 0.5f, r.gauss() * h * 0.5f, q * 0.4f), z_along(d));
        wire_cap(b, q, connector_plastic(b));
        b.pop();
      }
      break;
    }
    case 18: {
      for (int i = r.pick(1, 4); i > 0; i--) {
        bool up = r.chance(0.5f);
        float R = s * r.range(0.04f, 0.14f);
        b.push(v3(r.gauss() * h * 0.4f, r.gauss() * h * 0.4f, up ? 0 : R * 2), up ? Quat() : z_along(v3(r.gauss(), r.gauss(), 0)));
        int m = r.chance(0.6f) ? b.plastic(r.pick(0, 1)) : vivid(b);
        gland(b, R, m);
        if (r.chance(0.5f)) b.cone(v3(0, 0, R * 2.5f), v3(0, 0, R * 5), R * 1.05f, R * 0.7f, m);
        b.pop();
      }
      break;
    }
    case 19: {  // housing with rounded edges, seam, feet, label
      int m = r.chance(0.5f) ? vivid(b) : b.plastic();
      float w = h * r.range(0.5f, 1.2f), l = h * r.range(0.4f, 1), H = s * r.range(0.15f, 0.6f), e = s * r.log(0.01f, 0.08f);
      b.span(v3(-w, -l, 0), v3(w, l, H), m, e);
      for (int q = -1; q <= 1; q += 2) {  // rounded rims
        b.capsule(v3(-w, q * l, H - e * 0.3f), v3(w, q * l, H - e * 0.3f), e * 0.5f, m);
        b.capsule(v3(q * w, -l, H - e * 0.3f), v3(q * w, l, H - e * 0.3f), e * 0.5f, m);
      }
      b.span(v3(-w - 0.3f, -l - 0.3f, H * 0.5f), v3(w + 0.3f, l + 0.3f, H * 0.5f + fmaxf(0.4f, e * 0.15f)), r.chance(0.5f) ? vivid(b) : b.paint(b.gray(0.03f)), 0);
      b.push(v3(r.gauss() * w * 0.3f, r.gauss() * l * 0.3f, H));
      if (r.chance(0.5f)) label(b, w * r.range(0.4f, 1.2f), l * r.range(0.3f, 0.9f));
      if (r.chance(0.3f)) printed_lines(b, w);
      b.pop();
      break;
    }
    case 20: {  // perforated strip or plug board
      int nx = r.pick(8, 24), ny = r.pick(3, 7), m = b.plastic(r.chance(0.6f) ? 2 : -1), d = b.paint(b.gray(0.02f));
      float p = s / nx;
      b.span(v3(-h, -ny * p * 0.5f - p, 0), v3(h, ny * p * 0.5f + p, p * 2), m, 0.5f);
      for (int i = 0; i < nx; i++)
        for (int j = 0; j < ny; j++) b.box(v3((i + 0.5f) * p - h, (j - 0.5f * (ny - 1)) * p, p * 2), v3(p * 0.22f, p * 0.22f, 0.05f), d, 0);
      if (r.chance(0.6f))
        for (int q = -1; q <= 1; q += 2) b.box(v3(0, q * (ny * p * 0.5f + p * 0.6f), p * 2 + 0.03f), v3(h, p * 0.07f, 0.03f), b.paint(b.named(q > 0 ? kRed : kBlue)), 0);
      break;
    }
    case 21: {  // lit windows and lamps
      int n = r.pick(1, 5), body = b.plastic();
      b.span(v3(-h * 0.6f, -h * 0.4f, 0), v3(h * 0.6f, h * 0.4f, s * 0.15f), body, s * 0.02f);
      for (int i = 0; i < n; i++) {
        int m = b.paint(b.named(r.one_of({(int)kGreen, (int)kRed, (int)kYellow, (int)kBlue, (int)kOrange, (int)kTurquoise})), 0.06f, 0.15f);
        b.mat(m).glow = r.log(0.3f, 5);
        Vec3 p = v3(r.range(-0.4f, 0.4f) * s, r.range(-0.25f, 0.25f) * s, s * 0.15f);
        if (r.chance(0.5f)) b.box(p, v3(s * r.range(0.03f, 0.2f), s * r.range(0.01f, 0.12f), 0.5f), m, 0.2f);
        else b.sphere(p, s * r.range(0.01f, 0.05f), m);
      }
      break;
    }
    case 22: {  // knobs, levers, buttons, handles
      for (int i = r.pick(1, 5); i > 0; i--) {
        int m = vivid(b);
        Vec3 p = v3(r.gauss() * h * 0.5f, r.gauss() * h * 0.5f, 0);
        float q = s * r.range(0.05f, 0.15f);
        switch (r.pick(0, 3)) {
          case 0: b.cone(p, p + v3(0, 0, q * 1.4f), q, q * 0.8f, m); b.box(p + v3(0, 0, q * 1.4f), v3(q * 0.8f, q * 0.1f, q * 0.06f), vivid(b), 0); break;
          case 1: b.box(p + v3(0, 0, q * 0.5f), v3(q * 2, q * 0.4f, q * 0.5f), m, q * 0.2f, turn(v3(0, 0, 1), r.range(0, 3.1f))); break;
          case 2: { float a = r.range(0, 6.28f); b.rod({p + v3(0, 0, 0), p + v3(cosf(a) * q, sinf(a) * q, q * 2), p + v3(cosf(a) * q * 4, sinf(a) * q * 4, q * 2), p + v3(cosf(a) * q * 5, sinf(a) * q * 5, 0)}, q * 0.35f, m); break; }
          default: b.capsule(p + v3(0, 0, q * 0.4f), p + v3(q * 1.5f, 0, q * 0.4f), q * 0.4f, m);
        }
      }
      break;
    }
    case 23: {  // frame: window, bezel, door edge, pipe frame
      int m = r.chance(0.5f) ? vivid(b) : b.plastic(r.pick(0, 2));
      float w = h * r.range(0.6f, 1.3f), l = h * r.range(0.4f, 1), t = s * r.log(0.015f, 0.08f);
      for (int q = -1; q <= 1; q += 2) {
        b.box(v3(q * w, 0, t), v3(t, l + t, t), m, t * 0.4f);
        b.box(v3(0, q * l, t), v3(w + t, t, t), m, t * 0.4f);
      }
      break;
    }
    case 25: {  // tall modules with narrow colored ribs and slots between them
      int n = r.pick(3, 10), body = r.chance(0.5f) ? b.plastic(1) : vivid(b), rib = vivid(b), dark = b.paint(b.gray(0.02f));
      int lab = b.label_material(b.pigment(pgPaper, 0.9f), b.pigment(pgInk), s * 0.012f);
      float w = s / n, H = s * r.range(0.1f, 0.3f), l = h * r.range(0.5f, 0.9f), t = w * r.log(0.04f, 0.16f);
      for (int i = 0; i < n; i++) {
        float x = (i + 0.5f) * w - h;
        b.span(v3(x - w * 0.49f, -l, 0), v3(x + w * 0.49f, l, H), body, w * 0.05f);
        b.box(v3(x + w * 0.5f, 0, H), v3(t, l * r.range(0.5f, 0.95f), t * 1.2f), rib, t * 0.4f);
        b.box(v3(x, l * 0.4f, H), v3(w * 0.3f, l * 0.25f, 0.1f), lab, 0);
        b.box(v3(x, -l * 0.3f, H), v3(w * 0.12f, l * 0.3f, 0.1f), r.chance(0.5f) ? dark : rib, 0);
        if (r.chance(0.6f)) b.box(v3(x, -l * 0.75f, H + w * 0.15f), v3(w * 0.3f, w * 0.15f, w * 0.2f), r.chance(0.6f) ? rib : dark, w * 0.05f);
      }
      break;
    }
    case 26: {  // corrugated or profiled sheet, garage door
      int m = r.chance(0.4f) ? vivid(b) : enclosure_surface(b), n = r.pick(6, 24);
      float p = 2 * s / n;
      bool round_ = r.chance(0.5f);
      b.span(v3(-s, -s, 0), v3(s, s, p * 0.2f), m, 0);
      for (int i = 0; i < n; i++) {
        float x = (i + 0.5f) * p - s;
        if (round_) b.capsule(v3(x, -s, p * 0.15f), v3(x, s, p * 0.15f), p * 0.3f, m);
        else b.span(v3(x - p * 0.28f, -s, 0), v3(x + p * 0.28f, s, p * 0.4f), m, p * 0.08f);
      }
      break;
    }
    case 27: {  // large glossy things: chair, bag, book
      int m = b.paint(b.named(r.one_of({(int)kRed, (int)kBlue, (int)kOrange, (int)kGreen, (int)kYellow, (int)kBlack})), 0.06f, r.range(0.08f, 0.3f));
      float q = s * r.range(0.1f, 0.35f);
      switch (r.pick(0, 2)) {
        case 0: b.round_cone(v3(-s, r.gauss() * h, q * 0.4f), v3(s, r.gauss() * h, q * 0.4f), q, q * r.range(0.6f, 1), m); break;
        case 1: b.box(v3(0, 0, q * 0.4f), v3(s * 0.7f, s * 0.45f, q * 0.4f), m, q * 0.1f, turn(v3(0, 1, 0), r.gauss() * 0.1f)); break;
        default: b.rod({v3(-s, -h, q * 0.3f), v3(-h * 0.3f, -h * 0.2f, q * 0.6f), v3(h * 0.4f, h * 0.5f, q * 0.6f), v3(s, h * 0.6f, q * 0.3f)}, q * 0.5f, m);
      }
      break;
    }
    default: {
      int n = r.pick(4, 16);
      float w = r.range(5, 8);
      int m = r.chance(0.5f) ? vivid(b) : b.plastic(1);
      terminal_row(b, n, w, r.range(40, 60), r.range(35, 50), m);
      for (int i = 0; i < n; i++)
        if (r.chance(0.5f)) b.box(v3((i - 0.5f * (n - 1)) * w, r.range(-15, 15), 51), v3(w * 0.35f, 3, 1), vivid(b), 0.2f);
    }
  }
}

void overlay(Builder& b) {
  Rng& r = b.rng;
  Camera& c = b.globals.cam;
  c.lens = 0;
  // close before the camera, so small that its shadow does not show
  float d = b.targetDistance * 0.02f, half = d * c.tanHalf;
  Quat q = Builder::axes(c.right, c.up);
  auto flat = [&](int color) {
    int m = b.paint(color, 0, 1);
    b.mat(m).glow = r.range(0.5f, 1) / fmaxf(c.exposure, 1e-3f);
    return m;
  };
  for (int i = r.pick(1, 4); i > 0; i--) {
    Vec3 p = c.pos + c.fwd * (d * (1 + 0.004f * i)) + c.right * (half * r.range(-0.85f, 0.85f)) + c.up * (half * r.range(-0.85f, 0.85f));
    float w = half * r.range(0.1f, 0.5f), t = half * r.log(0.008f, 0.04f);
    int m = flat(b.named(r.one_of({(int)kRed, (int)kOrange, (int)kYellow, (int)kBlue, (int)kGreen, (int)kBlack, (int)kWhite})));
    switch (r.pick(0, 2)) {
      case 0: {
        float h = half * r.range(0.03f, 0.09f);
        int l = b.label_material(b.mat(m).base, r.chance(0.7f) ? b.pigment(pgPaper) : b.pigment(pgInk), h * 0.9f);
        b.mat(l).glow = b.mat(m).glow;
        b.box(p, v3(w, h, d * 0.0005f), l, 0, q);
        break;
      }
      case 1: {
        Quat z = q * turn(v3(0, 0, 1), r.range(0, 6.28f));
        b.box(p, v3(w, t, d * 0.0005f), m, 0, z);
        for (int s = -1; s <= 1; s += 2) b.box(p + rotate(z, v3(w * 0.9f, s * w * 0.13f, 0)), v3(w * 0.22f, t, d * 0.0005f), m, 0, z * turn(v3(0, 0, 1), -s * 0.7f));
        break;
      }
      default: {
        float h = w * r.range(0.4f, 1);
        for (int s = -1; s <= 1; s += 2) {
          b.box(p + rotate(q, v3(s * w, 0, 0)), v3(t * 0.5f, h, d * 0.0005f), m, 0, q);
          b.box(p + rotate(q, v3(0, s * h, 0)), v3(w, t * 0.5f, d * 0.0005f), m, 0, q);
        }
      }
    }
  }
}

}  // namespace hp
