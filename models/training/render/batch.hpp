// A batch of scenes, generated on host threads and packed into flat arrays.
#pragma once
#include <vector>

#include "builder.hpp"
#include "trace.hpp"

namespace hp {

struct Packed {
  std::vector<Globals> globals;
  std::vector<Prim> prims;
  std::vector<Node> nodes;
  std::vector<Material> mats;
  std::vector<Color> colors;
};

/** Scenes of the seeds in order. threads <= 0: all cores. marked: share of scenes that go through mark_conductors. */
Packed make_batch(const uint64_t* seeds, const float* mixture, int mixtureCount, int n, int photos, int threads, float marked);
/** One scene of a given generator, and one with stripes and tape put on it (marks.hpp). */
void make_scene(Builder& b, int generator);
void make_marked_scene(Builder& b, int generator, uint64_t seed);
Packed pack(const Builder* const* scenes, int n);
/** View of scene i in host memory. */
SceneView view_of(const Packed& p, int i, const float* photos, int photoCount, int photoSize);

}  // namespace hp
