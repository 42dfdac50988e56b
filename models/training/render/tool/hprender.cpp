// Renders scenes to PNG for looking at them.
//
//   hprender GENERATOR SEED OUT.png [size=512] [samples=16] [labels=1]     one scene (labels: OUT-labels.png)
//   hprender sheet GENERATOR FIRST COUNT OUT.png [size=256] [samples=4] [labels=0]   contact sheet
//   hprender list
//   hprender time GENERATOR COUNT     processor time of making scenes (no rendering)
// GENERATOR is a name or "all" (each seed draws one).
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <memory>

#include "../generators.hpp"
#include "../render_cpu.hpp"
#include "image.hpp"

using namespace hp;

struct Shot {
  Image photo, labels;
};

static Shot shoot(int gen, uint64_t seed, int size, int samples) {
  auto t0 = std::chrono::steady_clock::now();
  Builder b(seed);
  make_scene(b, gen >= 0 ? gen : generator_of(seed, nullptr, 0));
  auto t1 = std::chrono::steady_clock::now();
  const Builder* list[1] = {&b};
  Packed p = pack(list, 1);
  size_t S2 = (size_t)size * size;
  std::vector<float> rgb(S2 * 3);
  std::vector<uint8_t> cov(S2), stripe(S2);
  std::vector<uint16_t> inst(S2);
  std::vector<float> geo(S2 * 4);
  hp_outputs o = {rgb.data(), cov.data(), inst.data(), geo.data(), nullptr, stripe.data(), nullptr};
  render_image(view_of(p, 0, nullptr, 0, 0), size, samples, o, 0);
  auto t2 = std::chrono::steady_clock::now();
  std::fprintf(stderr, "seed %llu: %zu shapes, %zu conductors, made in %.1f ms, rendered in %.2f s %s\n", (unsigned long long)seed,
               b.prims.size(), b.strands.size(), std::chrono::duration<double, std::milli>(t1 - t0).count(),
               std::chrono::duration<double>(t2 - t1).count(), b.note.c_str());
  Shot s{Image(size, size), Image(size, size)};
  for (int y = 0; y < size; y++)
    for (int x = 0; x < size; x++) {
      size_t i = (size_t)y * size + x;
      s.photo.put(x, y, view8(rgb[i]), view8(rgb[S2 + i]), view8(rgb[2 * S2 + i]));
      uint32_t h = hash1(inst[i] * 2654435761u);
      // insulated: color by instance; bare: white-ish; tape: dark; jacket: gray; brightness falls toward the edges
      float k = cov[i] ? 1 - 0.7f * std::fabs(geo[2 * S2 + i]) : 0;
      int r = 80 + (h & 127), g = 80 + (h >> 8 & 127), bl = 80 + (h >> 16 & 127);
      if (cov[i] == kBare) r = g = bl = 255;
      if (cov[i] == kTape) { r = 255; g = 60; bl = 60; }
      if (stripe[i] && stripe[i] != kPrintLabel) { r = 255; g = 255; bl = 0; }
      s.labels.put(x, y, (uint8_t)(r * k), (uint8_t)(g * k), (uint8_t)(bl * k));
    }
  return s;
}

static int index_of(const char* name) {
  for (int i = 0; i < generator_count(); i++)
    if (!std::strcmp(generator(i).name, name)) return i;
  if (!std::strcmp(name, "all")) return -1;
  std::fprintf(stderr, "no generator %s\n", name);
  std::exit(2);
}

int main(int argc, char** argv) {
  auto arg = [&](int i, int def) { return i < argc ? std::atoi(argv[i]) : def; };
  if (argc >= 2 && !std::strcmp(argv[1], "list")) {
    for (int i = 0; i < generator_count(); i++) std::printf("%d %s\n", i, generator(i).name);
    return 0;
  }
  if (argc >= 4 && !std::strcmp(argv[1], "time")) {
    int g = index_of(argv[2]), n = arg(3, 50);
    size_t shapes = 0;
    std::clock_t t = std::clock();
    for (int i = 0; i < n; i++) {
      Builder b(1000 + i);
      make_scene(b, g >= 0 ? g : generator_of(1000 + i, nullptr, 0));
      shapes += b.prims.size();
    }
    std::printf("%s: %.1f ms a scene, %zu shapes a scene\n", argv[2], 1000.0 * (std::clock() - t) / CLOCKS_PER_SEC / n, shapes / n);
    return 0;
  }
  if (argc >= 6 && !std::strcmp(argv[1], "sheet")) {
    int g = index_of(argv[2]), count = arg(4, 12), size = arg(6, 256), samples = arg(7, 4), labels = arg(8, 0);
    uint64_t first = std::strtoull(argv[3], nullptr, 10);
    int cols = 1;
    while (cols * cols < count) cols++;
    int rows = (count + cols - 1) / cols;
    Image sheet(cols * size, rows * size * (labels ? 2 : 1));
    for (int i = 0; i < count; i++) {
      Shot s = shoot(g, first + i, size, samples);
      int x = i % cols * size, y = i / cols * size * (labels ? 2 : 1);
      sheet.paste(s.photo, x, y);
      if (labels) sheet.paste(s.labels, x, y + size);
    }
    return write_png(argv[5], sheet) ? 0 : 1;
  }
  if (argc >= 4) {
    int size = arg(4, 512), samples = arg(5, 16);
    Shot s = shoot(index_of(argv[1]), std::strtoull(argv[2], nullptr, 10), size, samples);
    std::string out = argv[3];
    if (!write_png(out, s.photo)) return 1;
    if (arg(6, 1)) return write_png(out.substr(0, out.size() - 4) + "-labels.png", s.labels) ? 0 : 1;
    return 0;
  }
  std::fprintf(stderr, "usage: see the head of hprender.cpp\n");
  return 2;
}
