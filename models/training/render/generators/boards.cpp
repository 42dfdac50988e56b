// Boards: conductors soldered or plugged to circuit boards, and plug boards with jumpers.
//
// Circuit board 25 to 160 mm (65 %): 2 to 16 conductors 0.8 to 3 mm from pads with solder (50 %), from a plug at the
// edge (30 %) or a screw block (20 %), leaving alone or as a ribbon; ground any. Plug board (35 %): rows of holes, 3 to
// 18 jumpers, flat short ones or arching long ones, with or without plug ends, and chips and resistors between. Decoys:
// resistors with colored rings and bare leads, capacitors, chips, modules. View 18 to 200 mm, so that a conductor is 3
// to 60 px wide.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/devices.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

namespace {

/** Resistor with colored rings along x, leads bent into the board at z = 0. */
void resistor(Builder& b, float L) {
  Rng& r = b.rng;
  float R = L * 0.14f, z = R * 1.1f;
  int body = b.paint(r.chance(0.6f) ? b.pigment(pgBeige, 0.9f) : b.named(r.one_of({(int)kBlue, (int)kTurquoise, (int)kBrown})), 0.05f, 0.3f), lead = b.tin();
  b.capsule(v3(-L * 0.4f, 0, z), v3(L * 0.4f, 0, z), R, body);
  for (int s = -1; s <= 1; s += 2) b.sphere(v3(s * L * 0.4f, 0, z), R * 1.12f, body);
  for (int i = 0; i < 4; i++) {
    float x = (i < 3 ? -0.32f + 0.19f * i : 0.36f) * L;
    b.cylinder(v3(x - L * 0.035f, 0, z), v3(x + L * 0.035f, 0, z), R * 1.04f, b.paint(b.named(r.pick(0, 11)), 0.05f, 0.3f));
  }
  b.rod({v3(-L, 0, 0), v3(-L * 0.95f, 0, z), v3(L * 0.95f, 0, z), v3(L, 0, 0)}, fmaxf(R * 0.22f, 0.25f), lead, false);
}

}  // namespace

void boards(Builder& b) {
  Rng& r = b.rng;
  bool plug = r.chance(0.35f);
  float D = plug ? r.range(1, 1.7f) : r.log(0.8f, 3);
  float wear = r.u() * 0.2f;
  float w, h, top;
  int ground = any_surface(b, 150);
  b.span(v3(-1500, -1500, -14), v3(1500, 1500, -4), ground, 0);
  b.floor_plane(v3(0, 0, 1), -4);
  bool few = r.chance(0.4f);
  int set[3] = {b.any_color(), b.any_color(), b.any_color()};
  auto style = [&]() {
    Style s = b.style(few ? set[r.pick(0, 2)] : b.any_color(), {D, D * 0.6f}, wear);
    if (D < 1.8f) s.print = 0;
    return s;
  };
  if (plug) {
    const float p = 2.54f;
    int nx = r.pick(14, 30), ny = 12, m = b.plastic(2), d = b.paint(b.gray(0.03f));
    w = nx * p;
    h = ny * p + 8;
    top = 8;
    b.span(v3(-w / 2 - 2, -h / 2 - 2, -4), v3(w / 2 + 2, h / 2 + 2, top), m, 0.6f);
    auto at = [&](int i, int j) { return v3((i - 0.5f * (nx - 1)) * p, (j - 0.5f * (ny - 1)) * p + (j >= ny / 2 ? 2.5f : -2.5f), top); };
    for (int i = 0; i < nx; i++)
      for (int j = 0; j < ny; j++) b.box(at(i, j), v3(0.5f, 0.5f, 0.03f), d, 0);
    for (int s = -1; s <= 1; s += 2) b.box(v3(0, s * (h / 2 + 0.8f), top + 0.02f), v3(w / 2, 0.25f, 0.03f), b.paint(b.named(s > 0 ? kRed : kBlue)), 0);
    for (int i = r.pick(0, 3); i > 0; i--) {
      int c = r.pick(2, nx - 3), k = r.pick(2, 5);
      Vec3 o = v3(at(c, 0).x, 0, top);
      b.box(o + v3(0, 0, 2.4f), v3(k * p * 0.5f, 3.3f, 1.9f), r.chance(0.8f) ? b.plastic(0) : vivid(b), 0.3f);
    }
    for (int i = r.pick(0, 4); i > 0; i--) {
      b.push(at(r.pick(3, nx - 4), r.pick(0, ny - 1)), turn(v3(0, 0, 1), r.chance(0.5f) ? 0 : kPi / 2));
      resistor(b, 7);
      b.pop();
    }
    for (int i = r.pick(3, 18); i > 0; i--) {
      Vec3 a = at(r.pick(0, nx - 1), r.pick(0, ny - 1)), z = at(r.pick(0, nx - 1), r.pick(0, ny - 1));
      bool flat = r.chance(0.4f), out = !flat && r.chance(0.3f), ends = !flat && r.chance(0.6f);
      if (flat) z = a + v3(r.chance(0.5f) ? p * r.pick(2, 9) : 0, 0, 0) + v3(0, p * r.pick(0, 4), 0);
      Conductor c = b.conductor(style());
      float lift = flat ? 1.2f : r.range(8, 35);
      Vec3 m0 = lerp(a, z, 0.5f) + v3(r.gauss() * 6, r.gauss() * 6, lift) * (flat ? 0.0f : 1.0f) + v3(0, 0, flat ? 1.2f : 0);
      c.from(a, v3(0, 0, 1)).via(a + v3(0, 0, flat ? 1 : 14) + r.gauss3(flat ? 0 : 3)).via(m0);
      if (out) {
        Vec3 e = unit(v3(r.gauss(), r.gauss(), 0)) * (w * r.range(0.8f, 1.6f)) + v3(0, 0, -2);
        c.to(e);
      } else {
        c.via(z + v3(0, 0, flat ? 1 : 14) + r.gauss3(flat ? 0 : 3)).to(z, v3(0, 0, -1));
      }
      c.bend(flat ? 1.2f : 4).wobble(flat ? 0 : 0.3f);
      c.strip_start(1.5f);
      if (ends) {
        int black = b.plastic(0);
        for (Vec3 q : {a, z})
          if (!out || dot(q - a, q - a) < 1) b.box(q + v3(0, 0, 6.5f), v3(1.25f, 1.25f, 6), black, 0.2f);
      }
    }
  } else {
    w = r.range(25, 160);
    h = w * r.range(0.4f, 1);
    top = 1.6f;
    circuit_board(b, w, h);
    for (int i = r.pick(0, 4); i > 0; i--) {
      b.push(v3(r.range(-0.4f, 0.4f) * w, r.range(-0.4f, 0.4f) * h, top), turn(v3(0, 0, 1), r.chance(0.5f) ? 0 : kPi / 2));
      resistor(b, r.range(5, 9));
      b.pop();
    }
    int groups = r.pick(1, 3);
    for (int g = 0; g < groups; g++) {
      int n = r.pick(2, groups > 1 ? 6 : 14), side = r.pick(0, 3);
      Vec3 out = side == 0 ? v3(1, 0, 0) : side == 1 ? v3(-1, 0, 0) : side == 2 ? v3(0, 1, 0) : v3(0, -1, 0);
      Vec3 s = v3(-out.y, out.x, 0);
      float pitch = fmaxf(D * r.range(1.05f, 2), 2), edge = (side < 2 ? w : h) * 0.5f, along = (side < 2 ? h : w) * 0.5f;
      n = std::max(1, std::min(n, (int)(2 * along / pitch)));
      Vec3 base = out * (edge - r.range(1.5f, 6)) + s * (r.range(-0.4f, 0.4f) * (2 * along - n * pitch)) + v3(0, 0, top);
      const float ways[] = {0.5f, 0.3f, 0.2f};
      int way = r.weighted(ways);
      std::vector<Vec3> start;
      int metal = b.tin();
      if (way == 1) {
        b.push(base + out * 2 + v3(0, 0, pitch), Builder::axes(cross(-out, v3(0, 0, 1)), -out));
        pin_plug(b, n, pitch);
        b.pop();
      } else if (way == 2) {
        int body = r.chance(0.6f) ? b.paint(b.pigment(pgTerminalGreen, r.range(0.6f, 1)), 0.05f, 0.35f) : vivid(b);
        pitch = fmaxf(pitch, 3.5f);
        b.box(base + v3(0, 0, pitch), out.x != 0 ? v3(pitch * 0.9f, n * pitch * 0.5f + 0.5f, pitch) : v3(n * pitch * 0.5f + 0.5f, pitch * 0.9f, pitch), body, 0.4f);
        for (int i = 0; i < n; i++) screw(b, base + s * ((i - 0.5f * (n - 1)) * pitch) + v3(0, 0, pitch * 2), v3(0, 0, 1), pitch * 0.32f);
      }
      bool ribbon = r.chance(0.5f);
      Vec3 dir = unit(out + s * (r.gauss() * 0.3f));
      float far = r.range(60, 260);
      for (int i = 0; i < n; i++) {
        Vec3 q = base + s * ((i - 0.5f * (n - 1)) * pitch);
        Conductor c = b.conductor(style());
        Vec3 sd = out;
        if (way == 0) {
          sd = unit(out * r.range(0.2f, 1) + v3(0, 0, r.range(0.2f, 1)));
          if (r.chance(0.3f)) q = q - out * r.range(0, 8);
          b.sphere(q + v3(0, 0, D * 0.15f), D * r.range(0.5f, 0.75f), metal);
          c.strip_start(r.range(0.5f, 2.5f));
        } else {
          q += out * (way == 1 ? 2.2f : pitch * 0.8f) + v3(0, 0, pitch * (way == 1 ? 1 : 0.8f));
        }
        float fan = ribbon ? (i - 0.5f * (n - 1)) * D * 1.05f : (i - 0.5f * (n - 1)) * pitch * r.range(0.5f, 3);
        c.from(q, sd).via(q + sd * (D * 3) + out * (D * 2));
        c.via(base + dir * (far * 0.35f) + s * (fan + (ribbon ? 0 : r.gauss() * 5)) + v3(0, 0, ribbon ? 0 : r.range(-2, 10)));
        c.to(base + dir * far + s * (fan + (ribbon ? 0 : r.gauss() * 20)) + v3(0, 0, -4 + D * 0.5f)).bend(r.range(2.5f, 6)).wobble(0.3f);
        if (way == 0 && r.chance(0.15f)) c.sleeve(0, D * 4, r.pick(0, 11), 1.3f);
      }
    }
  }
  for (int i = r.pick(0, 2); i > 0; i--) {
    float a = r.range(0, 6.28f);
    b.push(v3(cosf(a) * w * 0.9f, sinf(a) * w * 0.9f, -4), turn(v3(0, 0, 1), r.range(0, 6.28f)));
    decoy(b, any_decoy(r), w * r.range(0.2f, 0.8f));
    b.pop();
  }
  float across = clampf(D * 384 / r.log(4, 50), 18, 2 * w);
  Vec3 at = b.some_conductor(across * 0.1f);
  at = v3(clampf(at.x, -w * 0.8f, w * 0.8f), clampf(at.y, -h * 0.9f, h * 0.9f), clampf(at.z, 0, 12));
  b.random_look(at, across, 58, 0.4f);
  b.random_lights(b.target, across);
  hard_sun(b, 0.1f);
  if (r.chance(0.06f)) overlay(b);
  b.globals.aoRange = fmaxf(12, across * 0.12f);
  b.settle_rounds = 4;
}

}  // namespace hp
