// Hands and hand tools, as shapes: never conductors.
#pragma once
#include "../builder.hpp"

namespace hp {

/** Skin of any tone, or a glove (20 %). */
int skin(Builder& b);

/** Thumb and index finger pinch something of radius `gap` mm at the origin that runs along x; the hand comes from -y. */
void hand_pinch(Builder& b, float gap, int mat);

/** Open hand under something lying at z = 0 across it: fingers along +x, wrist toward -x. */
void hand_open(Builder& b, int mat);

/** One finger pointing along +y, tip at the origin, lying at z = its radius. */
void finger(Builder& b, int mat);

/** Tool lying along +x, tip at the origin: 0 screwdriver, 1 pliers, 2 meter probe, 3 tweezers, 4 ruler, 5 tape roll. */
void tool(Builder& b, int kind, float size);

}  // namespace hp
