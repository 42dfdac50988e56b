// Conductors against a ground of their own tone: black on black, white on white, gray on gray, color on like color.
//
// Tone: black 35 %, white 30 %, gray 15 %, one color 20 %. Ground: a wall or plate, a housing with rounded edges and a
// cover, a tray, or the end of a deep box; 1 to 10 conductors of that tone (80 % of them), 2 to 80 px wide, loose,
// parallel or leaving a gland or a hole; some jackets. Light from dim to hard, so gloss and shadow are what shows them.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/devices.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void tonal(Builder& b) {
  Rng& r = b.rng;
  const float tones[] = {0.35f, 0.3f, 0.15f, 0.2f};
  int tone = r.weighted(tones);
  int name = tone == 0 ? (int)kBlack : tone == 1 ? (int)kWhite : tone == 2 ? (int)kGray : r.pick(1, 7);
  auto ground = [&]() {
    int c = tone == 0 ? b.gray(r.log(0.008f, 0.09f)) : tone == 1 ? b.pigment(r.chance(0.5f) ? (int)pgPaper : (int)pgLightGrayEnclosure, r.range(0.75f, 1.05f)) : tone == 2 ? b.pigment(r.chance(0.5f) ? (int)pgDeviceGray : (int)pgConcrete, r.range(0.5f, 1.2f)) : b.named(name);
    if (r.chance(0.25f) && tone < 3) return b.metal(tone == 0 ? b.pigment(pgSteel, 0.25f) : b.pigment(pgZinc, tone == 1 ? 1.1f : 0.7f), r.range(0.25f, 0.6f), kBrushed, 10, r.range(0.1f, 0.4f));
    int m = b.textured(r.chance(0.75f) ? kPainted : r.chance(0.5f) ? kCloth : kConcrete, c, b.pigment(pgDust), r.log(1, 150), r.range(0, 0.25f));
    b.mat(m).rough = r.range(0.15f, 0.7f);
    b.mat(m).specular = r.range(0.03f, 0.06f);
    return m;
  };
  float D = r.log(1, 14), across = D * 384 / r.log(3, 70);
  int base = ground();
  b.span(v3(-across * 6, -across * 6, -10), v3(across * 6, across * 6, 0), base, 0);
  b.floor_plane(v3(0, 0, 1), 0);
  int n = r.chance(0.4f) ? r.pick(1, 2) : r.pick(2, 10);
  int scene = r.pick(0, 3);
  Vec3 hole = v3(r.range(-0.25f, 0.25f), r.range(-0.25f, 0.25f), 0) * across;
  float boxH = 0;
  if (scene == 1) {  // housing that conductors enter from the side
    boxH = across * r.range(0.08f, 0.3f);
    int m = ground();
    float w = across * r.range(0.3f, 0.9f), l = across * r.range(0.3f, 0.8f);
    b.push(hole, turn(v3(0, 0, 1), r.chance(0.6f) ? 0 : r.range(0, 6.28f)));
    b.span(v3(-w, 0, 0), v3(w, l * 2, boxH), m, across * 0.01f);
    b.capsule(v3(-w, 0, boxH), v3(w, 0, boxH), across * 0.006f, m);
    b.span(v3(-w * 0.95f, across * 0.02f, boxH), v3(w * 0.95f, l * 2, boxH + across * 0.01f), ground(), across * 0.004f);
    if (r.chance(0.5f)) { b.push(v3(r.gauss() * w * 0.3f, l * r.range(0.3f, 0.8f), boxH + across * 0.01f)); label(b, w * r.range(0.4f, 1), l * r.range(0.2f, 0.6f)); b.pop(); }
    for (int i = r.pick(0, 3); i > 0; i--) screw(b, v3(r.range(-0.8f, 0.8f) * w, across * r.range(0.04f, 0.15f), boxH + across * 0.01f), v3(0, 0, 1), across * r.range(0.01f, 0.02f));
    b.pop();
  } else if (scene == 2) {  // tray or box round the scene
    b.push(v3(0, 0, 0.1f), turn(v3(0, 0, 1), r.gauss() * 0.2f));
    int m = ground();
    float w = across * r.range(0.35f, 0.7f), H = across * r.range(0.1f, 0.5f), t = across * r.range(0.006f, 0.02f);
    for (int s = -1; s <= 1; s += 2) {
      b.span(v3(s * w - t, -w, 0), v3(s * w + t, w, H), m, t * 0.5f);
      b.span(v3(-w, s * w * 0.8f - t, 0), v3(w, s * w * 0.8f + t, H), m, t * 0.5f);
    }
    b.pop();
  } else if (scene == 3) {
    b.cylinder(hole, hole + v3(0, 0, 0.15f), D * r.range(1, 1 + sqrtf((float)n)), b.paint(b.gray(0.01f)));
  }
  float a0 = r.range(0, 6.28f), curl = r.gauss() * 0.25f;
  bool parallel = r.chance(0.5f);
  float pitch = D * (r.chance(0.5f) ? 1.03f : r.log(1.1f, 5));
  for (int i = 0; i < n; i++) {
    int nm = r.chance(0.8f) ? name : b.any_color();
    float d = D * (r.chance(0.7f) ? 1 : r.range(0.5f, 1.3f));
    Style st = r.chance(D > 5 ? 0.4f : 0.15f) ? b.jacket(nm, d) : b.style(nm, {d, d * 0.6f}, r.chance(0.6f) ? 0.15f : -1);
    if (r.chance(0.5f)) st.print = 0;
    Conductor c = b.conductor(st);
    float a = parallel ? a0 : r.range(0, 6.28f);
    Vec3 t = v3(cosf(a), sinf(a), 0), s = v3(-t.y, t.x, 0);
    float o = parallel ? (i - 0.5f * (n - 1)) * pitch : r.gauss() * across * 0.2f;
    float z = d * 0.5f + (r.chance(0.3f) ? r.range(0, 4) * d : 0);
    if (scene == 3 || scene == 1) {
      Vec3 off = r.gauss3(d * 0.5f);
      Vec3 e = scene == 3 ? hole + v3(off.x, off.y, -D) : hole + v3((i - 0.5f * (n - 1)) * pitch, 2, boxH * r.range(0.3f, 0.7f));
      Vec3 dir = scene == 3 ? v3(0, 0, 1) : v3(0, -1, 0);
      if (scene == 1) t = unit(v3(t.x, -fabsf(t.y) - 0.2f, 0));
      c.from(e, dir).via(e + dir * (d * 3) + t * (d * 2)).via(e + t * (across * 0.25f) + s * (r.gauss() * across * 0.05f) + v3(0, 0, z - e.z)).to(e + t * across + s * (across * (curl + r.gauss() * 0.15f)) + v3(0, 0, z - e.z));
    } else {
      c.from(s * o - t * (across * (r.chance(0.8f) ? 1 : 0.2f)) + s * (curl * across) + v3(0, 0, z)).via(s * (o + (parallel ? 0 : r.gauss() * across * 0.1f)) - t * (across * 0.15f) + v3(0, 0, z));
      c.via(s * (o + (parallel ? 0 : r.gauss() * across * 0.1f)) + t * (across * 0.2f) + v3(0, 0, z)).to(s * o + t * across + s * (curl * across * r.range(0.6f, 1.2f)) + v3(0, 0, z));
    }
    c.bend(r.range(2.5f, 7)).wobble(parallel ? 0.1f : 0.4f);
    if (r.chance(0.1f)) c.strip_end(r.range(3, 12));
  }
  if (n > 2 && parallel && r.chance(0.3f)) b.tie(v3(0, 0, D * 0.5f), v3(cosf(a0), sinf(a0), 0), n * pitch * 0.6f + D, b.plastic(tone == 1 ? 2 : 0));
  for (int k = r.pick(0, 2); k > 0; k--) {
    b.push(v3(r.gauss(), r.gauss(), 0) * (across * 0.4f), turn(v3(0, 0, 1), r.range(0, 6.28f)));
    decoy(b, any_decoy(r), across * r.log(0.1f, 0.4f));
    b.pop();
  }
  b.random_look(v3(hole.x, hole.y, 0) * 0.7f + v3(r.gauss(), r.gauss(), 0) * (across * 0.06f), across, 55, 0.4f);
  b.random_lights(b.target, across);
  hard_sun(b, 0.1f);
  // a camera's meter lifts a dark picture and dims a white one
  if (tone == 0) b.exposure(r.log(1, 3.5f));
  if (tone == 1) b.exposure(r.range(0.6f, 1));
  b.globals.aoRange = fmaxf(5 * D, across * 0.12f);
  b.settle_rounds = 4;
}

}  // namespace hp
