#include "batch.hpp"

#include <atomic>
#include <memory>
#include <thread>

#include "generators.hpp"
#include "marks.hpp"

namespace hp {

void make_scene(Builder& b, int g) {
  generator(g).make(b);
  b.finish();
}

void make_marked_scene(Builder& b, int g, uint64_t seed) {
  generator(g).make(b);
  mark_conductors(b, seed);
  b.finish();
}

Packed pack(const Builder* const* scenes, int n) {
  Packed p;
  size_t np = 0, nn = 0, nm = 0, nc = 0;
  for (int i = 0; i < n; i++) {
    np += scenes[i]->prims.size(); nn += scenes[i]->nodes.size();
    nm += scenes[i]->mats.size(); nc += scenes[i]->colors.size();
  }
  p.prims.reserve(np); p.nodes.reserve(nn); p.mats.reserve(nm); p.colors.reserve(nc);
  for (int i = 0; i < n; i++) {
    const Builder& b = *scenes[i];
    Globals g = b.globals;
    g.primOffset = (int)p.prims.size();
    g.nodeOffset = (int)p.nodes.size();
    g.matOffset = (int)p.mats.size();
    g.colorOffset = (int)p.colors.size();
    p.globals.push_back(g);
    p.prims.insert(p.prims.end(), b.prims.begin(), b.prims.end());
    p.nodes.insert(p.nodes.end(), b.nodes.begin(), b.nodes.end());
    p.mats.insert(p.mats.end(), b.mats.begin(), b.mats.end());
    p.colors.insert(p.colors.end(), b.colors.begin(), b.colors.end());
  }
  return p;
}

Packed make_batch(const uint64_t* seeds, const float* mixture, int mixtureCount, int n, int photos, int threads, float marked) {
  if (threads <= 0) threads = (int)std::thread::hardware_concurrency();
  if (threads < 1) threads = 1;
  if (threads > n) threads = n;
  std::vector<std::unique_ptr<Builder>> scenes(n);
  std::atomic<int> next(0);
  auto work = [&] {
    for (int i; (i = next++) < n;) {
      scenes[i].reset(new Builder(seeds[i], photos));
      int g = generator_of(seeds[i], mixture, mixtureCount);
      if (Rng(seeds[i] ^ 0x51ed270bull).chance(marked)) make_marked_scene(*scenes[i], g, seeds[i]);
      else make_scene(*scenes[i], g);
    }
  };
  std::vector<std::thread> pool;
  for (int i = 1; i < threads; i++) pool.emplace_back(work);
  work();
  for (std::thread& t : pool) t.join();
  std::vector<const Builder*> list(n);
  for (int i = 0; i < n; i++) list[i] = scenes[i].get();
  return pack(list.data(), n);
}

SceneView view_of(const Packed& p, int i, const float* photos, int photoCount, int photoSize) {
  SceneView v;
  v.g = &p.globals[i];
  v.prims = p.prims.data() + v.g->primOffset;
  v.nodes = p.nodes.data() + v.g->nodeOffset;
  v.mats = p.mats.data() + v.g->matOffset;
  v.colors = p.colors.data() + v.g->colorOffset;
  v.photos = photos;
  v.photoCount = photoCount;
  v.photoSize = photoSize;
  return v;
}

}  // namespace hp
