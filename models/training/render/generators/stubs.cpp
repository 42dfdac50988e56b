// Rows of devices close by, with short stubs and arching jumpers: little of each conductor shows.
//
// 1 to 3 rows of 3 to 14 modular devices, breakers or ribbed relay modules, white, gray, black or colored, with colored
// paddles; each terminal of a side holds with 75 % a stub (dives behind or under the row after 10 to 60 mm), an arch to
// the next or next but one terminal (half of the rows), or a long run to the edge. 1.5 to 16 mm2 or 14 to 4 AWG; red,
// black, blue, gray, brown, white by row, or any; collars of ferrules in any color on 50 %, of another color than the
// conductor; screwdrivers and fingers before the row in 20 %. Seen from the front or obliquely from above and from the
// side (tilt to 65 degrees). Dark ground behind the stubs in a third. View 40 to 330 mm.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/devices.hpp"
#include "../parts/hands.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void stubs(Builder& b) {
  Rng& r = b.rng;
  int rows = r.pick(1, 3), n = r.pick(3, 14);
  float pitch = r.chance(0.75f) ? 17.6f : r.range(12, 28), rowPitch = r.range(125, 190);
  float W = n * pitch;
  int plate = r.chance(0.33f) ? b.paint(b.gray(r.log(0.01f, 0.06f)), 0.04f, 0.6f) : enclosure_surface(b);
  b.span(v3(-1200, -1200, -4), v3(1200, 1200, 0), plate, 0);
  if (r.chance(0.6f)) {
    int wall = enclosure_surface(b);
    for (int s = -1; s <= 1; s += 2)
      if (r.chance(0.7f)) b.span(v3(s * (W * 0.5f + r.range(20, 60)) - 1, -1200, 0), v3(s * (W * 0.5f + 62) + 1, 1200, r.range(80, 150)), wall, 0.5f);
  }
  b.floor_plane(v3(0, 0, 1), 0.3f);
  DeviceLook look = device_look(b, r.chance(0.6f) ? r.pick(1, 2) : r.chance(0.5f) ? 0 : -1);
  if (r.chance(0.3f)) look.body = look.face = vivid(b);
  if (r.chance(0.6f)) look.handle = vivid(b);
  if (r.chance(0.5f)) look.accent = vivid(b);
  float wear = r.chance(0.7f) ? r.u() * 0.2f : r.u();
  Gauge g = r.chance(0.6f) ? Builder::metric(r.one_of({1.5f, 2.5f, 2.5f, 4.0f, 6.0f, 10.0f, 16.0f})) : Builder::thhn(r.one_of({14, 12, 12, 10, 8, 6}));
  float D = g.outer;
  bool collars = r.chance(0.5f);
  int collar = r.pick(0, 11);
  Vec3 mid = v3(0, 0, 40);
  for (int row = 0; row < rows; row++) {
    float y = (0.5f * (rows - 1) - row) * rowPitch;
    b.push(v3(0, y, 0));
    din_rail(b, W + 60);
    const float kinds[] = {0.6f, 0.2f, 0.2f};
    int kind = r.weighted(kinds);
    float half = kModularEntry, z = 24;
    if (kind == 0) {
      for (int i = 0; i < n; i++) {
        b.push(v3((i - 0.5f * (n - 1)) * pitch, 0, 0));
        if (r.chance(0.93f)) modular(b, look, pitch, 1);
        b.pop();
      }
      b.obstacle(v3(-W / 2, -half, 0), v3(W / 2, half, 58));
    } else if (kind == 1) {  // black or gray breakers in a row, terminals below
      half = 34;
      for (int i = 0; i < n; i++) {
        float x = (i - 0.5f * (n - 1)) * pitch;
        b.span(v3(x - pitch * 0.48f, -half, 0), v3(x + pitch * 0.48f, half, 48), look.body, 1.2f);
        b.box(v3(x, r.chance(0.8f) ? 5 : -5, 52), v3(pitch * 0.25f, 6, 7), look.handle, 1.2f);
        for (int s = -1; s <= 1; s += 2) {
          b.box(v3(x, s * half, 24), v3(pitch * 0.3f, 0.4f, 7), look.dark, 0);
          screw(b, v3(x, s * (half - 8), 47.5f), v3(0, 0, 1), pitch * 0.2f, look.metal);
        }
      }
      b.obstacle(v3(-W / 2, -half, 0), v3(W / 2, half, 48));
    } else {
      b.push(v3(0, 0, 0));
      decoy(b, 25, W);
      b.pop();
      half = W * 0.35f;
      half = fminf(half, 60);
      b.span(v3(-W / 2, -half, 0), v3(W / 2, half, 22), look.body, 1);
      for (int s = -1; s <= 1; s += 2) b.span(v3(-W / 2, s * (half + 4) - 5, 0), v3(W / 2, s * (half + 4) + 5, 24), b.plastic(), 0.6f);
      half += 9;
      z = 14;
      b.obstacle(v3(-W / 2, -half, 0), v3(W / 2, half, 26));
    }
    for (int s = -1; s <= 1; s += 2) {
      bool arches = r.chance(0.5f);
      int base = b.any_color(), other = r.chance(0.6f) ? base : b.any_color();
      if (r.chance(0.5f)) { base = r.one_of({(int)kRed, (int)kBlack, (int)kBlack, (int)kBlue, (int)kGray, (int)kBrown, (int)kWhite}); }
      float rise = r.range(10, 40), far = r.range(8, 30);
      bool up = r.chance(0.5f);
      for (int i = 0; i < n; i++) {
        if (!r.chance(0.75f)) continue;
        Vec3 p = v3((i - 0.5f * (n - 1)) * pitch, s * (half - 2), z), d = v3(0, (float)s, 0);
        Conductor c = b.conductor(b.style(r.chance(0.85f) ? (i % 2 ? other : base) : b.any_color(), g, wear));
        c.from(p + r.gauss3(0.5f), d);
        c.strip_start(r.range(0, 3));
        if (collars && r.chance(0.85f)) c.sleeve(r.range(1.5f, 3), r.range(4, 9), r.chance(0.75f) ? collar : r.pick(0, 11), r.range(1.1f, 1.3f));
        float way = r.u();
        if (arches && i + 1 < n && way < 0.75f) {
          int j = std::min(n - 1, i + (r.chance(0.8f) ? 1 : 2));
          Vec3 q = v3((j - 0.5f * (n - 1)) * pitch + r.gauss(), p.y, z);
          Vec3 o = d * (far + r.gauss() * 3) + v3(0, 0, up ? rise : r.gauss() * 6);
          c.via(p + o * 0.8f).via(lerp(p, q, 0.5f) + o * 1.3f).via(q + o * 0.8f).to(q, -d).bend(1.6f).wobble(0.15f);
          if (collars) c.sleeve(-r.range(7, 9), r.range(4, 7), r.chance(0.75f) ? collar : r.pick(0, 11), r.range(1.1f, 1.3f));
        } else if (way < 0.75f) {  // dives behind
          c.via(p + d * r.range(8, 25) + v3(r.gauss() * 4, 0, r.range(-4, 14)));
          c.via(p + d * r.range(20, 40) + v3(r.gauss() * 10, 0, 6 - z)).to(p + v3(r.gauss() * 25, s * r.range(10, 55), -3 - z), v3(0, 0, -1)).bend(1.8f).wobble(0.3f);
        } else {
          Vec3 e = v3(r.range(-0.8f, 0.8f) * W, p.y + s * r.range(60, 400), r.range(D, 50));
          c.via(p + d * r.range(14, 30) + v3(0, 0, r.range(-8, 12))).via(lerp(p, e, 0.5f) + r.gauss3(8)).to(e).bend(3).wobble(0.5f);
        }
      }
    }
    if (row == 0) mid = v3(r.range(-0.35f, 0.35f) * W, y + (r.chance(0.5f) ? 1 : -1) * r.range(0, 50), 40);
    b.pop();
  }
  if (r.chance(0.2f)) {
    Vec3 p = mid + v3(0, 0, 25);
    b.push(p, turn(v3(0, 0, 1), r.range(0, 6.28f)) * turn(v3(0, 1, 0), -r.range(0.2f, 1)));
    if (r.chance(0.6f)) tool(b, 0, r.range(120, 200));
    else finger(b, skin(b));
    b.pop();
  }
  float across = r.log(40, 330);
  Vec3 at = r.chance(0.6f) ? b.some_conductor(across * 0.08f) : mid;
  at.x = clampf(at.x, -W * 0.55f, W * 0.55f);
  at.y = clampf(at.y, -0.5f * rows * rowPitch, 0.5f * rows * rowPitch);
  if (r.chance(0.45f)) b.look(at, across, r.range(20, 65), r.one_of({90.0f, -90.0f, 60.0f, 120.0f, 0.0f, 180.0f}) + r.gauss() * 20, r.gauss() * 6, r.range(35, 66));
  else b.random_look(at, across, 40, 0.6f);
  b.random_lights(b.target, across, r.chance(0.5f) ? r.u() : r.range(0.4f, 1));
  hard_sun(b, 0.08f);
  if (r.chance(0.04f)) overlay(b);
  b.globals.aoRange = r.range(30, 90);
  b.settle_rounds = 4;
}

}  // namespace hp
