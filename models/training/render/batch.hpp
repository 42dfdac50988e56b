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

/** Scenes of the seeds in order. threads <= 0: all cores. */
Packed make_batch(const uint64_t* seeds, const float* mixture, int mixtureCount, int n, int photos, int threads);
/** One scene of a given generator. */
void make_scene(Builder& b, int generator);
Packed pack(const Builder* const* scenes, int n);
/** View of scene i in host memory. */
SceneView view_of(const Packed& p, int i, const float* photos, int photoCount, int photoSize);

}  // namespace hp
