// Motor terminal boxes: a cast or sheet box on a finned, painted housing, with leads folded into it.
//
// Housing: cylinder with 6 to 24 cooling fins or smooth, paint of any dull or strong color; box 60 to 140 mm with cast
// thick rounded walls; 3 to 12 leads 1.5 to 7 mm from a hole in the back; joined to as many supply conductors by twist
// connectors that stick out of the box (45 %), by a terminal board with studs, nuts and links (35 %), or by taped
// joints (20 %); supply through a conduit or gland; ring terminals, numbered markers. Often dim with a hot flash.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/devices.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void motorbox(Builder& b) {
  Rng& r = b.rng;
  float W = r.range(30, 70), H = W * r.range(0.7f, 1.2f), depth = r.range(28, 60), t = r.range(2, 5);
  int paint = r.chance(0.5f) ? b.textured(kPainted, b.gray(r.log(0.04f, 0.4f)), b.pigment(pgDirt), r.log(10, 80), r.range(0, 0.4f)) : b.textured(kPainted, b.pigment(r.pick(0, 143), r.range(0.4f, 0.9f)), b.pigment(pgDirt), r.log(10, 80), r.range(0, 0.4f));
  b.mat(paint).rough = r.range(0.25f, 0.6f);
  b.mat(paint).specular = 0.05f;
  b.mat(paint).dirt = r.u() * 0.6f;
  // housing behind: axis along x
  float R = W * r.range(1.6f, 3.2f);
  b.cylinder(v3(-R * 2.4f, 0, -R - 4), v3(R * 2.4f, 0, -R - 4), R, paint);
  if (r.chance(0.6f)) {
    int n = r.pick(10, 30);
    float h = r.range(4, 14);
    for (int i = 0; i < n; i++) {
      float a = kPi * 2 * i / n;
      Vec3 d = v3(0, cosf(a), sinf(a));
      b.box(v3(0, 0, -R - 4) + d * (R + h * 0.3f), v3(R * 2.3f, 1.6f, h), paint, 0.8f, Builder::axes(v3(1, 0, 0), cross(d, v3(1, 0, 0))));
    }
  }
  int back = any_surface(b, 400);
  b.span(v3(-2500, -2500, -R * 2.2f - 20), v3(2500, 2500, -R * 2.2f), back, 0);
  // box
  b.span(v3(-W, -H, -10), v3(W, H, 0), paint, 0);
  for (int s = -1; s <= 1; s += 2) {
    b.span(v3(s * W - t, -H - t, -14), v3(s * W + t, H + t, depth), paint, t * 0.5f);
    b.span(v3(-W - t, s * H - t, -14), v3(W + t, s * H + t, depth), paint, t * 0.5f);
    for (int q = -1; q <= 1; q += 2) {
      b.cylinder(v3(s * W, q * H, -14), v3(s * W, q * H, depth + 0.3f), t * 1.8f, paint);
      b.cylinder(v3(s * W, q * H, depth + 0.2f), v3(s * W, q * H, depth + 0.5f), t * 0.7f, b.paint(b.gray(0.01f)));
    }
  }
  b.floor_plane(v3(0, 0, 1), 0.3f);
  Vec3 hole = v3(r.gauss() * W * 0.15f, r.chance(0.5f) ? H * 0.5f : r.gauss() * H * 0.2f, 0);
  b.cylinder(hole - v3(0, 0, 1), hole + v3(0, 0, 0.3f), r.range(9, 18), b.paint(b.gray(0.008f)));
  Vec3 in = r.chance(0.5f) ? v3(0, 1, 0) : v3(r.chance(0.5f) ? 1.0f : -1.0f, 0, 0);
  Vec3 entry = v3(-in.x * (W - t), -in.y * (H - t), depth * r.range(0.35f, 0.6f)) + v3(in.y, in.x, 0) * (r.range(-0.4f, 0.4f) * W);
  float ER = r.range(7, 14);
  if (r.chance(0.5f)) { b.push(entry, z_along(in)); conduit_end(b, ER, r.chance(0.4f)); b.pop(); }
  else { b.push(entry - in * (2 * t), z_along(-in)); gland(b, ER * 0.7f, r.chance(0.5f) ? b.brass() : b.plastic(0)); b.pop(); }
  b.cylinder(entry - in * (2 * t + ER * 3), entry - in * 400, ER * 0.8f, b.plastic(r.pick(0, 1)));
  int m = r.pick(3, 8);
  float D = r.log(1.5f, 5.5f);
  float wear = r.u();
  std::vector<int> motor = circuit_colors(b, m), supply = circuit_colors(b, m);
  const float ways[] = {0.45f, 0.35f, 0.2f};
  int way = r.weighted(ways);
  std::vector<Vec3> joints;
  auto lead = [&](int name, Vec3 s, Vec3 dir, Vec3 e, Vec3 ed) {
    Conductor c = b.conductor(b.style(name, {D, D * 0.6f}, wear));
    c.from(s, dir).via(s + dir * r.range(10, 20) + r.gauss3(4));
    if (r.chance(0.7f)) c.via(v3(r.range(-0.7f, 0.7f) * W, r.range(-0.7f, 0.7f) * H, r.range(0.2f, 0.8f) * depth));
    c.via(e - ed * r.range(10, 22) + r.gauss3(3)).to(e, ed).bend(r.range(1.6f, 3.5f)).wobble(0.4f);
    if (r.chance(0.12f)) c.marker(r.range(15, 40));
    return c;
  };
  if (way == 1) {
    int body = r.chance(0.6f) ? b.plastic(0) : vivid(b), metal = r.chance(0.6f) ? b.brass() : b.zinc();
    int cols = std::min(m, 4), rows = m > 4 ? 2 : 1;
    float p = W * 1.3f / cols;
    b.span(v3(-cols * p * 0.5f - 3, -rows * p * 0.5f - 3, 0), v3(cols * p * 0.5f + 3, rows * p * 0.5f + 3, depth * 0.3f), body, 1.5f);
    for (int i = 0; i < cols * rows; i++) {
      Vec3 s = v3((i % cols - 0.5f * (cols - 1)) * p, (i / cols - 0.5f * (rows - 1)) * p, depth * 0.3f);
      b.cylinder(s, s + v3(0, 0, 12), p * 0.11f, metal);
      for (int k = 0; k < 3; k++) b.box(s + v3(0, 0, 5.5f), v3(p * 0.2f, p * 0.115f, 2), metal, 0.3f, turn(v3(0, 0, 1), k * kPi / 3));
      b.cylinder(s, s + v3(0, 0, 3), p * 0.25f, metal);
      if (rows == 2 && i < cols && r.chance(0.6f)) b.box(s + v3(0, p * 0.5f, 3.2f), v3(p * 0.14f, p * 0.65f, 0.6f), metal, 0.3f);
      for (int side = 0; side < 2; side++) {
        float q = (rows == 2 ? (i >= cols ? 1 : -1) : side ? 1 : -1) * 1.0f;
        if (rows == 2 && side && r.chance(0.5f)) continue;
        Vec3 ed = unit(v3(r.gauss() * 0.4f, -q, 0));
        Vec3 e = s - ed * (p * 0.3f) + v3(0, 0, 2 + side * 1.5f);
        bool sup = side == (rows == 2 ? (i >= cols) : 1);
        Conductor c = lead(sup ? supply[i % m] : motor[i % m], sup ? entry + r.gauss3(2) : hole + r.gauss3(3), sup ? in : v3(0, 0, 1), e, ed);
        b.push(e, Builder::axes(cross(ed, v3(0, 0, 1)), ed));
        crimp_terminal(b, r.pick(0, 1), D, b.tin());
        b.pop();
        if (r.chance(0.6f)) c.sleeve(-D * 3, D * 3, r.one_of({(int)kBlue, (int)kRed, (int)kYellow, (int)kBlack}), 1.3f);
        joints.push_back(e);
      }
    }
  } else {
    for (int i = 0; i < m; i++) {
      Vec3 d = unit(v3(r.gauss(), r.gauss(), r.range(0.2f, 2)));
      Vec3 c = v3(r.range(-0.7f, 0.7f) * W, r.range(-0.7f, 0.7f) * H, depth * r.range(0.5f, 1.5f));
      int extra = r.pick(1, 2);
      Vec3 u = normal_to(d) * (D * 0.5f);
      for (int q = 0; q < extra; q++) lead(motor[(i + q) % m], hole + r.gauss3(4) * v3(1, 1, 0), v3(0, 0, 1), c + u * (q ? 0.9f : 1), d);
      lead(supply[i], entry + r.gauss3(2.5f), in, c - u, d);
      if (way == 0) {
        b.push(c - d * (D * 0.9f), z_along(d));
        wire_cap(b, connector_size(r, 1 + extra, D) * r.range(1, 1.25f), connector_plastic(b));
        b.pop();
      } else {
        int tape = b.paint(b.named(r.chance(0.7f) ? (int)kBlack : b.any_color()), 0.05f, 0.35f);
        b.round_cone(c - d * (D * 2), c + d * (D * 4), D * 1.25f, D * 1.05f, tape);
      }
      joints.push_back(c);
    }
  }
  float across = r.log(55, 300);
  Vec3 at = r.chance(0.6f) ? joints[r.pick(0, (int)joints.size() - 1)] : v3(r.gauss() * 10, r.gauss() * 10, depth * 0.6f);
  b.random_look(at, across, 50, 0.5f);
  b.random_lights(b.target, across, r.chance(0.5f) ? r.u() : r.range(0.5f, 1));
  hard_sun(b, 0.25f);
  if (r.chance(0.05f)) overlay(b);
  b.globals.aoRange = r.range(25, 70);
  b.settle_rounds = 5;
}

}  // namespace hp
