#include "runs.hpp"

#include <algorithm>

namespace hp {

Quat z_along(Vec3 d) {
  d = unit(d);
  Vec3 n = normal_to(d);
  return Builder::axes(n, cross(d, n));
}

std::vector<Vec3> packed(Rng& r, int n, float pitch) {
  std::vector<Vec3> all;
  int k = 1;
  while (3 * k * (k + 1) + 1 < n) k++;
  k++;
  float a = r.range(0, 6.28f), ox = r.range(-0.4f, 0.4f), oy = r.range(-0.4f, 0.4f);
  for (int i = -k; i <= k; i++)
    for (int j = -k; j <= k; j++) {
      float x = i + 0.5f * j + ox, y = 0.866f * j + oy;
      all.push_back(v3(x * cosf(a) - y * sinf(a), x * sinf(a) + y * cosf(a), 0) * pitch);
    }
  std::sort(all.begin(), all.end(), [](Vec3 p, Vec3 q) { return dot(p, p) < dot(q, q); });
  all.resize(n);
  return all;
}

std::vector<int> circuit_colors(Builder& b, int n) {
  Rng& r = b.rng;
  static const int us[] = {kBlack, kRed, kBlue, kWhite, kGreen}, high[] = {kBrown, kOrange, kYellow, kGray, kGreen};
  static const int eu[] = {kBrown, kBlack, kGray, kBlue, kGreenYellow}, dc[] = {kRed, kBlack, kRed, kBlack, kYellow};
  std::vector<int> c;
  const float w[] = {0.32f, 0.12f, 0.16f, 0.12f, 0.14f, 0.14f};
  int habit = r.weighted(w), only = b.any_color();
  for (int i = 0; i < n; i++) switch (habit) {
    case 0: c.push_back(us[i % 5]); break;
    case 1: c.push_back(high[i % 5]); break;
    case 2: c.push_back(eu[i % 5]); break;
    case 3: c.push_back(dc[i % 5]); break;
    case 4: c.push_back(only); break;
    default: c.push_back(b.any_color()); break;
  }
  if (habit < 4)
    for (int i = n - 1; i > 0; i--) std::swap(c[i], c[r.pick(0, i)]);
  return c;
}

std::vector<int> run_bundle(Builder& b, const Bundle& k, const std::vector<Style>& styles) {
  Rng& r = b.rng;
  int n = (int)styles.size(), m = (int)k.path.size();
  std::vector<Vec3> slot = packed(r, n, k.pitch);
  std::vector<std::vector<Vec3>> pts(n, std::vector<Vec3>(m));
  std::vector<int> order(n);
  for (int i = 0; i < n; i++) order[i] = i;
  Vec3 u = v3(0, 0, 0);
  for (int j = 0; j < m; j++) {
    Vec3 t = unit(k.path[std::min(j + 1, m - 1)] - k.path[std::max(j - 1, 0)]);
    u = j ? u - t * dot(u, t) : normal_to(t);
    u = length(u) > 1e-3f ? unit(u) : normal_to(t);
    Vec3 v = cross(t, u);
    if (j > 0)
      for (int q = (int)(k.mix * n * 0.5f + r.u()); q > 0; q--) std::swap(order[r.pick(0, n - 1)], order[r.pick(0, n - 1)]);
    float f = j == 0 ? k.startSpread : j == m - 1 ? k.endSpread : r.range(0.9f, 1.15f);
    for (int i = 0; i < n; i++) {
      Vec3 s = slot[order[i]];
      pts[i][j] = k.path[j] + (u * s.x + v * s.y) * f + r.gauss3(k.loose * k.pitch);
    }
  }
  std::vector<int> ids;
  for (int i = 0; i < n; i++) {
    Conductor c = b.conductor(styles[i]);
    ids.push_back((int)b.strands.size() - 1);
    c.from(pts[i][0], k.startDir);
    for (int j = 1; j + 1 < m; j++) c.via(pts[i][j]);
    c.to(pts[i][m - 1], k.endDir);
  }
  return ids;
}

}  // namespace hp
