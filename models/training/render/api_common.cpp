#include "api_common.hpp"

#include <vector>

#include "generators.hpp"

namespace hp {

Settings& settings() {
  static Settings s;
  return s;
}
static std::string& error() {
  static thread_local std::string e;
  return e;
}
void set_error(const std::string& text) { error() = text; }

}  // namespace hp

extern "C" {

int hp_generator_count(void) { return hp::generator_count(); }
const char* hp_generator_name(int i) { return i >= 0 && i < hp::generator_count() ? hp::generator(i).name : ""; }
void hp_set_samples(int s) { hp::settings().samples = s < 1 ? 1 : s > 64 ? 64 : s; }
void hp_set_marked(float share) { hp::settings().marked = share; }
void hp_set_threads(int t) { hp::settings().threads = t; }
int hp_generator_of(uint64_t seed, const float* mixture, int count) { return hp::generator_of(seed, mixture, count); }
const char* hp_last_error(void) { return hp::error().c_str(); }

hp_batch* hp_prepare(const uint64_t* seeds, const float* mixture, int mixtureCount, int n, int bgCount) {
  if (!seeds || n < 1) {
    hp::set_error("hp_prepare: no seeds");
    return nullptr;
  }
  std::vector<uint64_t> s(seeds, seeds + n);
  std::vector<float> m;
  if (mixture && mixtureCount > 0) m.assign(mixture, mixture + mixtureCount);
  int threads = hp::settings().threads;
  float marked = hp::settings().marked;
  hp_batch* b = new hp_batch;
  b->n = n;
  b->made = std::async(std::launch::async, [s, m, bgCount, threads, marked] {
    return hp::make_batch(s.data(), m.empty() ? nullptr : m.data(), (int)m.size(), (int)s.size(), bgCount, threads, marked);
  });
  return b;
}

int hp_render(const uint64_t* seeds, const float* mixture, int mixtureCount, int n, int size, const float* bgRgb,
              int bgCount, int bgSize, float* rgb, uint8_t* covering, uint16_t* instance, float* geometry,
              uint8_t* color, uint8_t* stripe, void* stream) {
  hp_outputs o = {rgb, covering, instance, geometry, color, stripe, nullptr};
  hp_batch* b = hp_prepare(seeds, mixture, mixtureCount, n, bgRgb ? bgCount : 0);
  if (!b) return 1;
  return hp_submit(b, size, bgRgb, bgRgb ? bgCount : 0, bgSize, &o, stream);
}

}
