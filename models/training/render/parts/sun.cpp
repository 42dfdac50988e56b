#include "sun.hpp"

namespace hp {

void hard_sun(Builder& b, float chance) {
  Rng& r = b.rng;
  if (!r.chance(chance) || b.globals.lightCount >= 3) return;
  float a = r.range(0, 6.28f), now = 1 / fmaxf(b.globals.cam.exposure, 1e-3f), k = r.log(1, 4);
  Vec3 dir = unit(v3(cosf(a), sinf(a), r.range(0.3f, 1.3f)));
  b.lamp(b.target + dir * 4000, b.target, r.range(8, 30), now * 0.7f * k);
  b.exposure(r.range(0.9f, 1.5f) / (0.7f + 0.6f * k));
}

}  // namespace hp
