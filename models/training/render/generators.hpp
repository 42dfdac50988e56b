// The list of scene generators. Each lives in its own file in generators/ with its distributions documented.
// To add one: write `void name(Builder& b)` in generators/name.cpp, declare it in generators.cpp, add a row there.
#pragma once
#include "builder.hpp"

namespace hp {

struct Generator {
  const char* name;
  void (*make)(Builder&);
};

int generator_count();
const Generator& generator(int i);
/** Generator drawn by a seed under mixture weights (missing ones weigh 0; none positive: all alike). */
int generator_of(uint64_t seed, const float* mixture, int count);

}  // namespace hp
