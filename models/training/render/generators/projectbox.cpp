// Plastic project boxes: glossy black, gray, white or colored, with loose thin conductors, switches, boards, splices.
//
// Box 70 to 260 mm wide, 30 to 80 deep, black in 60 %, wall lips rounded, standoffs in the corners, often near white
// ground, its lid beside it in 40 %. Along one or two walls a row of 3 to 9 parts (switches, lamps, blocks), each with
// 1 to 3 terminals; 6 to 32 conductors 1 to 4.5 mm, of few colors or many, from terminal to terminal, to splices (twist
// connector, heat shrink, crimp sleeve) or out through glands and corrugated tube at the ends; loops lie over each
// other and 20 % reach over the lip. 30 % hold a board. Dim far ends, hot flash on the gloss. View 50 to 380 mm.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/devices.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void projectbox(Builder& b) {
  Rng& r = b.rng;
  float W = r.range(35, 130), H = W * r.range(0.45f, 1), depth = r.range(30, 80), t = r.range(1.2f, 2.5f);
  const float w[] = {0.6f, 0.12f, 0.16f, 0.12f};
  int k = r.weighted(w);
  int box = k == 0 ? b.paint(b.pigment(pgDeviceBlack, r.range(0.5f, 1.8f)), 0.05f, r.range(0.1f, 0.45f)) : k == 1 ? b.plastic(1) : k == 2 ? b.plastic(2) : vivid(b);
  b.mat(box).dust = 0;
  b.span(v3(-W, -H, -t), v3(W, H, 0), box, 0);
  for (int s = -1; s <= 1; s += 2) {
    b.span(v3(s * (W + t) - t, -H - t, -t), v3(s * (W + t) + t, H + t, depth), box, t * 0.6f);
    b.span(v3(-W - t, s * (H + t) - t, -t), v3(W + t, s * (H + t) + t, depth), box, t * 0.6f);
    b.capsule(v3(s * (W + t), -H - t, depth), v3(s * (W + t), H + t, depth), t * 1.05f, box);
    b.capsule(v3(-W - t, s * (H + t), depth), v3(W + t, s * (H + t), depth), t * 1.05f, box);
    for (int q = -1; q <= 1; q += 2) {
      b.cylinder(v3(s * (W - 4.5f), q * (H - 4.5f), 0), v3(s * (W - 4.5f), q * (H - 4.5f), depth - 1), 4, box);
      b.cylinder(v3(s * (W - 4.5f), q * (H - 4.5f), depth - 1.1f), v3(s * (W - 4.5f), q * (H - 4.5f), depth - 0.9f), 1.6f, r.chance(0.5f) ? b.brass() : b.paint(b.gray(0.01f)));
    }
  }
  for (int i = r.pick(0, 5); i > 0; i--) {  // ribs of the mold
    float x = r.range(-0.9f, 0.9f) * W;
    b.span(v3(x - 0.6f, H - 4, 0), v3(x + 0.6f, H, depth * 0.8f), box, 0.3f);
  }
  int ground = r.chance(0.35f) ? b.textured(kPainted, b.gray(r.range(0.5f, 0.9f)), b.pigment(pgDust), 80, 0.1f) : any_surface(b, W * 3);
  b.span(v3(-W * 14, -W * 14, -t - 10), v3(W * 14, W * 14, -t), ground, 0);
  b.floor_plane(v3(0, 0, 1), 0.2f);
  if (r.chance(0.4f)) {
    Vec3 p = v3(r.range(-0.5f, 0.5f) * W, (r.chance(0.5f) ? 1 : -1) * (H * 2.3f + 10), 0);
    b.box(p, v3(W, H, t), box, t * 0.6f, turn(v3(0, 0, 1), r.gauss() * 0.15f));
  }
  float wear = r.chance(0.7f) ? r.u() * 0.2f : r.u();
  // parts in rows along the long walls; terminals stick into the box
  struct Pin { Vec3 p, dir; };
  std::vector<Pin> pins;
  int metal = r.chance(0.6f) ? b.tin() : b.brass();
  int part = vivid(b), part2 = b.plastic(0);
  for (int s = 1; s >= -1; s -= 2) {
    if (s < 0 && r.chance(0.6f)) break;
    int n = r.pick(3, 9), kind = r.pick(0, 3);
    float pitch = 2 * W * 0.85f / n, z = r.range(0.35f, 0.7f) * depth, q = fminf(pitch * 0.38f, 12);
    for (int i = 0; i < n; i++) {
      float x = (i - 0.5f * (n - 1)) * pitch;
      Vec3 in = v3(0, (float)-s, 0);
      Vec3 o = v3(x, s * H, z);
      float L = q * r.range(0.9f, 1.6f);
      if (kind == 0) b.box(o + in * (L * 0.5f), v3(q * 0.8f, L * 0.5f, q), r.chance(0.5f) ? part : part2, 0.6f);
      else if (kind == 1) b.cylinder(o, o + in * L, q * 0.7f, r.chance(0.7f) ? part : metal);
      else if (kind == 2) { b.cylinder(o, o + in * (L * 0.3f), q * 0.95f, metal); b.cylinder(o, o + in * L, q * 0.55f, part2); }
      else b.box(o + in * (L * 0.5f), v3(q, L * 0.5f, q * 0.6f), b.plastic(), 0.6f);
      int tags = r.pick(1, 3);
      for (int g = 0; g < tags; g++) {
        Vec3 e = o + in * L + v3((g - 0.5f * (tags - 1)) * q * 0.7f, 0, r.gauss() * q * 0.2f);
        b.box(e + in * 2.2f, v3(1.1f, 3, 0.3f), metal, 0.1f);
        pins.push_back({e + in * 4, in});
      }
    }
  }
  if (r.chance(0.3f)) {
    float bw = W * r.range(0.7f, 1.5f), bh = H * r.range(0.5f, 1.2f);
    Vec3 o = v3(r.gauss() * W * 0.1f, -H * 0.2f, 4);
    b.push(o);
    circuit_board(b, bw, bh);
    b.pop();
    for (int i = r.pick(2, 10); i > 0; i--) pins.push_back({o + v3(r.range(-0.45f, 0.45f) * bw, (r.chance(0.5f) ? 1 : -1) * bh * 0.45f, 2), v3(0, 0, 1)});
  }
  // exits
  std::vector<Pin> exits;
  for (int i = r.pick(1, 3); i > 0; i--) {
    float s = r.chance(0.5f) ? 1.0f : -1.0f;
    Vec3 in = r.chance(0.7f) ? v3(-s, 0, 0) : v3(0, -s, 0);
    Vec3 p = v3(-in.x * W, -in.y * H, r.range(0.25f, 0.6f) * depth) + v3(in.y * W, in.x * H, 0) * r.range(-0.6f, 0.6f);
    float R = r.range(4, 9);
    int m = b.paint(b.pigment(pgDeviceBlack, r.range(0.7f, 2)), 0.05f, 0.35f);
    int way = r.pick(0, 2);
    if (way == 0) corrugated(b, {p + in * r.range(0, 14), p - in * 20, p - in * 80 + v3(0, 0, -p.z * 0.5f), p - in * 300 + r.gauss3(40) * v3(1, 1, 0) - v3(0, 0, p.z - R)}, R, m);
    else {
      b.push(p - in * (t * 2), z_along(way == 1 ? in : -in));
      gland(b, R * 0.7f, m);
      b.pop();
      b.conductor(b.jacket(r.one_of({(int)kBlack, (int)kGray, (int)kWhite}), R * 1.3f)).from(p + in * r.range(2, 14), -in).via(p - in * 60 - v3(0, 0, p.z * 0.4f)).to(p - in * 300 + v3(r.gauss() * 60, r.gauss() * 60, R - p.z)).bend(5);
    }
    exits.push_back({p + in * 8, in});
  }
  int n = (int)r.log(6, 32), few = r.chance(0.6f) ? r.pick(1, 4) : 0;
  int set[4];
  for (int& c : set) c = b.any_color();
  float D0 = r.log(1, 3.2f);
  std::vector<Vec3> interest;
  for (int i = 0; i < n; i++) {
    float D = r.chance(0.75f) ? D0 : D0 * r.range(0.7f, 2);
    Style st = b.style(few ? set[r.pick(0, few - 1)] : b.any_color(), {D, D * 0.6f}, wear);
    auto end = [&](Pin& p, bool first) {
      if (r.chance(first ? 0.85f : 0.45f) && !pins.empty()) { p = pins[r.pick(0, (int)pins.size() - 1)]; p.p += r.gauss3(D * 0.4f); return 0; }
      if (r.chance(0.45f)) { p = exits[r.pick(0, (int)exits.size() - 1)]; Vec3 o = r.gauss3(2.5f); p.p += o - p.dir * dot(o, p.dir); return 1; }
      if (r.chance(0.12f)) { p.p = v3(r.range(-1.6f, 1.6f) * W, -H * r.range(1.2f, 1.9f), depth * 0.2f); p.dir = v3(0, 0, 0); return 2; }
      p.p = v3(r.range(-0.75f, 0.75f) * W, r.range(-0.75f, 0.6f) * H, r.range(0.2f, 0.9f) * depth);
      p.dir = unit(v3(r.gauss(), r.gauss(), r.gauss() * 0.4f)) * -1.0f;
      return 3;
    };
    Pin a, z;
    end(a, true);
    int way = end(z, false);
    Conductor c = b.conductor(st);
    c.from(a.p, a.dir).via(a.p + a.dir * r.range(8, 20) + r.gauss3(4));
    for (int q = r.pick(1, 3); q > 0; q--) c.via(v3(r.range(-0.85f, 0.85f) * W, r.range(-0.85f, 0.6f) * H, r.range(0.08f, 0.75f) * depth));
    if (way == 2) c.via(v3(z.p.x * 0.7f, -H, depth + D * 2));
    if (dot(z.dir, z.dir) > 0) c.via(z.p + z.dir * r.range(8, 18));
    c.to(z.p, -z.dir).bend(r.range(3, 9)).wobble(r.range(0.2f, 1));
    if (way == 3) {
      Vec3 d = -z.dir;
      if (r.chance(0.4f)) {
        b.push(z.p - d * (D * 0.8f), z_along(d));
        wire_cap(b, connector_size(r, r.pick(2, 4), D), connector_plastic(b));
        b.pop();
      } else if (r.chance(0.5f)) c.sleeve(-D * 6, D * 6.5f, r.one_of({(int)kRed, (int)kBlue, (int)kYellow, (int)kBlack}), 1.4f);
      else c.strip_end(r.range(3, 10));
      interest.push_back(z.p);
    } else if (way == 0) {
      if (r.chance(0.4f)) c.sleeve(-D * r.range(3, 7), D * 5, r.one_of({(int)kBlack, (int)kRed, (int)kYellow, (int)kBlue, (int)kWhite}), r.range(1.15f, 1.5f));
      else c.strip_end(r.range(1, 4));
    }
    if (r.chance(0.4f)) c.sleeve(0, D * r.range(3, 7), r.one_of({(int)kBlack, (int)kRed, (int)kYellow, (int)kYellow}), r.range(1.15f, 1.5f));
  }
  if (r.chance(0.35f)) {
    b.push(v3((r.chance(0.5f) ? 1 : -1) * W * r.range(1.3f, 2), r.range(-1, 1) * H, -t), turn(v3(0, 0, 1), r.range(0, 6.28f)));
    decoy(b, any_decoy(r), W * r.range(0.3f, 1));
    b.pop();
  }
  float across = r.chance(0.35f) ? W * r.range(2, 3.4f) : W * r.log(0.5f, 2);
  Vec3 at = r.chance(0.5f) ? b.some_conductor(across * 0.08f) : v3(r.gauss() * W * 0.3f, r.gauss() * H * 0.3f, depth * 0.5f);
  at.x = clampf(at.x, -W, W);
  at.y = clampf(at.y, -H, H);
  b.random_look(at, across, 50, 0.5f);
  b.random_lights(b.target, across, r.chance(0.6f) ? r.u() : r.range(0.5f, 1));
  hard_sun(b, 0.1f);
  b.globals.aoRange = r.range(20, 60);
  b.settle_rounds = 4;
}

}  // namespace hp
