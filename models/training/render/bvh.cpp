// Binned surface-area BVH over the scene's shapes; reorders `prims`.
#include <algorithm>

#include "builder.hpp"

namespace hp {

namespace {

struct Bounds {
  Vec3 lo = v3(1e30f, 1e30f, 1e30f), hi = v3(-1e30f, -1e30f, -1e30f);
  void add(Vec3 p) {
    lo = v3(fminf(lo.x, p.x), fminf(lo.y, p.y), fminf(lo.z, p.z));
    hi = v3(fmaxf(hi.x, p.x), fmaxf(hi.y, p.y), fmaxf(hi.z, p.z));
  }
  void add(const Bounds& b) { add(b.lo); add(b.hi); }
  float area() const {
    Vec3 d = hi - lo;
    return d.x < 0 ? 0 : d.x * d.y + d.y * d.z + d.z * d.x;
  }
};

Bounds bounds_of(const Prim& p) {
  Bounds b;
  if (p.type == kBox) {
    Quat q;
    q.x = p.u.x; q.y = p.u.y; q.z = p.u.z; q.w = p.w;
    Vec3 ex = rotate(q, v3(p.b.x, 0, 0)), ey = rotate(q, v3(0, p.b.y, 0)), ez = rotate(q, v3(0, 0, p.b.z));
    Vec3 e = v3(fabsf(ex.x) + fabsf(ey.x) + fabsf(ez.x), fabsf(ex.y) + fabsf(ey.y) + fabsf(ez.y),
                fabsf(ex.z) + fabsf(ey.z) + fabsf(ez.z));
    b.lo = p.a - e;
    b.hi = p.a + e;
  } else {
    Vec3 ra = v3(p.ra, p.ra, p.ra), rb = v3(p.rb, p.rb, p.rb);
    b.add(p.a - ra); b.add(p.a + ra); b.add(p.b - rb); b.add(p.b + rb);
  }
  Vec3 e = v3(1e-3f, 1e-3f, 1e-3f);
  b.lo = b.lo - e;
  b.hi = b.hi + e;
  return b;
}

struct Item {
  Bounds b;
  Vec3 c;
  int i;
};

float at(Vec3 v, int k) { return k == 0 ? v.x : k == 1 ? v.y : v.z; }

void split(std::vector<Node>& nodes, std::vector<Item>& items, int node, int lo, int hi, int depth) {
  Bounds all, cen;
  for (int i = lo; i < hi; i++) {
    all.add(items[i].b);
    cen.add(items[i].c);
  }
  nodes[node].lo = all.lo;
  nodes[node].hi = all.hi;
  int n = hi - lo;
  int mid = -1;
  if (n > 2 && depth < 36) {
    const int K = 12;
    float best = 1e30f;
    int bestAxis = -1, bestBin = 0;
    for (int ax = 0; ax < 3; ax++) {
      float a = at(cen.lo, ax), w = at(cen.hi, ax) - a;
      if (w < 1e-4f) continue;
      Bounds bin[K];
      int cnt[K] = {0};
      for (int i = lo; i < hi; i++) {
        int k = std::min(K - 1, (int)((at(items[i].c, ax) - a) / w * K));
        bin[k].add(items[i].b);
        cnt[k]++;
      }
      float right[K];
      Bounds acc;
      int m = 0;
      for (int k = K - 1; k > 0; k--) {
        acc.add(bin[k]);
        m += cnt[k];
        right[k] = m ? acc.area() * m : 0;
      }
      Bounds left;
      int c = 0;
      for (int k = 0; k < K - 1; k++) {
        left.add(bin[k]);
        c += cnt[k];
        if (!c || c == n) continue;
        float cost = left.area() * c + right[k + 1];
        if (cost < best) {
          best = cost;
          bestAxis = ax;
          bestBin = k;
        }
      }
    }
    if (bestAxis >= 0 && (best < all.area() * n * 0.97f || n > 6)) {
      float a = at(cen.lo, bestAxis), w = at(cen.hi, bestAxis) - a;
      auto it = std::partition(items.begin() + lo, items.begin() + hi, [&](const Item& q) {
        return std::min(K - 1, (int)((at(q.c, bestAxis) - a) / w * K)) <= bestBin;
      });
      mid = (int)(it - items.begin());
    } else if (n > 6) {
      mid = (lo + hi) / 2;
    }
  }
  if (mid <= lo || mid >= hi) {
    nodes[node].first = lo;
    nodes[node].count = n;
    return;
  }
  int child = (int)nodes.size();
  nodes.resize(nodes.size() + 2);
  nodes[node].first = child;
  nodes[node].count = 0;
  split(nodes, items, child, lo, mid, depth + 1);
  split(nodes, items, child + 1, mid, hi, depth + 1);
}

}  // namespace

void Builder::build_bvh() {
  if (prims.empty()) box(v3(0, 0, -1e5f), v3(1, 1, 1), paint(gray(0.5f)));
  std::vector<Item> items(prims.size());
  for (size_t i = 0; i < prims.size(); i++) {
    items[i].b = bounds_of(prims[i]);
    items[i].c = (items[i].b.lo + items[i].b.hi) * 0.5f;
    items[i].i = (int)i;
  }
  nodes.clear();
  nodes.reserve(prims.size() * 2);
  nodes.resize(1);
  split(nodes, items, 0, 0, (int)items.size(), 0);
  std::vector<Prim> sorted(prims.size());
  for (size_t i = 0; i < items.size(); i++) sorted[i] = prims[items[i].i];
  prims.swap(sorted);
}

}  // namespace hp
