// Junction boxes: a small metal or plastic box with cables through clamps or conduits and splices folded inside.
//
// Box 90 to 200 mm square or octagon-like, 40 to 75 deep, galvanized (55 %), gray, white, blue or black plastic; 2 to 5
// entries, each a jacketed cable (60 %) or a bunch from a conduit, 2 to 5 conductors each (18 to 8 AWG, mostly 14 and
// 12); conductors meet in splices of 2 to 6 (twist connectors 75 %, lever connectors 25 %); slack loops outside the
// box plane in a third. 20 % with a lid hanging or lying beside, 15 % held open by fingers. View 50 to 260 mm.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/devices.hpp"
#include "../parts/hands.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void junction(Builder& b) {
  Rng& r = b.rng;
  float W = r.range(45, 100), H = r.chance(0.6f) ? W : r.range(35, 90), depth = r.range(38, 75);
  int box;
  const float kinds[] = {0.5f, 0.14f, 0.12f, 0.12f, 0.12f};
  switch (r.weighted(kinds)) {
    case 0: box = b.galvanized(); break;
    case 1: box = b.plastic(1); break;
    case 2: box = b.plastic(2); break;
    case 3: box = b.paint(b.pigment(pgToolBlue, r.range(0.7f, 1.1f)), 0.05f, 0.4f); break;
    default: box = b.paint(b.pigment(pgDeviceBlack, r.range(0.5f, 1.5f)), 0.05f, r.range(0.15f, 0.5f)); break;
  }
  b.mat(box).dirt = r.chance(0.5f) ? r.u() * 0.6f : 0;
  b.mat(box).dirtColor = b.pigment(pgDirt);
  float th = r.range(1.2f, 3);
  b.span(v3(-W, -H, -th), v3(W, H, 0), box, 0.3f);
  b.span(v3(-W - th, -H, 0), v3(-W, H, depth), box, 0.4f);
  b.span(v3(W, -H, 0), v3(W + th, H, depth), box, 0.4f);
  b.span(v3(-W - th, H, 0), v3(W + th, H + th, depth), box, 0.4f);
  b.span(v3(-W - th, -H - th, 0), v3(W + th, -H, depth), box, 0.4f);
  for (int sx = -1; sx <= 1; sx += 2)
    for (int sy = -1; sy <= 1; sy += 2) {
      if (!r.chance(0.8f)) continue;
      float e = r.range(3, 6);
      b.cylinder(v3(sx * (W - e), sy * (H - e), depth - r.range(6, 25)), v3(sx * (W - e), sy * (H - e), depth - 0.5f), e, box);
      b.cylinder(v3(sx * (W - e), sy * (H - e), depth - 0.6f), v3(sx * (W - e), sy * (H - e), depth - 0.3f), e * 0.45f, b.paint(b.gray(0.02f)));
    }
  int wall = any_surface(b, 300);
  float wz = r.chance(0.5f) ? depth - r.range(0, 6) : -th;
  if (wz > 0) {
    b.span(v3(-700, H + th, wz - 5), v3(700, 700, wz), wall, 0);
    b.span(v3(-700, -700, wz - 5), v3(700, -H - th, wz), wall, 0);
    b.span(v3(-700, -H - th, wz - 5), v3(-W - th, H + th, wz), wall, 0);
    b.span(v3(W + th, -H - th, wz - 5), v3(700, H + th, wz), wall, 0);
  } else {
    b.span(v3(-700, -700, wz - 5), v3(700, 700, wz), wall, 0);
  }
  for (int i = r.pick(0, 4); i > 0; i--) {
    b.push(v3(r.range(-0.7f, 0.7f) * W, r.range(-0.7f, 0.7f) * H, 0));
    knockout(b, r.range(7, 13), r.chance(0.15f), box);
    b.pop();
  }
  for (int i = r.pick(0, 3); i > 0; i--) screw(b, v3(r.range(-0.8f, 0.8f) * W, r.range(-0.8f, 0.8f) * H, 0), v3(0, 0, 1), r.range(2.5f, 4.5f));
  b.floor_plane(v3(0, 0, 1), 0.3f);
  b.floor_plane(v3(1, 0, 0), -W);
  b.floor_plane(v3(-1, 0, 0), -W);
  b.floor_plane(v3(0, 1, 0), -H);
  b.floor_plane(v3(0, -1, 0), -H);

  float wear = r.chance(0.5f) ? r.u() * 0.3f : r.u();
  struct Loose { Vec3 p, dir; Style st; };
  std::vector<Loose> loose;
  int entries = r.pick(2, 5);
  bool cables = r.chance(0.6f);
  int jacketName = r.one_of({(int)kWhite, (int)kYellow, (int)kGray, (int)kBlack, (int)kGray, (int)kOrange});
  for (int i = 0; i < entries; i++) {
    int side = r.pick(0, 3);
    Vec3 in = side == 0 ? v3(1, 0, 0) : side == 1 ? v3(-1, 0, 0) : side == 2 ? v3(0, 1, 0) : v3(0, -1, 0);
    Vec3 p = v3(-in.x * W, -in.y * H, r.range(0.25f, 0.7f) * depth) + v3(in.y * W, in.x * H, 0) * r.range(-0.6f, 0.6f);
    int n = r.pick(2, 4);
    Gauge g = Builder::thhn(r.one_of({14, 14, 14, 12, 12, 12, 10, 18, 8}));
    float D = g.outer, R = D * sqrtf((float)n) * 0.7f + 1.5f;
    Vec3 out = p;
    if (cables) {
      float len = r.range(4, 45);
      int nm = r.chance(0.8f) ? jacketName : r.pick(0, 10);
      out = p + in * len + r.gauss3(2);
      b.conductor(b.jacket(nm, R * 2)).from(p - in * r.range(10, 90), in).to(out, in).frozen(0.9f).wobble(0);
      if (r.chance(0.6f)) {
        int m = r.chance(0.6f) ? b.zinc() : b.plastic();
        b.push(p - in * 1, z_along(in));
        gland(b, R * 1.02f, m);
        b.pop();
      }
    } else {
      b.push(p, z_along(in));
      conduit_end(b, R * r.range(1.2f, 1.8f), r.chance(0.5f));
      b.pop();
    }
    for (int nm : circuit_colors(b, n)) {
      Style st = (nm == kGreen && r.chance(0.5f)) ? b.bare_ground(g) : b.style(nm, g, wear);
      Vec3 off = r.gauss3(D * 0.6f);
      loose.push_back({out + off - in * dot(off, in) - in * 3, in, st});
    }
  }
  // splices: conductors of like color meet
  std::stable_sort(loose.begin(), loose.end(), [](const Loose& a, const Loose& q) { return a.st.name < q.st.name; });
  std::vector<Vec3> joints;
  float high = r.chance(0.35f) ? r.range(10, 45) : 0;   // pulled out of the box
  for (size_t i = 0; i < loose.size();) {
    int m = std::min((int)(loose.size() - i), r.pick(2, 5));
    float D = loose[i].st.gauge.outer;
    Vec3 c = v3(r.range(-0.6f, 0.6f) * W, r.range(-0.6f, 0.6f) * H, r.range(0.35f, 0.95f) * depth + high);
    Vec3 d = unit(v3(r.gauss(), r.gauss(), r.range(0.1f, 1.4f)));
    bool lever = r.chance(0.25f);
    std::vector<Vec3> ports;
    Quat q = Builder::axes(cross(d, v3(0.1f, 0.3f, 1)), d);
    if (lever) {
      b.push(c, q);
      ports = lever_connector(b, m, fmaxf(D * 1.3f, 5));
      b.pop();
    } else {
      b.push(c - d * (D * 0.9f), z_along(d));
      wire_cap(b, connector_size(r, m, D), connector_plastic(b));
      b.pop();
    }
    std::vector<Vec3> slot = packed(r, m, D * 0.9f);
    for (int k = 0; k < m; k++) {
      const Loose& l = loose[i + k];
      Vec3 e = lever ? c + rotate(q, ports[k]) + d * 2 : c + rotate(z_along(d), slot[k]);
      Conductor w = b.conductor(l.st);
      w.from(l.p, l.dir).via(l.p + l.dir * r.range(10, 25) + r.gauss3(5));
      if (r.chance(0.7f)) w.via(v3(r.range(-0.8f, 0.8f) * W, r.range(-0.8f, 0.8f) * H, r.range(0.15f, 0.8f) * depth + high * 0.4f));
      w.via(e - d * r.range(14, 30) + r.gauss3(4));
      w.to(e, d).bend(r.range(1.4f, 3)).wobble(r.range(0.1f, 0.6f));
      if (r.chance(0.3f) && !lever) w.strip_end(D * r.range(0.8f, 2.2f));
    }
    joints.push_back(c);
    i += m;
  }
  if (r.chance(0.2f)) {  // lid beside
    Vec3 p = v3((r.chance(0.5f) ? 1 : -1) * r.range(1.6f, 2.4f) * W, r.range(-1, 1) * H, fmaxf(wz, 0) + 2);
    b.box(p, v3(W * 1.05f, H * 1.05f, 0.8f), box, 0.4f, turn(v3(0, 0, 1), r.gauss() * 0.3f));
  }
  if (r.chance(0.15f)) {
    float a = r.range(0, 6.28f);
    b.push(joints[0] + v3(0, 0, 6), turn(v3(0, 0, 1), a));
    hand_pinch(b, 6, skin(b));
    b.pop();
  }
  if (r.chance(0.3f)) clutter(b, v3(r.range(-0.8f, 0.8f) * W, (r.chance(0.5f) ? 1 : -1) * (H + r.range(20, 70)), fmaxf(wz, 0)), r.range(8, 30));
  float across = r.log(50, 260);
  Vec3 at = r.chance(0.4f) ? joints[r.pick(0, (int)joints.size() - 1)] : r.chance(0.6f) ? b.some_conductor(across * 0.08f) : v3(0, 0, depth * 0.6f);
  b.random_look(at, across, 45, 0.5f);
  b.random_lights(b.target, across, r.chance(0.6f) ? r.u() : r.range(0.5f, 1));
  hard_sun(b, 0.12f);
  if (r.chance(0.05f)) overlay(b);
  b.globals.aoRange = r.range(30, 80);
  b.settle_rounds = 6;
}

}  // namespace hp
