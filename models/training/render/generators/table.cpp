// Conductors lying on a table or board: bundles, loose runs, single pieces and loops.
//
// count: single 30 %, 2 to 6 35 %, 6 to 30 35 %; diameter 1.1 to 9 mm (thin more often); width in view
// 25 to 130 diameters for singles, up to 200 for bundles. Surface: painted, wood, plywood, cardboard, cloth,
// concrete, carpet, metal or a photograph. 0 to 4 pieces of clutter.
#include "../builder.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void table(Builder& b) {
  Rng& r = b.rng;
  const float shares[] = {0.3f, 0.35f, 0.35f};
  int kind = r.weighted(shares);
  int n = kind == 0 ? 1 : kind == 1 ? r.pick(2, 6) : r.pick(6, 30);
  Gauge g = r.chance(0.5f) ? Builder::metric(r.log(0.2f, 10)) : Builder::thhn(r.one_of({14, 12, 12, 10, 8}));
  float D = g.outer;
  float across = D * (kind == 0 ? r.log(7, 110) : kind == 1 ? r.log(12, 140) : r.log(25, 200));
  int top = any_surface(b, across);
  b.span(v3(-across * 4, -across * 4, -20), v3(across * 4, across * 4, 0), top, 0);
  b.floor_plane(v3(0, 0, 1), 0);
  bool bundle = n > 1 && r.chance(0.6f);
  bool oneColor = r.chance(0.25f);
  int only = b.any_color();
  float wear = r.chance(0.7f) ? r.u() * 0.3f : r.u();
  // common path of a bundle
  float a0 = r.range(0, 2 * kPi);
  Vec3 dir = v3(cosf(a0), sinf(a0), 0), side = v3(-dir.y, dir.x, 0);
  float bow = across * r.range(-0.5f, 0.5f), bow2 = across * r.range(-0.3f, 0.3f);
  float spread = bundle ? D * sqrtf((float)n) * r.range(0.5f, 1.6f) : across * r.range(0.15f, 0.45f);
  for (int i = 0; i < n; i++) {
    int name = oneColor ? only : b.any_color();
    Gauge gi = r.chance(0.8f) ? g : Gauge{g.outer * r.range(0.6f, 1.5f), g.metal * 0.7f};
    Style s = b.style(name, gi, wear);
    if (r.chance(0.12f) && s.stripe == kNoStripe) {
      s.stripe = r.pick(1, 3);
      s.stripeName = r.pick(0, 11);
      s.stripeCount = (float)r.pick(1, 3);
      s.stripeWidth = r.range(0.15f, 0.5f);
      s.stripePitch = gi.outer * r.log(1.5f, 10);
      if (s.stripe == kAlong) s.stripePitch = 0;
    }
    Conductor c = b.conductor(s);
    Vec3 z = v3(0, 0, gi.outer * 0.5f + (bundle ? r.u() * D * sqrtf((float)n) * 0.6f : r.u() * D * 1.5f * (n > 1)));
    if (n == 1 && r.chance(0.3f)) {
      // a loop or coil
      float R = across * r.range(0.12f, 0.4f), turns = r.range(0.8f, 4);
      Vec3 ctr = v3(r.range(-0.15f, 0.15f), r.range(-0.15f, 0.15f), 0) * across;
      int steps = (int)(turns * 14);
      float ph = r.range(0, 6.28f);
      for (int k = 0; k <= steps; k++) {
        float a = ph + k * 2 * kPi / 14, rr = R * (1 + 0.06f * sinf(a * 0.7f + ph));
        c.via(ctr + v3(cosf(a) * rr, sinf(a) * rr, gi.outer * (0.5f + 0.55f * (k / 14))) + r.gauss3(D * 0.25f));
      }
      c.bend(2).loose_ends();
      continue;
    }
    if (bundle) {
      float o = r.range(-1, 1) * spread * 0.5f, fan0 = r.chance(0.3f) ? r.range(0, 3) : 0, fan1 = r.chance(0.3f) ? r.range(0, 3) : 0;
      float e0 = r.chance(0.3f) ? r.range(-0.5f, 0) : -1.2f, e1 = r.chance(0.3f) ? r.range(0, 0.5f) : 1.2f;
      for (int k = 0; k <= 5; k++) {
        float t = mixf(e0, e1, k / 5.0f);
        float f = o * (1 + fan0 * fmaxf(0, -t) + fan1 * fmaxf(0, t));
        Vec3 p = dir * (t * across * 0.75f) + side * (bow * t * t + bow2 * t * t * t + f) + z + r.gauss3(D * 0.3f);
        p.z = fmaxf(p.z, gi.outer * 0.5f);
        c.via(p);
      }
      if (e0 > -1) c.strip_start(r.chance(0.5f) ? r.range(4, 14) : 0);
      if (e1 < 1) c.strip_end(r.chance(0.5f) ? r.range(4, 14) : 0);
    } else {
      float a = r.range(0, 2 * kPi);
      Vec3 p = v3(r.range(-0.45f, 0.45f), r.range(-0.45f, 0.45f), 0) * across - v3(cosf(a), sinf(a), 0) * (across * (r.chance(0.6f) ? 0.9f : 0.3f)) + z;
      int steps = r.pick(3, 7);
      float curl = r.gauss() * 0.5f;
      for (int k = 0; k < steps; k++) {
        c.via(p);
        a += curl + r.gauss() * 0.35f;
        p += v3(cosf(a), sinf(a), 0) * (across * r.range(0.18f, 0.42f));
      }
      c.bend(r.range(4, 14));
      if (r.chance(0.4f)) c.strip_end(r.range(4, 16));
      if (r.chance(0.4f)) c.strip_start(r.range(4, 16));
    }
    if (r.chance(0.08f)) c.sleeve(r.range(0.1f, 0.8f) * across, gi.outer * r.log(2, 14), r.pick(0, 11), r.range(1.04f, 1.25f));
    if (r.chance(0.06f)) c.marker(r.range(0.1f, 0.8f) * across);
  }
  if (bundle && n > 3 && r.chance(0.5f)) {
    int t = b.plastic(r.pick(0, 2));
    for (int k = r.pick(1, 3); k > 0; k--) {
      float x = r.range(-0.5f, 0.5f);
      b.tie(dir * (x * across * 0.75f) + side * (bow * x * x + bow2 * x * x * x) + v3(0, 0, D), dir + side * (2 * bow * x / across), spread + 2 * D, t);
    }
  }
  for (int k = r.pick(0, 4); k > 0; k--) clutter(b, v3(r.range(-0.6f, 0.6f) * across, r.range(-0.6f, 0.6f) * across, 0), across * r.log(0.05f, 0.3f));
  b.random_look(v3(r.gauss() * 0.05f, r.gauss() * 0.05f, 0) * across, across, 45, 0.3f);
  b.random_lights(b.target, across);
  b.globals.aoRange = fmaxf(8 * D, across * 0.15f);
}

}  // namespace hp
