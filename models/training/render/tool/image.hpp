// Pictures for people: 8-bit PNG files (stored, not deflated), a simple viewing curve, label colors.
#pragma once
#include <cstdint>
#include <cstdio>
#include <string>
#include <vector>

#include "../vec.hpp"

namespace hp {

struct Image {
  int w, h;
  std::vector<uint8_t> rgb;
  Image(int w_, int h_) : w(w_), h(h_), rgb((size_t)w_ * h_ * 3, 0) {}
  void put(int x, int y, uint8_t r, uint8_t g, uint8_t b) {
    if (x < 0 || y < 0 || x >= w || y >= h) return;
    uint8_t* p = &rgb[((size_t)y * w + x) * 3];
    p[0] = r; p[1] = g; p[2] = b;
  }
  void paste(const Image& o, int x0, int y0) {
    for (int y = 0; y < o.h; y++)
      for (int x = 0; x < o.w; x++) {
        const uint8_t* p = &o.rgb[((size_t)y * o.w + x) * 3];
        put(x0 + x, y0 + y, p[0], p[1], p[2]);
      }
  }
};

inline bool write_png(const std::string& path, const Image& im) {
  static uint32_t table[256];
  if (!table[1])
    for (uint32_t i = 0; i < 256; i++) {
      uint32_t c = i;
      for (int k = 0; k < 8; k++) c = c & 1 ? 0xedb88320u ^ (c >> 1) : c >> 1;
      table[i] = c;
    }
  FILE* f = std::fopen(path.c_str(), "wb");
  if (!f) return false;
  auto be = [](uint8_t* p, uint32_t v) { p[0] = v >> 24; p[1] = v >> 16; p[2] = v >> 8; p[3] = v; };
  auto chunk = [&](const char* type, const std::vector<uint8_t>& data) {
    uint8_t n[4];
    be(n, (uint32_t)data.size());
    std::fwrite(n, 1, 4, f);
    uint32_t c = 0xffffffffu;
    for (int i = 0; i < 4; i++) c = table[(c ^ (uint8_t)type[i]) & 255] ^ (c >> 8);
    for (uint8_t b : data) c = table[(c ^ b) & 255] ^ (c >> 8);
    std::fwrite(type, 1, 4, f);
    std::fwrite(data.data(), 1, data.size(), f);
    be(n, c ^ 0xffffffffu);
    std::fwrite(n, 1, 4, f);
  };
  std::fwrite("\x89PNG\r\n\x1a\n", 1, 8, f);
  std::vector<uint8_t> head(13, 0);
  be(&head[0], im.w);
  be(&head[4], im.h);
  head[8] = 8;
  head[9] = 2;
  chunk("IHDR", head);
  std::vector<uint8_t> raw;
  for (int y = 0; y < im.h; y++) {
    raw.push_back(0);
    raw.insert(raw.end(), im.rgb.begin() + (size_t)y * im.w * 3, im.rgb.begin() + (size_t)(y + 1) * im.w * 3);
  }
  std::vector<uint8_t> z = {0x78, 0x01};
  uint32_t a = 1, b = 0;
  for (size_t i = 0; i < raw.size(); i += 65535) {
    size_t n = raw.size() - i < 65535 ? raw.size() - i : 65535;
    z.push_back(i + n == raw.size());
    z.push_back(n & 255); z.push_back(n >> 8); z.push_back(~n & 255); z.push_back((~n >> 8) & 255);
    z.insert(z.end(), raw.begin() + i, raw.begin() + i + n);
  }
  for (uint8_t v : raw) {
    a = (a + v) % 65521;
    b = (b + a) % 65521;
  }
  uint8_t ad[4];
  be(ad, (b << 16) | a);
  z.insert(z.end(), ad, ad + 4);
  chunk("IDAT", z);
  chunk("IEND", {});
  return std::fclose(f) == 0;
}

/** Viewing curve: sRGB with a soft shoulder above 0.8. */
inline uint8_t view8(float x) {
  x = x < 0 ? 0 : x;
  if (x > 0.6f) x = 0.6f + 0.4f * (1 - std::exp(-(x - 0.6f) / 0.4f));
  float s = x <= 0.0031308f ? 12.92f * x : 1.055f * std::pow(x, 1 / 2.4f) - 0.055f;
  int v = (int)(s * 255 + 0.5f);
  return (uint8_t)(v < 0 ? 0 : v > 255 ? 255 : v);
}

}  // namespace hp
