#include "marks.hpp"

namespace hp {

static int other_color(Rng& r, int than) {
  int name = r.pick(0, 11);
  return name == than ? (name + r.pick(1, 11)) % 12 : name;
}

void mark_conductors(Builder& b, uint64_t seed) {
  Rng r(seed ^ 0x7a3f19c5ull);
  for (size_t i = 0; i < b.strands.size(); i++) {
    Strand& s = b.strands[i];
    Style& st = s.style;
    if (st.covering != kInsulated || st.bare) continue;
    float D = st.gauge.outer;
    if (st.name != kGreenYellow) {
      st.stripe = kNoStripe;
      if (r.chance(0.35f)) {
        const float kinds[] = {0.5f, 0.25f, 0.25f};
        int kind = r.weighted(kinds);
        st.stripeName = other_color(r, st.name);
        if (kind == 0) {
          st.stripe = kAlong;
          st.stripeCount = r.chance(0.6f) ? 1.0f : (float)r.pick(2, 3);
          st.stripeWidth = st.stripeCount == 1 ? r.range(0.06f, 0.2f) : r.range(0.15f, 0.35f);
          st.stripePitch = r.chance(0.4f) ? r.log(15, 60) * D : 0;
        } else {
          st.stripe = kind == 1 ? kSpiral : kRings;
          st.stripeCount = 1;
          st.stripePitch = (kind == 1 ? r.log(2, 8) : r.log(1.5f, 6)) * D;
          st.stripeWidth = r.range(0.13f, 0.33f);
        }
      }
    }
    if (!r.chance(0.3f) || !s.sleeves.empty()) continue;
    int color = other_color(r, st.name), where = r.pick(0, 2);
    float grow = r.range(1.03f, 1.15f);
    auto put = [&](float at, float len) {
      Conductor(&b, (int)i).sleeve(at, len, color, grow);
    };
    if (where != 1) {
      float len = D * r.log(1.5f, 7);
      put(s.stripStart, len);
      len = D * r.log(1.5f, 7);
      put(-(s.stripEnd + len), len);
    }
    if (where != 0)
      for (int k = 0; k < 2; k++) put((k ? -1 : 1) * r.log(4, 30) * D, D * r.log(1.5f, 7));
  }
}

}  // namespace hp
