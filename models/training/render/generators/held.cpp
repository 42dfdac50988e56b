// A single conductor, a pair or a small lead held between thumb and finger, or lying across a hand.
//
// 1 to 3 conductors of 1 to 8 mm (log); pinched 65 %, across an open hand 20 %, a finger pointing at them 15 %; skin of
// any tone, gloves 20 %; ends stripped, crimped or in a plug; a surface or blurred room 60 to 600 mm behind; lens blur
// in two thirds. View 60 to 260 mm.
#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/hands.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void held(Builder& b) {
  Rng& r = b.rng;
  float D = r.log(1, 8);
  int n = r.chance(0.55f) ? 1 : r.pick(2, 3);
  float across = r.log(60, 260);
  const float ways[] = {0.65f, 0.2f, 0.15f};
  int way = r.weighted(ways);
  float back = way == 2 ? 0 : r.log(60, 600);
  b.span(v3(-3000, -3000, -back - 5), v3(3000, 3000, -back), any_surface(b, across * (1 + back / 200)), 0);
  for (int i = r.pick(0, 4); i > 0; i--) clutter(b, v3(r.gauss() * across * 0.8f, r.gauss() * across * 0.8f, -back), r.range(10, 60) * (1 + back / 300));
  for (int i = r.pick(0, 2); i > 0; i--) {
    b.push(v3(r.gauss() * across * 0.7f, r.gauss() * across * 0.7f, -back), turn(v3(0, 0, 1), r.range(0, 6.28f)));
    decoy(b, any_decoy(r), across * r.range(0.2f, 0.8f) * (1 + back / 300));
    b.pop();
  }
  int sk = skin(b);
  float tilt = r.gauss() * 0.35f;
  Vec3 d = v3(cosf(tilt), sinf(tilt), 0);
  bool ends = r.chance(0.6f);
  bool plug = ends && n > 1 && r.chance(0.4f);
  float len = r.range(15, 70);
  Quat q = Builder::axes(v3(d.y, -d.x, 0), d);
  Vec3 tip = d * len + v3(0, 0, r.gauss() * 6);
  std::vector<Vec3> pins;
  if (plug) {
    b.push(tip, q);
    pins = pin_plug(b, n, D * r.range(1.1f, 1.6f));
    b.pop();
  }
  int crimp = r.pick(0, 5);
  for (int i = 0; i < n; i++) {
    Style st = b.style(b.any_color(), {D, D * r.range(0.5f, 0.7f)}, r.chance(0.6f) ? 0.2f : -1);
    float o = (i - 0.5f * (n - 1)) * D;
    Vec3 s = v3(-d.y, d.x, 0) * o;
    float fan = r.gauss() * 0.5f;
    Conductor c = b.conductor(st);
    c.from(d * (-across * r.range(0.8f, 1.4f)) + v3(0, -across * r.range(-0.4f, 0.9f), -fminf(back * 0.5f, 60)) + s * (1 + 6 * fabsf(fan)));
    c.via(d * (-across * 0.25f) + s * 1.6f + r.gauss3(across * 0.03f)).via(s - d * 4);
    if (plug) {
      c.via(s + d * 6).to(tip + rotate(q, pins[i]) + d * 1, d);
    } else if (ends) {
      Vec3 e = d * (len + r.gauss() * 10) + v3(-d.y, d.x, 0) * (fan * len * 0.6f) + v3(0, 0, r.gauss() * 8);
      if (n == 1) e = tip;
      Vec3 dir = unit(e - d * 4 - s + d * 10);
      c.via(s + d * 5).to(e, dir);
      if (crimp < 4) {
        b.push(e, Builder::axes(cross(dir, v3(0, 0.1f, 1)), dir));
        crimp_terminal(b, crimp, D, r.chance(0.7f) ? b.tin() : b.brass());
        b.pop();
        if (r.chance(0.7f)) c.sleeve(-D * r.range(2, 5), D * r.range(2, 5), r.one_of({(int)kRed, (int)kBlue, (int)kYellow, (int)kBlack, (int)kWhite}), 1.25f);
      } else {
        c.strip_end(r.range(4, 15));
      }
    } else {
      c.via(s + d * 5).via(d * (across * 0.3f) + s * 2 + r.gauss3(across * 0.04f)).to(d * (across * r.range(0.8f, 1.2f)) + v3(0, r.gauss() * across * 0.3f, 0) + s * (1 + 4 * fabsf(fan)));
    }
    c.bend(r.range(3, 9)).wobble(0.1f);
    if (r.chance(0.1f)) c.sleeve(across * r.range(0.5f, 1.2f), D * r.log(1.5f, 6), b.any_color(), 1.1f);
  }
  if (way == 0) {
    b.push(v3(0, 0, 0), turn(v3(0, 0, 1), tilt + r.gauss() * 0.3f) * turn(v3(0, 1, 0), r.chance(0.3f) ? kPi : 0));
    hand_pinch(b, D * 0.5f + (n > 1 ? D * 0.3f : 0), sk);
    b.pop();
  } else if (way == 1) {
    b.push(v3(-35, 0, -2), turn(v3(0, 0, 1), tilt + kPi / 2 + r.gauss() * 0.3f));
    b.push(v3(-20, 0, -D * 0.5f));
    hand_open(b, sk);
    b.pop();
    b.pop();
  } else {
    b.push(v3(r.gauss() * 10, -D * 0.5f - r.range(0, 12), 0), turn(v3(0, 0, 1), r.gauss() * 0.5f));
    finger(b, sk);
    b.pop();
    b.floor_plane(v3(0, 0, 1), 0);
  }
  b.random_look(v3(r.gauss() * 12, r.gauss() * 12, 0), across, 35, 0.6f);
  if (r.chance(0.5f)) b.focus(r.log(0.8f, 2.5f));
  b.random_lights(b.target, across);
  hard_sun(b, 0.12f);
  b.globals.aoRange = 50;
  b.settle_rounds = 3;
}

}  // namespace hp
