// Ribbons and harnesses: many thin parallel conductors that touch, on a surface, with tape sheets, ties and wrap over
// them, fanning out toward plugs.
//
// 4 to 30 conductors, 0.8 to 3 mm; flat ribbon in one plane (45 %, joined ribbon cable with its repeating colors in a
// third of these), loose flat mat (20 %) or round bundle (35 %); colors any, or the order of ribbon cables. Foil or
// cloth tape sheets across 45 %, strips of wood or plastic 15 %, cable ties 30 %, spiral wrap or tape spirals 20 %, heat
// shrink. One or both ends in view for 45 %: fan of 2 to 4 groups into plugs, a board or stripped ends. Surface: wood,
// cardboard, steel, cloth, paint, photo. Pitch of 5 to 45 px for most, down to 3.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/devices.hpp"
#include "../parts/joints.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void ribbons(Builder& b) {
  Rng& r = b.rng;
  int n = (int)r.log(4, 30);
  float D = r.log(0.8f, 3);
  const float kinds[] = {0.45f, 0.2f, 0.35f};
  int kind = r.weighted(kinds);
  bool cable = kind == 0 && r.chance(0.33f);
  float pitch = D * (cable ? 0.97f : kind == 0 ? r.range(1.0f, 1.06f) : kind == 1 ? r.range(1.05f, 1.9f) : 1.02f);
  float width = kind < 2 ? n * pitch : D * sqrtf((float)n) * 1.2f;
  float across = D * 384 / r.log(4, 36);
  across = clampf(across, width * 0.7f, fmaxf(width * 9, 60));
  int top = any_surface(b, across);
  b.span(v3(-across * 6, -across * 6, -10), v3(across * 6, across * 6, 0), top, 0);
  b.floor_plane(v3(0, 0, 1), 0);
  float a = r.range(0, 6.28f);
  Vec3 d = v3(cosf(a), sinf(a), 0), s = v3(-d.y, d.x, 0);
  float bow = r.chance(0.5f) ? r.gauss() * 0.1f : r.gauss() * 0.4f, bow2 = r.gauss() * 0.2f;
  auto center = [&](float t) { return d * (t * across) + s * ((bow * t * t + bow2 * t * t * t) * across); };
  auto normal = [&](float t) { return unit(s - d * (2 * bow * t + 3 * bow2 * t * t)); };
  bool end1 = r.chance(0.45f), end0 = end1 && r.chance(0.25f);
  float t1 = end1 ? r.range(0.0f, 0.35f) : 1.4f, t0 = end0 ? -r.range(0.1f, 0.4f) : -1.4f;
  static const int order[] = {kBrown, kRed, kOrange, kYellow, kGreen, kBlue, kViolet, kGray, kWhite, kBlack};
  int habit = cable ? (r.chance(0.6f) ? 0 : 1) : r.pick(0, 4), only = b.any_color(), shift = r.pick(0, 9);
  float wear = r.chance(0.7f) ? r.u() * 0.25f : r.u();
  float lift = r.chance(0.2f) ? r.range(0, 0.25f) * across : 0;
  // groups at the far end
  int groups = end1 ? r.pick(1, std::min(4, std::max(1, n / 3))) : 1;
  float fanLen = across * r.range(0.15f, 0.5f);
  struct Group { Vec3 p, dir; Quat q; std::vector<Vec3> pins; int first, count; bool plug; };
  std::vector<Group> fan;
  for (int e = 0; e < (end0 ? 2 : end1 ? 1 : 0); e++) {
    float t = e ? t0 : t1;
    Vec3 c = center(t), dir = unit(cross(normal(t), v3(0, 0, 1))) * (e ? -1.0f : 1.0f);
    int at = 0;
    for (int g = 0; g < groups; g++) {
      Group k;
      k.first = at;
      k.count = g + 1 == groups ? n - at : std::max(1, n / groups);
      at += k.count;
      float turn_ = (g - 0.5f * (groups - 1)) * (groups > 1 ? 0.7f : 0) + r.gauss() * 0.25f;
      k.dir = unit(dir * cosf(turn_) + normal(t) * (sinf(turn_) * (e ? -1.0f : 1.0f)));
      float pp = D * r.range(1.1f, 2.2f);
      k.p = c + k.dir * (fanLen * r.range(0.7f, 1.1f)) + v3(0, 0, pp * 0.8f);
      k.plug = r.chance(0.7f);
      k.q = Builder::axes(cross(k.dir, v3(0, 0, 1)), k.dir);
      if (k.plug) {
        b.push(k.p, k.q);
        k.pins = pin_plug(b, k.count, pp);
        b.pop();
      } else {
        for (int i = 0; i < k.count; i++) k.pins.push_back(v3((i - 0.5f * (k.count - 1)) * pp * r.range(1, 2), r.gauss() * D * 3, -pp * 0.3f));
      }
      fan.push_back(k);
    }
  }
  std::vector<Vec3> slot = packed(r, n, pitch);
  float low = 0;
  for (const Vec3& p : slot) low = std::min(low, p.y);
  float slack = kind == 1 ? r.range(0.3f, 1.5f) : kind == 2 ? 0.4f : 0.05f;
  for (int i = 0; i < n; i++) {
    int name = habit == 0 ? order[(i + shift) % 10] : habit == 1 ? (i == 0 ? (int)kRed : (int)kGray) : habit == 2 ? only : b.any_color();
    if (name == kGreenYellow && D < 1.5f) name = kGreen;
    Style st = b.style(name, {D, D * 0.6f}, wear);
    if (!cable && r.chance(0.06f) && st.stripe == kNoStripe) {
      st.stripe = r.chance(0.5f) ? kAlong : kSpiral;
      st.stripeName = r.pick(0, 11);
      st.stripeWidth = r.range(0.2f, 0.4f);
      st.stripePitch = st.stripe == kSpiral ? D * r.range(3, 8) : 0;
    }
    if (D < 1.6f) st.print = 0;
    Conductor c = b.conductor(st);
    auto place = [&](float t) {
      Vec3 nn = normal(t);
      Vec3 p = center(t);
      if (kind < 2) p += nn * ((i - 0.5f * (n - 1)) * pitch) + v3(0, 0, D * 0.5f);
      else p += nn * slot[i].x + v3(0, 0, slot[i].y - low + D * 0.5f);
      p.z += lift * fmaxf(0, 1 - t * t * 2);
      return p + nn * (r.gauss() * slack * D * 0.5f) + v3(0, 0, fabsf(r.gauss()) * slack * D * 0.4f);
    };
    const Group* g0 = nullptr;
    const Group* g1 = nullptr;
    for (size_t k = 0; k < fan.size(); k++)
      if (i >= fan[k].first && i < fan[k].first + fan[k].count) ((int)k < groups ? g1 : g0) = &fan[k];
    const int steps = 8;
    if (g0) {
      c.from(g0->p + rotate(g0->q, g0->pins[i - g0->first]), -g0->dir);
      c.via(place(t0));
    }
    for (int k = 0; k <= steps; k++) {
      float t = mixf(t0, t1, (float)k / steps);
      if (g0 && k == 0) continue;
      Vec3 p = place(t);
      c.via(p);
    }
    if (g1) {
      c.to(g1->p + rotate(g1->q, g1->pins[i - g1->first]), g1->dir);
      if (!g1->plug) c.strip_end(r.chance(0.6f) ? r.range(2, 8) : 0);
    }
    c.bend(r.range(2.5f, 5)).wobble(kind == 0 ? 0.02f : 0.15f * slack).frozen(cable ? 0.95f : kind == 0 ? 0.5f : 0.1f);
    if (!cable && r.chance(0.04f)) c.sleeve(across * r.range(0.6f, 1.6f), D * r.log(3, 12), r.chance(0.6f) ? (int)kBlack : r.pick(0, 11), 1.25f);
  }
  float height = kind < 2 ? D : -low + D * sqrtf((float)n) * 0.6f;
  // sheets of tape and strips over the run
  if (r.chance(0.45f)) {
    int kindT = r.pick(0, 3);
    int m = kindT < 2 ? b.metal(b.pigment(pgTin, r.range(0.7f, 1.05f)), r.range(0.15f, 0.45f), kBrushed, 14, r.range(0.1f, 0.6f))
          : kindT == 2 ? b.textured(kCloth, b.named(b.any_color()), b.pigment(pgDust), 1, 0.4f) : b.paint(b.blend(pgPaper, pgRope, r.u(), 0.9f), 0.05f, 0.3f);
    for (int k = r.pick(1, 3); k > 0; k--) {
      float t = r.range(-0.5f, 0.5f);
      Vec3 c = center(t);
      b.push(v3(c.x, c.y, 0), turn(v3(0, 0, 1), a + r.gauss() * 0.35f));
      float w = fminf(across * r.range(0.07f, 0.3f), 90), h = width * r.range(1.15f, 2);
      tape_sheet(b, w, h, height + 0.4f + lift * fmaxf(0, 1 - t * t * 2), m);
      b.pop();
    }
  }
  if (r.chance(0.15f)) {
    int m = r.chance(0.5f) ? b.textured(kWood, b.pigment(pgWoodLight), b.pigment(pgWoodDark), 6, 0.5f) : b.plastic();
    float t = r.range(-0.4f, 0.4f);
    Vec3 c = center(t);
    b.box(c + v3(0, 0, height + 1), v3(r.range(2, 6), width * r.range(0.6f, 1.2f), 0.8f), m, 0.3f, turn(v3(0, 0, 1), a + r.gauss() * 0.3f));
  }
  if (kind > 0 && r.chance(0.45f)) {
    int m = b.plastic(r.pick(0, 2));
    for (int k = r.pick(1, 4); k > 0; k--) {
      float t = r.range(-0.5f, fminf(0.5f, t1));
      b.tie(center(t) + v3(0, 0, height * 0.5f + lift * fmaxf(0, 1 - t * t * 2)), unit(cross(normal(t), v3(0, 0, 1))), width * 0.9f + 3, m);
    }
  }
  if (kind == 2 && r.chance(0.3f)) {
    // spiral wrap or tape spiral: flat strap wound round the bundle
    int m = r.chance(0.6f) ? b.paint(b.pigment(pgDeviceBlack, r.range(0.6f, 2)), 0.05f, r.range(0.2f, 0.5f)) : b.paint(b.gray(r.range(0.4f, 0.8f)), 0.05f, 0.4f);
    float ta = r.range(-0.7f, 0), tb = ta + r.range(0.2f, 0.8f), lead = width * r.range(0.5f, 1.6f), cover = r.range(0.3f, 0.95f);
    float turns = (tb - ta) * across / lead;
    int N = std::min(400, (int)(turns * 12));
    float R = fmaxf(height, width) * 0.56f;
    for (int k = 0; k < N; k++) {
      float f = (k + 0.5f) / N, t = mixf(ta, fminf(tb, t1), f), ph = f * turns * 2 * kPi;
      Vec3 nn = normal(t), ax = unit(cross(nn, v3(0, 0, 1)));
      Vec3 o = nn * cosf(ph) + v3(0, 0, sinf(ph));
      Vec3 c = center(t) + v3(0, 0, fmaxf(height * 0.5f, R) + lift * fmaxf(0, 1 - t * t * 2)) + o * R;
      Vec3 tan = unit((nn * (-sinf(ph)) + v3(0, 0, cosf(ph))) * (2 * kPi * R) + ax * lead);
      b.box(c, v3(2 * kPi * R / 12 * 0.6f, lead * 0.5f * cover, 0.35f), m, 0.1f, Builder::axes(tan, cross(o, tan)));
    }
  }
  if (r.chance(0.2f)) {
    b.push(v3(r.gauss(), r.gauss(), 0) * (across * 0.35f) + v3(0, 0, 2), turn(v3(0, 0, 1), r.range(0, 6.28f)));
    float w = fminf(across * 0.3f, 70);
    circuit_board(b, w, w * r.range(0.5f, 1));
    b.pop();
  }
  for (int k = r.pick(0, 4); k > 0; k--) {
    Vec3 p = v3(r.range(-0.6f, 0.6f), r.range(-0.6f, 0.6f), 0) * across;
    if (fabsf(dot(p, s)) > width * 0.8f) clutter(b, p, across * r.log(0.04f, 0.25f));
  }
  b.random_look(v3(r.gauss(), r.gauss(), 0) * (across * 0.08f) + v3(0, 0, lift * 0.7f), across, 55, 0.3f);
  b.random_lights(b.target, across);
  hard_sun(b, 0.12f);
  b.globals.aoRange = fmaxf(6 * D, across * 0.12f);
  b.settle_rounds = cable || kind == 0 ? 2 : 4;
}

}  // namespace hp
