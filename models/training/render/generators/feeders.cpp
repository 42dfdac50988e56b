// Feeders: thick conductors side by side with phase tape, lugs on bars or devices, sleeves, cable trays.
//
// 2 to 12 conductors 6 AWG to 500 kcmil; all black 60 %, or by phase; bands of tape of one to three turns near the ends
// (70 %), colors by phase habit or any; ends in crimped lugs with a hole bolted to bars (45 %), set-screw lugs of a
// device (30 %), or out of view; parallel with bends, or spread from a bundle; bare or green ground beside; 25 % lie in
// a ladder tray with rungs and ties. Sleeves of heat shrink over the lug barrels. Ground: enclosure, dark interior,
// concrete, any. View 60 to 600 mm, so a conductor is 4 to 90 px wide.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/devices.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void feeders(Builder& b) {
  Rng& r = b.rng;
  Gauge g = Builder::thhn(r.one_of({6, 4, 4, 2, 1, 0, -1, -2, -3, 250, 350, 500}));
  float D = g.outer;
  int n = r.pick(2, r.chance(0.7f) ? 5 : 12);
  const float ways[] = {0.42f, 0.28f, 0.3f};
  int way = r.weighted(ways);
  bool tray = way == 2 && r.chance(0.7f);
  float pitch = way == 2 ? D * r.range(1.01f, 1.3f) : fmaxf(D * r.range(1.6f, 3), 20);
  int wall = r.chance(0.6f) ? enclosure_surface(b) : any_surface(b, 400);
  if (r.chance(0.2f)) wall = b.paint(b.gray(r.log(0.01f, 0.08f)), 0.04f, 0.5f);
  b.span(v3(-1500, -1500, -6), v3(1500, 1500, 0), wall, 0);
  for (int i = r.pick(0, 3); i > 0; i--) {
    float x = r.range(-200, 200);
    b.span(v3(x - r.range(1, 30), -1500, 0), v3(x + 1, 1500, r.range(1, 40)), r.chance(0.5f) ? wall : b.steel(), 0.5f);
  }
  b.floor_plane(v3(0, 0, 1), 0.3f);
  static const int us[] = {kBlack, kRed, kBlue, kWhite}, high[] = {kBrown, kOrange, kYellow, kGray}, eu[] = {kBrown, kBlack, kGray, kBlue};
  int habit = r.pick(0, 3);
  auto phase = [&](int i) { return habit == 0 ? us[i % 4] : habit == 1 ? high[i % 4] : habit == 2 ? eu[i % 4] : b.any_color(); };
  bool black = r.chance(0.6f), taped = r.chance(0.7f);
  float wear = r.chance(0.5f) ? r.u() * 0.3f : r.u();
  float top = r.range(10, 60), z0 = fmaxf(top, D * 0.7f);
  float drop = r.range(150, 500);
  int metal = r.chance(0.5f) ? b.tin() : r.chance(0.5f) ? b.copper() : b.zinc();
  int cross_ = r.chance(0.3f);
  float gatherX = r.gauss() * 80, gatherP = D * r.range(1.02f, 1.5f);
  DeviceLook look = device_look(b, r.chance(0.7f) ? 0 : -1);
  if (way == 1) {
    float w = n * pitch * 0.5f + 6;
    b.span(v3(-w, 4, 0), v3(w, 130, z0 + 40), look.body, 2);
    b.span(v3(-w * 0.5f, 40, z0 + 40), v3(w * 0.5f, 90, z0 + 48), look.face, 2);
    b.box(v3(0, 68, z0 + 52), v3(w * 0.2f, 9, 9), r.chance(0.5f) ? vivid(b) : look.handle, 1.5f);
    b.box(v3(0, 24, z0 + 40.1f), v3(w * 0.7f, 9, 0.1f), look.label, 0);
    for (int i = 0; i < n; i++)
      if (r.chance(0.5f)) b.span(v3((i - 0.5f * (n - 1)) * pitch - 1, -6, z0 - 14), v3((i - 0.5f * (n - 1)) * pitch - pitch * 0.5f + 1, 4, z0 + 20), look.body, 0.6f);
  }
  if (way == 0)
    for (int k = 0; k < (cross_ ? 1 : n); k++) {  // bars
      if (cross_) b.span(v3(-n * pitch * 0.6f, 8, z0 - D * 0.8f - 7), v3(n * pitch * 0.6f, 8 + r.range(25, 60), z0 - D * 0.8f), metal, 0.6f);
      else { float x = (k - 0.5f * (n - 1)) * pitch; b.span(v3(x - pitch * 0.32f, 6, z0 - D * 0.8f - 6), v3(x + pitch * 0.32f, 220, z0 - D * 0.8f), metal, 0.6f); }
    }
  for (int i = 0; i < n; i++) {
    float x = (i - 0.5f * (n - 1)) * pitch, zz = z0 + (way == 2 ? (r.chance(0.15f) ? D : 0) + r.gauss() * D * 0.05f : 0);
    int ph = phase(i);
    bool ground = r.chance(0.06f);
    Style st = ground && r.chance(0.6f) ? b.bare_ground(g) : b.style(ground ? (int)kGreen : black ? (int)kBlack : ph, g, wear);
    st.stranded = true;
    if (r.chance(0.7f) && st.stripe == kNoStripe) st.print = fmaxf(st.print, r.range(0.2f, 0.8f));
    Conductor c = b.conductor(st);
    float barrel = way == 0 ? D * r.range(0.15f, 0.4f) : D * r.range(0.1f, 0.8f);
    if (way < 2) {
      c.from(v3(x, way == 0 ? -D * 1.2f : 1, zz), v3(0, -1, 0));
      c.via(v3(x + r.gauss() * D * 0.2f, -drop * 0.25f, zz + r.gauss() * 6));
      c.via(v3(mixf(x, gatherX + (i - 0.5f * (n - 1)) * gatherP, 0.7f), -drop * 0.6f, zz + r.gauss() * 10));
      c.to(v3(gatherX + (i - 0.5f * (n - 1)) * gatherP, -drop * 1.6f, zz), v3(0, -1, 0));
      c.strip_start(barrel).bend(r.range(2.5f, 5)).wobble(r.range(0, 0.1f));
      if (way == 0) {
        // crimped lug: barrel and palm with a bolt
        float R = g.metal * 0.5f + D * 0.09f;
        b.tube(v3(x, -D * 1.3f, zz), v3(x, D * 0.5f, zz), R, R, metal);
        b.cylinder(v3(x, D * 0.3f, zz), v3(x, D * 0.5f, zz), R, metal);
        b.box(v3(x, D * 1.1f, zz - D * 0.6f), v3(R * 1.25f, D * 1.1f, D * 0.14f), metal, 0.6f);
        b.box(v3(x, D * 0.42f, zz - D * 0.3f), v3(R * 1.1f, D * 0.2f, D * 0.36f), metal, 0.8f);
        Vec3 q = v3(x, D * 1.35f, zz - D * 0.46f);
        b.cylinder(q, q + v3(0, 0, D * 0.12f), R * 0.95f, b.zinc());
        for (int k = 0; k < 3; k++) b.box(q + v3(0, 0, D * 0.3f), v3(R * 0.66f, R * 0.38f, D * 0.2f), b.zinc(), 0.3f, turn(v3(0, 0, 1), k * kPi / 3));
        if (r.chance(0.4f)) b.cylinder(q, q + v3(0, 0, D * r.range(0.6f, 1)), R * 0.33f, b.zinc());
        if (r.chance(0.5f)) c.sleeve(0, D * r.range(1.2f, 3.5f), r.chance(0.5f) ? (int)kBlack : ph, 1.1f);
      } else {
        b.push(v3(x, 3, zz), turn(v3(0, 0, 1), kPi));
        lug(b, g.metal * 0.55f, r.chance(0.6f) ? b.tin() : metal);
        b.pop();
      }
      if (taped && !st.bare) {
        float s0 = D * r.range(1.5f, 5), w = r.range(10, 22);
        int bands = r.chance(0.75f) ? 1 : r.pick(2, 3);
        for (int k = 0; k < bands; k++) c.sleeve(s0 + k * w * r.range(1.1f, 1.8f), w * r.range(1, 3), ph, r.range(1.02f, 1.07f), 0.05f);
      }
    } else {
      float bow = r.chance(0.5f) ? 0 : r.gauss() * D * 0.2f;
      c.from(v3(x + r.gauss() * D * 0.1f, 700, zz)).via(v3(x + bow, 200, zz)).via(v3(x - bow, -200, zz)).to(v3(x + r.gauss() * D * 0.1f, -700, zz));
      c.bend(4).wobble(r.range(0.05f, 0.25f));
      if (taped && !st.bare)
        for (int k = r.pick(0, 2); k > 0; k--) c.sleeve(700 + r.gauss() * 120, r.range(15, 60), ph, 1.04f);
      if (r.chance(0.1f)) c.marker(700 + r.gauss() * 100);
    }
  }
  if (tray) {
    int m = b.galvanized();
    float w = n * pitch * 0.5f + r.range(10, 60), step = r.range(90, 250);
    for (int s = -1; s <= 1; s += 2) {
      b.span(v3(s * w - 1, -900, 0), v3(s * w + 1, 900, z0 + r.range(5, 50)), m, 0.5f);
      b.span(v3(s * w - 6, -900, 0), v3(s * w + 6, 900, 1.5f), m, 0.5f);
    }
    for (int i = -5; i <= 5; i++) b.span(v3(-w, i * step - 10, z0 - D * 0.5f - 12), v3(w, i * step + 10, z0 - D * 0.5f - 0.3f), m, 1);
    b.floor_plane(v3(0, 0, 1), z0 - D * 0.5f);
  }
  if (r.chance(0.5f)) b.tie(v3(way == 2 ? 0 : gatherX * 0.8f, way == 2 ? r.range(-80, 80) : -drop * r.range(0.6f, 1), z0), v3(0, 1, 0), n * fmaxf(pitch, D), b.plastic(r.pick(0, 2)));
  if (r.chance(0.35f)) {
    b.push(v3(r.gauss() * 90, -r.range(20, 250), 0.2f));
    if (r.chance(0.5f)) label(b, r.range(30, 110), r.range(20, 70), r.chance(0.4f) ? b.pigment(pgLabelYellow) : -1);
    else decoy(b, any_decoy(r), r.range(30, 90));
    b.pop();
  }
  if (r.chance(0.25f) && way < 2) {  // clamp-on sensor round one of them
    int i = r.pick(0, n - 1), m = b.paint(b.pigment(pgDeviceBlack, r.range(0.7f, 2)), 0.05f, 0.4f);
    Vec3 p = v3((i - 0.5f * (n - 1)) * pitch, -D * r.range(3, 5), z0);
    float e = D * 0.75f;
    for (int s = -1; s <= 1; s += 2) {
      b.box(p + v3(s * e, 0, 0), v3(D * 0.25f, D * 0.55f, e + D * 0.2f), m, 1);
      b.box(p + v3(0, 0, s * e), v3(e, D * 0.55f, D * 0.22f), m, 1);
    }
  }
  float across = clampf(r.log(60, 600), D * 4, D * 90);
  Vec3 at = r.chance(0.45f) && way < 2 ? v3(r.gauss() * pitch * 0.5f, -D * r.range(-1, 5), z0) : b.some_conductor(across * 0.1f);
  at.y = clampf(at.y, -drop, 150);
  if (way == 2) at.y *= 0.3f;
  b.random_look(at, across, 50, 0.6f);
  b.random_lights(b.target, across, r.chance(0.5f) ? r.u() : r.range(0.5f, 1));
  hard_sun(b, 0.12f);
  b.globals.aoRange = r.range(40, 120);
  b.settle_rounds = 4;
}

}  // namespace hp
