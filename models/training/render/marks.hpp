// Stripes and tape put on the conductors of any scene, far more often than any real place has them.
#pragma once
#include "builder.hpp"

namespace hp {

/**
 * On every insulated conductor: a stripe (35 %: along 50 %, spiral 25 %, rings 25 %) in place of what it had, green-yellow
 * excepted, and tape (30 %, at an end, in the middle or both). Call it between a generator and finish(). Stripe widths and
 * pitches are assumptions, wide enough to hold what is sold: common practice, no source.
 */
void mark_conductors(Builder& b, uint64_t seed);

}  // namespace hp
