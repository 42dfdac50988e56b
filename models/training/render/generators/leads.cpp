// Short leads laid out on a table: crimped, plugged or stripped, side by side or in a small pile.
//
// 2 to 14 leads of 60 to 350 mm, 1 to 4.5 mm thick; laid in a row (45 %), scattered (35 %) or as pairs (20 %); ends:
// ring, fork, blade and receptacle terminals with colored sleeves, ferrules, small plugs shared by neighbors, soldered
// or stripped tips, heat shrink; a corrugated tube out of which some come in 20 %. Beside them pliers, screwdriver,
// probe, tweezers, ruler, tape roll, papers, screws. Surface any, often near white, near black cloth in 12 %. View 80 to 450 mm.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/hands.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

namespace {

void finish_end(Builder& b, Conductor c, Vec3 e, Vec3 dir, float D, bool start, int metal) {
  Rng& r = b.rng;
  const float w[] = {0.45f, 0.15f, 0.2f, 0.2f};
  switch (r.weighted(w)) {
    case 0: {
      Vec3 out = start ? -dir : dir;
      b.push(e, Builder::axes(cross(out, v3(r.gauss() * 0.3f, r.gauss() * 0.3f, 1)), out));
      crimp_terminal(b, r.pick(0, 3), D, metal);
      b.pop();
      float l = D * r.range(1.5f, 5);
      if (r.chance(0.8f)) c.sleeve(start ? 0 : -l, l, r.one_of({(int)kRed, (int)kRed, (int)kBlue, (int)kYellow, (int)kBlack, (int)kWhite}), r.range(1.15f, 1.5f));
      break;
    }
    case 1: c.ferrule(start, r.one_of({(int)kRed, (int)kBlue, (int)kWhite, (int)kYellow, (int)kGray, (int)kBlack, (int)kOrange})); break;
    case 2: start ? c.strip_start(r.range(4, 15)) : c.strip_end(r.range(4, 15)); break;
    default: break;
  }
}

}  // namespace

void leads(Builder& b) {
  Rng& r = b.rng;
  int n = (int)r.log(2, 14);
  float len = r.log(60, 350), D = r.log(1, 4.5f);
  const float kinds[] = {0.45f, 0.35f, 0.2f};
  int kind = r.weighted(kinds);
  int top = r.chance(0.4f) ? b.textured(kPainted, b.gray(r.range(0.4f, 0.85f)), b.pigment(pgDust), r.log(10, 200), r.range(0, 0.2f)) : any_surface(b, len);
  if (r.chance(0.12f)) top = b.textured(kCloth, b.gray(r.log(0.003f, 0.03f)), b.gray(0.02f), r.log(0.6f, 2), 0.3f);
  b.span(v3(-3000, -3000, -10), v3(3000, 3000, 0), top, 0);
  b.floor_plane(v3(0, 0, 1), 0);
  int metal = r.chance(0.75f) ? b.tin() : b.brass();
  float a0 = r.range(0, 6.28f), pitch = D * r.log(1.05f, 16);
  std::vector<int> names = circuit_colors(b, n);
  float wear = r.chance(0.8f) ? r.u() * 0.25f : r.u();
  bool plug0 = kind == 0 && r.chance(0.25f), plug1 = kind == 0 && r.chance(0.15f);
  if (plug0 || plug1) pitch = D * r.range(1.1f, 2);
  Vec3 d = v3(cosf(a0), sinf(a0), 0), s = v3(-d.y, d.x, 0);
  float bow = r.gauss() * 0.15f;
  for (int e = 0; e < 2; e++) {
    if (!(e ? plug1 : plug0)) continue;
    Vec3 dir = e ? d : -d;
    b.push(dir * (len * 0.5f) + v3(0, 0, pitch * 0.7f), Builder::axes(cross(dir, v3(0, 0, 1)), dir));
    pin_plug(b, n, pitch);
    b.pop();
  }
  for (int i = 0; i < n; i++) {
    Gauge g{D * (r.chance(0.8f) ? 1 : r.range(0.7f, 1.4f)), D * 0.6f};
    Style st = b.style(names[i], g, wear);
    Conductor c = b.conductor(st);
    Vec3 p, q, dir0 = d, dir1 = d;
    if (kind == 0) {
      float o = (i - 0.5f * (n - 1)) * pitch, l = plug0 || plug1 ? len : len * r.range(0.8f, 1.05f);
      p = d * (plug0 ? -len * 0.5f : -l * 0.5f + r.gauss() * 3) + s * o;
      q = d * (plug1 ? len * 0.5f : l * 0.5f) + s * o;
      if (!plug1 && r.chance(0.5f)) q += s * (r.gauss() * pitch);
    } else if (kind == 1) {
      float a = r.range(0, 6.28f);
      dir0 = v3(cosf(a), sinf(a), 0);
      a += r.gauss() * 0.9f;
      dir1 = v3(cosf(a), sinf(a), 0);
      Vec3 m = v3(r.gauss(), r.gauss(), 0) * (len * 0.35f);
      p = m - dir0 * (len * 0.5f);
      q = m + dir1 * (len * 0.5f);
    } else {
      float o = ((i / 2) - n * 0.25f) * pitch * 3 + (i % 2) * D * 1.05f;
      p = d * (-len * 0.5f) + s * o;
      q = d * (len * 0.5f) + s * (o + (i % 2 ? 1 : -1) * r.range(0, 3) * D);
    }
    float z = (plug0 || plug1 ? pitch * 0.7f : g.outer * 0.5f);
    p.z = q.z = z + (kind == 1 ? r.u() * D : 0);
    c.from(p, dir0);
    Vec3 side = v3(-dir0.y, dir0.x, 0);
    c.via(lerp(p, q, 0.35f) + side * (bow * len * (kind == 1 ? r.gauss() : 1) + r.gauss() * D * 1.5f)).via(lerp(p, q, 0.7f) + side * (bow * 0.7f * len + r.gauss() * D * 1.5f));
    c.to(q, dir1).bend(r.range(2, 8)).wobble(r.range(0.1f, 0.8f));
    if (!plug0) finish_end(b, c, p, dir0, g.outer, true, metal);
    if (!plug1) finish_end(b, c, q, dir1, g.outer, false, metal);
    if (r.chance(0.1f)) c.sleeve(len * r.range(0.2f, 0.7f), D * r.log(2, 10), b.any_color(), r.range(1.05f, 1.3f));
    if (r.chance(0.06f)) c.marker(len * r.range(0.1f, 0.8f));
  }
  if (r.chance(0.2f)) {
    float R = D * r.range(1.5f, 3);
    Vec3 c = v3(r.gauss(), r.gauss(), 0) * (len * 0.3f);
    float a = r.range(0, 6.28f);
    Vec3 t = v3(cosf(a), sinf(a), 0);
    corrugated(b, {c + v3(0, 0, R), c + t * (len * 0.3f) + v3(0, 0, R), c + t * (len * 0.8f) + v3(-t.y, t.x, 0) * (r.gauss() * 30) + v3(0, 0, R), c + t * (len * 2) + v3(0, 0, R)}, R, b.paint(b.pigment(pgDeviceBlack, r.range(0.6f, 2)), 0.05f, 0.35f));
    Bundle k;
    int m = r.pick(2, 4);
    k.pitch = D;
    k.path = {c + t * 5 + v3(0, 0, R), c - t * 25 + v3(0, 0, R), c - t * (len * 0.4f) + v3(r.gauss() * 20, r.gauss() * 20, D)};
    k.startDir = -t;
    k.endSpread = r.range(1, 8);
    std::vector<Style> st;
    for (int nm : circuit_colors(b, m)) st.push_back(b.style(nm, {D, D * 0.6f}, wear));
    run_bundle(b, k, st);
  }
  for (int k = r.chance(0.4f) ? r.pick(1, 2) : 0; k > 0; k--) {
    float a = r.range(0, 6.28f);
    b.push(v3(cosf(a), sinf(a), 0) * (len * r.range(0.4f, 0.8f)) + v3(0, 0, 0.05f), turn(v3(0, 0, 1), r.range(0, 6.28f)));
    tool(b, r.pick(0, 5), r.range(90, 200));
    b.pop();
  }
  for (int k = r.chance(0.35f) ? r.pick(1, 2) : 0; k > 0; k--) {
    float a = r.range(0, 6.28f);
    b.push(v3(cosf(a), sinf(a), 0) * (len * r.range(0.5f, 0.9f)), turn(v3(0, 0, 1), r.range(0, 6.28f)));
    decoy(b, any_decoy(r), len * r.log(0.12f, 0.5f));
    b.pop();
  }
  for (int k = r.pick(0, 4); k > 0; k--) clutter(b, v3(r.range(-0.8f, 0.8f), r.range(-0.8f, 0.8f), 0) * len, r.log(4, 40));
  float across = len * r.log(0.35f, 1.6f);
  Vec3 at = r.chance(0.75f) ? b.some_conductor(across * 0.12f) : v3(r.gauss(), r.gauss(), 0) * (len * 0.12f);
  b.random_look(v3(at.x, at.y, 0), across, 45, 0.4f);
  b.random_lights(b.target, across);
  hard_sun(b, 0.12f);
  b.globals.aoRange = fmaxf(8 * D, across * 0.12f);
  b.settle_rounds = 5;
}

}  // namespace hp
