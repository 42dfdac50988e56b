// Small vectors, a counter-based random generator and hash noise, for host and device.
#pragma once
#include <cmath>
#include <cstdint>
#ifdef __CUDACC__
#define HP_HD __host__ __device__
#else
#define HP_HD
#endif

namespace hp {

constexpr float kPi = 3.14159265358979f;

struct Vec3 {
  float x = 0, y = 0, z = 0;
};
HP_HD inline Vec3 v3(float x, float y, float z) { Vec3 v; v.x = x; v.y = y; v.z = z; return v; }
HP_HD inline Vec3 operator+(Vec3 a, Vec3 b) { return v3(a.x + b.x, a.y + b.y, a.z + b.z); }
HP_HD inline Vec3 operator-(Vec3 a, Vec3 b) { return v3(a.x - b.x, a.y - b.y, a.z - b.z); }
HP_HD inline Vec3 operator-(Vec3 a) { return v3(-a.x, -a.y, -a.z); }
HP_HD inline Vec3 operator*(Vec3 a, float s) { return v3(a.x * s, a.y * s, a.z * s); }
HP_HD inline Vec3 operator*(float s, Vec3 a) { return a * s; }
HP_HD inline Vec3 operator*(Vec3 a, Vec3 b) { return v3(a.x * b.x, a.y * b.y, a.z * b.z); }
HP_HD inline Vec3& operator+=(Vec3& a, Vec3 b) { a = a + b; return a; }
HP_HD inline float dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
HP_HD inline Vec3 cross(Vec3 a, Vec3 b) {
  return v3(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x);
}
HP_HD inline float length(Vec3 a) { return sqrtf(dot(a, a)); }
HP_HD inline Vec3 unit(Vec3 a) { float l = length(a); return l > 1e-12f ? a * (1 / l) : v3(0, 0, 1); }
HP_HD inline Vec3 lerp(Vec3 a, Vec3 b, float t) { return a * (1 - t) + b * t; }
HP_HD inline float mixf(float a, float b, float t) { return a * (1 - t) + b * t; }
HP_HD inline float clampf(float x, float a, float b) { return x < a ? a : (x > b ? b : x); }
HP_HD inline float sat(float x) { return clampf(x, 0, 1); }
HP_HD inline float smooth(float a, float b, float x) { float t = sat((x - a) / (b - a)); return t * t * (3 - 2 * t); }
HP_HD inline float fractf(float x) { return x - floorf(x); }
/** A unit vector at right angles to n. */
HP_HD inline Vec3 normal_to(Vec3 n) {
  return unit(fabsf(n.x) > 0.7f ? cross(n, v3(0, 1, 0)) : cross(n, v3(1, 0, 0)));
}

/** Rotation as a unit quaternion (x, y, z, w). */
struct Quat {
  float x = 0, y = 0, z = 0, w = 1;
};
HP_HD inline Vec3 rotate(Quat q, Vec3 v) {
  Vec3 u = v3(q.x, q.y, q.z);
  Vec3 t = cross(u, v) * 2.0f;
  return v + t * q.w + cross(u, t);
}
HP_HD inline Vec3 unrotate(Quat q, Vec3 v) { Quat c; c.x = -q.x; c.y = -q.y; c.z = -q.z; c.w = q.w; return rotate(c, v); }
inline Quat operator*(Quat a, Quat b) {
  Quat r;
  r.x = a.w * b.x + a.x * b.w + a.y * b.z - a.z * b.y;
  r.y = a.w * b.y - a.x * b.z + a.y * b.w + a.z * b.x;
  r.z = a.w * b.z + a.x * b.y - a.y * b.x + a.z * b.w;
  r.w = a.w * b.w - a.x * b.x - a.y * b.y - a.z * b.z;
  return r;
}
/** Rotation by `angle` radians about the unit axis. */
inline Quat turn(Vec3 axis, float angle) {
  float s = sinf(angle / 2);
  Quat q;
  q.x = axis.x * s; q.y = axis.y * s; q.z = axis.z * s; q.w = cosf(angle / 2);
  return q;
}

HP_HD inline uint32_t hash1(uint32_t x) {
  x ^= x >> 16; x *= 0x7feb352du; x ^= x >> 15; x *= 0x846ca68bu; x ^= x >> 16;
  return x;
}
HP_HD inline uint32_t hash3(int x, int y, int z, uint32_t seed) {
  return hash1((uint32_t)x * 0x8da6b343u ^ hash1((uint32_t)y * 0xd8163841u ^ hash1((uint32_t)z * 0xcb1ab31fu ^ seed)));
}
HP_HD inline float u01(uint32_t h) { return (h >> 8) * (1.0f / 16777216.0f); }
/** Value noise in [0,1] with smooth interpolation, unit cell. */
HP_HD inline float noise3(Vec3 p, uint32_t seed) {
  float fx = floorf(p.x), fy = floorf(p.y), fz = floorf(p.z);
  int x = (int)fx, y = (int)fy, z = (int)fz;
  float tx = p.x - fx, ty = p.y - fy, tz = p.z - fz;
  tx = tx * tx * (3 - 2 * tx); ty = ty * ty * (3 - 2 * ty); tz = tz * tz * (3 - 2 * tz);
  float v[2];
  for (int k = 0; k < 2; k++) {
    float a = mixf(u01(hash3(x, y, z + k, seed)), u01(hash3(x + 1, y, z + k, seed)), tx);
    float b = mixf(u01(hash3(x, y + 1, z + k, seed)), u01(hash3(x + 1, y + 1, z + k, seed)), tx);
    v[k] = mixf(a, b, ty);
  }
  return mixf(v[0], v[1], tz);
}
/** Three octaves of noise3, in [0,1]. */
HP_HD inline float fbm3(Vec3 p, uint32_t seed) {
  return (noise3(p, seed) * 4 + noise3(p * 2.03f, seed + 1) * 2 + noise3(p * 4.1f, seed + 2)) * (1.0f / 7);
}

/** Host random numbers: small, fast, the same on every platform. */
struct Rng {
  uint64_t s;
  explicit Rng(uint64_t seed) : s(seed ^ 0x632be59bd9b4e019ull) {
    // two rounds of mixing: neighboring seeds must not give shifted copies of one stream
    for (int k = 0; k < 2; k++) { uint64_t a = next(); s = (s * 0xd1342543de82ef95ull) ^ (a << 32 | next()); }
  }
  uint32_t next() {
    s += 0x9e3779b97f4a7c15ull;
    uint64_t z = s;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ull;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebull;
    return (uint32_t)((z ^ (z >> 31)) >> 32);
  }
  float u() { return (next() >> 8) * (1.0f / 16777216.0f); }
  /** Uniform in [a,b). */
  float range(float a, float b) { return a + (b - a) * u(); }
  /** Log-uniform in [a,b), a > 0. */
  float log(float a, float b) { return a * powf(b / a, u()); }
  /** Integer in [a,b], both ends included. */
  int pick(int a, int b) { return a + (int)(next() % (uint32_t)(b - a + 1)); }
  bool chance(float p) { return u() < p; }
  float gauss() { float a = u() + 1e-7f, b = u(); return sqrtf(-2 * logf(a)) * cosf(2 * kPi * b); }
  Vec3 gauss3(float sd) { float a = gauss(), b = gauss(), c = gauss(); return v3(a, b, c) * sd; }
  /** Index drawn with the given weights. */
  template <size_t N> int weighted(const float (&w)[N]) {
    float t = 0;
    for (float x : w) t += x;
    float r = u() * t;
    for (size_t i = 0; i < N; i++) { if (r < w[i]) return (int)i; r -= w[i]; }
    return (int)N - 1;
  }
  template <class T, size_t N> T one_of(const T (&&list)[N]) { return list[next() % N]; }
  template <class T, size_t N> T one_of(const T (&list)[N]) { return list[next() % N]; }
};

}  // namespace hp
