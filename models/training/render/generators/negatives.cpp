// Hard negatives: things with the lines, roundness, colors and gloss of conductors that are none.
//
// 1 to 7 decoys (parts/decoys: fins, slots, tools, hands, fingers, rare rods with ends, rails, trunking, trays, planks,
// rings, rope, corrugated tube, modules with colored paddles, boards, printed lines, plugs, twist connectors, glands,
// housings, perforated strips, lit windows, knobs, frames, terminal rows), colored like insulation in 70 % of where a
// color is free. 40 % hold 1 to 3 real conductors among them. Shadows of bars that are out of sight fall across 25 %.
// View 40 to 500 mm of any surface, tilt to 60 degrees.
#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void negatives(Builder& b) {
  Rng& r = b.rng;
  float across = r.log(40, 500);
  int top = r.chance(0.15f) ? vivid(b) : any_surface(b, across);
  b.span(v3(-across * 6, -across * 6, -10), v3(across * 6, across * 6, 0), top, 0);
  b.floor_plane(v3(0, 0, 1), 0);
  if (r.chance(0.2f)) {  // wall, edge of the table or a seam behind
    float a = r.range(0, 6.28f);
    b.push(v3(cosf(a), sinf(a), 0) * (across * r.range(0.1f, 0.6f)), turn(v3(0, 0, 1), a));
    if (r.chance(0.5f)) b.span(v3(0, -across * 5, 0), v3(across * 5, across * 5, across * r.log(0.01f, 2)), r.chance(0.5f) ? vivid(b) : any_surface(b, across), across * 0.004f);
    else b.box(v3(0, 0, 0.1f), v3(across * r.log(0.001f, 0.01f), across * 5, 0.1f), b.paint(b.gray(0.02f)), 0);
    b.pop();
  }
  int n = r.pick(1, 7);
  int repeat = r.chance(0.3f) ? any_decoy(r) : -1;
  for (int i = 0; i < n; i++) {
    int kind = repeat >= 0 && r.chance(0.7f) ? repeat : any_decoy(r);
    float s = across * (i == 0 ? r.range(0.5f, 1.3f) : r.log(0.12f, 0.8f));
    // devices and hands have a size of their own
    if ((kind == 13 || kind == 24 || kind == 3 || kind == 4) && across < 110 && r.chance(0.6f)) continue;
    Vec3 p = v3(r.gauss(), r.gauss(), 0) * (across * (i == 0 ? 0.12f : 0.32f));
    b.push(p + v3(0, 0, i * 0.07f), turn(v3(0, 0, 1), r.range(0, 6.28f)));
    decoy(b, kind, s);
    b.pop();
    if (b.prims.size() > 2500) break;
  }
  for (int i = r.pick(0, 4); i > 0; i--) clutter(b, v3(r.range(-0.6f, 0.6f), r.range(-0.6f, 0.6f), 0) * across, across * r.log(0.03f, 0.3f));
  if (r.chance(0.4f)) {
    int m = r.pick(1, 3);
    float D = across * r.log(0.008f, 0.08f);
    for (int i = 0; i < m; i++) {
      Style st = b.style(b.any_color(), {D, D * 0.6f});
      float a = r.range(0, 6.28f), z = r.chance(0.5f) ? D * 0.5f : r.range(0.05f, 0.3f) * across;
      Vec3 d = v3(cosf(a), sinf(a), 0), s = v3(-d.y, d.x, 0), o = s * (r.gauss() * across * 0.25f);
      Conductor c = b.conductor(st);
      c.from(o - d * across + v3(0, 0, z)).via(o - d * (across * 0.3f) + s * (r.gauss() * across * 0.15f) + v3(0, 0, z));
      if (r.chance(0.6f)) c.via(o + d * (across * 0.3f) + s * (r.gauss() * across * 0.15f) + v3(0, 0, z)).to(o + d * across + v3(0, 0, z));
      else { c.to(o + d * (across * r.range(0, 0.3f)) + v3(0, 0, z)); if (r.chance(0.5f)) c.strip_end(D * r.range(1, 4)); }
      c.bend(r.range(3, 8));
    }
  }
  b.random_look(v3(r.gauss(), r.gauss(), 0) * (across * 0.08f), across, 60, 0.4f);
  b.random_lights(b.target, across);
  hard_sun(b, 0.15f);
  if (r.chance(0.25f) && b.globals.lightCount < 3) {
    // a strong small lamp with bars before it, far to the side of the view
    float a = r.range(0, 6.28f);
    Vec3 dir = unit(v3(cosf(a), sinf(a), r.range(0.35f, 0.9f))), q = unit(cross(dir, v3(0, 0, 1)));
    Vec3 pos = b.target + dir * 1500;
    b.lamp(pos, b.target, r.range(2, 14), r.range(0.5f, 1.2f) / fmaxf(b.globals.cam.exposure, 0.2f));
    int m = b.paint(b.gray(0.1f)), bars = r.pick(2, 9);
    float w = across * r.log(0.006f, 0.04f), gap = across * r.log(0.06f, 0.3f);
    Vec3 along = unit(cross(dir, q) + q * r.gauss());
    for (int i = 0; i < bars; i++) {
      Vec3 c = b.target + dir * 1100 + q * ((i - 0.5f * (bars - 1)) * gap);
      b.capsule(c - along * 900, c + along * 900, w, m);
    }
    b.exposure(0.7f);
  }
  if (r.chance(0.1f)) overlay(b);
  b.globals.aoRange = across * r.range(0.12f, 0.3f);
  b.settle_rounds = 3;
}

}  // namespace hp
