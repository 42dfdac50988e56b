// Surfaces behind things and small clutter.
#pragma once
#include "../builder.hpp"

namespace hp {

/** Material of a table, wall or backdrop seen `across` mm wide: photo (if any, 45 %), paint, wood, steel, ... */
int any_surface(Builder& b, float across);
/** Painted or galvanized inside of an enclosure: light gray, white, dark gray, zinc, orange or beige back plate. */
int enclosure_surface(Builder& b);
/** A small object of `size` mm standing at p on z = p.z: box, bottle-like cylinder, screw, paper slip, ring. */
void clutter(Builder& b, Vec3 p, float size);

}  // namespace hp
