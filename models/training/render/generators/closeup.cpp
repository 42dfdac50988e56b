// One to four thick conductors close up: service mains, welding leads, leads into glands, plugs and lugs.
//
// Diameter 4 to 26 mm, seen at 18 to 140 px of a 384 px picture (radius 9 to 70; log), so up to 90 px wide mostly and
// sometimes more; one 50 %, two 25 %, three or four 25 %; black in half of the scenes, on gray, white, dark or any
// surface; bent once or twice, parallel or crossing; 40 % end in a gland, block, plug or lug; sleeves, tape, print,
// jackets with cores coming out; a clamp or cable tie in 25 %.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/devices.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void closeup(Builder& b) {
  Rng& r = b.rng;
  float D = r.log(4, 26);
  float across = D * 384 / r.log(16, 130);
  int n = r.chance(0.5f) ? 1 : r.chance(0.5f) ? 2 : r.pick(3, 4);
  int top = r.chance(0.35f) ? enclosure_surface(b) : any_surface(b, across);
  if (r.chance(0.15f)) top = b.paint(b.gray(r.log(0.01f, 0.06f)), 0.04f, r.range(0.2f, 0.7f));
  b.span(v3(-across * 6, -across * 6, -10), v3(across * 6, across * 6, 0), top, 0);
  b.floor_plane(v3(0, 0, 1), 0);
  float a = r.range(0, 6.28f);
  Vec3 d = v3(cosf(a), sinf(a), 0), e = v3(-d.y, d.x, 0);
  bool mono = r.chance(0.6f);
  int base = r.chance(0.5f) ? (int)kBlack : b.any_color();
  float lift = r.chance(0.5f) ? 0 : r.range(0, 3) * D;
  bool cross_ = n > 1 && r.chance(0.35f);
  float gapf = r.chance(0.5f) ? 1.02f : r.range(1.1f, 2.5f);
  bool ends = r.chance(0.4f);
  float bow = r.gauss() * 0.35f, bow2 = r.gauss() * 0.25f;
  int kind = r.pick(0, 4);
  float endX = r.range(0.05f, 0.4f) * across;
  int body = b.plastic(r.chance(0.6f) ? 0 : -1);
  for (int i = 0; i < n; i++) {
    int name = mono ? base : b.any_color();
    float di = r.chance(0.8f) ? D : D * r.range(0.5f, 1);
    Gauge g{di, di * r.range(0.6f, 0.8f)};
    Style st = b.style(name, g);
    st.stranded = true;
    if (r.chance(0.25f)) { st = b.jacket(name, di); }
    st.bump = r.chance(0.4f) ? r.range(0, 0.1f) : 0;
    float o = (i - 0.5f * (n - 1)) * D * gapf;
    float turn_ = cross_ ? r.gauss() * 0.5f : 0;
    Vec3 di3 = unit(d + e * turn_);
    Conductor c = b.conductor(st);
    float z = di * 0.5f + lift + (cross_ ? i * D : 0);
    Vec3 end;
    if (ends) {
      end = di3 * endX + e * o + v3(0, 0, z);
      c.from(end - di3 * (across * 1.3f) + e * (bow * across) );
      c.via(end - di3 * (across * 0.5f) + e * (bow2 * across * 0.6f) + v3(0, 0, r.gauss() * D * 0.3f));
      c.to(end, di3);
      if (kind == 0) {
        b.push(end + di3 * (di * 2.6f), z_along(-di3));
        gland(b, di * 0.5f, body);
        b.pop();
        if (i == 0) b.box(di3 * (endX + di * 2.6f + D * 3) + v3(0, 0, z), v3(D * 3, D * (n + 1.5f), fmaxf(z * 0.95f, D)), b.plastic(), D * 0.2f, Builder::axes(di3, v3(-di3.y, di3.x, 0)));
      } else if (kind == 1) {
        b.push(end, z_along(di3));
        b.cone(v3(0, 0, -di * 0.8f), v3(0, 0, di * 2), di * 0.62f, di * 0.8f, body);
        b.cylinder(v3(0, 0, di * 2), v3(0, 0, di * 4.5f), di * 0.95f, body);
        for (int k = 0; k < 4; k++) b.ring(v3(0, 0, di * (0.1f + 0.5f * k)), v3(0, 0, 1), di * (0.68f + 0.06f * k), di * 0.08f, body, 16);
        b.pop();
      } else if (kind == 2) {
        b.push(end, Builder::axes(cross(-di3, v3(0, 0, 1)), -di3));
        lug(b, di * 0.42f, b.tin());
        b.pop();
        c.strip_end(r.range(2, di));
      } else if (kind == 3) {
        // cores out of a jacket
        Bundle k;
        int m = r.pick(2, 5);
        float cd = di * 0.36f;
        k.pitch = cd;
        k.path = {end - di3 * cd, end + di3 * (di * 1.5f), end + di3 * (di * 6) + e * (r.gauss() * di) + v3(0, 0, r.range(0, 1) * di), end + di3 * across + e * (r.gauss() * across * 0.3f)};
        k.startDir = di3;
        k.loose = 0.8f;
        k.endSpread = r.range(1, 6);
        std::vector<Style> ss;
        for (int nm : circuit_colors(b, m)) ss.push_back(b.style(nm, {cd, cd * 0.6f}));
        run_bundle(b, k, ss);
      } else {
        c.strip_end(r.range(0.5f, 3) * di);
      }
    } else {
      c.from(di3 * (-across * 1.5f) + e * (o + bow * across) + v3(0, 0, z));
      c.via(di3 * (-across * 0.3f) + e * (o + (n > 1 ? bow2 * 0.3f : bow2) * across * 0.3f) + v3(0, 0, z + r.gauss() * 0.3f * lift));
      c.via(di3 * (across * 0.35f) + e * (o - bow2 * across * 0.2f) + v3(0, 0, z));
      c.to(di3 * (across * 1.5f) + e * (o + bow2 * 2 * across) + v3(0, 0, z));
    }
    c.bend(r.range(2.5f, 6)).wobble(r.range(0, 0.12f));
    float len = across * 1.5f;
    if (r.chance(0.2f)) c.sleeve(r.range(0.4f, 0.95f) * len, di * r.log(0.6f, 5), b.any_color(), r.range(1.03f, 1.15f));
    if (r.chance(0.08f)) c.marker(r.range(0.5f, 0.9f) * len);
  }
  if (r.chance(0.15f)) {
    b.push(d * (-across * r.range(0, 0.4f)) + v3(0, 0, D * 0.5f + lift), turn(v3(0, 0, 1), a));
    clamp(b, D * 0.55f, r.chance(0.6f) ? b.zinc() : b.plastic());
    b.pop();
  } else if (n > 1 && r.chance(0.3f)) {
    b.tie(d * (r.range(-0.4f, 0.2f) * across) + v3(0, 0, D * 0.5f + lift), d, n * D * gapf, b.plastic(r.pick(0, 2)));
  }
  if (r.chance(0.3f)) {
    b.push(v3(r.gauss(), r.gauss(), 0) * (across * 0.3f) + v3(0, 0, 0.1f), turn(v3(0, 0, 1), r.range(0, 6)));
    label(b, across * r.range(0.1f, 0.4f), across * r.range(0.05f, 0.3f));
    b.pop();
  }
  for (int k = r.chance(0.3f) ? r.pick(1, 2) : 0; k > 0; k--) {
    b.push((e * ((r.chance(0.5f) ? 1 : -1) * r.range(0.3f, 0.6f)) + d * (r.gauss() * 0.3f)) * across, turn(v3(0, 0, 1), r.range(0, 6.28f)));
    decoy(b, any_decoy(r), across * r.log(0.12f, 0.5f));
    b.pop();
  }
  for (int k = r.pick(0, 3); k > 0; k--) clutter(b, v3(r.range(-0.6f, 0.6f), r.range(-0.6f, 0.6f), 0) * across, across * r.log(0.04f, 0.25f));
  for (int k = r.pick(0, 3); k > 0; k--) screw(b, v3(r.range(-0.6f, 0.6f), r.range(-0.6f, 0.6f), 0) * across, v3(0, 0, 1), across * r.log(0.01f, 0.04f));
  b.random_look(v3(r.gauss(), r.gauss(), 0) * (across * 0.1f) + v3(0, 0, lift), across, 55, 0.3f);
  b.random_lights(b.target, across);
  hard_sun(b, 0.15f);
  if (r.chance(0.06f)) overlay(b);
  b.globals.aoRange = fmaxf(4 * D, across * 0.2f);
  b.settle_rounds = 4;
}

}  // namespace hp
