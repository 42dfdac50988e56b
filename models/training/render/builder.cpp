// Colors, materials, shapes, light and camera of the scene builder. Conductors: conductors.cpp; BVH: bvh.cpp.
#include "builder.hpp"

#include <algorithm>
#include <cstring>

namespace hp {

Builder::Builder(uint64_t seed, int photoCount) : rng(seed), photos(photoCount) {
  for (int& s : shared_) s = -1;
  globals.lightCount = 0;
  globals.seed = rng.next();
  globals.backdropPhoto = -1;
  globals.aoRange = 120;
  globals.cam.exposure = 1;
  globals.sampleScale = 1;
  ambient(0.3f, 0.12f);
  globals.backdrop = v3(0.1f, 0.1f, 0.1f);
  globals.softbox = unit(v3(rng.range(-1, 1), rng.range(0.2f, 1), rng.range(0.4f, 1)));
  globals.softboxPower = rng.chance(0.7f) ? rng.log(0.3f, 3) : 0;
  recipe({0, 0, 0, 1, v3(1, 1, 1), false});  // color 0: white
}

// ---- light ------------------------------------------------------------------------------------------------

void Builder::spectra(int amb, int l1, int l2, int l3, int camera, int wb) {
  lampRows[0] = amb; lampRows[1] = l1; lampRows[2] = l2; lampRows[3] = l3;
  cameraRow = camera;
  whiteRow = wb;
  spectraSet_ = true;
}

void Builder::random_spectra() {
  // Jobsites: LED and fluorescent mostly, daylight through doors, incandescent and sodium rarely (assumed shares).
  const float w[] = {0.1f, 0.02f, 0.08f, 0.14f, 0.12f, 0.05f, 0.1f, 0.12f, 0.15f, 0.1f, 0.005f, 0.02f};
  int rows[kLamps];
  rows[1] = rng.weighted(w);
  rows[0] = rng.chance(0.7f) ? rows[1] : rng.weighted(w);
  rows[2] = rng.chance(0.65f) ? rows[1] : rng.weighted(w);
  rows[3] = rng.chance(0.6f) ? lampLEDB5 : rng.weighted(w);
#ifdef HP_ONE_LIGHT
  // For the ablation: one lamp spectrum and one camera for every scene.
  for (int& row : rows) row = lampD65;
  spectra(rows[0], rows[1], rows[2], rows[3], 0, lampD65);
  return;
#endif
  int wb = rng.chance(0.85f) ? rows[1] : rows[0];
  spectra(rows[0], rows[1], rows[2], rows[3], rng.pick(0, kTableCameras - 1), wb);
  // residual error of the automatic white balance: a few degrees, worst quarter far more (reference/constancy.json)
  float sd = rng.chance(0.7f) ? 0.05f : 0.13f;
  cast = v3(expf(rng.gauss() * sd), expf(rng.gauss() * sd * 0.3f), expf(rng.gauss() * sd));
}

void Builder::ambient(float top, float bottom, float bounce, Vec3 up) {
  globals.envTop = top;
  globals.envBottom = bottom;
  globals.bounce = bounce;
  globals.envUp = unit(up);
}

void Builder::lamp(Vec3 pos, Vec3 aim, float radius, float power, float coneDegrees, float soft) {
  if (globals.lightCount >= 3) return;
  Light& l = globals.lights[globals.lightCount];
  l.pos = pos;
  l.radius = radius;
  l.dir = unit(aim - pos);
  float half = coneDegrees * 0.5f * kPi / 180;
  l.cosIn = coneDegrees >= 180 ? -1 : cosf(half * (1 - soft));
  l.cosOut = coneDegrees >= 180 ? -2 : cosf(half);
  l.power = power;
  l.range = length(aim - pos);
  l.lamp = ++globals.lightCount;
}

void Builder::headlamp(float power, float coneDegrees, Vec3 offset) {
  const Camera& c = globals.cam;
  Vec3 p = c.pos + c.right * offset.x + c.up * offset.y + c.fwd * offset.z;
  Vec3 aim = target + rng.gauss3(across * 0.12f);
  lamp(p, aim, rng.range(4, 15), power, coneDegrees, 0.8f);
}

void Builder::random_lights(Vec3 aim, float size, float dark) {
  if (dark < 0) dark = rng.u();
  float amb = rng.log(0.12f, 0.6f) * (1 - 0.75f * dark);
  ambient(amb, amb * rng.range(0.15f, 0.8f), rng.range(0.25f, 0.55f),
          v3(rng.range(-0.5f, 0.5f), rng.range(0.1f, 1), rng.range(0.3f, 1)));
  int n = rng.pick(1, 2);
  for (int i = 0; i < n; i++) {
    Vec3 d = unit(v3(rng.range(-1, 1), rng.range(-0.3f, 1.2f), rng.range(0.45f, 1.4f)));
    float dist = rng.log(700, 3000);
    lamp(aim + d * dist, aim, rng.log(15, 500), (i ? 0.4f : 1) * rng.log(0.25f, 0.9f) * (1 - 0.5f * dark));
  }
  if (rng.chance(0.25f + 0.4f * dark) && globals.lightCount < 3) {
    bool flash = rng.chance(0.4f);
    headlamp(rng.log(0.3f, 1.1f), flash ? 120 : rng.range(18, 60),
             flash ? v3(rng.range(-14, 14), rng.range(-10, 14), 0) : v3(rng.range(-60, 60), rng.range(60, 160), -60));
  }
  // Auto-exposure: what a white surface at the aim would receive, with a metering error.
  float total = amb;
  for (int i = 0; i < globals.lightCount; i++) total += globals.lights[i].power * 0.7f;
  globals.cam.exposure = rng.log(0.45f, 1.25f) / total;
  (void)size;
}

void Builder::look(Vec3 at, float across_, float tilt, float azimuth, float roll, float fov) {
  target = world(at);
  across = across_;
  float th = tanf(fov * kPi / 360);
  float dist = across_ / (2 * th);
  targetDistance = dist;
  float t = tilt * kPi / 180, a = azimuth * kPi / 180;
  Vec3 dir = v3(sinf(t) * cosf(a), sinf(t) * sinf(a), cosf(t));
  Camera& c = globals.cam;
  c.pos = target + world_dir(dir) * dist;
  c.fwd = unit(target - c.pos);
  Vec3 up0 = world_dir(v3(0, 1, 0));
  Vec3 right = cross(c.fwd, up0);
  if (length(right) < 1e-3f) right = v3(1, 0, 0);
  right = unit(right);
  Vec3 up = cross(right, c.fwd);
  float r = roll * kPi / 180;
  c.right = right * cosf(r) + up * sinf(r);
  c.up = up * cosf(r) - right * sinf(r);
  c.tanHalf = th;
  if (c.focus <= 0) c.focus = dist;
}

void Builder::random_look(Vec3 at, float across_, float maxTilt, float upright) {
  float tilt = maxTilt * powf(rng.u(), 1.4f);
  float roll = rng.chance(upright) ? rng.gauss() * 4 : 90.0f * rng.pick(0, 3) + rng.gauss() * 8;
  float fov = rng.chance(0.7f) ? rng.range(50, 68) : rng.range(25, 45);
  look(at, across_, tilt, rng.range(0, 360), roll, fov);
  // phones: 1.5 to 4 mm aperture radius at most; blur shows close up
  if (rng.chance(0.6f)) focus(rng.log(0.3f, 2.2f), targetDistance * rng.range(0.93f, 1.05f));
}

Vec3 Builder::some_conductor(float spread) {
  if (strands.empty()) return v3(0, 0, 0);
  const Strand& s = strands[rng.pick(0, (int)strands.size() - 1)];
  if (s.points.size() < 2) return v3(0, 0, 0);
  int i = rng.pick(0, (int)s.points.size() - 2);
  return lerp(s.points[i], s.points[i + 1], rng.u()) + rng.gauss3(spread);
}

void Builder::focus(float lens, float distance) {
  globals.cam.lens = lens;
  globals.cam.focus = distance > 0 ? distance : targetDistance;
}

void Builder::backdrop(Vec3 radiance, int photo) {
  globals.backdrop = radiance;
  globals.backdropPhoto = photo < photos ? photo : -1;
}

// ---- colors -----------------------------------------------------------------------------------------------

int Builder::recipe(ColorRecipe r) {
  recipes_.push_back(r);
  return (int)recipes_.size() - 1;
}
int Builder::pigment(int row, float gain) { return recipe({row, row, 0, gain, v3(0, 0, 0), true}); }
int Builder::blend(int a, int b, float t, float gain) { return recipe({a, b, t, gain, v3(0, 0, 0), true}); }
int Builder::rgb(float r, float g, float b) { return recipe({0, 0, 0, 1, v3(r, g, b), false}); }
int Builder::pigment_of(int name) {
  if (name == kGreenYellow) name = kGreen;
  return pigment_row(name, rng.pick(0, kPerName - 1));
}
int Builder::any_color() {
  static const float w[kColorNames] = {20, 7, 13, 6, 7, 7, 12, 4, 6, 14, 2.5f, 2, 6};
  float t = 0;
  for (float x : w) t += x;
  float u = rng.u() * t;
  for (int i = 0; i < kColorNames; i++) {
    if (u < w[i]) return i;
    u -= w[i];
  }
  return kBlack;
}
int Builder::named(int name) { return pigment(pigment_of(name), rng.range(0.85f, 1.12f)); }

void Builder::resolve_colors() {
  colors.resize(recipes_.size());
  for (size_t i = 0; i < recipes_.size(); i++) {
    const ColorRecipe& r = recipes_[i];
    for (int l = 0; l < kLamps; l++) {
      Vec3 white = balanced(raw_white(cameraRow, lampRows[l]), cameraRow, whiteRow, cast);
      if (r.spectral) {
        Vec3 raw = lerp(raw_pigment(cameraRow, lampRows[l], r.a), raw_pigment(cameraRow, lampRows[l], r.b), r.t) * r.gain;
        colors[i].c[l] = balanced(raw, cameraRow, whiteRow, cast);
      } else {
        colors[i].c[l] = white * r.rgb;
      }
    }
  }
  globals.envWhite = colors[0].c[0];
  for (int i = 0; i < globals.lightCount; i++) globals.lights[i].white = colors[0].c[globals.lights[i].lamp];
}

// ---- materials --------------------------------------------------------------------------------------------

Material Builder::blank(int color) {
  Material m;
  m.base = m.second = m.print = m.faded = color;
  m.dirtColor = m.dustColor = color;
  m.seed = rng.next();
  return m;
}
int Builder::add(const Material& m) {
  mats.push_back(m);
  return (int)mats.size() - 1;
}
int Builder::paint(int color, float specular, float rough) {
  Material m = blank(color);
  m.specular = specular;
  m.rough = rough;
  return add(m);
}
int Builder::metal(int color, float rough, int tex, float scale, float amount) {
  Material m = blank(color);
  m.metal = 0.85f;
  m.specular = 0.5f;
  m.rough = rough;
  m.tex = tex;
  m.texScale = scale;
  m.texAmount = amount;
  return add(m);
}
int Builder::textured(int tex, int color, int second, float scale, float amount) {
  Material m = blank(color);
  m.second = second;
  m.print = second;
  m.tex = tex;
  m.texScale = scale;
  m.texAmount = amount;
  m.rough = 0.7f;
  m.specular = 0.03f;
  m.dirtColor = pigment(pgDirt);
  return add(m);
}
int Builder::photo(int index, float mm) {
  Material m = blank(gray(0.5f));
  m.tex = kPhoto;
  m.photo = index;
  m.texScale = mm;
  m.specular = 0.02f;
  m.rough = 0.7f;
  return add(m);
}
int Builder::shared(int slot, int (Builder::*make)()) {
  if (shared_[slot] < 0) {
    int v = (this->*make)();
    shared_[slot] = v;
  }
  return shared_[slot];
}
int Builder::copper() {
  if (shared_[0] < 0) shared_[0] = metal(blend(pgCopper, pgCopperDull, rng.u(), rng.range(0.7f, 1.05f)), rng.range(0.2f, 0.5f));
  return shared_[0];
}
int Builder::tin() {
  if (shared_[1] < 0) shared_[1] = metal(pigment(pgTin, rng.range(0.7f, 1.05f)), rng.range(0.2f, 0.5f));
  return shared_[1];
}
int Builder::brass() {
  if (shared_[2] < 0) shared_[2] = metal(pigment(pgBrass, rng.range(0.6f, 1.0f)), rng.range(0.2f, 0.5f));
  return shared_[2];
}
int Builder::zinc() {
  if (shared_[3] < 0) shared_[3] = metal(pigment(pgZinc, rng.range(0.6f, 1.0f)), rng.range(0.25f, 0.6f));
  return shared_[3];
}
int Builder::steel() {
  if (shared_[4] < 0) shared_[4] = metal(pigment(pgSteel, rng.range(0.6f, 1.1f)), rng.range(0.2f, 0.6f), kBrushed, 10, rng.range(0.1f, 0.5f));
  return shared_[4];
}
int Builder::galvanized() {
  if (shared_[5] < 0) {
    shared_[5] = metal(pigment(pgZinc, rng.range(0.5f, 0.95f)), rng.range(0.35f, 0.7f), kGalvanized, rng.log(4, 25), rng.range(0.1f, 0.5f));
    mats[shared_[5]].metal = rng.range(0.3f, 0.7f);
  }
  return shared_[5];
}
int Builder::plastic(int kind) {
  if (kind < 0) {
    const float w[] = {0.35f, 0.25f, 0.2f, 0.1f, 0.1f};
    kind = rng.weighted(w);
  }
  int c;
  switch (kind) {
    case 0: c = pigment(pgDeviceBlack, rng.log(0.6f, 2.5f)); break;
    case 1: c = blend(pgDeviceGray, pgLightGrayEnclosure, rng.u(), rng.range(0.8f, 1.1f)); break;
    case 2: c = blend(pgPaper, pgLightGrayEnclosure, rng.u(), rng.range(0.8f, 1)); break;
    case 3: c = pigment(pgBeige, rng.range(0.7f, 1)); break;
    default: {
      const int odd[] = {pgTerminalGreen, pgTerminalOrange, pgToolBlue, pgToolRed, pgLabelYellow, pgBoardBlue};
      c = pigment(rng.one_of(odd), rng.range(0.6f, 1.1f));
    }
  }
  Material m = blank(c);
  m.specular = rng.range(0.03f, 0.06f);
  m.rough = rng.range(0.25f, 0.6f);
  m.tex = kPainted;
  m.second = pigment(pgDust, 0.9f);
  m.texScale = rng.log(3, 40);
  m.texAmount = rng.range(0, 0.12f);
  return add(m);
}
int Builder::label_material(int paper, int ink, float h) {
  Material m = blank(paper);
  m.print = ink;
  m.tex = kLabel;
  m.texScale = h;
  m.rough = 0.5f;
  return add(m);
}

// ---- shapes -----------------------------------------------------------------------------------------------

void Builder::push(Vec3 t, Quat q) {
  stack_.push_back(frame_);
  Frame f;
  f.t = world(t);
  f.q = frame_.q * q;
  frame_ = f;
}
void Builder::pop() {
  if (stack_.empty()) return;
  frame_ = stack_.back();
  stack_.pop_back();
}
Quat Builder::axes(Vec3 x, Vec3 y) {
  x = unit(x);
  y = unit(y - x * dot(x, y));
  Vec3 z = cross(x, y);
  Quat q;
  float tr = x.x + y.y + z.z;
  if (tr > 0) {
    float S = sqrtf(tr + 1) * 2;
    q.w = 0.25f * S; q.x = (y.z - z.y) / S; q.y = (z.x - x.z) / S; q.z = (x.y - y.x) / S;
  } else if (x.x > y.y && x.x > z.z) {
    float S = sqrtf(1 + x.x - y.y - z.z) * 2;
    q.w = (y.z - z.y) / S; q.x = 0.25f * S; q.y = (y.x + x.y) / S; q.z = (z.x + x.z) / S;
  } else if (y.y > z.z) {
    float S = sqrtf(1 + y.y - x.x - z.z) * 2;
    q.w = (z.x - x.z) / S; q.x = (y.x + x.y) / S; q.y = 0.25f * S; q.z = (z.y + y.z) / S;
  } else {
    float S = sqrtf(1 + z.z - x.x - y.y) * 2;
    q.w = (x.y - y.x) / S; q.x = (z.x + x.z) / S; q.y = (z.y + y.z) / S; q.z = 0.25f * S;
  }
  return q;
}
Vec3 Builder::world(Vec3 p) const { return rotate(frame_.q, p) + frame_.t; }

void Builder::box(Vec3 c, Vec3 half, int mat, float edge, Quat q) {
  Prim p{};
  Quat w = frame_.q * q;
  p.type = kBox;
  p.a = world(c);
  p.b = half;
  p.ra = fminf(edge, 0.5f * fminf(half.x, fminf(half.y, half.z)));
  p.u = v3(w.x, w.y, w.z);
  p.w = w.w;
  p.mat = mat;
  prims.push_back(p);
}
void Builder::span(Vec3 lo, Vec3 hi, int mat, float edge) { box((lo + hi) * 0.5f, (hi - lo) * 0.5f, mat, edge); }

static Prim round_prim(int type, Vec3 a, Vec3 b, float ra, float rb, int mat) {
  Prim p{};
  p.type = type;
  p.a = a; p.b = b; p.ra = ra; p.rb = rb;
  p.u = normal_to(unit(b - a));
  p.mat = mat;
  return p;
}
void Builder::cone(Vec3 a, Vec3 b, float ra, float rb, int mat) { prims.push_back(round_prim(kCone, world(a), world(b), ra, rb, mat)); }
void Builder::tube(Vec3 a, Vec3 b, float ra, float rb, int mat) { prims.push_back(round_prim(kTube, world(a), world(b), ra, rb, mat)); }
void Builder::capsule(Vec3 a, Vec3 b, float r, int mat) { prims.push_back(round_prim(kCapsule, world(a), world(b), r, r, mat)); }
void Builder::round_cone(Vec3 a, Vec3 b, float ra, float rb, int mat) {
  Vec3 d = b - a;
  float L = length(d);
  sphere(a, ra, mat);
  sphere(b, rb, mat);
  if (L < 1e-4f) return;
  float s = (ra - rb) / L;
  if (fabsf(s) >= 1) return;
  float c = sqrtf(1 - s * s);
  d = d * (1 / L);
  tube(a + d * (ra * s), b + d * (rb * s), ra * c, rb * c, mat);
}
void Builder::rod(const std::vector<Vec3>& pts, float r, int mat, bool smoothed) {
  std::vector<Vec3> q = pts;
  if (smoothed && pts.size() > 2) {
    q.clear();
    for (size_t i = 0; i + 1 < pts.size(); i++) {
      Vec3 p0 = pts[i ? i - 1 : 0], p1 = pts[i], p2 = pts[i + 1], p3 = pts[std::min(i + 2, pts.size() - 1)];
      for (int k = 0; k < 6; k++) {
        float t = k / 6.0f, t2 = t * t, t3 = t2 * t;
        q.push_back((p1 * 2 + (p2 - p0) * t + (p0 * 2 - p1 * 5 + p2 * 4 - p3) * t2 + (p1 * 3 - p0 - p2 * 3 + p3) * t3) * 0.5f);
      }
    }
    q.push_back(pts.back());
  }
  float s = 0;
  for (size_t i = 0; i + 1 < q.size(); i++) {
    Prim p = round_prim(kCapsule, world(q[i]), world(q[i + 1]), r, r, mat);
    p.s0 = s;
    s += length(q[i + 1] - q[i]);
    p.s1 = s;
    prims.push_back(p);
  }
}
void Builder::ring(Vec3 c, Vec3 axis, float R, float r, int mat, int n) {
  axis = unit(axis);
  Vec3 u = normal_to(axis), v = cross(axis, u);
  for (int i = 0; i < n; i++) {
    float a = 2 * kPi * i / n, b = 2 * kPi * (i + 1) / n;
    capsule(c + (u * cosf(a) + v * sinf(a)) * R, c + (u * cosf(b) + v * sinf(b)) * R, r, mat);
  }
}

void Builder::obstacle(Vec3 lo, Vec3 hi) { obstacles_.push_back({lo, hi, frame_}); }
void Builder::floor_plane(Vec3 n, float d) {
  Vec3 wn = world_dir(unit(n));
  floors_.push_back({wn, dot(wn, world(unit(n) * d))});
}
void Builder::tie(Vec3 p, Vec3 axis, float reach, int mat) { ties_.push_back({world(p), world_dir(unit(axis)), reach, mat}); }

void Builder::finish() {
  if (!spectraSet_) random_spectra();
  relax();
  settle();
  for (Strand& s : strands) emit(s);
  emit_ties();
  plan_samples();
  resolve_colors();
  build_bvh();
}

void Builder::plan_samples() {
  const Camera& c = globals.cam;
  if (c.lens <= 0) return;
  // widest blur of conductors in view, as a radius in pixels of a 384 px picture
  float worst = 0;
  for (const Strand& s : strands)
    for (Vec3 p : s.nodes) {
      Vec3 d = p - c.pos;
      float z = dot(d, c.fwd);
      if (z < 5 || fabsf(dot(d, c.right)) > z * c.tanHalf || fabsf(dot(d, c.up)) > z * c.tanHalf) continue;
      worst = fmaxf(worst, c.lens * fabsf(z - c.focus) / (z * c.focus) * 192 / c.tanHalf);
    }
  globals.sampleScale = worst > 5 ? 4 : worst > 2 ? 2 : 1;
}

}  // namespace hp
