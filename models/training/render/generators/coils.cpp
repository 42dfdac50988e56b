// Coils and spools: hanks of many touching turns of one color, tied or loose, and wire on reels.
//
// 1 to 4 hanks (one 45 %) of 7 to 36 turns (log), diameter 0.9 to 9 mm, coil radius 7 to 20 diameters (so a turn is 3
// to 60 px wide), each of one color with a stripe in 15 %; cross-section round, tall or (half) flat and wide; black, blue, white and gray in 45 %; oval by up to 35 %; ties
// of string, tape, bare steel or plastic in 70 %, 0 to 4 each; free ends leave the hank. 20 % of hanks loosely wound.
// 45 % of the hanks are wound tight like a drum (20 to 64 turns), tied with their own conductor across the middle.
// 25 % of scenes show a reel instead (flanges of plastic, wood or cardboard) with rows of turns in one or two layers.
// Surface: any, near white in 30 % more. View 0.4 to 4 coil diameters, so some pictures show nothing but turns. Tilt to 60 degrees.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/decoys.hpp"
#include "../parts/hands.hpp"
#include "../parts/runs.hpp"
#include "../parts/sun.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

namespace {

Style coil_style(Builder& b, float D) {
  Rng& r = b.rng;
  Gauge g{D, D * r.range(0.45f, 0.7f)};
  int name = r.chance(0.45f) ? r.one_of({(int)kBlack, (int)kBlack, (int)kBlue, (int)kWhite, (int)kWhite, (int)kGray}) : b.any_color();
  Style s = b.style(name, g, r.chance(0.8f) ? r.u() * 0.2f : r.u());
  if (r.chance(0.08f)) s.covering = kJacket;
  if (r.chance(0.1f) && s.stripe == kNoStripe) {
    s.stripe = r.chance(0.6f) ? kAlong : kSpiral;
    s.stripeName = r.pick(0, 11);
    s.stripeCount = 1;
    s.stripeWidth = r.range(0.1f, 0.4f);
    s.stripePitch = s.stripe == kSpiral ? D * r.log(2, 10) : 0;
  }
  s.print = r.chance(0.25f) ? r.range(0.2f, 0.8f) : 0;
  return s;
}

/** n points of a hexagonal packing, chosen from an ellipse of width to height `aspect`. */
std::vector<Vec3> cross_section(Rng& r, int n, float pitch, float aspect) {
  std::vector<Vec3> all = packed(r, n * 12, pitch);
  auto far = [&](Vec3 p) { return p.x * p.x / aspect + p.y * p.y * aspect; };
  std::sort(all.begin(), all.end(), [&](Vec3 p, Vec3 q) { return far(p) < far(q); });
  all.resize(n);
  return all;
}

/** A hank lying in the local xy plane round the origin. */
void hank(Builder& b, float D, float R, int turns, bool loose) {
  Rng& r = b.rng;
  Style st = coil_style(b, D);
  float oval = r.chance(0.5f) ? 1 : r.range(0.65f, 1), aspect = r.chance(0.5f) ? r.log(0.6f, 2) : r.log(2, 6);
  // cross-section: turns packed, flattened or raised, changing places on the way round
  aspect = fminf(aspect, R * R * 0.45f / (turns * D * D));
  std::vector<Vec3> slot = cross_section(r, turns, D * (loose ? r.range(1.3f, 2.4f) : r.range(0.98f, 1.06f)), fmaxf(aspect, 0.4f));
  float low = 1e9f;
  for (const Vec3& s : slot) low = std::min(low, s.y);
  float wander = D * (loose ? r.range(0.8f, 3) : r.range(0.05f, 0.6f));
  int first = 0;
  float ph[6];
  for (float& p : ph) p = r.range(0, 6.28f);
  const int steps = 22;
  float gap = r.range(0, 6.28f);
  for (int t = 0; t < turns; t++) {
    Conductor c = b.conductor(st);
    if (!first) first = c.id();
    else c.strand().instance = first;
    Vec3 s0 = slot[t], s1 = slot[(t + 1) % turns];
    float wa = r.gauss() * wander, wb = r.gauss() * wander, pa = r.range(0, 6.28f);
    std::vector<Vec3> pts;
    for (int i = 0; i <= steps; i++) {
      float f = (float)i / steps, a = gap + f * 2 * kPi;
      float win = sinf(kPi * f);
      Vec3 s = lerp(s0, s1, smooth(0.75f, 1, f));
      float rr = R + s.x + win * (wa * sinf(a * 2 + pa) + 0.4f * wb * sinf(a * 3 + ph[0])) + 0.02f * R * sinf(2 * a + ph[1]);
      float z = s.y - low + D * 0.5f + win * fabsf(wb) * 0.4f * (1 + sinf(a * 2 + ph[2])) + 0.15f * D;
      pts.push_back(v3(cosf(a) * rr, sinf(a) * rr * oval, z));
    }
    Vec3 d0 = v3(-sinf(gap), cosf(gap) * oval, 0);
    bool in = t == 0 && r.chance(0.7f), out = t + 1 == turns && r.chance(0.7f);
    float away = R * r.range(0.3f, 1.8f), side = r.range(-0.6f, 0.9f);
    Vec3 rad = v3(cosf(gap), sinf(gap), 0);
    if (in) {
      c.from(pts[0] - d0 * away + rad * (away * side) + v3(0, 0, -pts[0].z + D * 0.5f)).via(pts[0] - d0 * (away * 0.4f) + rad * (away * side * 0.3f));
      if (r.chance(0.5f)) c.strip_start(r.range(3, 12));
      c.via(pts[0]);
    } else {
      c.from(pts[0], d0);
    }
    for (int i = 1; i < steps; i++) c.via(pts[i]);
    if (out) {
      c.via(pts[steps]).via(pts[steps] + d0 * (away * 0.4f) + rad * (away * side * 0.3f));
      c.to(pts[steps] + d0 * away + rad * (away * side) + v3(0, 0, -pts[steps].z + D * 0.5f));
      if (r.chance(0.5f)) c.strip_end(r.range(3, 12));
    } else {
      c.to(pts[steps], d0);
    }
    c.bend(1.6f).wobble(loose ? 0.3f : 0.08f);
  }
  // ties
  if (!r.chance(0.7f)) return;
  float rx = 0, ry = 0;
  for (const Vec3& s : slot) { rx = std::max(rx, fabsf(s.x)); ry = std::max(ry, s.y - low); }
  rx += D * 0.75f;
  float h = ry + D * 1.3f;
  int kind = r.weighted({0.35f, 0.3f, 0.15f, 0.2f});
  int m = kind == 0 ? b.textured(kRope, b.pigment(r.chance(0.6f) ? (int)pgPaper : (int)pgRope, r.range(0.7f, 1)), b.pigment(pgDirt), 2, 6)
        : kind == 1 ? b.paint(b.named(r.chance(0.6f) ? (int)kBlack : b.any_color()), 0.05f, 0.35f)
        : kind == 2 ? b.steel() : b.plastic(r.chance(0.5f) ? 2 : 0);
  for (int k = r.pick(1, 4); k > 0; k--) {
    float a = r.range(0, 6.28f);
    Vec3 c = v3(cosf(a) * R, sinf(a) * R * oval, h * 0.5f), rad = v3(cosf(a), sinf(a) * oval, 0);
    rad = unit(rad);
    Vec3 along = v3(-rad.y, rad.x, 0);
    if (kind == 0 || kind == 2) {
      std::vector<Vec3> p;
      float w = kind == 2 ? 0.5f : fmaxf(0.6f, D * r.range(0.2f, 0.5f));
      int wraps = r.pick(1, 4);
      for (int i = 0; i <= 10 * wraps; i++) {
        float q = 2 * kPi * i / 10;
        p.push_back(c + rad * (cosf(q) * (rx + w * 0.3f)) + v3(0, 0, sinf(q) * (h * 0.5f + w * 0.3f)) + along * ((i / 10.0f - wraps * 0.5f) * w * 1.9f));
      }
      if (r.chance(0.7f))
        for (int i = r.pick(1, 2); i > 0; i--) b.rod({p.back(), p.back() + v3(0, 0, 2) + along * r.range(4, 10), p.back() + along * r.range(8, 25) + rad * (r.gauss() * 12) - v3(0, 0, p.back().z - 1)}, w * 0.5f, m);
      b.rod(p, w * 0.5f, m, false);
    } else {
      float w = kind == 1 ? r.range(3, 10) : r.range(1.2f, 2.5f);
      const int N = 14;
      for (int i = 0; i < N; i++) {
        float q = 2 * kPi * (i + 0.5f) / N;
        Vec3 p = c + rad * (cosf(q) * rx) + v3(0, 0, sinf(q) * h * 0.5f);
        Vec3 t = unit(rad * (-sinf(q) * rx) + v3(0, 0, cosf(q) * h * 0.5f));
        b.box(p, v3(fmaxf(rx, h * 0.5f) * kPi / N * 1.15f, w, 0.35f), m, 0.1f, Builder::axes(t, along));
      }
      if (kind == 3) b.box(c + v3(0, 0, h * 0.5f + 1), v3(2.5f, 2.8f, 1.6f), m, 0.3f, Builder::axes(rad, along));
    }
  }
}

/**
 * Hank as sold: 20 to 64 turns wound like a drum, emitted as plain rings of 40 shapes (nothing here needs settling), tied
 * with the same conductor over the ring and across the middle.
 */
void drum(Builder& b, float D, float R) {
  Rng& r = b.rng;
  Style st = coil_style(b, D);
  if (st.name != kGreenYellow) st.stripe = kNoStripe;
  int turns = (int)r.log(20, 64);
  float shape = r.log(0.35f, 4), oval = r.chance(0.6f) ? 1 : r.range(0.8f, 1);
  std::vector<Vec3> slot = cross_section(r, turns, D * r.range(0.97f, 1.05f), fminf(shape, R * R * 0.4f / (turns * D * D)));
  float low = 1e9f, high = -1e9f, in = 1e9f, out = -1e9f;
  for (const Vec3& p : slot) { low = std::min(low, p.y); high = std::max(high, p.y); in = std::min(in, p.x); out = std::max(out, p.x); }
  float top = high - low + D;
  // ties and loose ends are ordinary conductors; the first gives the hank its instance
  int id = 0, row = b.pigment_of(st.name);
  st.pigment = row;
  auto own = [&](Conductor c) {
    if (!id) id = c.id();
    else c.strand().instance = id;
    return c;
  };
  float a = r.range(0, 6.28f), away = R * r.range(0.2f, 1);
  Vec3 rad = v3(cosf(a), sinf(a), 0), tan = v3(-rad.y, rad.x, 0);
  own(b.conductor(st)).from(rad * (R + out) + v3(0, 0, top * 0.5f), tan).via(rad * (R + out) + tan * (away * 0.5f) + v3(0, 0, top * 0.3f)).to(rad * (R + out + r.range(-0.2f, 0.6f) * away) + tan * away + v3(0, 0, D * 0.5f)).bend(5);
  if (r.chance(0.6f)) {
    int spokes = r.pick(1, 3), twin = r.pick(1, 2);
    float a0 = r.range(0, 6.28f);
    for (int k = 0; k < spokes * twin; k++) {
      float q = a0 + (k / twin) * kPi / spokes + r.gauss() * 0.12f;
      Vec3 u = v3(cosf(q), sinf(q) * oval, 0), o = v3(-u.y, u.x, 0) * ((k % twin) * D * 1.05f + r.gauss() * D);
      Vec3 z = v3(0, 0, top + D * 0.6f), m = v3(r.gauss() * R * 0.08f, r.gauss() * R * 0.08f, top * r.range(0.4f, 0.9f));
      own(b.conductor(st)).from(u * (R + out + D * 1.2f) + o + v3(0, 0, D), v3(0, 0, 1)).via(u * (R + out + D * 0.6f) + o + z * 0.9f).via(u * R + o + z).via(u * (R + in - D) + o + z * 0.95f)
          .via(m + o * 0.5f).via(u * (-(R + in - D)) + o + z * 0.95f).via(u * -R + o + z).via(u * (-(R + out + D * 0.6f)) + o + z * 0.9f).to(u * (-(R + out + D * 1.2f)) + o + v3(0, 0, D), v3(0, 0, -1)).bend(1.3f).wobble(0.2f).frozen(0.7f);
    }
  }
  Material m = b.blank(b.pigment(row, st.shade));
  m.covering = st.covering;
  m.instance = id;
  m.colorName = st.name;
  m.specular = st.specular;
  m.rough = st.rough;
  m.dirt = st.dirt;
  m.dirtColor = b.pigment(pgDirt);
  m.dust = st.dust;
  m.dustColor = b.pigment(pgDust, 0.9f);
  m.len = 2 * kPi * R;
  if (st.stripe != kNoStripe) {
    m.stripe = st.stripe;
    m.stripeName = st.stripeName;
    m.second = b.named(st.stripeName);
    m.stripeCount = st.stripeCount;
    m.stripeWidth = st.stripeWidth;
    m.stripePitch = D * r.log(8, 60);
  }
  int mat = b.add(m);
  const int N = 40;
  for (const Vec3& s : slot) {
    std::vector<Vec3> p;
    float loose = D * (r.chance(0.12f) ? r.range(0.3f, 1.5f) : 0.12f), p1 = r.range(0, 6.28f), p2 = r.range(0, 6.28f);
    for (int i = 0; i <= N; i++) {
      float t = 2 * kPi * i / N, rr = R + s.x + loose * sinf(2 * t + p1);
      p.push_back(v3(cosf(t) * rr, sinf(t) * rr * oval, s.y - low + D * 0.5f + fabsf(loose * 0.6f * sinf(t + p2))));
    }
    b.rod(p, D * 0.5f, mat, false);
  }
}

/** Reel with its axis along local x. */
void reel(Builder& b, float D, float R, float width) {
  Rng& r = b.rng;
  Style st = coil_style(b, D);
  float F = R * r.range(1.12f, 1.45f);
  int kind = r.pick(0, 3);
  int m = kind == 0 ? b.plastic() : kind == 1 ? b.textured(kWood, b.pigment(pgWoodLight), b.pigment(pgWoodDark), 8, 0.6f) : kind == 2 ? b.textured(kCardboard, b.pigment(pgCardboard), b.pigment(pgDirt), 4, 0.5f) : b.plastic(0);
  float half = width * 0.5f + D * 0.4f;
  for (int s = -1; s <= 1; s += 2) {
    b.cylinder(v3(s * half, 0, F), v3(s * (half + r.range(1.5f, 5)), 0, F), F, m);
    if (r.chance(0.6f)) b.cylinder(v3(s * (half + 5), 0, F), v3(s * (half + 5.3f), 0, F), F * r.range(0.3f, 0.6f), b.label_material(b.pigment(pgPaper), b.pigment(pgInk), F * 0.07f));
  }
  b.cylinder(v3(-half, 0, F), v3(half, 0, F), R - D * 0.4f, m);
  int n = std::max(3, (int)(width / (D * 1.03f))), id = 0;
  int layers = r.pick(1, 2);
  for (int l = 0; l < layers; l++)
    for (int t = 0; t < n - l; t++) {
      if (l == 1 && t > n * r.range(0.4f, 1.2f)) break;
      Conductor c = b.conductor(st);
      if (!id) id = c.id();
      else c.strand().instance = id;
      float x = (t + 0.5f * l - 0.5f * (n - 1)) * D * 1.03f, rr = R + l * D * 0.88f, j = r.gauss() * D * 0.06f;
      const int steps = 14;
      // only the half that can be seen: from under the front over the top to the back
      float a0 = -0.9f, a1 = kPi + 0.9f;
      for (int i = 0; i <= steps; i++) {
        float a = mixf(a0, a1, (float)i / steps);
        Vec3 p = v3(x + j * sinf(a) + (i == steps ? 0.5f * D : 0), -cosf(a) * rr, F + sinf(a) * rr);
        if (i == 0) c.from(p);
        else if (i < steps) c.via(p);
        else c.to(p);
      }
      c.bend(1.5f).wobble(0.03f).frozen(0.9f);
    }
  if (r.chance(0.7f)) {
    float x = r.range(-0.4f, 0.4f) * width;
    Conductor c = b.conductor(st);
    c.strand().instance = id;
    c.from(v3(x, -(R + layers * D * 0.9f), F), v3(0, 0, -1)).via(v3(x + 5, -F - 10, D)).via(v3(x + r.gauss() * 40, -F - r.range(20, 80), D * 0.6f));
    c.to(v3(x + r.gauss() * 80, -F - r.range(80, 200), D * 0.5f));
  }
}

}  // namespace

void coils(Builder& b) {
  Rng& r = b.rng;
  float D = r.log(0.9f, 9);
  float R = D * r.log(7, 20);
  bool spool = r.chance(0.25f);
  int n = spool ? r.pick(1, 3) : r.chance(0.45f) ? 1 : r.pick(2, 4);
  int top = r.chance(0.3f) ? b.textured(kPainted, b.gray(r.range(0.5f, 0.9f)), b.pigment(pgDust), r.log(20, 200), r.range(0, 0.15f)) : any_surface(b, R * 4);
  b.span(v3(-R * 14, -R * 14, -10), v3(R * 14, R * 14, 0), top, 0);
  b.floor_plane(v3(0, 0, 1), 0);
  bool same = r.chance(0.5f);
  Vec3 at = v3(0, 0, 0);
  for (int i = 0; i < n; i++) {
    float d = same ? D : D * r.range(0.6f, 1.3f), rr = same ? R : R * r.range(0.7f, 1.2f);
    float a = r.range(0, 6.28f);
    Vec3 p = i ? at + v3(cosf(a), sinf(a), 0) * (R * r.range(1.9f, 2.7f)) : v3(0, 0, 0);
    if (spool) {
      float w = rr * r.range(1, 2.2f);
      b.push(i ? v3(i * R * 3.6f * (i % 2 ? 1 : -1), r.gauss() * R * 0.4f, 0) : p, turn(v3(0, 0, 1), r.gauss() * 0.3f));
      reel(b, d, rr * 0.7f, std::min(w, d * 26));
      b.pop();
      continue;
    }
    bool wound = n < 4 && r.chance(0.45f);
    int turns = (int)r.log(7, n > 2 ? 18 : 36);
    Quat q = turn(v3(0, 0, 1), a);
    if (i && r.chance(0.3f)) {   // leaning on another
      p = at + v3(cosf(a), sinf(a), 0) * (R * 1.2f) + v3(0, 0, R * 0.55f);
      q = turn(v3(-sinf(a), cosf(a), 0), 0.5f) * q;
    }
    b.push(p, q);
    if (wound) drum(b, d * 0.6f, rr);
    else hank(b, d, rr, turns, r.chance(0.2f));
    b.pop();
    if (i == 0 || r.chance(0.5f)) at = v3(p.x, p.y, 0) * 0.5f;
  }
  for (int k = r.pick(0, 3); k > 0; k--) {
    float a = r.range(0, 6.28f);
    clutter(b, v3(cosf(a), sinf(a), 0) * (R * r.range(1.6f, 3)), R * r.range(0.1f, 0.5f));
  }
  if (r.chance(0.3f)) {
    float a = r.range(0, 6.28f);
    b.push(v3(cosf(a), sinf(a), 0) * (R * r.range(1.8f, 3)), turn(v3(0, 0, 1), r.range(0, 6.28f)));
    decoy(b, any_decoy(r), R * r.range(0.4f, 1.6f));
    b.pop();
  }
  if (R > 35 && r.chance(0.1f)) {
    b.push(v3(-R, -R * 0.4f, D * 4), turn(v3(0, 0, 1), r.range(-0.6f, 0.6f)));
    hand_open(b, skin(b));
    b.pop();
  }
  float across = R * (r.chance(0.25f) ? r.log(0.7f, 2) : r.log(2.3f, 8));
  float a = r.range(0, 6.28f);
  Vec3 eye = across < R * 2 ? (spool ? v3(r.gauss() * R * 0.3f, -R * 0.3f, R * 1.2f) : v3(cosf(a) * R, sinf(a) * R, D * 2)) : v3(r.gauss(), r.gauss(), 0) * (R * 0.4f);
  if (spool) b.look(eye + v3(0, 0, across > R * 2 ? R * 0.8f : 0), across, r.range(25, 75), -90 + r.gauss() * 25, r.gauss() * 6, r.range(30, 62));
  else b.random_look(eye, across, 62, 0.4f);
  b.random_lights(b.target, across);
  hard_sun(b, 0.15f);
  b.globals.aoRange = fmaxf(8 * D, R * 0.4f);
  b.settle_rounds = 2;
}

}  // namespace hp
