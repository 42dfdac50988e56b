// CPU rendering of packed scenes.
#pragma once
#include "api.h"
#include "batch.hpp"

namespace hp {

/** Fills the planes of image i of the batch (outputs as in api.h, host pointers, already offset to that image). */
void render_image(const SceneView& view, int size, int samples, const hp_outputs& out, int threads);

}  // namespace hp
