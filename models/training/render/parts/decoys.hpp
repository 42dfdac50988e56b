// Things that are no conductors but share something with them: length, roundness, parallel lines, strong color, gloss.
// Each draws itself in the current frame on z = 0, about `size` mm large, centered on the origin.
#pragma once
#include "../builder.hpp"

namespace hp {

constexpr int kDecoys = 28;

/** Plastic or paint of any insulation color (70 %) or a usual housing color. */
int vivid(Builder& b);

/** Decoy number 0 .. kDecoys - 1; see the switch in decoys.cpp. */
void decoy(Builder& b, int kind, float size);

/** A decoy drawn by usual shares (rods and pipes rare). */
int any_decoy(Rng& r);

/** Flat printed lines, bars, curves and arrows in any colors on the plane z = 0, over `size` mm. */
void printed_lines(Builder& b, float size);

/** Banners with text, arrows and frames laid flat over the picture, as people do; call after look(). Lens blur is off. */
void overlay(Builder& b);

}  // namespace hp
