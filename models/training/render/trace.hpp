// The per-pixel work, for host and device: rays against shapes, surface patterns, light, labels.
#pragma once
#include "scene.hpp"

namespace hp {

/** Everything a pixel needs of its scene. */
struct SceneView {
  const Globals* g;
  const Prim* prims;
  const Node* nodes;
  const Material* mats;
  const Color* colors;
  const float* photos; int photoCount, photoSize;
};

struct Ray {
  Vec3 o, d;
};

struct Hit {
  float t;
  int prim;
};

/** Nearest intersection of ray and shape in (tmin, tmax), or -1. */
HP_HD inline float cut_capsule(const Prim& p, const Ray& r, float tmin, float tmax) {
  Vec3 oa = r.o - p.a, ba = p.b - p.a;
  float h2 = dot(ba, ba);
  float best = -1;
  float vv = 1;
  if (h2 > 1e-8f) {
    float bard = dot(ba, r.d), baoa = dot(ba, oa);
    float a = h2 * vv - bard * bard;
    float b = h2 * dot(r.d, oa) - baoa * bard;
    float c = h2 * (dot(oa, oa) - p.ra * p.ra) - baoa * baoa;
    float disc = b * b - a * c;
    if (disc < 0) return -1;
    if (a > 1e-9f * h2) {
      float t = (-b - sqrtf(disc)) / a;
      float y = baoa + t * bard;
      if (y > 0 && y < h2) return (t > tmin && t < tmax) ? t : -1;
    }
  }
  for (int k = 0; k < 2; k++) {
    Vec3 oc = k ? r.o - p.b : oa;
    float b = dot(r.d, oc), c = dot(oc, oc) - p.ra * p.ra;
    float disc = b * b - c;
    if (disc > 0) {
      float t = -b - sqrtf(disc);
      if (t > tmin && t < tmax && (best < 0 || t < best)) best = t;
    }
  }
  return best;
}

/** Frustum with caps (kCone) or without (kTube). */
HP_HD inline float cut_cone(const Prim& p, const Ray& r, float tmin, float tmax, bool caps) {
  Vec3 axis = p.b - p.a;
  float h = length(axis);
  if (h < 1e-6f) return -1;
  axis = axis * (1 / h);
  Vec3 oa = r.o - p.a;
  float k = (p.rb - p.ra) / h, oy = dot(oa, axis), vy = dot(r.d, axis);
  float best = -1;
  float A = 1 - vy * vy * (1 + k * k), B = dot(oa, r.d) - oy * vy - k * vy * (p.ra + k * oy);
  float q = p.ra + k * oy, C = dot(oa, oa) - oy * oy - q * q;
  if (fabsf(A) > 1e-9f) {
    float disc = B * B - A * C;
    if (disc >= 0) {
      float s = sqrtf(disc);
      for (int i = 0; i < 2; i++) {
        float t = (-B + (i ? s : -s) * (A > 0 ? 1.0f : -1.0f)) / A;
        float y = oy + t * vy;
        if (t > tmin && t < tmax && y >= 0 && y <= h && p.ra + k * y >= 0) {
          best = t;
          break;
        }
      }
    }
  }
  if (caps && fabsf(vy) > 1e-7f) {
    for (int i = 0; i < 2; i++) {
      float t = ((i ? h : 0) - oy) / vy;
      if (t > tmin && t < tmax && (best < 0 || t < best)) {
        Vec3 q3 = oa + r.d * t - axis * (i ? h : 0);
        float rr = i ? p.rb : p.ra;
        if (dot(q3, q3) <= rr * rr) best = t;
      }
    }
  }
  return best;
}

HP_HD inline Quat box_turn(const Prim& p) {
  Quat q;
  q.x = p.u.x; q.y = p.u.y; q.z = p.u.z; q.w = p.w;
  return q;
}

HP_HD inline float cut_box(const Prim& p, const Ray& r, float tmin, float tmax) {
  Quat q = box_turn(p);
  Vec3 o = unrotate(q, r.o - p.a), d = unrotate(q, r.d);
  float t0 = -1e30f, t1 = 1e30f;
  const float* op = &o.x; const float* dp = &d.x; const float* hp_ = &p.b.x;
  for (int i = 0; i < 3; i++) {
    float inv = 1 / (fabsf(dp[i]) > 1e-12f ? dp[i] : 1e-12f);
    float a = (-hp_[i] - op[i]) * inv, b = (hp_[i] - op[i]) * inv;
    if (a > b) { float s = a; a = b; b = s; }
    if (a > t0) t0 = a;
    if (b < t1) t1 = b;
  }
  if (t0 > t1) return -1;
  if (t0 > tmin) return t0 < tmax ? t0 : -1;
  return (t1 > tmin && t1 < tmax) ? t1 : -1;
}

HP_HD inline float cut(const Prim& p, const Ray& r, float tmin, float tmax) {
  switch (p.type) {
    case kCapsule: return cut_capsule(p, r, tmin, tmax);
    case kCone: return cut_cone(p, r, tmin, tmax, true);
    case kTube: return cut_cone(p, r, tmin, tmax, false);
    default: return cut_box(p, r, tmin, tmax);
  }
}

HP_HD inline bool enter(const Node& n, Vec3 o, Vec3 inv, float tmax, float* tn) {
  float ax = (n.lo.x - o.x) * inv.x, bx = (n.hi.x - o.x) * inv.x;
  float ay = (n.lo.y - o.y) * inv.y, by = (n.hi.y - o.y) * inv.y;
  float az = (n.lo.z - o.z) * inv.z, bz = (n.hi.z - o.z) * inv.z;
  float t0 = fmaxf(fmaxf(fminf(ax, bx), fminf(ay, by)), fmaxf(fminf(az, bz), 0.0f));
  float t1 = fminf(fminf(fmaxf(ax, bx), fmaxf(ay, by)), fminf(fmaxf(az, bz), tmax));
  *tn = t0;
  return t0 <= t1;
}

/** Nearest hit (any = false) or any hit (shadow and occlusion rays). prim < 0: none. */
HP_HD inline Hit trace(const SceneView& s, const Ray& r, float tmin, float tmax, bool any) {
  Hit h;
  h.t = tmax;
  h.prim = -1;
  Vec3 inv = v3(1 / (fabsf(r.d.x) > 1e-9f ? r.d.x : 1e-9f), 1 / (fabsf(r.d.y) > 1e-9f ? r.d.y : 1e-9f),
                1 / (fabsf(r.d.z) > 1e-9f ? r.d.z : 1e-9f));
  int stack[40];
  int top = 0;
  float tn;
  if (!enter(s.nodes[0], r.o, inv, h.t, &tn)) return h;
  int node = 0;
  for (;;) {
    const Node& n = s.nodes[node];
    if (n.count > 0) {
      for (int i = 0; i < n.count; i++) {
        float t = cut(s.prims[n.first + i], r, tmin, h.t);
        if (t > 0) {
          h.t = t;
          h.prim = n.first + i;
          if (any) return h;
        }
      }
    } else {
      float ta, tb;
      bool a = enter(s.nodes[n.first], r.o, inv, h.t, &ta), b = enter(s.nodes[n.first + 1], r.o, inv, h.t, &tb);
      if (a && b) {
        int near = n.first, far = n.first + 1;
        if (tb < ta) { near = n.first + 1; far = n.first; }
        if (top < 40) stack[top++] = far;
        node = near;
        continue;
      }
      if (a || b) {
        node = a ? n.first : n.first + 1;
        continue;
      }
    }
    if (top == 0) return h;
    node = stack[--top];
  }
}

/** What a hit looks like before light: a mixture of colors, normal and gloss. */
struct Surface {
  Vec3 p, n;
  int idx[5]; float w[5]; int count;   // colors and weights
  float gain;                          // on the whole mixture
  Vec3 photo; float photoWeight;       // photographic reflectance, replaces the mixture by this share
  float specular, rough, metal;
  int covering, instance, colorName, stripe;
  Vec3 axis, axisPoint; float radius;  // conductors
  int mat;
};

HP_HD inline void layer(Surface& s, int color, float w) {
  if (w <= 0.002f) return;
  for (int i = 0; i < s.count; i++) s.w[i] *= 1 - w;
  if (s.count < 5) {
    s.idx[s.count] = color;
    s.w[s.count] = w;
    s.count++;
  } else {
    s.w[4] += w;  // near enough: counted to the topmost
  }
}

/** 1 inside a made-up sign of a text line: cell of unit size, 5 x 7 dots drawn by hash with connected strokes. */
HP_HD inline float glyph(float x, float y, uint32_t seed) {
  float cx = floorf(x);
  float fx = (x - cx) * 6, fy = y * 7;
  if (fx < 0.3f || fx > 5.2f || fy < 0 || fy >= 7) return 0;
  uint32_t h = hash1((uint32_t)(int)cx * 747796405u + seed);
  if ((h & 7) == 0) return 0;  // space
  int kx = (int)(fx / 1.75f), ky = (int)(fy / 1.4f);
  uint32_t bits = hash1(h) | 0x4210u * (h >> 5 & 1) | (h >> 6 & 1) * 0x7fu;
  float in = ((bits >> (kx + 3 * ky)) & 1) ? 1.0f : 0.0f;
  return in;
}

/** Fills pattern-dependent parts for generic surfaces: q local point in mm (third axis out of the face). */
HP_HD inline void pattern(const SceneView& sv, const Material& m, Surface& s, Vec3 q, Vec3& bumpN, int face) {
  float a = m.texAmount, sc = m.texScale;
  uint32_t seed = m.seed + (uint32_t)face * 977u;
  switch (m.tex) {
    case kPlain: break;
    case kBrushed: {
      float n = noise3(v3(q.x / sc * 0.15f, q.y / sc * 12, 0), seed) - 0.5f;
      s.gain *= 1 + a * n;
      bumpN.y += 0.15f * a * n;
      break;
    }
    case kGalvanized: {
      // patches of differently turned zinc crystals
      Vec3 w = q * (1 / sc);
      int best = 0; float bd = 9;
      int ix = (int)floorf(w.x), iy = (int)floorf(w.y);
      for (int j = -1; j < 2; j++)
        for (int i = -1; i < 2; i++) {
          uint32_t h = hash3(ix + i, iy + j, 0, seed);
          float dx = ix + i + u01(h) - w.x, dy = iy + j + u01(hash1(h)) - w.y;
          float d = dx * dx + dy * dy;
          if (d < bd) { bd = d; best = (int)h; }
        }
      float v = u01((uint32_t)best * 31u) - 0.5f;
      s.gain *= 1 + a * v + 0.3f * a * (fbm3(q * (6 / sc), seed) - 0.5f);
      bumpN.x += 0.12f * a * (u01(hash1((uint32_t)best)) - 0.5f);
      bumpN.y += 0.12f * a * v;
      break;
    }
    case kPainted: case kConcrete: {
      float n = fbm3(q * (1 / sc), seed);
      layer(s, m.second, sat((n - 0.45f) * 2.2f) * a);
      float e = fbm3(q * (7 / sc), seed + 9) - 0.5f;
      s.gain *= 1 + a * 0.35f * e;
      bumpN.x += a * 0.25f * e;
      break;
    }
    case kWood: {
      float warp = fbm3(v3(q.x / sc * 0.12f, q.y / sc * 0.8f, 0), seed);
      float ring = fractf(q.y / sc * 0.55f + warp * 3.5f);
      float grain = noise3(v3(q.x / sc * 0.6f, q.y / sc * 14, 0), seed + 3);
      layer(s, m.second, sat(a * (0.65f * smooth(0.2f, 0.95f, ring) + 0.5f * (grain - 0.4f))));
      break;
    }
    case kBrick: {
      float ry = q.y / sc;
      int row = (int)floorf(ry);
      float rx = q.x / (sc * 3) + (row & 1) * 0.5f;
      float fx = fractf(rx) * 3, fy = fractf(ry);
      float e = fminf(fminf(fx, 3 - fx), fminf(fy, 1 - fy)) + 0.05f * (fbm3(q * (8 / sc), seed) - 0.5f);
      layer(s, m.second, 1 - smooth(0.05f, 0.09f, e));
      s.gain *= 0.75f + 0.5f * u01(hash3((int)floorf(rx), row, 0, seed)) * 0.7f + 0.25f * (fbm3(q * (5 / sc), seed) - 0.5f);
      bumpN.y += (e < 0.09f) ? (fy < 0.5f ? -0.35f : 0.35f) : 0;
      break;
    }
    case kCardboard: {
      float f = sinf(q.x / sc * 6.2832f);
      s.gain *= 1 + a * 0.12f * f + a * 0.25f * (fbm3(v3(q.x / sc, q.y / sc * 0.3f, 0), seed) - 0.5f);
      break;
    }
    case kCloth: case kCarpet: {
      float u = q.x / sc * 6.2832f, v = q.y / sc * 6.2832f;
      float n = fbm3(q * (1.7f / sc), seed);
      float f = m.tex == kCloth ? 0.5f * (sinf(u) * sinf(v)) : 1.4f * (n - 0.5f);
      s.gain *= 1 + a * f;
      layer(s, m.second, a * sat(fbm3(q * (0.05f / sc), seed + 5) * 2 - 0.8f));
      bumpN.x += 0.35f * a * (m.tex == kCloth ? cosf(u) * sinf(v) : n - 0.5f);
      break;
    }
    case kBoard: {
      // traces: lanes that run along x or y by region, pads
      float c = sc;
      int bx = (int)floorf(q.x / (c * 8)), by = (int)floorf(q.y / (c * 8));
      uint32_t h = hash3(bx, by, 0, seed);
      float u = (h & 1) ? q.x : q.y, v = (h & 1) ? q.y : q.x;
      float lane = fractf(u / c);
      uint32_t hl = hash3((int)floorf(u / c), (int)floorf(v / (c * 8)), 1, seed);
      float on = (hl & 3) ? smooth(0.2f, 0.24f, lane) * (1 - smooth(0.55f, 0.6f, lane)) : 0;
      layer(s, m.second, 0.55f * on);
      float px = fractf(q.x / (c * 2)) - 0.5f, py = fractf(q.y / (c * 2)) - 0.5f;
      uint32_t hp2 = hash3((int)floorf(q.x / (c * 2)), (int)floorf(q.y / (c * 2)), 2, seed);
      float pr = px * px + py * py;
      if ((hp2 & 7) == 0 && pr < 0.04f) layer(s, m.print, pr < 0.01f ? 0.1f : 0.95f);
      if ((hp2 & 31) == 9) layer(s, m.print, 0.8f * glyph((q.x / c) * 1.4f, fractf(q.y / (c * 2)) * 2, seed));
      break;
    }
    case kLabel: {
      float lh = sc;
      float line = q.y / (lh * 1.7f);
      float fy = fractf(line) * 1.7f;
      uint32_t hl = hash3((int)floorf(line), 0, 3, seed);
      if (fy < 1 && (hl & 7) != 0) {
        float x = q.x / (lh * 0.75f);
        float stop = 14 * u01(hash1(hl)) + 2;
        if (fabsf(x) < stop) layer(s, m.print, glyph(x, 1 - fy, hl) * 0.92f);
      }
      break;
    }
    case kPhoto: {
      if (sv.photos && m.photo >= 0 && m.photo < sv.photoCount) {
        float u = fabsf(fractf((q.x / sc + u01(m.seed)) * 0.5f) * 2 - 1), v = fabsf(fractf((q.y / sc + u01(hash1(m.seed))) * 0.5f) * 2 - 1);
        int S = sv.photoSize;
        float x = u * (S - 1), y = v * (S - 1);
        int ix = (int)x, iy = (int)y;
        ix = ix > S - 2 ? S - 2 : ix; iy = iy > S - 2 ? S - 2 : iy;
        float fx = x - ix, fy = y - iy;
        float out[3];
        for (int k = 0; k < 3; k++) {
          const float* b = sv.photos + ((size_t)m.photo * 3 + k) * S * S + (size_t)iy * S + ix;
          out[k] = mixf(mixf(b[0], b[1], fx), mixf(b[S], b[S + 1], fx), fy);
        }
        s.photo = v3(out[0], out[1], out[2]);
        s.photoWeight = 1;
      }
      break;
    }
    case kRibs: {
      float f = fractf(q.x / sc);
      float w = 6.2832f * f;
      bumpN.x += a * sinf(w);
      s.gain *= 1 - 0.25f * a * (0.5f + 0.5f * cosf(w));
      break;
    }
    case kStripesTex: {
      float f = fractf((q.x + q.y) / sc);
      layer(s, m.second, (f < 0.5f ? 1.0f : 0.0f) * a);
      break;
    }
    case kSkin: {
      float n = fbm3(q * (1 / sc), seed);
      float fine = noise3(q * (9 / sc), seed + 4) - 0.5f;
      layer(s, m.second, a * sat(n * 1.5f - 0.5f));
      s.gain *= 1 + 0.15f * a * fine;
      bumpN.x += 0.25f * a * fine;
      break;
    }
    case kGrid: {
      float fx = fractf(q.x / sc), fy = fractf(q.y / sc);
      float e = fminf(fminf(fx, 1 - fx), fminf(fy, 1 - fy));
      layer(s, m.second, (1 - smooth(0.5f * a * 0.2f, 0.6f * a * 0.2f, e)));
      break;
    }
    default: break;
  }
  if (m.dirt > 0) {
    float n = fbm3(q * 0.045f, seed + 21) * 0.75f + 0.25f * noise3(q * 0.5f, seed + 22);
    layer(s, m.dirtColor, m.dirt * sat((n - 0.4f) * 3));
  }
}

/** Describes what the ray met. `pixel`: size of a pixel there in mm, fades fine patterns. */
HP_HD inline Surface describe(const SceneView& sv, const Ray& r, const Hit& h, float pixel) {
  const Prim& p = sv.prims[h.prim];
  const Material& m = sv.mats[p.mat];
  Surface s;
  s.p = r.o + r.d * h.t;
  s.mat = p.mat;
  s.idx[0] = m.base; s.w[0] = 1; s.count = 1;
  s.gain = 1; s.photoWeight = 0; s.photo = v3(0, 0, 0);
  s.specular = m.specular; s.rough = m.rough; s.metal = m.metal;
  s.covering = m.covering; s.instance = m.instance; s.colorName = m.colorName; s.stripe = 0;
  s.axis = v3(0, 0, 0); s.axisPoint = s.p; s.radius = 0;
  if (p.type == kBox) {
    Quat q = box_turn(p);
    Vec3 l = unrotate(q, s.p - p.a);
    Vec3 e = v3(p.b.x - fabsf(l.x), p.b.y - fabsf(l.y), p.b.z - fabsf(l.z));
    int face = (e.x <= e.y && e.x <= e.z) ? 0 : (e.y <= e.z ? 1 : 2);
    Vec3 sg = v3(l.x > 0 ? 1.f : -1.f, l.y > 0 ? 1.f : -1.f, l.z > 0 ? 1.f : -1.f);
    Vec3 n = face == 0 ? v3(sg.x, 0, 0) : (face == 1 ? v3(0, sg.y, 0) : v3(0, 0, sg.z));
    Vec3 lp = face == 0 ? v3(l.y, l.z, l.x) : (face == 1 ? v3(l.x, l.z, l.y) : l);
    Vec3 bump = v3(0, 0, 0);
    pattern(sv, m, s, lp, bump, face * 2 + (face == 0 ? sg.x > 0 : face == 1 ? sg.y > 0 : sg.z > 0));
    float bv = p.ra;
    if (bv > 0) {
      if (face != 0 && e.x < bv) n.x += sg.x * (1 - e.x / bv) * 0.8f;
      if (face != 1 && e.y < bv) n.y += sg.y * (1 - e.y / bv) * 0.8f;
      if (face != 2 && e.z < bv) n.z += sg.z * (1 - e.z / bv) * 0.8f;
    }
    if (face == 0) { n.y += bump.x; n.z += bump.y; }
    else if (face == 1) { n.x += bump.x; n.z += bump.y; }
    else { n.x += bump.x; n.y += bump.y; }
    s.n = unit(rotate(q, n));
  } else {
    Vec3 ba = p.b - p.a;
    float h2 = dot(ba, ba);
    float len = sqrtf(h2);
    Vec3 ax = len > 1e-5f ? ba * (1 / len) : v3(0, 0, 1);
    float yraw = len > 1e-5f ? dot(s.p - p.a, ax) : 0;
    float y = clampf(yraw, 0, len);
    Vec3 c = p.a + ax * y;
    Vec3 rad = s.p - c;
    float k = len > 1e-5f ? (p.rb - p.ra) / len : 0;
    bool cap = false;
    if (p.type == kCapsule) {
      s.n = unit(rad);
    } else {
      float rr = p.ra + k * y;
      float rl = length(rad);
      if (p.type == kCone && rl < rr * 0.995f - 1e-4f && (y < 1e-3f * len + 1e-4f || y > len * 0.999f - 1e-4f)) {
        s.n = y < len * 0.5f ? -ax : ax;
        cap = true;
      } else {
        s.n = unit(unit(rad) - ax * k);
      }
    }
    float radius = p.type == kCapsule ? p.ra : p.ra + k * y;
    s.axis = ax; s.axisPoint = c; s.radius = radius;
    float arc = p.s0 + (len > 1e-5f ? y / len : 0) * (p.s1 - p.s0);
    Vec3 v = cross(ax, p.u);
    float phi = atan2f(dot(rad, v), dot(rad, p.u));
    if (cap) {
      Vec3 bump = v3(0, 0, 0);
      pattern(sv, m, s, v3(dot(rad, p.u), dot(rad, v), 0), bump, 7);
      if (s.n.x * r.d.x + s.n.y * r.d.y + s.n.z * r.d.z > 0) s.n = -s.n;
    } else if (m.covering != kBackground || m.tex == kStranded || m.tex == kRope || m.stripe != kNoStripe) {
      float around = phi * radius;
      // fading toward the sky-lit, old end
      float f = mixf(m.fade0, m.fade1, sat(arc / m.len));
      if (f > 0) layer(s, m.faded, f * (0.75f + 0.5f * noise3(v3(arc * 0.03f, phi * 0.6f, 0), m.seed)));
      if (m.stripe != kNoStripe) {
        float mask = 0;
        float soft = 0.6f * pixel;
        if (m.stripe == kAlong || m.stripe == kHalves) {
          float turns = m.stripePitch > 0 ? arc / m.stripePitch : 0;
          float x = fractf((phi / (2 * kPi) + m.stripePhase + turns) * m.stripeCount);
          float d = fabsf(x - 0.5f), half = 0.5f * m.stripeWidth, sf = soft * m.stripeCount / (2 * kPi * radius) + 0.01f;
          mask = 1 - smooth(half - sf, half + sf, d);
        } else if (m.stripe == kSpiral) {
          float x = fractf(arc / m.stripePitch + phi / (2 * kPi) + m.stripePhase);
          float d = fabsf(x - 0.5f), half = 0.5f * m.stripeWidth, sf = soft / m.stripePitch + 0.01f;
          mask = 1 - smooth(half - sf, half + sf, d);
        } else {
          float x = fractf(arc / m.stripePitch + m.stripePhase);
          float d = fabsf(x - 0.5f), half = 0.5f * m.stripeWidth, sf = soft / m.stripePitch + 0.01f;
          mask = 1 - smooth(half - sf, half + sf, d);
        }
        layer(s, m.second, mask);
        int layout = m.stripe == kSpiral ? 1 : m.stripe == kRings ? 2 : 0;
        if (mask > 0.5f && m.covering != kBackground) s.stripe = 1 + m.stripeName + 16 * layout;
      }
      if (m.printStrength > 0) {
        float vph = around / m.printHeight + 0.5f;
        if (vph > 0 && vph < 1 && cosf(phi) > 0) {
          float x = arc / (m.printHeight * 0.8f);
          float word = floorf(arc / m.printPitch);
          if (u01(hash1((uint32_t)(int)word + m.seed)) < 0.7f) {
            float ink = m.printStrength * glyph(x, vph, m.seed) * sat(1.6f - pixel / m.printHeight * 3);
            layer(s, m.print, ink);
            if (ink > 0.35f && m.covering == kInsulated) s.stripe = kPrintLabel;
          }
        }
      }
      if (m.tex == kStranded || m.tex == kRope) {
        // twisted strands: a sawtooth of normals across, with pitch along
        float lanes = m.texAmount;  // strands seen round
        float x = fractf((phi / (2 * kPi)) * lanes + arc / m.texScale * lanes * 0.16f);
        float fade = sat(1.5f - pixel * lanes / (2 * kPi * radius) * 2);
        Vec3 tdir = cross(s.n, ax);
        s.n = unit(s.n + tdir * ((0.5f - x) * -1.5f * fade) + ax * ((0.5f - x) * 0.4f * fade));
        s.gain *= 1 - 0.5f * fade * smooth(0.30f, 0.5f, fabsf(x - 0.5f));
        if (m.tex == kRope) layer(s, m.second, 0.6f * fbm3(v3(arc * 2, around * 2, 0), m.seed));
      } else if (m.tex == kRibs) {
        float w = 6.2832f * arc / m.texScale, fade = sat(1.5f - 3 * pixel / m.texScale);
        s.n = unit(s.n + ax * (m.texAmount * sinf(w) * fade));
        s.gain *= 1 - 0.3f * m.texAmount * (0.5f + 0.5f * cosf(w));
      } else if (m.bump > 0) {
        // slightly uneven extrusion
        float e = noise3(v3(arc * 0.25f, phi, 3), m.seed) - 0.5f;
        s.n = unit(s.n + ax * (m.bump * e));
      }
      if (m.dirt > 0) {
        float n = 0.65f * fbm3(v3(arc * 0.06f, phi * 0.8f, 0), m.seed + 7) + 0.35f * fbm3(v3(arc * 0.6f, phi * 2, 0), m.seed + 8);
        float d = sat((n - 0.42f) * 3) * m.dirt;
        layer(s, m.dirtColor, d);
        s.specular *= 1 - d;
      }
      if (m.dust > 0) {
        float d = m.dust * sat(0.3f + 0.7f * dot(s.n, sv.g->envUp)) * (0.6f + 0.8f * noise3(v3(arc * 0.2f, phi, 1), m.seed));
        d = sat(d);
        layer(s, m.dustColor, d);
        s.specular *= 1 - d;
        s.rough = mixf(s.rough, 0.9f, d);
      }
    } else {
      Vec3 bump = v3(0, 0, 0);
      pattern(sv, m, s, v3(arc == p.s0 && p.s1 == p.s0 ? y : arc, phi * radius, 0), bump, 0);
      s.n = unit(s.n + ax * bump.x + cross(s.n, ax) * bump.y);
    }
  }
  if (dot(s.n, r.d) > 0 && (p.type == kTube)) s.n = -s.n;
  return s;
}

/** Reflectance under a lamp (times that lamp's white). */
HP_HD inline Vec3 reflectance(const SceneView& sv, const Surface& s, int lamp, Vec3 white) {
  Vec3 c = v3(0, 0, 0);
  for (int i = 0; i < s.count; i++) c += sv.colors[s.idx[i]].c[lamp] * s.w[i];
  c = c * s.gain;
  if (s.photoWeight > 0) c = lerp(c, s.photo * white * s.gain, s.photoWeight);
  return c;
}

/** Two numbers in [0,1) for sample i of n at a pixel: an R2 sequence shifted by the pixel's hash. */
HP_HD inline void pair(uint32_t pixelHash, int dim, int i, float* a, float* b) {
  uint32_t h = hash1(pixelHash + (uint32_t)dim * 0x9e3779b9u);
  *a = fractf(u01(h) + 0.7548776662f * i);
  *b = fractf(u01(hash1(h)) + 0.5698402910f * i);
}

/** Radiance of the surroundings along d, for gloss and open sky. */
HP_HD inline float surroundings(const Globals& g, Vec3 d, bool gloss, float rough) {
  float v = mixf(g.envBottom, g.envTop, 0.5f + 0.5f * dot(d, g.envUp));
  if (gloss) v += g.softboxPower * smooth(0.93f - 0.5f * rough, 0.99f, dot(d, g.softbox)) * (1 - 0.8f * rough);
  return v;
}

/** Light of one sample: `lit` with shadows and occlusion, `open` without (for the ratio filter). */
struct Shade {
  Vec3 lit, open;
};

HP_HD inline Shade shade(const SceneView& sv, const Ray& r, const Surface& s, uint32_t pixelHash, int sample) {
  const Globals& g = *sv.g;
  Shade o;
#ifdef HP_FLAT
  // For the ablation: painted shapes, darker toward their rims, without shadow, gloss or returned light.
  float level = 0.5f * (g.envTop + g.envBottom);
  for (int i = 0; i < g.lightCount; i++) level += 0.6f * g.lights[i].power;
  o.lit = o.open = reflectance(sv, s, 0, g.envWhite) * (level * (0.3f + 0.7f * fmaxf(0.0f, -dot(s.n, r.d))));
  return o;
#endif
  Vec3 view = -r.d;
  Vec3 n = s.n;
  float nv = dot(n, view);
  if (nv < 0.05f) { n = unit(n + view * (0.05f - nv)); nv = 0.05f; }
  float a = fmaxf(s.rough * s.rough, 0.004f), a2 = a * a;
  float eps = 0.02f + 1e-4f * length(s.p - g.cam.pos);
  Vec3 start = s.p + s.n * eps;

  // ambient: one cosine-weighted occlusion ray
  Vec3 albedo0 = reflectance(sv, s, 0, g.envWhite);
  float ra, rb;
  pair(pixelHash, 1, sample, &ra, &rb);
  Vec3 t = normal_to(s.n), b = cross(s.n, t);
  float rr = sqrtf(ra), ph = 2 * kPi * rb;
  Ray ao;
  ao.o = start;
  ao.d = unit(t * (rr * cosf(ph)) + b * (rr * sinf(ph)) + s.n * sqrtf(fmaxf(1 - ra, 0.001f)));
  Hit ah = trace(sv, ao, 0, g.aoRange, false);
  float skyHere = mixf(g.envBottom, g.envTop, 0.5f + 0.5f * dot(s.n, g.envUp));
  Vec3 incoming;
  float open = 1;
  if (ah.prim < 0) {
    incoming = g.envWhite * surroundings(g, ao.d, false, 1);
  } else {
    const Material& am = sv.mats[sv.prims[ah.prim].mat];
    float near = ah.t / g.aoRange;
    incoming = sv.colors[am.base].c[0] * ((g.bounce + (1 - g.bounce) * near * near) * (0.5f * (g.envTop + g.envBottom)));
    open = near * near;
  }
  Vec3 openIn = g.envWhite * fmaxf(skyHere, 0.02f * g.envTop + 1e-5f);
  float diffuse = 1 - s.metal;
  o.lit = albedo0 * incoming * diffuse;
  o.open = albedo0 * openIn * diffuse;

  // gloss of the surroundings
  Vec3 refl = n * (2 * nv) - view;
  float fres = s.specular + (1 - s.specular) * powf(1 - nv, 5) * (1 - s.rough) * 0.6f;
  float envGloss = surroundings(g, refl, true, s.rough);
  Vec3 specTint = s.metal > 0 ? lerp(g.envWhite, albedo0, s.metal) : g.envWhite;
  float strength = mixf(fres, 0.9f, s.metal);
  Vec3 eg = specTint * (envGloss * strength);
  o.open += eg;
  if (s.metal > 0 && ah.prim >= 0) o.lit += eg * mixf(1.0f, 0.35f + 0.65f * open, 0.9f);
  else o.lit += eg * (0.25f + 0.75f * open);

  for (int i = 0; i < g.lightCount; i++) {
    const Light& L = g.lights[i];
    float la, lb;
    pair(pixelHash, 2 + i, sample, &la, &lb);
    Vec3 to = unit(L.pos - s.p), lt = normal_to(to), lbv = cross(to, lt);
    float lr = L.radius * sqrtf(la), lp = 2 * kPi * lb;
    Vec3 q = L.pos + lt * (lr * cosf(lp)) + lbv * (lr * sinf(lp));
    Vec3 d = q - s.p;
    float dist = length(d);
    d = d * (1 / dist);
    float nl = dot(n, d), nlo = dot(n, to);
    if (nl <= 0 && nlo <= 0) continue;
    nl = fmaxf(nl, 0);
    nlo = fmaxf(nlo, 0);
    float fall = L.range / dist;
    float E = L.power * fall * fall;
    if (L.cosOut > -1) {
      float cs = -dot(to, L.dir);
      float spot = smooth(L.cosOut, L.cosIn, cs);
      E *= 0.06f + 0.94f * spot;
    }
    if (E < 1e-4f) continue;
    Vec3 albedo = reflectance(sv, s, L.lamp, L.white);
    Vec3 hv = unit(to + view);
    float nh = sat(dot(n, hv)), vh = sat(dot(view, hv));
    float al = fminf(a + 0.35f * L.radius / fmaxf(dist, 1.0f), 1.0f), al2 = al * al;
    float den = nh * nh * (al2 - 1) + 1;
    float D = a2 > 0 ? al2 / (kPi * den * den) : 0;
    float F = s.specular + (1 - s.specular) * powf(1 - vh, 5);
    float G = 1 / (4 * fmaxf(nlo * nv, 0.05f)) * fminf(1.0f, fminf(2 * nh * nv, 2 * nh * nlo) / fmaxf(vh, 1e-3f));
    float spec = fminf(D * G * nlo * mixf(F, 0.8f, s.metal) * (a / al) * (a / al) * kPi, 60.0f);
    Vec3 tint = s.metal > 0 ? lerp(L.white, albedo, s.metal) : L.white;
    Vec3 sp = tint * (E * spec);
    o.open += albedo * (E * nlo * diffuse) + sp;
    if (nl > 0) {
      Ray sr;
      sr.o = start;
      sr.d = d;
      if (trace(sv, sr, 0, dist, true).prim < 0) o.lit += albedo * (E * nl * diffuse) + sp;
    }
    // light that comes back from near surfaces lit by this lamp
    if (ah.prim >= 0) {
      const Material& am = sv.mats[sv.prims[ah.prim].mat];
      o.lit += albedo * sv.colors[am.base].c[L.lamp] * (0.18f * g.bounce * E * diffuse);
    }
  }
  if (sv.mats[s.mat].glow > 0) {
    Vec3 e = albedo0 * sv.mats[s.mat].glow;
    o.lit += e;
    o.open += e;
  }
  return o;
}

/** Radiance where nothing is hit. */
HP_HD inline Vec3 backdrop(const SceneView& sv, float sx, float sy) {
  const Globals& g = *sv.g;
  if (g.backdropPhoto >= 0 && sv.photos && g.backdropPhoto < sv.photoCount) {
    int S = sv.photoSize;
    int x = (int)clampf((sx * 0.5f + 0.5f) * (S - 1), 0, S - 1), y = (int)clampf((sy * 0.5f + 0.5f) * (S - 1), 0, S - 1);
    const float* b = sv.photos + (size_t)g.backdropPhoto * 3 * S * S + (size_t)y * S + x;
    size_t st = (size_t)S * S;
    return v3(b[0] * g.backdrop.x, b[st] * g.backdrop.y, b[2 * st] * g.backdrop.z);
  }
  return g.backdrop * (0.85f - 0.15f * sy);
}

/** One pixel of every plane. */
struct PixelOut {
  Vec3 lit, open, normal;
  float depth;
  int covering, instance, color, stripe;
  float geometry[4];
};

HP_HD inline Ray primary(const Camera& c, float px, float py, float size, float la, float lb) {
  float x = (px / size * 2 - 1) * c.tanHalf, y = (1 - py / size * 2) * c.tanHalf;
  Vec3 d = c.fwd + c.right * x + c.up * y;
  Ray r;
  r.o = c.pos;
  if (c.lens > 0) {
    Vec3 f = c.pos + d * c.focus;
    float rr = c.lens * sqrtf(la), ph = 2 * kPi * lb;
    r.o = c.pos + c.right * (rr * cosf(ph)) + c.up * (rr * sinf(ph));
    d = f - r.o;
  }
  r.d = unit(d);
  return r;
}

HP_HD inline PixelOut render_pixel(const SceneView& sv, int x, int y, int size, int samples) {
  const Globals& g = *sv.g;
  const Camera& cam = g.cam;
  PixelOut o;
  o.lit = o.open = v3(0, 0, 0);
  o.covering = 0; o.instance = 0; o.color = kNoColor; o.stripe = 0; o.depth = 0;
  o.normal = v3(0, 0, 0);
  o.geometry[0] = o.geometry[1] = o.geometry[2] = o.geometry[3] = 0;
  uint32_t ph = hash3(x, y, 0, g.seed);
  float pixelAngle = 2 * cam.tanHalf / size;
  // labels: pinhole ray through the center
  Ray c = primary(cam, x + 0.5f, y + 0.5f, (float)size, 0, 0);
  c.o = cam.pos;
  {
    float u = ((x + 0.5f) / size * 2 - 1) * cam.tanHalf, v = (1 - (y + 0.5f) / size * 2) * cam.tanHalf;
    c.d = unit(cam.fwd + cam.right * u + cam.up * v);
  }
  Hit h = trace(sv, c, 0, 1e6f, false);
  if (h.prim >= 0) {
    Surface s = describe(sv, c, h, pixelAngle * h.t);
    o.depth = h.t * dot(c.d, cam.fwd);
    o.normal = s.n;
    o.covering = s.covering;
    o.instance = s.covering ? s.instance : 0;
    if (s.covering) {
      o.color = s.colorName;
      o.stripe = s.stripe;
      Vec3 pa = s.axisPoint - cam.pos;
      float z = fmaxf(dot(pa, cam.fwd), 1e-3f), f = size * 0.5f / cam.tanHalf;
      float ix = dot(pa, cam.right) / z, iy = -dot(pa, cam.up) / z;
      float az = dot(s.axis, cam.fwd);
      float dx = dot(s.axis, cam.right) - ix * az, dy = -dot(s.axis, cam.up) - iy * az;
      float dl = sqrtf(dx * dx + dy * dy);
      if (dl > 1e-5f) { dx /= dl; dy /= dl; } else { dx = 1; dy = 0; }
      if (dy < 0 || (dy == 0 && dx < 0)) { dx = -dx; dy = -dy; }
      o.geometry[0] = dx * dx - dy * dy;
      o.geometry[1] = 2 * dx * dy;
      float cx = size * 0.5f + ix * f, cy = size * 0.5f + iy * f;
      float half = fmaxf(s.radius * f / z, 1e-3f);
      float off = -dy * (x + 0.5f - cx) + dx * (y + 0.5f - cy);
      o.geometry[2] = clampf(off / half, -1, 1);
      o.geometry[3] = half;
    }
  }
  samples *= g.sampleScale;
  for (int i = 0; i < samples; i++) {
    float jx, jy, la, lb;
    jx = fractf(0.5f + 0.7548776662f * (i + 0.5f));
    jy = fractf(0.5f + 0.5698402910f * (i + 0.5f));
    pair(ph, 0, i, &la, &lb);
    Ray r = primary(cam, x + jx, y + jy, (float)size, la, lb);
    Hit q = trace(sv, r, 0, 1e6f, false);
    if (q.prim < 0) {
      Vec3 b = backdrop(sv, (x + jx) / size * 2 - 1, (y + jy) / size * 2 - 1);
      o.lit += b;
      o.open += b;
      continue;
    }
    Surface s = describe(sv, r, q, pixelAngle * q.t);
    Shade sh = shade(sv, r, s, ph, i);
    o.lit += sh.lit;
    o.open += sh.open;
  }
  float k = cam.exposure / samples;
  o.lit = o.lit * k;
  o.open = o.open * k;
  return o;
}

/**
 * Ratio filter: light with shadows divided by light without, averaged over neighbors on the same kind of surface, times
 * the pixel's own unshadowed light. Removes sampling noise of shadow and occlusion rays, keeps texture and edges.
 */
struct Guide {
  const float* lit;     // [S*S*3]
  const float* open;
  const float* normal;  // [S*S*4], w depth
};

HP_HD inline Vec3 filter_pixel(const Guide& gd, int x, int y, int size, int reach) {
  int i0 = y * size + x;
  const float* n0 = gd.normal + (size_t)i0 * 4;
  float sl[3] = {0, 0, 0}, so[3] = {0, 0, 0};
  for (int dy = -reach; dy <= reach; dy++)
    for (int dx = -reach; dx <= reach; dx++) {
      int xx = x + dx, yy = y + dy;
      if (xx < 0 || yy < 0 || xx >= size || yy >= size) continue;
      int i = yy * size + xx;
      const float* n = gd.normal + (size_t)i * 4;
      float dn = n0[0] * n[0] + n0[1] * n[1] + n0[2] * n[2];
      float dz = fabsf(n0[3] - n[3]) / (n0[3] * 0.008f + 0.3f);
      float w = (n0[3] <= 0) ? (i == i0 ? 1.0f : 0.0f) : sat((dn - 0.75f) * 4) * sat(1.5f - dz);
      if (i == i0) w = fmaxf(w, 1.0f);
      w *= 1.0f / (1 + 0.15f * (dx * dx + dy * dy));
      for (int k = 0; k < 3; k++) {
        sl[k] += w * gd.lit[(size_t)i * 3 + k];
        so[k] += w * gd.open[(size_t)i * 3 + k];
      }
    }
  const float* own = gd.open + (size_t)i0 * 3;
  Vec3 r;
  r.x = so[0] > 1e-9f ? own[0] * sl[0] / so[0] : 0;
  r.y = so[1] > 1e-9f ? own[1] * sl[1] / so[1] : 0;
  r.z = so[2] > 1e-9f ? own[2] * sl[2] / so[2] : 0;
  return r;
}

}  // namespace hp
