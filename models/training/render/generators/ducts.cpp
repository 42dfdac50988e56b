// Slotted trunking close up: a duct full of conductors behind fingers, breaking out to both sides.
//
// 1 or 2 ducts 25 to 80 mm wide, gray, white, black or blue-gray, open (70 %) or with a lid that covers all or a part;
// 6 to 50 conductors 1 to 5 mm inside, white or gray in 40 % of the scenes, one color, a few or any; 20 to 80 % of them
// leave through a slot toward a terminal row, a device or the edge, in loose curves. Jacketed cables in or beside the
// duct in 35 %. Markers, ferrules. Dark or pale plate. View 40 to 300 mm, tilt to 55 degrees, any turn.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/devices.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void ducts(Builder& b) {
  Rng& r = b.rng;
  float across = r.log(40, 300), X = across * 0.8f + 40;
  int plate = r.chance(0.2f) ? b.paint(b.gray(r.log(0.01f, 0.08f)), 0.04f, 0.5f) : enclosure_surface(b);
  b.span(v3(-1500, -1500, -4), v3(1500, 1500, 0), plate, 0);
  b.floor_plane(v3(0, 0, 1), 0.3f);
  int n = (int)r.log(6, 50);
  float D = r.log(1, 5), w = r.range(25, 80), h = r.range(30, 75);
  n = std::min(n, (int)(0.7f * w * h / (D * D)));
  int duct = r.chance(0.7f) ? b.paint(b.pigment(r.chance(0.5f) ? (int)pgLightGrayEnclosure : (int)pgDeviceGray, r.range(0.6f, 1.05f)), 0.04f, 0.45f) : r.chance(0.6f) ? b.plastic(r.pick(0, 2)) : vivid(b);
  bool lid = r.chance(0.3f);
  trunking(b, 2 * X, w, h, duct, lid && r.chance(0.4f));
  if (lid) {
    float x = r.range(-0.6f, 0.6f) * X;
    b.span(v3(x, -w * 0.5f - 1, h), v3(X, w * 0.5f + 1, h + 1.8f), duct, 0.8f);
  }
  float y2 = 0;
  if (r.chance(0.3f)) {
    y2 = (r.chance(0.5f) ? 1 : -1) * (w + r.range(60, 150));
    b.push(v3(0, y2, 0));
    trunking(b, 2 * X, w, h, duct, r.chance(0.6f));
    b.pop();
  }
  // what the conductors go to
  float rowY[2];
  for (int s = 0; s < 2; s++) {
    rowY[s] = (s ? 1 : -1) * (w * 0.5f + r.range(35, 120));
    if (r.chance(0.3f)) { rowY[s] *= 4; continue; }
    b.push(v3(r.gauss() * 20, rowY[s] + (s ? 1 : -1) * 38, 0));
    if (r.chance(0.5f)) terminal_row(b, std::min(26, (int)(X / 4)), r.range(5, 8), 70, r.range(35, 50), r.chance(0.3f) ? vivid(b) : b.plastic(1));
    else decoy(b, r.one_of({13, 25, 14, 19, 24}), X);
    b.pop();
  }
  float wear = r.chance(0.7f) ? r.u() * 0.2f : r.u();
  int habit = r.pick(0, 9), few[3] = {b.any_color(), b.any_color(), b.any_color()};
  float leave = r.range(0.2f, 0.8f);
  bool ferrules = r.chance(0.4f), markers = r.chance(0.25f);
  for (int i = 0; i < n; i++) {
    int name = habit < 4 ? (r.chance(0.9f) ? (habit < 3 ? (int)kWhite : (int)kGray) : b.any_color()) : habit < 6 ? few[0] : habit < 8 ? few[r.pick(0, 2)] : b.any_color();
    float d = D * (r.chance(0.8f) ? 1 : r.range(0.7f, 1.5f));
    Style st = b.style(name, {d, d * 0.6f}, wear);
    if (d < 1.8f) st.print = 0;
    float y = r.range(-0.42f, 0.42f) * w, z = r.range(0.06f, 0.9f) * h;
    float dir = r.chance(0.5f) ? 1.0f : -1.0f;
    Conductor c = b.conductor(st);
    c.from(v3(-dir * (X + 20), y, z)).via(v3(-dir * X * 0.5f, y + r.gauss() * w * 0.06f, z + r.gauss() * 3));
    if (r.chance(leave)) {
      int s = r.pick(0, 1);
      float sy = s ? 1.0f : -1.0f, x = r.range(-0.8f, 0.8f) * X;
      c.via(v3(x - dir * r.range(12, 30), y * 0.6f + sy * w * 0.15f, z));
      c.via(v3(x, sy * w * 0.5f, clampf(z, 0.25f * h, 0.85f * h)));
      float zz = r.range(14, 40);
      c.via(v3(x + r.gauss() * 6, sy * (w * 0.5f + r.range(10, 22)), zz + r.gauss() * 8));
      if (r.chance(0.3f)) c.via(v3(x + r.gauss() * 14, mixf(sy * w * 0.5f, rowY[s], 0.6f), zz + r.range(-6, 20)));
      c.to(v3(x + r.gauss() * 10, rowY[s], zz), v3(0, sy, 0)).bend(r.range(2, 5)).wobble(r.range(0.2f, 0.8f));
      if (ferrules) c.ferrule(false, r.pick(0, 11));
      if (markers && r.chance(0.8f)) c.marker(-r.range(12, 22));
    } else {
      c.via(v3(dir * X * 0.4f, clampf(y + r.gauss() * w * 0.15f, -0.42f * w, 0.42f * w), z + r.gauss() * 4)).to(v3(dir * (X + 20), clampf(y + r.gauss() * w * 0.15f, -0.42f * w, 0.42f * w), z));
      c.bend(4).wobble(0.3f);
    }
  }
  for (int i = r.chance(0.35f) ? r.pick(1, 3) : 0; i > 0; i--) {
    float o = r.range(6, 13), y = r.chance(0.5f) ? r.range(-0.35f, 0.35f) * w : (r.chance(0.5f) ? 1 : -1) * (w * 0.5f + r.range(8, 60));
    b.conductor(b.jacket(r.one_of({(int)kGray, (int)kBlack, (int)kWhite, (int)kOrange, (int)kGray}), o)).from(v3(-X - 20, y, o * 0.6f)).via(v3(r.gauss() * X * 0.2f, y + r.gauss() * 6, o * r.range(0.6f, 1.5f))).to(v3(X + 20, y + r.gauss() * 12, o * 0.6f)).bend(5);
  }
  if (r.chance(0.3f)) {
    b.push(v3(r.gauss() * X * 0.4f, (r.chance(0.5f) ? 1 : -1) * (w * 0.5f + 25), 0.2f));
    label(b, r.range(20, 60), r.range(10, 30), r.chance(0.4f) ? b.pigment(pgLabelYellow) : -1);
    b.pop();
  }
  Vec3 at = r.chance(0.7f) ? b.some_conductor(across * 0.1f) : v3(0, r.gauss() * w, h * 0.5f);
  at.x = clampf(at.x, -0.5f * X, 0.5f * X);
  at.y = clampf(at.y, -w * 0.5f - 90, w * 0.5f + 90);
  b.random_look(at, across, 55, 0.25f);
  b.random_lights(b.target, across, r.chance(0.5f) ? r.u() : r.range(0.4f, 1));
  hard_sun(b, 0.08f);
  if (r.chance(0.04f)) overlay(b);
  b.globals.aoRange = r.range(30, 80);
  b.settle_rounds = 4;
}

}  // namespace hp
