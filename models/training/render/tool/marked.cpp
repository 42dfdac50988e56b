// Scenes with many marked conductors and their truth, for measuring what is read along a conductor.
//
//   marked OUTDIR FIRST COUNT [SIZE=640] [SAMPLES=6]
// FIRST is a seed; those from 2^60 on were never trained on. Scene i of a seed writes OUTDIR/N.png (viewing curve, no
// sensor noise: the caller's), OUTDIR/N.json (what was put on each conductor) and OUTDIR/N.bin: planes of SIZE x SIZE
// one after the other, row by row: covering u8, color u8, stripe u8 (as in api.h), instance u16 little-endian.
//
// Layouts are those of the training scenes; marks.hpp says what is put on their conductors.
#include <cstdlib>
#include <cstring>

#include "../generators.hpp"
#include "../render_cpu.hpp"
#include "image.hpp"

using namespace hp;

static const char* kLayouts[] = {"panel", "cabinet", "terminals", "gutter", "junction", "closeup", "held", "leads",
                                 "feeders", "motorbox", "gutter", "junction"};

static const char* layout_word(int stripe) { return stripe == kAlong ? "along" : stripe == kSpiral ? "spiral" : stripe == kRings ? "rings" : ""; }

int main(int argc, char** argv) {
  if (argc < 4) {
    std::fprintf(stderr, "usage: see the head of marked.cpp\n");
    return 2;
  }
  std::string dir = argv[1];
  uint64_t first = std::strtoull(argv[2], nullptr, 10);
  int count = std::atoi(argv[3]), size = argc > 4 ? std::atoi(argv[4]) : 640, samples = argc > 5 ? std::atoi(argv[5]) : 6;
  size_t S2 = (size_t)size * size;
  for (int n = 0; n < count; n++) {
    uint64_t seed = first + n;
    Builder b(seed);
    const char* want = kLayouts[seed % (sizeof kLayouts / sizeof *kLayouts)];
    for (int g = 0; g < generator_count(); g++)
      if (!std::strcmp(generator(g).name, want)) make_marked_scene(b, g, seed);
    const Builder* list[1] = {&b};
    Packed p = pack(list, 1);
    std::vector<float> rgb(S2 * 3);
    std::vector<uint8_t> cov(S2), stripe(S2), color(S2);
    std::vector<uint16_t> inst(S2);
    hp_outputs o = {rgb.data(), cov.data(), inst.data(), nullptr, color.data(), stripe.data(), nullptr};
    render_image(view_of(p, 0, nullptr, 0, 0), size, samples, o, 0);
    Image photo(size, size);
    for (int y = 0; y < size; y++)
      for (int x = 0; x < size; x++) {
        size_t i = (size_t)y * size + x;
        photo.put(x, y, view8(rgb[i]), view8(rgb[S2 + i]), view8(rgb[2 * S2 + i]));
      }
    std::string base = dir + "/" + std::to_string(seed);
    if (!write_png(base + ".png", photo)) return 1;
    FILE* f = std::fopen((base + ".bin").c_str(), "wb");
    if (!f) return 1;
    std::fwrite(cov.data(), 1, S2, f);
    std::fwrite(color.data(), 1, S2, f);
    std::fwrite(stripe.data(), 1, S2, f);
    std::fwrite(inst.data(), 2, S2, f);
    if (std::fclose(f)) return 1;
    f = std::fopen((base + ".json").c_str(), "w");
    if (!f) return 1;
    std::fprintf(f, "{\"layout\":\"%s\",\"size\":%d,\"conductors\":[", want, size);
    for (size_t i = 0; i < b.strands.size(); i++) {
      const Strand& s = b.strands[i];
      const Style& st = s.style;
      std::fprintf(f, "%s\n{\"instance\":%d,\"color\":%d,\"covering\":%d,\"bare\":%s,\"tinned\":%s,\"print\":%.2f,\"fade\":[%.2f,%.2f],"
                      "\"outer\":%.3f,\"metal\":%.3f,\"strip\":[%.2f,%.2f],\"stripe\":\"%s\",\"stripeColor\":%d,\"sleeves\":[",
                   i ? "," : "", s.instance, st.name, st.covering, st.bare ? "true" : "false", st.tinned ? "true" : "false", st.print,
                   st.fade0, st.fade1, st.gauge.outer, st.gauge.metal, s.stripStart, s.stripEnd, layout_word(st.stripe),
                   st.stripe == kNoStripe ? (int)kNoColor : st.stripeName);
      for (size_t k = 0; k < s.sleeves.size(); k++)
        std::fprintf(f, "%s[%d,%.2f]", k ? "," : "", b.mats[s.sleeves[k].mat].colorName, s.sleeves[k].len);
      std::fprintf(f, "]}");
    }
    std::fprintf(f, "]}\n");
    if (std::fclose(f)) return 1;
    std::fprintf(stderr, "%s %llu\n", want, (unsigned long long)seed);
  }
  return 0;
}
