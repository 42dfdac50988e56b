// Wireways and gutters: a long metal trough full of runs, splices and drops.
//
// Trough 80 to 280 mm wide, 60 to 160 deep, painted gray, white, beige or galvanized, dark inside in a third of the
// scenes; joints, ribs, screw heads, knockouts on walls and back. 14 to 60 conductors in 3 to 9 circuit groups of 2 to
// 10 (14 to 6 AWG or 0.75 to 10 mm2; 20 % of the scenes hold 2 to 6 feeders 4 AWG to 250 kcmil as well); 65 % run
// through, the others turn into a conduit, vanish behind a part, or end in a splice: twist connector (70 %), lever
// connector or tape. 25 % hold jacketed cables, some split into their cores. View 45 to 330 mm, tilt to 50 degrees.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/devices.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

namespace {

struct Trough {
  float H, depth, X;
  int wall;
};

/** Where a group may leave: far left or right, or a conduit in the top or bottom wall. */
struct Port {
  Vec3 p, in;
  float radius;
};

Port draw_port(Builder& b, const Trough& t, float n, float D, int side) {
  Rng& r = b.rng;
  Port q;
  q.radius = D * sqrtf(n) * 0.75f + 3;
  if (side == 0 || side == 1) {
    float s = side ? 1.0f : -1.0f;
    q.p = v3(s * t.X, r.range(-0.8f, 0.8f) * t.H, r.range(0.12f, 0.75f) * t.depth);
    q.in = v3(-s, 0, 0);
    return q;
  }
  float s = side == 2 ? 1.0f : -1.0f;
  q.p = v3(r.range(-0.35f, 0.35f) * t.X, s * t.H, r.range(0.25f, 0.7f) * t.depth);
  q.in = v3(0, -s, 0);
  b.push(q.p, z_along(q.in));
  conduit_end(b, q.radius, r.chance(0.5f));
  b.pop();
  return q;
}

}  // namespace

void gutter(Builder& b) {
  Rng& r = b.rng;
  Trough t;
  t.H = r.log(40, 140);
  t.depth = r.range(60, 160);
  float across = r.log(45, 330);
  t.X = clampf(across * 0.8f + r.range(40, 90), 90, 300);
  t.wall = r.chance(0.25f) ? b.galvanized() : enclosure_surface(b);
  if (r.chance(0.2f)) t.wall = b.paint(b.gray(r.log(0.03f, 0.25f)), 0.04f, r.range(0.3f, 0.6f));
  b.mat(t.wall).dirt = r.chance(0.5f) ? r.u() * 0.7f : 0;
  b.mat(t.wall).dirtColor = b.pigment(pgDirt);
  b.span(v3(-t.X - 80, -t.H, -2), v3(t.X + 80, t.H, 0), t.wall, 0);
  for (int s = -1; s <= 1; s += 2) {
    float y = s * t.H;
    b.span(v3(-t.X - 80, std::min(y, y + s * 2), 0), v3(t.X + 80, std::max(y, y + s * 2), t.depth), t.wall, 0.5f);
    // lip turned inward with screw holes
    if (r.chance(0.6f)) {
      float lip = r.range(8, 18);
      b.span(v3(-t.X - 80, std::min(y, y - s * lip), t.depth - 1.5f), v3(t.X + 80, std::max(y, y - s * lip), t.depth), t.wall, 0.5f);
      for (int i = r.pick(0, 3); i > 0; i--) screw(b, v3(r.range(-0.5f, 0.5f) * t.X, y - s * lip * 0.5f, t.depth), v3(0, 0, 1), r.range(3, 5));
    }
    if (r.chance(0.5f)) {
      float step = r.range(30, 70);
      for (int i = -2; i <= 2; i++) {
        if (fabsf(i * step) > t.X * 0.7f) continue;
        b.push(v3(i * step + 7, y - s * 0.2f, t.depth * 0.5f), z_along(v3(0, (float)-s, 0)));
        knockout(b, r.range(8, 15), r.chance(0.1f), t.wall);
        b.pop();
      }
    }
  }
  int outside = any_surface(b, 400);
  for (int s = -1; s <= 1; s += 2) {
    float y = s * (t.H + 2), z = r.chance(0.5f) ? t.depth - 25 : 0;
    b.span(v3(-t.X - 300, std::min(y, y + s * 700), z - 4), v3(t.X + 300, std::max(y, y + s * 700), z), outside, 0);
  }
  // back: ribs or seams, screws, knockouts, label
  for (int i = r.pick(0, 3); i > 0; i--) {
    float x = r.range(-0.6f, 0.6f) * t.X;
    b.span(v3(x - 1, -t.H, 0), v3(x + r.range(2, 14), t.H, r.range(0.6f, 2.5f)), t.wall, 0.5f);
  }
  for (int i = r.pick(1, 6); i > 0; i--) screw(b, v3(r.range(-0.7f, 0.7f) * t.X, r.range(-0.85f, 0.85f) * t.H, 0), v3(0, 0, 1), r.range(2.5f, 5));
  for (int i = r.pick(0, 3); i > 0; i--) {
    b.push(v3(r.range(-0.6f, 0.6f) * t.X, r.range(-0.7f, 0.7f) * t.H, 0));
    knockout(b, r.range(8, 16), r.chance(0.15f), t.wall);
    b.pop();
  }
  if (r.chance(0.4f)) {
    b.push(v3(r.range(-0.5f, 0.5f) * t.X, r.range(-0.5f, 0.5f) * t.H, 0.1f));
    label(b, r.range(25, 70), r.range(12, 40));
    b.pop();
  }
  b.floor_plane(v3(0, 0, 1), 0.3f);
  b.floor_plane(v3(0, 1, 0), -t.H);
  b.floor_plane(v3(0, -1, 0), -t.H);

  float wear = r.chance(0.5f) ? r.u() * 0.3f : r.u();
  int total = (int)r.log(14, 60), made = 0;
  bool metric = r.chance(0.35f);
  std::vector<Vec3> interest;
  int rounds = r.pick(3, 9);
  for (int gi = 0; gi < rounds && made < total; gi++) {
    int n = gi + 1 == rounds ? std::min(14, total - made) : std::min(total - made, r.pick(2, 10));
    Gauge g = metric ? Builder::metric(r.one_of({0.75f, 1.0f, 1.5f, 1.5f, 2.5f, 2.5f, 4.0f, 6.0f, 10.0f})) : Builder::thhn(r.one_of({14, 12, 12, 12, 10, 10, 8, 6}));
    float D = g.outer;
    std::vector<int> names = circuit_colors(b, n);
    std::vector<Style> st;
    for (int i = 0; i < n; i++) {
      Gauge gg = g;
      if (r.chance(0.1f)) { gg.outer *= r.range(0.7f, 1.3f); gg.metal *= 0.8f; }
      st.push_back((names[i] == kGreen && r.chance(0.3f)) ? b.bare_ground(gg) : b.style(names[i], gg, wear));
    }
    int a = r.chance(0.7f) ? r.pick(0, 1) : r.pick(2, 3);
    bool ends = r.chance(0.35f);
    int z = a < 2 && r.chance(0.65f) ? 1 - a : r.pick(2, 3);
    Port p0 = draw_port(b, t, (float)n, D, a);
    Bundle k;
    k.pitch = D * r.range(1.02f, 1.5f);
    k.loose = r.range(0.05f, 0.6f);
    k.mix = r.range(0, 0.6f);
    float lane = r.range(-0.75f, 0.75f) * t.H, lz = r.range(0.1f, 0.75f) * t.depth;
    k.path.push_back(p0.p);
    k.startDir = p0.in;
    if (a >= 2) k.path.push_back(p0.p + p0.in * r.range(20, 50));
    Vec3 e;
    Port p1;
    if (ends) {
      e = v3(r.range(-0.35f, 0.35f) * t.X, r.range(-0.6f, 0.6f) * t.H, r.range(0.2f, 0.85f) * t.depth);
    } else {
      p1 = draw_port(b, t, (float)n, D, z);
      e = p1.p;
    }
    int vias = r.pick(2, 4);
    float drift = r.gauss() * t.H * 0.15f;
    for (int i = 1; i <= vias; i++) {
      float x = mixf(p0.p.x, e.x, (float)i / (vias + 1));
      lane = clampf(lane + drift + r.gauss() * t.H * 0.12f, -0.85f * t.H, 0.85f * t.H);
      k.path.push_back(v3(x + r.gauss() * 8, lane, clampf(lz + r.gauss() * 6, D, t.depth * 0.95f)));
    }
    if (!ends) {
      if (z >= 2) k.path.push_back(p1.p + p1.in * r.range(20, 50));
      k.path.push_back(p1.p);
      k.endDir = -p1.in;
      for (int id : run_bundle(b, k, st)) b.strands[id].bend = r.range(2, 4.5f);
    } else {
      // the group comes apart into splices of 2 to 5
      Vec3 last = lerp(k.path.back(), e, 0.5f);
      k.path.push_back(last);
      Vec3 into = unit(e - last + r.gauss3(10));
      int i0 = 0;
      while (i0 < n) {
        int m = std::min(n - i0, r.pick(2, 4));
        Bundle s = k;
        Vec3 d = unit(into + r.gauss3(0.5f));
        Vec3 c = e + r.gauss3(14 + 2 * D);
        c.z = clampf(c.z, 12, t.depth + 10);
        c.y = clampf(c.y, -t.H + 14, t.H - 14);
        s.path.push_back(c);
        s.endDir = d;
        s.endSpread = 0.75f;
        s.pitch = D * 1.05f;
        s.loose = fmaxf(k.loose, 0.2f);
        std::vector<Style> sub(st.begin() + i0, st.begin() + i0 + m);
        int way = r.weighted({0.7f, 0.15f, 0.15f});
        for (int id : run_bundle(b, s, sub)) b.strands[id].bend = r.range(1.5f, 3.5f);
        if (way == 0) {
          b.push(c - d * (D * 0.8f), z_along(d));
          wire_cap(b, connector_size(r, m, D), connector_plastic(b));
          b.pop();
        } else if (way == 1) {
          b.push(c - d * 1.5f, Builder::axes(cross(d, v3(0.1f, 0.2f, 1)), d));
          lever_connector(b, std::max(m, 2), fmaxf(D * 1.3f, 5));
          b.pop();
        } else {
          int tape = b.paint(b.named(r.chance(0.75f) ? (int)kBlack : b.any_color()), 0.05f, r.range(0.25f, 0.5f));
          float R = D * sqrtf((float)m) * 0.72f;
          b.round_cone(c - d * R, c + d * (3.5f * D), R, R * 0.8f, tape);
        }
        interest.push_back(c);
        i0 += m;
      }
    }
    made += n;
  }
  if (r.chance(0.2f)) {
    // feeders along the trough
    Gauge g = Builder::thhn(r.one_of({4, 2, 1, 0, -1, -3, 250}));
    int n = r.pick(2, 5);
    std::vector<int> names = circuit_colors(b, n);
    Bundle k;
    float y = r.range(-0.6f, 0.6f) * t.H;
    k.pitch = g.outer * 1.03f;
    k.loose = 0.08f;
    float zz = r.range(0.15f, 0.6f) * t.depth;
    for (int i = 0; i <= 4; i++) k.path.push_back(v3((i - 2) * 0.5f * t.X, y + r.gauss() * 8, zz + r.gauss() * 5));
    std::vector<Style> st;
    for (int i = 0; i < n; i++) st.push_back(b.style(r.chance(0.6f) ? (int)kBlack : names[i], g, wear));
    for (int id : run_bundle(b, k, st))
      if (r.chance(0.4f)) Conductor(&b, id).sleeve(r.range(0.5f, 1.4f) * t.X, r.range(20, 60), r.pick(0, 9), 1.05f);
  }
  for (int i = r.chance(0.3f) ? r.pick(1, 3) : 0; i > 0; i--) {
    // jacketed cables, some of which split into their cores
    float outer = r.range(7, 15);
    int name = r.one_of({(int)kGray, (int)kBlack, (int)kWhite, (int)kOrange, (int)kYellow, (int)kGray});
    float s = r.chance(0.5f) ? 1.0f : -1.0f;
    Vec3 p = v3(s * t.X, r.range(-0.8f, 0.8f) * t.H, r.range(0.1f, 0.5f) * t.depth);
    Vec3 q = v3(r.range(-0.3f, 0.3f) * t.X, clampf(p.y + r.gauss() * 30, -0.8f * t.H, 0.8f * t.H), r.range(0.2f, 0.8f) * t.depth);
    bool split = r.chance(0.6f);
    if (!split) q.x = -s * t.X;
    b.conductor(b.jacket(name, outer)).from(p, v3(-s, 0, 0)).via(lerp(p, q, 0.5f) + r.gauss3(10)).to(q, v3(-s, 0, 0)).bend(5);
    if (!split) continue;
    int m = r.pick(2, 5);
    Gauge g = Builder::metric(r.one_of({0.75f, 1.5f, 2.5f}));
    Bundle k;
    k.pitch = fminf(g.outer, outer * 0.35f);
    k.path = {q + v3(s * 4, 0, 0), q - v3(s * 20, 0, 0), q - v3(s * 70, r.gauss() * 30, r.gauss() * 12), v3(-s * t.X, r.range(-0.8f, 0.8f) * t.H, q.z)};
    k.startDir = v3(-s, 0, 0);
    k.loose = r.range(0.3f, 1.5f);
    std::vector<Style> st;
    for (int nm : circuit_colors(b, m)) st.push_back(b.style(nm, g, wear));
    run_bundle(b, k, st);
    interest.push_back(q);
  }
  if (r.chance(0.5f)) {
    int tie = b.plastic(r.pick(0, 2));
    for (int i = r.pick(1, 4); i > 0; i--) b.tie(v3(r.range(-0.5f, 0.5f) * t.X, r.range(-0.6f, 0.6f) * t.H, r.range(0.2f, 0.7f) * t.depth), v3(1, 0, 0), r.range(6, 25), tie);
  }
  // a cover strip or hanger across, behind which the runs vanish
  for (int i = r.chance(0.35f) ? r.pick(1, 2) : 0; i > 0; i--) {
    float x = r.range(-0.5f, 0.5f) * t.X, w = r.range(6, 35);
    int m = r.chance(0.5f) ? t.wall : b.galvanized();
    b.span(v3(x - w, -t.H, t.depth * 0.98f), v3(x + w, t.H, t.depth * 0.98f + 1.5f), m, 0.4f);
    if (r.chance(0.5f)) screw(b, v3(x, r.range(-0.8f, 0.8f) * t.H, t.depth * 0.98f + 1.5f), v3(0, 0, 1), 4);
  }
  Vec3 at = !interest.empty() && r.chance(0.5f) ? interest[r.pick(0, (int)interest.size() - 1)] : b.some_conductor(across * 0.1f);
  at.x = clampf(at.x, -0.5f * t.X, 0.5f * t.X);
  b.random_look(at, fminf(across, t.X * 1.1f), 48, 0.6f);
  b.random_lights(b.target, across, r.chance(0.6f) ? r.u() : r.range(0.6f, 1));
  if (r.chance(0.04f)) overlay(b);
  b.globals.aoRange = r.range(40, 110);
  b.settle_rounds = made > 30 ? 3 : 5;
}

}  // namespace hp
