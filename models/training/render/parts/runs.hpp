// Bundles of conductors along a common path, and colors that go together on site.
#pragma once
#include <vector>

#include "../builder.hpp"

namespace hp {

/** Rotation whose local z axis is d (x and y any). */
Quat z_along(Vec3 d);

/** n points of a hexagonal packing of pitch mm round the origin, nearest first, turned at random (z = 0). */
std::vector<Vec3> packed(Rng& r, int n, float pitch);

/** Colors of conductors that travel together: single phase, split phase, three phase (two habits), control, any. */
std::vector<int> circuit_colors(Builder& b, int n);

/** How a bundle runs. */
struct Bundle {
  std::vector<Vec3> path;          // center line, at least two points
  float pitch = 4;                 // distance of neighbors in the cross-section, mm
  float loose = 0.2f;              // irregularity at each path point, in pitches
  float mix = 0.25f;               // how far members change places along the way, 0..1
  Vec3 startDir{}, endDir{};       // zero: free
  float startSpread = 1, endSpread = 1;  // factor on the offsets at the ends
};

/** One conductor a style along the bundle's path; from(), vias and to() are set. Indices into b.strands. */
std::vector<int> run_bundle(Builder& b, const Bundle& k, const std::vector<Style>& styles);

}  // namespace hp
