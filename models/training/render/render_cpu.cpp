#include "render_cpu.hpp"

#include <atomic>
#include <cmath>
#include <memory>
#include <thread>

#include "api_common.hpp"

namespace hp {

void render_image(const SceneView& view, int size, int samples, const hp_outputs& out, int threads) {
  if (threads <= 0) threads = (int)std::thread::hardware_concurrency();
  if (threads < 1) threads = 1;
  size_t S2 = (size_t)size * size;
  std::vector<float> lit(S2 * 3), open(S2 * 3), normal(S2 * 4);
  std::atomic<int> row(0);
  auto rows = [&] {
    for (int y; (y = row++) < size;)
      for (int x = 0; x < size; x++) {
        PixelOut p = render_pixel(view, x, y, size, samples);
        size_t i = (size_t)y * size + x;
        lit[i * 3] = p.lit.x; lit[i * 3 + 1] = p.lit.y; lit[i * 3 + 2] = p.lit.z;
        open[i * 3] = p.open.x; open[i * 3 + 1] = p.open.y; open[i * 3 + 2] = p.open.z;
        normal[i * 4] = p.normal.x; normal[i * 4 + 1] = p.normal.y; normal[i * 4 + 2] = p.normal.z; normal[i * 4 + 3] = p.depth;
        if (out.covering) out.covering[i] = (uint8_t)p.covering;
        if (out.instance) out.instance[i] = (uint16_t)p.instance;
        if (out.geometry)
          for (int k = 0; k < 4; k++) out.geometry[k * S2 + i] = p.geometry[k];
        if (out.color) out.color[i] = (uint8_t)p.color;
        if (out.stripe) out.stripe[i] = (uint8_t)p.stripe;
        if (out.depth) out.depth[i] = p.depth;
      }
  };
  auto run = [&](auto fn) {
    std::vector<std::thread> pool;
    for (int i = 1; i < threads; i++) pool.emplace_back(fn);
    fn();
    for (std::thread& t : pool) t.join();
  };
  run(rows);
  if (!out.rgb) return;
  Guide g{lit.data(), open.data(), normal.data()};
  row = 0;
  int reach = samples >= 32 ? 1 : 2;
  run([&] {
    for (int y; (y = row++) < size;)
      for (int x = 0; x < size; x++) {
        Vec3 c = filter_pixel(g, x, y, size, reach);
        size_t i = (size_t)y * size + x;
        out.rgb[i] = c.x; out.rgb[S2 + i] = c.y; out.rgb[2 * S2 + i] = c.z;
      }
  });
}

}  // namespace hp

extern "C" int hp_submit(hp_batch* batch, int size, const float* bgRgb, int bgCount, int bgSize,
                         const hp_outputs* o, void*) {
  std::unique_ptr<hp_batch> own(batch);
  if (!batch || size < 8 || !o) {
    hp::set_error("hp_submit: bad argument");
    return 1;
  }
  hp::Packed p = batch->made.get();
  size_t S2 = (size_t)size * size;
  for (int i = 0; i < batch->n; i++) {
    hp_outputs q = *o;
    if (q.rgb) q.rgb += 3 * S2 * i;
    if (q.covering) q.covering += S2 * i;
    if (q.instance) q.instance += S2 * i;
    if (q.geometry) q.geometry += 4 * S2 * i;
    if (q.color) q.color += S2 * i;
    if (q.stripe) q.stripe += S2 * i;
    if (q.depth) q.depth += S2 * i;
    hp::SceneView v = hp::view_of(p, i, bgRgb, bgCount, bgSize);
    hp::render_image(v, size, hp::settings().samples, q, hp::settings().threads);
  }
  return 0;
}
