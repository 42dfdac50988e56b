// Hard light: sun through a door or a bare bulb near by.
#pragma once
#include "../builder.hpp"

namespace hp {

/**
 * With the given chance adds one small strong lamp far away (sharp shadows, burnt-out gloss), 1 to 4 times what the
 * other light gives, and lowers the exposure so that the lit side stays in range. Call after random_lights().
 */
void hard_sun(Builder& b, float chance);

}  // namespace hp
