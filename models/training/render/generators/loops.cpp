// Table-top runs: one to four thick smooth conductors with loops and self-crossings on a dark or plain ground.
//
// 1 to 4 conductors of one color each, all colors alike, 5 to 45 px thick at 384 px (log, mostly 8 to 24), dull or
// glossy, no print in 80 %; each wanders with slow curvature (Ornstein-Uhlenbeck over arc length) and 0 to 3 full loops
// of 3 to 12 diameters; ends inside the picture in 40 %. Ground near black (55 %), white, gray, one color, or any.
// Seen from above (tilt to 25 degrees), evenly lit or with falloff. A third of the scenes has no clutter at all.
#include "../builder.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void loops(Builder& b) {
  Rng& r = b.rng;
  float across = r.log(120, 600);
  float D0 = across / 384 * (r.chance(0.75f) ? r.log(7, 24) : r.log(4, 45));
  int ground;
  bool dark = r.chance(0.55f);
  if (dark) ground = r.chance(0.5f) ? b.paint(b.gray(r.log(0.002f, 0.03f)), 0.03f, r.range(0.5f, 0.9f)) : b.textured(kCloth, b.gray(r.log(0.003f, 0.03f)), b.gray(0.02f), r.log(0.6f, 2), 0.3f);
  else if (r.chance(0.6f)) ground = b.textured(kPainted, r.chance(0.6f) ? b.gray(r.log(0.1f, 0.9f)) : b.named(r.pick(0, 11)), b.pigment(pgDust), r.log(20, 200), r.range(0, 0.15f));
  else ground = any_surface(b, across);
  b.span(v3(-across * 4, -across * 4, -10), v3(across * 4, across * 4, 0), ground, 0);
  b.floor_plane(v3(0, 0, 1), 0);
  int n = r.weighted({0.3f, 0.3f, 0.28f, 0.12f}) + 1;
  bool same = r.chance(0.15f);
  int only = r.pick(0, 11);
  for (int i = 0; i < n; i++) {
    float D = D0 * (r.chance(0.5f) ? 1 : r.range(0.5f, 1.2f));
    Style st = b.style(same ? only : r.chance(0.7f) ? r.pick(0, 11) : b.any_color(), {D, D * 0.6f}, 0.1f);
    if (r.chance(0.35f)) st.shade *= r.range(1.1f, 1.6f);
    if (r.chance(0.8f)) st.print = 0;
    Conductor c = b.conductor(st);
    // heading with slowly changing curvature, steps of a few diameters, loops on the way
    bool inside = r.chance(0.4f);
    float a = r.range(0, 6.28f), step = fmaxf(D * 1.6f, across * 0.03f);
    Vec3 p = inside ? v3(r.range(-0.4f, 0.4f), r.range(-0.4f, 0.4f), 0) * across : v3(-cosf(a), -sinf(a), 0) * (across * 0.75f) + v3(-sinf(a), cosf(a), 0) * (r.range(-0.35f, 0.35f) * across);
    float kappa = 0, want = r.gauss() * 0.25f;
    int loopAt[3], nl = r.weighted({0.25f, 0.35f, 0.25f, 0.15f});
    for (int q = 0; q < nl; q++) loopAt[q] = r.pick(6, 45);
    int steps = inside ? r.pick(20, 60) : 70, z = 0;
    float zz = D * 0.5f + i * D * 0.3f;
    for (int k = 0; k < steps; k++) {
      c.via(v3(p.x, p.y, zz + 0.02f * D * z));
      for (int q = 0; q < nl; q++)
        if (k == loopAt[q]) {
          float R = D * r.log(2.6f, 9), sg = r.chance(0.5f) ? 1.0f : -1.0f;
          int m = 14;
          Vec3 ctr = p + v3(-sinf(a), cosf(a), 0) * (sg * R);
          float ph = a - sg * kPi / 2, sweep = 2 * kPi * r.range(0.85f, 1.15f);
          Vec3 drift = v3(cosf(a), sinf(a), 0) * (D * r.range(0, 2));
          for (int j = 1; j <= m; j++) {
            float f = (float)j / m, t = ph + sg * sweep * f;
            p = ctr + drift * f + v3(cosf(t), sinf(t), 0) * R;
            c.via(v3(p.x, p.y, zz + D * 1.05f * smooth(0.3f, 0.8f, f)));
          }
          a += sg * sweep;
          p += v3(cosf(a), sinf(a), 0) * step;
        }
      kappa += 0.35f * (want - kappa) + r.gauss() * 0.06f;
      if (r.chance(0.12f)) want = r.gauss() * 0.3f;
      // turned back where it leaves the middle, for some more turns in view
      float away = (p.x * cosf(a) + p.y * sinf(a)) / across;
      if (away > 0.3f && k < steps * 0.7f) want = (p.x * sinf(a) - p.y * cosf(a) > 0 ? 1.0f : -1.0f) * 0.35f;
      a += clampf(kappa, -0.6f, 0.6f);
      p += v3(cosf(a), sinf(a), 0) * step;
      if (!inside && k > 20 && (fabsf(p.x) > across || fabsf(p.y) > across)) break;
      z++;
    }
    c.bend(2.2f).wobble(0).loose_ends();
  }
  if (r.chance(0.3f))
    for (int k = r.pick(1, 3); k > 0; k--) clutter(b, v3(r.range(-0.6f, 0.6f), r.range(-0.6f, 0.6f), 0) * across, across * r.log(0.04f, 0.2f));
  Vec3 at = r.chance(0.6f) ? b.some_conductor(across * 0.15f) * 0.7f : v3(r.gauss(), r.gauss(), 0) * (across * 0.05f);
  at.z = 0;
  b.random_look(at, across, 25, 0.4f);
  b.random_lights(b.target, across);
  // on a black ground the meter follows the conductors
  if (dark) b.exposure(r.log(0.8f, 2.2f));
  b.globals.aoRange = 5 * D0;
  b.settle_rounds = 4;
}

}  // namespace hp
