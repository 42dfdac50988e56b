// CUDA build of the C interface: the same per-pixel functions in two kernels, scenes uploaded from pinned memory.
#include <cuda_runtime.h>

#include <cstring>
#include <memory>
#include <mutex>

#include "api_common.hpp"

namespace hp {
namespace {

struct Planes {
  float *rgb, *geometry, *depth;
  uint8_t *covering, *color, *stripe;
  uint16_t* instance;
};

struct Frames {
  float *lit, *open, *normal;
};

struct DeviceScenes {
  const Globals* globals;
  const Prim* prims;
  const Node* nodes;
  const Material* mats;
  const Color* colors;
  const float* photos;
  int photoCount, photoSize;
};

__global__ void __launch_bounds__(128) trace_kernel(DeviceScenes d, Frames f, Planes o, int size, int samples, int first) {
  int x = blockIdx.x * 16 + threadIdx.x, y = blockIdx.y * 8 + threadIdx.y, k = blockIdx.z;
  if (x >= size || y >= size) return;
  SceneView v;
  v.g = d.globals + first + k;
  v.prims = d.prims + v.g->primOffset;
  v.nodes = d.nodes + v.g->nodeOffset;
  v.mats = d.mats + v.g->matOffset;
  v.colors = d.colors + v.g->colorOffset;
  v.photos = d.photos;
  v.photoCount = d.photoCount;
  v.photoSize = d.photoSize;
  PixelOut p = render_pixel(v, x, y, size, samples);
  size_t S2 = (size_t)size * size, i = (size_t)y * size + x, s = (size_t)k * S2 + i, g = (size_t)(first + k) * S2 + i;
  f.lit[s * 3] = p.lit.x; f.lit[s * 3 + 1] = p.lit.y; f.lit[s * 3 + 2] = p.lit.z;
  f.open[s * 3] = p.open.x; f.open[s * 3 + 1] = p.open.y; f.open[s * 3 + 2] = p.open.z;
  f.normal[s * 4] = p.normal.x; f.normal[s * 4 + 1] = p.normal.y; f.normal[s * 4 + 2] = p.normal.z; f.normal[s * 4 + 3] = p.depth;
  if (o.covering) o.covering[g] = (uint8_t)p.covering;
  if (o.instance) o.instance[g] = (uint16_t)p.instance;
  if (o.color) o.color[g] = (uint8_t)p.color;
  if (o.stripe) o.stripe[g] = (uint8_t)p.stripe;
  if (o.depth) o.depth[g] = p.depth;
  if (o.geometry) {
    float* q = o.geometry + (size_t)(first + k) * 4 * S2 + i;
    for (int c = 0; c < 4; c++) q[c * S2] = p.geometry[c];
  }
}

__global__ void filter_kernel(Frames f, float* rgb, int size, int first) {
  int x = blockIdx.x * 16 + threadIdx.x, y = blockIdx.y * 8 + threadIdx.y, k = blockIdx.z;
  if (x >= size || y >= size) return;
  size_t S2 = (size_t)size * size;
  Guide g{f.lit + k * S2 * 3, f.open + k * S2 * 3, f.normal + k * S2 * 4};
  Vec3 c = filter_pixel(g, x, y, size, 2);
  float* o = rgb + (size_t)(first + k) * 3 * S2 + (size_t)y * size + x;
  o[0] = c.x; o[S2] = c.y; o[2 * S2] = c.z;
}

/** Memory that lives from call to call; two upload slots so that a copy never overwrites one still in use. */
struct Slot {
  void* host = nullptr; void* device = nullptr; size_t capacity = 0;
  cudaEvent_t done = nullptr;
};
struct Pool {
  std::mutex lock;
  Slot slots[2];
  int next = 0;
  float* frames = nullptr;
  size_t frameCapacity = 0;
};
Pool& pool() {
  static Pool p;
  return p;
}

bool ok(cudaError_t e, const char* what) {
  if (e == cudaSuccess) return true;
  set_error(std::string(what) + ": " + cudaGetErrorString(e));
  return false;
}

constexpr int kChunk = 16;  // images whose intermediate frames are held at once

}  // namespace
}  // namespace hp

extern "C" int hp_submit(hp_batch* batch, int size, const float* bgRgb, int bgCount, int bgSize,
                         const hp_outputs* o, void* streamPointer) {
  using namespace hp;
  std::unique_ptr<hp_batch> own(batch);
  if (!batch || size < 8 || !o) {
    set_error("hp_submit: bad argument");
    return 1;
  }
  Packed p = batch->made.get();
  cudaStream_t stream = (cudaStream_t)streamPointer;
  Pool& pl = pool();
  std::lock_guard<std::mutex> guard(pl.lock);
  size_t part[5] = {p.globals.size() * sizeof(Globals), p.prims.size() * sizeof(Prim), p.nodes.size() * sizeof(Node),
                    p.mats.size() * sizeof(Material), p.colors.size() * sizeof(Color)};
  const void* from[5] = {p.globals.data(), p.prims.data(), p.nodes.data(), p.mats.data(), p.colors.data()};
  size_t at[6] = {0};
  for (int i = 0; i < 5; i++) at[i + 1] = at[i] + ((part[i] + 255) & ~(size_t)255);
  Slot& s = pl.slots[pl.next];
  pl.next ^= 1;
  if (!s.done && !ok(cudaEventCreateWithFlags(&s.done, cudaEventDisableTiming), "event")) return 3;
  if (!ok(cudaEventSynchronize(s.done), "previous batch")) return 3;
  if (s.capacity < at[5]) {
    if (s.host) cudaFreeHost(s.host);
    if (s.device) cudaFree(s.device);
    s.host = s.device = nullptr;
    s.capacity = at[5] + at[5] / 2;
    if (!ok(cudaMallocHost(&s.host, s.capacity), "pinned memory") || !ok(cudaMalloc(&s.device, s.capacity), "scene memory")) {
      s.capacity = 0;
      return 2;
    }
  }
  size_t S2 = (size_t)size * size, need = S2 * 10 * kChunk;
  if (pl.frameCapacity < need) {
    if (pl.frames) cudaFree(pl.frames);
    pl.frames = nullptr;
    pl.frameCapacity = 0;
    if (!ok(cudaMalloc(&pl.frames, need * sizeof(float)), "frame memory")) return 2;
    pl.frameCapacity = need;
  }
  for (int i = 0; i < 5; i++) std::memcpy((char*)s.host + at[i], from[i], part[i]);
  if (!ok(cudaMemcpyAsync(s.device, s.host, at[5], cudaMemcpyHostToDevice, stream), "upload")) return 3;
  char* d = (char*)s.device;
  DeviceScenes ds{(const Globals*)d, (const Prim*)(d + at[1]), (const Node*)(d + at[2]), (const Material*)(d + at[3]),
                  (const Color*)(d + at[4]), bgRgb, bgRgb ? bgCount : 0, bgSize};
  Frames f{pl.frames, pl.frames + S2 * 3 * kChunk, pl.frames + S2 * 6 * kChunk};
  Planes planes{o->rgb, o->geometry, o->depth, o->covering, o->color, o->stripe, o->instance};
  dim3 block(16, 8);
  for (int first = 0; first < batch->n; first += kChunk) {
    int n = batch->n - first < kChunk ? batch->n - first : kChunk;
    dim3 grid((size + 15) / 16, (size + 7) / 8, n);
    trace_kernel<<<grid, block, 0, stream>>>(ds, f, planes, size, settings().samples, first);
    if (o->rgb) filter_kernel<<<grid, block, 0, stream>>>(f, o->rgb, size, first);
  }
  if (!ok(cudaGetLastError(), "kernel")) return 3;
  if (!ok(cudaEventRecord(s.done, stream), "event")) return 3;
  return 0;
}
