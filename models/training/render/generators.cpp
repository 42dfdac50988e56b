#include "generators.hpp"

namespace hp {

void panel(Builder&);
void cabinet(Builder&);
void terminals(Builder&);
void table(Builder&);
void gutter(Builder&);
void junction(Builder&);
void coils(Builder&);
void closeup(Builder&);
void held(Builder&);
void leads(Builder&);
void ribbons(Builder&);
void negatives(Builder&);
void projectbox(Builder&);
void loops(Builder&);
void tonal(Builder&);
void feeders(Builder&);
void motorbox(Builder&);
void boards(Builder&);
void stubs(Builder&);
void ducts(Builder&);

static const Generator kGenerators[] = {
    {"panel", panel},
    {"cabinet", cabinet},
    {"terminals", terminals},
    {"table", table},
    {"gutter", gutter},
    {"junction", junction},
    {"coils", coils},
    {"closeup", closeup},
    {"held", held},
    {"leads", leads},
    {"ribbons", ribbons},
    {"negatives", negatives},
    {"projectbox", projectbox},
    {"loops", loops},
    {"tonal", tonal},
    {"feeders", feeders},
    {"motorbox", motorbox},
    {"boards", boards},
    {"stubs", stubs},
    {"ducts", ducts},
};

int generator_count() { return (int)(sizeof kGenerators / sizeof kGenerators[0]); }
const Generator& generator(int i) { return kGenerators[i]; }

int generator_of(uint64_t seed, const float* mixture, int count) {
  int n = generator_count();
  float total = 0;
  for (int i = 0; i < n && i < count && mixture; i++) total += mixture[i] > 0 ? mixture[i] : 0;
  Rng r(seed ^ 0x5bd1e995u);
  if (total <= 0) return r.pick(0, n - 1);
  float x = r.u() * total;
  for (int i = 0; i < n && i < count; i++) {
    float w = mixture[i] > 0 ? mixture[i] : 0;
    if (x < w) return i;
    x -= w;
  }
  for (int i = n - 1; i >= 0; i--)
    if (i < count && mixture[i] > 0) return i;
  return 0;
}

}  // namespace hp
