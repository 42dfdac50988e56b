// Panels and load centers: a can with two columns of plug-in breakers, bus, main breaker or lugs, neutral and
// ground bars, conductors folded along the gutter space, cable jackets and conduits at the walls.
//
// rows 3 to 21 (25.4 mm each); 15 % of spaces empty, 18 % two-pole, 6 % three-pole; conductors on 90 % of the poles;
// branch 14 to 8 AWG, rarely 6; colors by one of five habits: black only, black and red, black-red-blue, brown-orange-
// yellow, any. Neutrals and grounds land on bars with many short stubs. 20 % of the conductors go a detour (slack
// loop). Exits: 2 to 7 in the top, bottom and side walls, each a jacketed cable (40 %) or a conduit or bushing.
// Interior: black, gray, white or galvanized. View 55 mm (terminals) to the whole can; tilt to 40 degrees.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/devices.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

namespace {

struct Exit {
  Vec3 p, in;      // on the wall, direction into the can
  bool cable;
  int jacketName;
  float jacket;    // mm of jacket inside
  int count = 0;
};

int hot_color(Rng& r, int habit, int pole) {
  static const int bkrd[] = {kBlack, kRed}, three[] = {kBlack, kRed, kBlue}, high[] = {kBrown, kOrange, kYellow};
  switch (habit) {
    case 0: return r.chance(0.9f) ? kBlack : kRed;
    case 1: return bkrd[(pole + (r.chance(0.25f) ? 1 : 0)) % 2];
    case 2: return three[pole % 3];
    case 3: return high[pole % 3];
    default: return r.pick(0, 11);
  }
}

}  // namespace

void panel(Builder& b) {
  Rng& r = b.rng;
  int rows = r.pick(3, 21);
  float pitch = 25.4f;
  float half = rows * pitch * 0.5f;
  float gutter = r.range(55, 130);                 // between the breaker ends and the wall
  float length = r.range(62, 80), height = r.range(48, 66);
  float end = 8 + length;
  float X = end + gutter;
  bool mainTop = r.chance(0.75f);
  float topSpace = mainTop ? r.range(180, 260) : r.range(60, 140), bottomSpace = r.range(60, 200);
  float Y1 = half + topSpace, Y0 = -half - bottomSpace;
  float depth = r.range(85, 120);

  int can = enclosure_surface(b);
  for (int i = 0; i < 4 && b.mat(can).base && b.is_pigment(b.mat(can).base, pgBackPlateOrange); i++) can = enclosure_surface(b);
  if (r.chance(0.2f)) can = b.paint(b.pigment(pgDeviceBlack, r.range(0.5f, 2)), 0.04f, 0.5f);
  b.span(v3(-X, Y0, -2), v3(X, Y1, 0), can, 0);
  b.span(v3(-X - 2, Y0, 0), v3(-X, Y1, depth), can, 0.5f);
  b.span(v3(X, Y0, 0), v3(X + 2, Y1, depth), can, 0.5f);
  b.span(v3(-X, Y1, 0), v3(X, Y1 + 2, depth), can, 0.5f);
  b.span(v3(-X, Y0 - 2, 0), v3(X, Y0, depth), can, 0.5f);
  // the wall around
  int wall = any_surface(b, 400);
  b.span(v3(-X - 900, Y0 - 900, depth - 30), v3(-X - 2, Y1 + 900, depth - 2), wall, 0);
  b.span(v3(X + 2, Y0 - 900, depth - 30), v3(X + 900, Y1 + 900, depth - 2), wall, 0);
  b.span(v3(-X - 2, Y1 + 2, depth - 30), v3(X + 2, Y1 + 900, depth - 2), wall, 0);
  b.span(v3(-X - 2, Y0 - 900, depth - 30), v3(X + 2, Y0 - 2, depth - 2), wall, 0);
  b.floor_plane(v3(0, 0, 1), 0.5f);
  b.floor_plane(v3(1, 0, 0), -X);
  b.floor_plane(v3(-1, 0, 0), -X);
  b.floor_plane(v3(0, 0, -1), -(depth + 12));

  // interior: pan, bus bars between the columns
  int pan = r.chance(0.5f) ? b.plastic(r.chance(0.6f) ? 0 : 1) : b.galvanized();
  float panZ = r.range(14, 26);
  b.span(v3(-end * 0.72f, -half - 20, 6), v3(end * 0.72f, half + 20, panZ), pan, 2);
  int bus = r.chance(0.5f) ? b.tin() : r.chance(0.5f) ? b.copper() : b.zinc();
  b.span(v3(-14, -half - 10, panZ), v3(-3, half + 12, panZ + 5), bus, 0.5f);
  b.span(v3(3, -half - 10, panZ), v3(14, half + 12, panZ + 5), bus, 0.5f);

  DeviceLook look = device_look(b, r.chance(0.75f) ? 0 : r.pick(1, 3));
  float wear = r.chance(0.5f) ? r.u() * 0.25f : r.u();
  int habit = r.weighted({0.3f, 0.25f, 0.2f, 0.1f, 0.15f});
  int neutralName = habit == 3 ? (r.chance(0.7f) ? kGray : kWhite) : (r.chance(0.92f) ? kWhite : kGray);

  // exits
  std::vector<Exit> exits;
  int nExit = r.pick(2, 7);
  bool cables = r.chance(0.45f);
  for (int i = 0; i < nExit; i++) {
    Exit e;
    float side = r.chance(0.5f) ? 1.0f : -1.0f;
    int where = r.weighted({0.5f, 0.35f, 0.15f});
    float z = r.range(18, depth - 22);
    if (where == 2) { e.p = v3(side * X, r.range(Y0 + 40, Y1 - 40), z); e.in = v3(-side, 0, 0); }
    else {
      e.p = v3(side * r.range(0.35f, 0.93f) * X, where == 0 ? Y1 : Y0, z);
      e.in = v3(0, where == 0 ? -1.0f : 1.0f, 0);
    }
    e.cable = cables ? r.chance(0.85f) : r.chance(0.1f);
    e.jacketName = r.one_of({(int)kWhite, (int)kYellow, (int)kOrange, (int)kGray, (int)kBlack, (int)kWhite});
    e.jacket = r.range(12, 70);
    b.push(e.p, Builder::axes(normal_to(e.in), cross(e.in, normal_to(e.in))));
    if (!e.cable) conduit_end(b, r.range(9, 22), r.chance(0.5f));
    b.pop();
    exits.push_back(e);
  }
  for (int i = r.pick(0, 8); i > 0; i--) {
    float side = r.chance(0.5f) ? 1.0f : -1.0f;
    Vec3 n = v3(-side, 0, 0);
    Vec3 p = v3(side * (X - 0.2f), r.range(Y0 + 30, Y1 - 30), r.range(25, depth - 25));
    b.push(p, Builder::axes(v3(0, 1, 0), cross(n, v3(0, 1, 0))));
    knockout(b, r.range(8, 16), r.chance(0.15f), can);
    b.pop();
  }

  // neutral and ground bars: beside the columns low in the can, or at the bottom
  struct Bar { Vec3 p; int n; float pitch, width, height; bool ground; float side; };
  std::vector<Bar> bars;
  int nBars = r.pick(1, 3);
  for (int i = 0; i < nBars; i++) {
    Bar q;
    q.n = r.pick(6, 24);
    q.pitch = r.range(7.5f, 9);
    q.width = r.range(9, 13);
    q.height = r.range(9, 14);
    q.side = i % 2 ? 1.0f : -1.0f;
    bool low = r.chance(0.5f);
    q.p = v3(q.side * (low ? r.range(0.4f, 0.7f) * X : end * 0.72f + q.width * 0.5f + r.range(4, 16)), low ? Y0 + 20 + q.n * q.pitch * 0.5f : r.range(-0.4f, 0.4f) * half, r.range(6, 20));
    q.ground = i == 1 || (nBars == 1 && r.chance(0.5f));
    b.push(q.p);
    screw_bar(b, q.n, q.pitch, q.width, q.height, q.ground ? (r.chance(0.6f) ? b.zinc() : b.copper()) : b.tin());
    b.span(v3(-q.width * 0.4f, -10, -q.p.z), v3(q.width * 0.4f, 10, 0), b.plastic(r.pick(0, 2)), 0.5f);
    b.pop();
    b.obstacle(q.p - v3(q.width * 0.5f, q.n * q.pitch * 0.5f + 4, 8), q.p + v3(q.width * 0.5f, q.n * q.pitch * 0.5f + 4, q.height));
    bars.push_back(q);
  }

  int budget = r.pick(5, 80);
  auto branch = [&]() { return Builder::thhn(r.one_of({14, 14, 12, 12, 12, 12, 10, 10, 8})); };
  bool fold = r.chance(0.75f);   // neat folding along the gutter against loose
  auto route = [&](Conductor& c, Vec3 start, Vec3 dir, float side, const Exit& e, float D) {
    float lane = side * (end + gutter * (fold ? r.range(0.25f, 0.85f) : r.range(0.15f, 0.95f)));
    float lz = r.range(fold ? 0.15f : 0.1f, 0.9f) * depth;
    c.from(start, dir);
    float goal = e.p.y + e.in.y * 45;
    float sgn = goal > start.y ? 1.0f : -1.0f;
    c.via(v3(lane - side * r.range(0, 8), start.y + sgn * r.range(0, 10), lz * 0.5f + start.z * 0.5f));
    c.via(v3(lane, start.y + sgn * r.range(16, 34), lz));
    if (r.chance(fold ? 0.12f : 0.3f)) {
      // slack: past the exit and back
      float over = sgn * r.range(20, 90);
      float y = std::min(std::max(start.y - over, Y0 + 18), Y1 - 18);
      c.via(v3(lane + side * r.range(-15, 15), y, lz + r.range(-10, 18)));
    }
    Vec3 near = e.p + e.in * r.range(35, 60);
    if (fabsf(e.in.y) > 0.5f && (e.p.x > 0) == (side > 0)) {
      float y2 = mixf(start.y, near.y, r.range(0.5f, 0.85f));
      c.via(v3(lane + side * r.range(-6, 6), y2, lz + r.range(-8, 8)));
    } else {
      // cross to the other side above or below the breakers
      float yy = (e.p.y > 0 ? half + r.range(25, 60) : -half - r.range(15, 40));
      yy = std::min(std::max(yy, Y0 + 15), Y1 - 15);
      c.via(v3(lane, yy, lz));
      c.via(v3(e.p.x * 0.6f, yy + r.range(-8, 8), r.range(20, depth * 0.8f)));
    }
    Vec3 off = r.gauss3(e.cable ? 1.2f : 3.5f);
    off = off - e.in * dot(off, e.in);
    c.via(near + off * 2.2f);
    c.to(e.p + off + e.in * (e.cable ? e.jacket - 4 : 3.0f), -e.in);
    c.bend(r.range(1.8f, 4)).wobble(fold ? r.range(0.1f, 0.4f) : r.range(0.3f, 1.2f));
    (void)D;
  };

  // breakers
  int used = 0;
  for (int side = -1; side <= 1; side += 2) {
    for (int row = 0; row < rows;) {
      int poles = r.chance(0.06f) ? 3 : r.chance(0.18f) ? 2 : 1;
      poles = std::min(poles, rows - row);
      float y = half - (row + poles * 0.5f) * pitch;
      Vec3 o = v3(side * 8.0f, y, panZ - 8);
      if (r.chance(0.15f)) { row += poles; continue; }
      Quat q = side > 0 ? Quat() : turn(v3(0, 0, 1), kPi);
      b.push(o, q);
      std::vector<Vec3> in = plug_breaker(b, look, poles, length, pitch, height);
      b.pop();
      b.obstacle(v3(side > 0 ? 8.0f : -end, y - poles * pitch * 0.5f, 0), v3(side > 0 ? end : -8.0f, y + poles * pitch * 0.5f, panZ - 8 + height));
      for (int p = 0; p < poles; p++) {
        if (used >= budget || !r.chance(0.92f)) continue;
        used++;
        Vec3 s = rotate(q, in[p]) + o;
        Gauge g = poles > 1 && r.chance(0.4f) ? Builder::thhn(r.one_of({10, 8, 6})) : branch();
        Style st = b.style(hot_color(r, habit, row + p), g, wear);
        if (r.chance(0.03f)) { st.stripe = kAlong; st.stripeName = r.pick(0, 11); st.stripeWidth = 0.2f; }
        Conductor c = b.conductor(st);
        Exit& e = exits[r.pick(0, nExit - 1)];
        e.count++;
        route(c, s, v3((float)side, 0, 0), (float)side, e, g.outer);
        c.strip_start(r.range(0, 5));
        if (r.chance(0.05f)) c.sleeve(r.range(10, 60), r.range(10, 25), r.pick(0, 11), 1.06f);
        if (r.chance(0.04f)) c.marker(r.range(12, 40));
      }
      row += poles;
    }
  }
  // neutrals and grounds
  for (const Bar& q : bars)
    for (int i = 0; i < q.n; i++) {
      if (used >= budget + 10 || !r.chance(0.7f)) continue;
      used++;
      float side = r.chance(0.75f) ? q.side : -q.side;
      Vec3 s = q.p + v3(side * (q.width * 0.5f - 2), (i - 0.5f * (q.n - 1)) * q.pitch, q.height * 0.5f);
      Gauge g = branch();
      if (g.outer > 4.3f) g = Builder::thhn(12);
      bool bare = q.ground && r.chance(0.5f);
      Style st = bare ? b.bare_ground(g) : b.style(q.ground ? (r.chance(0.85f) ? kGreen : kGreenYellow) : neutralName, g, wear);
      Conductor c = b.conductor(st);
      const Exit& e = exits[r.pick(0, nExit - 1)];
      float outSide = s.x > 0 ? 1.0f : -1.0f;
      route(c, s, v3(side, 0, r.range(-0.1f, 0.3f)), outSide, e, g.outer);
      if (!bare) c.strip_start(r.range(1, 9));
    }
  // cable jackets: one short jacket a cable exit, several side by side when many conductors use it
  for (const Exit& e : exits) {
    if (!e.cable) continue;
    int n = std::max(1, std::min(4, e.count / 3 + 1));
    Vec3 t = normal_to(e.in), u = cross(e.in, t);
    for (int i = 0; i < n; i++) {
      Style j = b.jacket(r.chance(0.7f) ? e.jacketName : r.pick(0, 10), r.range(6.5f, 11));
      Vec3 o = t * (r.gauss() * 3 + (i - 0.5f * (n - 1)) * 9) + u * (r.gauss() * 3);
      b.conductor(j).from(e.p + o - e.in * 2, e.in).to(e.p + o + e.in * (e.jacket + r.range(-6, 12)) + r.gauss3(2)).frozen(0.8f).wobble(0);
    }
  }
  // main breaker or lugs with feeders
  if (mainTop) {
    float my = half + r.range(30, 55);
    float mw = r.range(38, 60), mh = r.range(45, 65);
    DeviceLook ml = r.chance(0.7f) ? look : device_look(b, 0);
    b.span(v3(-mw, my, panZ - 4), v3(mw, my + 2 * mh, panZ + 52), ml.body, 2);
    b.span(v3(-mw * 0.5f, my + mh * 0.6f, panZ + 52), v3(mw * 0.5f, my + mh * 1.4f, panZ + 60), ml.face, 2);
    b.box(v3(0, my + mh * 1.05f, panZ + 64), v3(mw * 0.25f, 9, 8), ml.handle, 1.5f);
    b.box(v3(0, my + mh * 0.35f, panZ + 52.1f), v3(mw * 0.7f, 9, 0.1f), ml.label, 0);
    b.obstacle(v3(-mw, my, 0), v3(mw, my + 2 * mh, panZ + 52));
    int nf = r.pick(2, 3);
    Gauge fg = Builder::thhn(r.one_of({4, 2, 1, 0, -1, -3, 250}));
    int fname = r.chance(0.8f) ? kBlack : r.pick(0, 9);
    float fx = r.range(-0.5f, 0.5f) * X;
    for (int i = 0; i < nf; i++) {
      float x = (i - 0.5f * (nf - 1)) * mw * 1.1f;
      b.push(v3(x, my + 2 * mh + 3, panZ + 24));
      lug(b, fg.metal * 0.55f, b.tin());
      b.pop();
      Conductor c = b.conductor(b.style(nf == 3 && habit >= 2 ? hot_color(r, habit, i) : fname, fg, wear));
      c.from(v3(x, my + 2 * mh + 1, panZ + 24), v3(0, 1, 0)).via(v3(mixf(x, fx, 0.4f), mixf(my + 2 * mh, Y1, 0.5f), panZ + r.range(24, 45)));
      c.to(v3(fx + (i - 1) * fg.outer * 1.1f, Y1 + 3, depth * 0.5f), v3(0, 1, 0)).strip_start(r.range(3, 10)).bend(2.5f);
      if (r.chance(0.3f)) c.sleeve(r.range(15, 40), r.range(15, 40), r.one_of({(int)kRed, (int)kBlack, (int)kBlue, (int)kWhite}), 1.05f);
    }
    if (r.chance(0.7f)) {
      Conductor c = b.conductor(b.style(neutralName, fg, wear));
      float sx = r.chance(0.5f) ? 1.0f : -1.0f;
      c.from(v3(sx * (mw + 25), half * 0.4f, 18), v3(0, 1, 0)).via(v3(sx * (mw + 28), my + mh, 28)).to(v3(fx + sx * 30, Y1 + 3, depth * 0.4f), v3(0, 1, 0)).strip_start(12).bend(2.5f);
    }
    b.push(v3(fx, Y1, depth * 0.5f), Builder::axes(v3(1, 0, 0), v3(0, 0, 1)));
    conduit_end(b, fg.outer * 2.2f, r.chance(0.5f));
    b.pop();
  }
  if (used > 10 && r.chance(0.4f)) {
    int t = b.plastic(r.pick(0, 2));
    for (int i = r.pick(1, 4); i > 0; i--) {
      float s = r.chance(0.5f) ? 1.0f : -1.0f;
      b.tie(v3(s * (end + gutter * 0.55f), r.range(-half, half), depth * 0.5f), v3(0, 1, 0), r.range(10, 26), t);
    }
  }
  if (r.chance(0.4f)) {
    b.push(v3(r.range(-0.6f, 0.6f) * X, r.range(Y0 + 20, Y1 - 20), 0.2f));
    label(b, r.range(40, 110), r.range(30, 80));
    b.pop();
  }
  // camera: overview or a region
  Vec3 at;
  float across;
  float k = r.u();
  if (k < 0.2f) { at = v3(r.gauss() * 15, r.range(-0.3f, 0.5f) * half, 40); across = r.range(1.2f, 2.1f) * X; }
  else if (k < 0.5f) { across = r.log(55, 260); at = b.some_conductor(across * 0.12f); }
  else if (k < 0.7f) { float s = r.chance(0.5f) ? 1.0f : -1.0f; at = v3(s * (end + gutter * r.range(-0.2f, 0.7f)), r.range(-1.1f, 1.1f) * half, depth * 0.5f); across = r.log(55, 260); }
  else if (k < 0.8f && !bars.empty()) { at = bars[r.pick(0, (int)bars.size() - 1)].p + v3(0, 0, 10); across = r.log(50, 160); }
  else { const Exit& e = exits[r.pick(0, nExit - 1)]; at = e.p + e.in * 45; across = r.log(70, 240); }
  b.random_look(at, across, 38, 0.6f);
  b.random_lights(b.target, across, r.chance(0.5f) ? r.u() : r.range(0.5f, 1));
  b.globals.aoRange = r.range(50, 120);
  b.settle_rounds = used > 45 ? 6 : 9;
}

}  // namespace hp
