// Conductors: gauges and styles, elastic paths, pushing apart, and turning paths into shapes.
#include <algorithm>
#include <cstring>
#include <unordered_map>

#include "builder.hpp"

namespace hp {

// ---- gauges -----------------------------------------------------------------------------------------------

Gauge Builder::thhn(int awg) {
  // Outer diameter: NEC chapter 9 table 5, THHN (reference/awg-od.json). Metal: 0.127 x 92^((36-n)/39) mm for solid.
  struct Row { int size; float od; };
  static const Row rows[] = {{18, 2.1f}, {16, 2.4f}, {14, 2.819f}, {12, 3.302f}, {10, 4.166f}, {8, 5.486f}, {6, 6.452f},
                             {4, 8.23f}, {3, 8.941f}, {2, 9.754f}, {1, 11.33f}, {0, 12.34f}, {-1, 13.51f}, {-2, 14.83f},
                             {-3, 16.31f}, {250, 18.06f}, {350, 20.75f}, {500, 24.1f}};
  float od = 3.302f;
  for (const Row& r : rows)
    if (r.size == awg) od = r.od;
  float metal = awg >= 250 ? 12.7f * sqrtf(awg / 250.0f) * 1.15f : 0.127f * powf(92, (36 - awg) / 39.0f) * 1.1f;
  return {od, fminf(metal, od * 0.86f)};
}

Gauge Builder::metric(float mm2) {
  // Fine-stranded single core (H05V-K / H07V-K like); mean outside diameters, from memory.
  struct Row { float a, od; };
  static const Row rows[] = {{0.14f, 1.1f}, {0.25f, 1.3f}, {0.5f, 2.1f}, {0.75f, 2.3f}, {1, 2.5f}, {1.5f, 2.9f},
                             {2.5f, 3.6f}, {4, 4.1f}, {6, 4.7f}, {10, 6.0f}, {16, 7.2f}};
  float od = 1.3f;
  for (const Row& r : rows)
    if (mm2 >= r.a - 1e-3f) od = r.od;
  return {od, fminf(1.25f * sqrtf(mm2 * 4 / kPi), od * 0.85f)};
}

// ---- styles -----------------------------------------------------------------------------------------------

Style Builder::style(int name, Gauge g, float wear) {
  Style s;
  s.name = name;
  s.gauge = g;
  s.pigment = pigment_of(name);
  s.shade = rng.range(0.85f, 1.12f);
  if (wear < 0) wear = rng.chance(0.6f) ? rng.u() * 0.3f : rng.u();
  s.stranded = g.outer > 4.5f || rng.chance(0.6f);
  s.tinned = rng.chance(0.15f);
  // THHN has a glossy nylon skin, PVC singles are duller
  s.specular = rng.range(0.03f, 0.06f);
  s.rough = rng.chance(0.5f) ? rng.range(0.12f, 0.3f) : rng.range(0.3f, 0.55f);
  if (name == kGreenYellow) {
    s.stripe = kAlong;
    s.stripeName = kYellow;
    s.stripeCount = (float)rng.pick(1, 2);
    s.stripeWidth = rng.range(0.3f, 0.6f);
    s.stripePitch = rng.chance(0.6f) ? rng.log(40, 400) : 0;
  }
  s.dirt = rng.chance(0.4f * wear + 0.05f) ? rng.range(0.15f, 0.8f) * wear : 0;
  s.dust = rng.chance(0.5f * wear + 0.1f) ? rng.range(0.05f, 0.6f) * wear : 0;
  if (rng.chance(0.5f * wear)) {
    s.fade0 = rng.u() * wear * 0.8f;
    s.fade1 = rng.chance(0.5f) ? s.fade0 : rng.u() * wear * 0.8f;
  }
  s.print = rng.chance(0.35f) ? rng.range(0.25f, 0.9f) : 0;
  s.bump = rng.chance(0.5f) ? rng.range(0, 0.08f) : 0;
  return s;
}

Style Builder::bare_ground(Gauge g) {
  Style s = style(kGray, g, 0.3f);
  s.bare = true;
  s.stripe = kNoStripe;
  s.stranded = g.metal > 3 || rng.chance(0.15f);
  return s;
}

Style Builder::jacket(int name, float outer) {
  Style s = style(name, {outer, outer * 0.5f});
  s.covering = kJacket;
  s.rough = rng.range(0.35f, 0.65f);
  return s;
}

// ---- describing -------------------------------------------------------------------------------------------

Conductor Builder::conductor(const Style& style) {
  Strand s;
  s.style = style;
  s.instance = nextInstance_++;
  strands.push_back(s);
  return Conductor(this, (int)strands.size() - 1);
}
Strand& Conductor::strand() { return b_->strands[i_]; }
int Conductor::id() const { return b_->strands[i_].instance; }
Conductor& Conductor::from(Vec3 p, Vec3 dir) {
  Strand& s = strand();
  s.points.insert(s.points.begin(), b_->world(p));
  s.hasStart = dot(dir, dir) > 0;
  if (s.hasStart) s.dirStart = b_->world_dir(unit(dir));
  return *this;
}
Conductor& Conductor::via(Vec3 p) {
  strand().points.push_back(b_->world(p));
  return *this;
}
Conductor& Conductor::through(const std::vector<Vec3>& pts) {
  for (Vec3 p : pts) via(p);
  return *this;
}
Conductor& Conductor::to(Vec3 p, Vec3 dir) {
  Strand& s = strand();
  s.points.push_back(b_->world(p));
  s.hasEnd = dot(dir, dir) > 0;
  if (s.hasEnd) s.dirEnd = b_->world_dir(unit(dir));
  return *this;
}
Conductor& Conductor::strip_start(float mm) { strand().stripStart = mm; return *this; }
Conductor& Conductor::strip_end(float mm) { strand().stripEnd = mm; return *this; }
Conductor& Conductor::bend(float d) { strand().bend = d; return *this; }
Conductor& Conductor::wobble(float d) { strand().wobble = d; return *this; }
Conductor& Conductor::frozen(float f) { strand().frozen = f; return *this; }
Conductor& Conductor::loose_ends() { strand().fixedStart = strand().fixedEnd = false; return *this; }
Conductor& Conductor::sleeve_material(float s, float len, int mat, float grow) {
  b_->mats[mat].instance = strand().instance;
  strand().sleeves.push_back({s, len, mat, grow});
  return *this;
}
Conductor& Conductor::sleeve(float s, float len, int name, float grow, float specular) {
  Material m = b_->blank(b_->named(name));
  m.covering = kTape;
  m.colorName = name;
  m.specular = specular;
  m.rough = b_->rng.range(0.25f, 0.6f);
  return sleeve_material(s, len, b_->add(m), grow);
}
Conductor& Conductor::marker(float s) {
  Rng& r = b_->rng;
  float d = strand().style.gauge.outer;
  int paper = r.chance(0.75f) ? kWhite : kYellow;
  Material m = b_->blank(b_->named(paper));
  m.covering = kTape;
  m.colorName = paper;
  m.print = b_->pigment(pgInk);
  m.printStrength = 0.9f;
  m.printHeight = d * 0.8f;
  m.printPitch = 500;
  m.rough = 0.5f;
  return sleeve_material(s, r.range(3, 4 + 3 * d), b_->add(m), r.range(1.12f, 1.3f));
}
Conductor& Conductor::ferrule(bool start, int name) {
  Rng& r = b_->rng;
  float d = strand().style.gauge.outer;
  float bare = r.range(7, 11);
  (start ? strand().stripStart : strand().stripEnd) = bare;
  float collar = r.range(4, 7);
  sleeve(start ? bare : -(bare + collar), collar, name, r.range(1.08f, 1.25f));
  strand().style.tinned = true;
  strand().style.stranded = false;
  (void)d;
  return *this;
}

// ---- relaxing ---------------------------------------------------------------------------------------------

static void diffuse(std::vector<Vec3>& p, int keep0, int keep1, int rounds, float w) {
  int n = (int)p.size();
  for (int k = 0; k < rounds; k++) {
    Vec3 prev = p[0];
    for (int i = 1; i < n - 1; i++) {
      Vec3 old = p[i];
      if (i >= keep0 && i < n - keep1) p[i] = p[i] * (1 - w) + (prev + p[i + 1]) * (0.5f * w);
      prev = old;
    }
  }
}

void Builder::relax() {
  for (Strand& s : strands) {
    float D = s.style.gauge.outer;
    std::vector<Vec3> pts = s.points;
    if (pts.size() < 2) {
      s.nodes.clear();
      continue;
    }
    float total = 0;
    for (size_t i = 0; i + 1 < pts.size(); i++) total += length(pts[i + 1] - pts[i]);
    float stub = fminf(fmaxf(1.5f * D, fminf(s.bend * D * 0.7f, 12)), 0.3f * total + 0.1f);
    if (s.hasStart) pts.insert(pts.begin() + 1, pts[0] + s.dirStart * stub);
    if (s.hasEnd) pts.insert(pts.end() - 1, pts.back() - s.dirEnd * stub);
    std::vector<float> cum(1, 0.0f);
    for (size_t i = 0; i + 1 < pts.size(); i++) cum.push_back(cum.back() + length(pts[i + 1] - pts[i]));
    float L = cum.back();
    float h = fmaxf(1.6f * D, L / 110);
    int n = std::max(4, (int)(L / h) + 1);
    h = L / (n - 1);
    s.spacing = h;
    s.nodes.resize(n);
    size_t seg = 0;
    for (int i = 0; i < n; i++) {
      float a = h * i;
      while (seg + 2 < cum.size() && cum[seg + 1] < a) seg++;
      float w = cum[seg + 1] - cum[seg];
      s.nodes[i] = lerp(pts[seg], pts[seg + 1], w > 1e-6f ? sat((a - cum[seg]) / w) : 0);
    }
    // low-frequency irregularity, none at the ends
    if (s.wobble > 0) {
      Vec3 A = rng.gauss3(s.wobble * D), B = rng.gauss3(s.wobble * D * 0.6f);
      float wa = rng.range(0.6f, 1.6f) * 2 * kPi / (30 * D), wb = rng.range(1.5f, 3) * 2 * kPi / (30 * D);
      float pa = rng.range(0, 6.28f), pb = rng.range(0, 6.28f);
      for (int i = 0; i < n; i++) {
        float a = h * i, win = smooth(0, 8 * D, a) * smooth(0, 8 * D, L - a);
        s.nodes[i] += A * (win * sinf(a * wa + pa)) + B * (win * sinf(a * wb + pb));
      }
    }
    float sigma = 0.55f * s.bend * D / h;
    int rounds = std::min(120, (int)(2 * sigma * sigma) + 2);
    diffuse(s.nodes, s.hasStart ? 2 : 1, s.hasEnd ? 2 : 1, rounds, 0.5f);
  }
}

namespace {

struct Seg {
  int strand, i;
};

/** Closest points of two segments: parameters s and t. */
void closest(Vec3 p1, Vec3 q1, Vec3 p2, Vec3 q2, float* s, float* t) {
  Vec3 d1 = q1 - p1, d2 = q2 - p2, r = p1 - p2;
  float a = dot(d1, d1), e = dot(d2, d2), f = dot(d2, r), c = dot(d1, r), b = dot(d1, d2);
  float den = a * e - b * b;
  *s = den > 1e-9f * a * e ? sat((b * f - c * e) / den) : 0.5f;
  *t = e > 1e-9f ? (b * *s + f) / e : 0;
  if (*t < 0) { *t = 0; *s = a > 1e-9f ? sat(-c / a) : 0; }
  else if (*t > 1) { *t = 1; *s = a > 1e-9f ? sat((b - c) / a) : 0; }
}

}  // namespace

void Builder::settle() {
  std::vector<Seg> segs;
  std::vector<float> radii;
  for (size_t k = 0; k < strands.size(); k++)
    for (int i = 0; i + 1 < (int)strands[k].nodes.size(); i++) {
      segs.push_back({(int)k, i});
      radii.push_back(strands[k].style.gauge.outer * 0.5f);
    }
  if (segs.empty()) return;
  std::vector<float> sorted = radii;
  std::nth_element(sorted.begin(), sorted.begin() + sorted.size() / 2, sorted.end());
  float cell = fmaxf(6, sorted[sorted.size() / 2] * 6);
  auto mass = [&](const Strand& s, int i) {
    int n = (int)s.nodes.size();
    if (s.fixedStart && i < (s.hasStart ? 2 : 1)) return 0.0f;
    if (s.fixedEnd && i >= n - (s.hasEnd ? 2 : 1)) return 0.0f;
    return 1 - s.frozen;
  };
  const int buckets = 1 << 14;
  std::vector<int> head(buckets + 1);
  struct Entry { int64_t key; int seg; };
  std::vector<Entry> entries, order;
  struct Box3 { int lo[3], hi[3]; };
  std::vector<Box3> cells(segs.size());
  for (int round = 0; round < settle_rounds; round++) {
    entries.clear();
    for (size_t k = 0; k < segs.size(); k++) {
      const Strand& s = strands[segs[k].strand];
      Vec3 a = s.nodes[segs[k].i], b = s.nodes[segs[k].i + 1];
      float r = radii[k];
      Box3& c = cells[k];
      c.lo[0] = (int)floorf((fminf(a.x, b.x) - r) / cell); c.hi[0] = (int)floorf((fmaxf(a.x, b.x) + r) / cell);
      c.lo[1] = (int)floorf((fminf(a.y, b.y) - r) / cell); c.hi[1] = (int)floorf((fmaxf(a.y, b.y) + r) / cell);
      c.lo[2] = (int)floorf((fminf(a.z, b.z) - r) / cell); c.hi[2] = (int)floorf((fmaxf(a.z, b.z) + r) / cell);
      for (int i = 0; i < 3; i++) c.hi[i] = std::min(c.hi[i], c.lo[i] + 12);
      for (int x = c.lo[0]; x <= c.hi[0]; x++)
        for (int y = c.lo[1]; y <= c.hi[1]; y++)
          for (int z = c.lo[2]; z <= c.hi[2]; z++)
            entries.push_back({((int64_t)(x & 0xfffff) << 40) | ((int64_t)(y & 0xfffff) << 20) | (z & 0xfffff), (int)k});
    }
    std::fill(head.begin(), head.end(), 0);
    auto slot = [&](int64_t key) { return (int)(hash1((uint32_t)(key ^ (key >> 32)) * 2654435761u) & (buckets - 1)); };
    for (const Entry& e : entries) head[slot(e.key) + 1]++;
    for (int i = 0; i < buckets; i++) head[i + 1] += head[i];
    order.resize(entries.size());
    {
      std::vector<int> at(head.begin(), head.end() - 1);
      for (const Entry& e : entries) order[at[slot(e.key)]++] = e;
    }
    for (int b = 0; b < buckets; b++)
      for (int i = head[b]; i < head[b + 1]; i++)
        for (int j = i + 1; j < head[b + 1]; j++) {
          if (order[i].key != order[j].key) continue;
          int ka = order[i].seg, kb = order[j].seg;
          const Seg &sa = segs[ka], &sb = segs[kb];
          if (sa.strand == sb.strand && std::abs(sa.i - sb.i) < 4) continue;
          // only in the first cell both share
          const Box3 &ca = cells[ka], &cb = cells[kb];
          int64_t key = 0;
          for (int q = 0; q < 3; q++) key = (key << 20) | (std::max(ca.lo[q], cb.lo[q]) & 0xfffff);
          if (key != order[i].key) continue;
          Strand &A = strands[sa.strand], &B = strands[sb.strand];
          Vec3 &a0 = A.nodes[sa.i], &a1 = A.nodes[sa.i + 1], &b0 = B.nodes[sb.i], &b1 = B.nodes[sb.i + 1];
          float s, t;
          closest(a0, a1, b0, b1, &s, &t);
          Vec3 d = lerp(a0, a1, s) - lerp(b0, b1, t);
          float dist = length(d), want = radii[ka] + radii[kb];
          if (dist >= want) continue;
          Vec3 n;
          if (dist < 0.25f * want) {
            // nearly crossing axes: one goes over the other, always the same one
            n = cross(a1 - a0, b1 - b0);
            if (length(n) < 1e-4f) n = v3(0, 0, 1);
            n = unit(n);
            bool over = (hash1((uint32_t)(sa.strand * 8191 + sb.strand)) & 1) != 0;
            if ((dot(n, v3(0.1f, 0.2f, 1)) > 0) != over) n = -n;
          } else {
            n = d * (1 / dist);
          }
          float wa0 = mass(A, sa.i), wa1 = mass(A, sa.i + 1), wb0 = mass(B, sb.i), wb1 = mass(B, sb.i + 1);
          float ha = radii[kb] / want, hb = 1 - ha;  // the thinner one gives way
          float push = (want - dist) * 0.75f;
          float ma = wa0 * (1 - s) + wa1 * s, mb = wb0 * (1 - t) + wb1 * t;
          if (ma + mb <= 0) continue;
          float fa = push * ha * ma, fb = push * hb * mb, sum = ha * ma + hb * mb;
          fa /= fmaxf(sum, 0.05f);
          fb /= fmaxf(sum, 0.05f);
          a0 += n * (fa * (1 - s) * wa0 * 1.3f);
          a1 += n * (fa * s * wa1 * 1.3f);
          b0 += n * (-fb * (1 - t) * wb0 * 1.3f);
          b1 += n * (-fb * t * wb1 * 1.3f);
        }
    for (Strand& s : strands) {
      int n = (int)s.nodes.size();
      float r = s.style.gauge.outer * 0.5f;
      if (round + 2 < settle_rounds && n > 4) diffuse(s.nodes, s.hasStart ? 2 : 1, s.hasEnd ? 2 : 1, 1, 0.3f * (1 - s.frozen));
      for (int i = 0; i < n; i++) {
        float m = mass(s, i);
        if (m <= 0) continue;
        Vec3& p = s.nodes[i];
        for (const Floor& f : floors_) {
          float d = dot(p, f.n) - f.d;
          if (d < r) p += f.n * (r - d);
        }
        for (const Obstacle& o : obstacles_) {
          Vec3 l = unrotate(o.f.q, p - o.f.t);
          Vec3 lo = o.lo - v3(r, r, r), hi = o.hi + v3(r, r, r);
          if (l.x <= lo.x || l.x >= hi.x || l.y <= lo.y || l.y >= hi.y || l.z <= lo.z || l.z >= hi.z) continue;
          float d[6] = {l.x - lo.x, hi.x - l.x, l.y - lo.y, hi.y - l.y, l.z - lo.z, (hi.z - l.z) * 0.7f};
          int k = 0;
          for (int q = 1; q < 6; q++)
            if (d[q] < d[k]) k = q;
          Vec3 to = l;
          if (k == 0) to.x = lo.x;
          else if (k == 1) to.x = hi.x;
          else if (k == 2) to.y = lo.y;
          else if (k == 3) to.y = hi.y;
          else if (k == 4) to.z = lo.z;
          else to.z = hi.z;
          p += (rotate(o.f.q, to) + o.f.t - p) * 0.7f;
        }
      }
    }
  }
}

// ---- emitting ---------------------------------------------------------------------------------------------

void Builder::emit(Strand& s) {
  if (s.nodes.size() < 2) return;
  const Style& st = s.style;
  float R = st.gauge.outer * 0.5f;
  // a smooth curve through the nodes, subdivided where it bends
  std::vector<Vec3> q;
  int n = (int)s.nodes.size();
  q.push_back(s.nodes[0]);
  for (int i = 0; i + 1 < n; i++) {
    Vec3 p0 = s.nodes[i ? i - 1 : 0], p1 = s.nodes[i], p2 = s.nodes[i + 1], p3 = s.nodes[std::min(i + 2, n - 1)];
    float c0 = dot(unit(p1 - p0 + (p2 - p1) * 1e-4f), unit(p2 - p1)), c1 = dot(unit(p2 - p1), unit(p3 - p2 + (p2 - p1) * 1e-4f));
    float ang = acosf(clampf(fminf(c0, c1), -1, 1));
    int k = std::min(5, std::max(1, (int)(ang / 0.13f + 0.6f)));
    for (int j = 1; j <= k; j++) {
      float t = (float)j / k, t2 = t * t, t3 = t2 * t;
      q.push_back((p1 * 2 + (p2 - p0) * t + (p0 * 2 - p1 * 5 + p2 * 4 - p3) * t2 + (p1 * 3 - p0 - p2 * 3 + p3) * t3) * 0.5f);
    }
  }
  // straight stretches become single shapes (up to a length that keeps boxes tight)
  std::vector<Vec3> c(1, q[0]);
  for (size_t i = 1; i + 1 < q.size(); i++) {
    Vec3 d0 = unit(q[i] - c.back()), d1 = unit(q[i + 1] - q[i]);
    if (dot(d0, d1) < 0.9997f || length(q[i + 1] - c.back()) > 14 * R + 10) c.push_back(q[i]);
  }
  c.push_back(q.back());
  int m = (int)c.size();
  std::vector<float> arc(m, 0.0f);
  for (int i = 1; i < m; i++) arc[i] = arc[i - 1] + length(c[i] - c[i - 1]);
  float L = arc.back();
  if (L < 1e-3f) return;
  std::vector<Vec3> u(m);
  Vec3 t0 = unit(c[1] - c[0]);
  float turn0 = rng.range(0, 2 * kPi);
  Vec3 n0 = normal_to(t0);
  u[0] = n0 * cosf(turn0) + cross(t0, n0) * sinf(turn0);
  for (int i = 1; i < m; i++) {
    Vec3 t = i + 1 < m ? unit(c[i + 1] - c[i]) : unit(c[i] - c[i - 1]);
    u[i] = unit(u[i - 1] - t * dot(u[i - 1], t));
  }

  // materials
  Material ins = blank(0);
  {
    int row = st.pigment >= 0 ? st.pigment : pigment_of(st.name);
    ins.base = ins.print = ins.second = ins.faded = pigment(row, st.shade);
    ins.colorName = st.name;
    ins.covering = st.covering;
    ins.instance = st.covering ? s.instance : 0;
    ins.specular = st.specular;
    ins.rough = st.rough;
    ins.fade0 = st.fade0;
    ins.fade1 = st.fade1;
    ins.len = L;
    ins.bump = st.bump;
    ins.tex = st.tex;
    ins.texScale = st.texScale;
    ins.texAmount = st.texAmount;
    if (st.fade0 + st.fade1 > 0) {
      if (st.name == kWhite) ins.faded = blend(row, pgBeige, 0.7f, st.shade * 0.85f);
      else ins.faded = blend(row, st.name == kBlack ? pgConcrete : pgPaper, st.name == kBlack ? 0.35f : 0.5f, st.shade);
    }
    ins.dirt = st.dirt;
    ins.dirtColor = st.dirt > 0 ? pigment(pgDirt) : 0;
    ins.dust = st.dust;
    ins.dustColor = st.dust > 0 ? pigment(pgDust, 0.9f) : 0;
    if (st.stripe != kNoStripe) {
      ins.stripe = st.stripe;
      ins.stripeName = st.stripeName;
      ins.second = named(st.stripeName);
      ins.stripeCount = st.stripeCount;
      ins.stripeWidth = st.stripeWidth;
      ins.stripePitch = st.stripePitch;
      ins.stripePhase = rng.u();
    }
    if (st.print > 0) {
      bool dark = st.name == kBlack || st.name == kBrown || st.name == kRed || st.name == kBlue || st.name == kViolet || st.name == kGreen;
      ins.print = dark ? pigment(pgPaper, 0.85f) : pigment(pgInk);
      ins.printStrength = st.print;
      ins.printHeight = fminf(R * rng.range(0.55f, 0.85f), 3.5f);
      ins.printPitch = rng.range(25, 90);
    }
  }
  bool anyMetal = st.bare || s.stripStart > 0 || s.stripEnd > 0;
  int metalMat = -1;
  if (anyMetal) {
    Material mt = mats[st.tinned ? tin() : copper()];
    mt.covering = kBare;
    mt.instance = s.instance;
    mt.colorName = kNoColor;
    mt.len = L;
    if (st.stranded) {
      mt.tex = kStranded;
      mt.texAmount = (float)rng.pick(8, 14);
      mt.texScale = st.gauge.metal * rng.range(1.2f, 2.5f);
    }
    mt.dirt = rng.chance(0.3f) ? rng.u() * 0.6f : 0;
    mt.dirtColor = pigment(pgDirt);
    metalMat = add(mt);
  }
  int insMat = add(ins);
  float Rm = st.gauge.metal * 0.5f;

  auto run = [&](float from, float to, float radius, int mat, bool flat0, bool flat1) {
    from = fmaxf(from, 0);
    to = fminf(to, L);
    if (to - from < 1e-3f) return;
    for (int i = 0; i + 1 < m; i++) {
      float a = fmaxf(from, arc[i]), b = fminf(to, arc[i + 1]);
      if (b - a < 1e-4f) continue;
      float w = arc[i + 1] - arc[i];
      Vec3 pa = lerp(c[i], c[i + 1], (a - arc[i]) / w), pb = lerp(c[i], c[i + 1], (b - arc[i]) / w);
      bool first = a <= from + 1e-4f && flat0, last = b >= to - 1e-4f && flat1;
      Prim p{};
      p.a = pa; p.b = pb; p.ra = p.rb = radius;
      p.u = u[i]; p.s0 = a; p.s1 = b; p.mat = mat;
      p.type = (first || last) ? kCone : kCapsule;
      if (p.type == kCone && (first != last)) {
        // flat only at the outer end: a round joint stays at the inner one
        Prim ball = p;
        ball.type = kCapsule;
        Vec3 j = first ? pb : pa;
        ball.a = ball.b = j;
        ball.s0 = ball.s1 = first ? b : a;
        if (b - a > radius * 0.5f && ((first && i + 2 < m) || (last && i > 0))) {
          ball.a = j; ball.b = j + unit(first ? pa - pb : pb - pa) * 0.01f;
          prims.push_back(ball);
        }
      }
      prims.push_back(p);
    }
  };
  if (st.bare) {
    run(0, L, Rm, metalMat, true, true);
  } else {
    float s0 = fminf(s.stripStart, L), s1 = fmaxf(L - s.stripEnd, s0);
    if (s0 > 0) run(0, s0 + 0.5f, Rm, metalMat, true, false);
    run(s0, s1, R, insMat, true, true);
    if (s.stripEnd > 0) run(s1 - 0.5f, L, Rm, metalMat, false, true);
  }
  for (const Sleeve& sl : s.sleeves) {
    float a = sl.s >= 0 ? sl.s : L + sl.s;
    mats[sl.mat].len = L;
    run(a, a + sl.len, (st.bare ? Rm : R) * sl.grow, sl.mat, true, true);
  }
}

void Builder::emit_ties() {
  for (const Tie& t : ties_) {
    // conductors that pass the plane of the tie within reach
    Vec3 lo = v3(1e9f, 1e9f, 0), hi = v3(-1e9f, -1e9f, 0);
    Vec3 U = normal_to(t.axis), V = cross(t.axis, U);
    int found = 0;
    float width = 0;
    for (const Strand& s : strands)
      for (size_t i = 0; i + 1 < s.nodes.size(); i++) {
        float a = dot(s.nodes[i] - t.p, t.axis), b = dot(s.nodes[i + 1] - t.p, t.axis);
        if ((a < 0) == (b < 0)) continue;
        Vec3 x = lerp(s.nodes[i], s.nodes[i + 1], a / (a - b)) - t.p;
        float px = dot(x, U), py = dot(x, V), r = s.style.gauge.outer * 0.5f;
        if (px * px + py * py > t.reach * t.reach) continue;
        lo.x = fminf(lo.x, px - r); hi.x = fmaxf(hi.x, px + r);
        lo.y = fminf(lo.y, py - r); hi.y = fmaxf(hi.y, py + r);
        width = fmaxf(width, r);
        found++;
      }
    if (!found) continue;
    Vec3 c = t.p + U * ((lo.x + hi.x) * 0.5f) + V * ((lo.y + hi.y) * 0.5f);
    float rx = (hi.x - lo.x) * 0.5f + 0.4f, ry = (hi.y - lo.y) * 0.5f + 0.4f;
    // superellipse ring of flat straps
    const int N = 24;
    float w = clampf(width * 0.8f, 1.2f, 3.5f);
    auto at = [&](int k) {
      float a = 2 * kPi * k / N, cx = cosf(a), sx = sinf(a);
      return c + U * (rx * (cx < 0 ? -1 : 1) * powf(fabsf(cx), 0.75f)) + V * (ry * (sx < 0 ? -1 : 1) * powf(fabsf(sx), 0.75f));
    };
    for (int k = 0; k < N; k++) {
      Vec3 a = at(k), b = at(k + 1), mid = (a + b) * 0.5f;
      Vec3 along = unit(b - a), out = unit(cross(along, t.axis));
      Quat q = axes(cross(t.axis, out), t.axis);
      Prim p{};
      p.type = kBox;
      p.a = mid; p.b = v3(length(b - a) * 0.56f, w, 0.55f); p.ra = 0.2f;
      p.u = v3(q.x, q.y, q.z); p.w = q.w; p.mat = t.mat;
      prims.push_back(p);
      if (k == 5) {
        p.a = mid + out * 1.2f;
        p.b = v3(w * 1.1f, w * 1.25f, 1.6f);
        prims.push_back(p);
      }
    }
  }
}

}  // namespace hp
