// Depthwise 3x3 convolution and batch norm with ReLU6 for training, bfloat16 in and out, float32 sums.
// PyTorch's own versions took most of a training step at this network's shapes (few channels, large planes).
// Planes are [B, C, H, W] without gaps; fast.py checks every kernel against PyTorch before it is used.
#include <cuda_bf16.h>
#include <cuda_runtime.h>

namespace {

using bf16 = __nv_bfloat16;
constexpr int kThreads = 256;
constexpr int kRows = 8;  // rows of outputs that one thread computes going down its column

__device__ __forceinline__ float at(const bf16* row, int x, int width, bool inside) {
  return inside && x >= 0 && x < width ? __bfloat162float(row[x]) : 0.f;
}

/** Depthwise 3x3, padding 1. `flip`: weights turned by 180 degrees (the gradient of stride 1 by its input). */
template <int STRIDE>
__global__ void dw_forward(const bf16* __restrict__ x, const float* __restrict__ w, bf16* __restrict__ y, int channels,
                           int h, int wd, int oh, int ow, bool flip, long strips) {
  long id = (long)blockIdx.x * kThreads + threadIdx.x;
  if (id >= strips) return;
  int ox = (int)(id % ow);
  long rest = id / ow;
  int perPlane = (oh + kRows - 1) / kRows;
  int oy0 = (int)(rest % perPlane) * kRows;
  long plane = rest / perPlane;
  int c = (int)(plane % channels);
  float k[9];
  for (int i = 0; i < 9; i++) k[i] = w[c * 9 + (flip ? 8 - i : i)];
  const bf16* in = x + plane * h * wd;
  bf16* out = y + plane * oh * ow;
  int x0 = ox * STRIDE;
  float a[3], b[3], d[3];
  int top = oy0 * STRIDE - 1;
  for (int i = 0; i < 3; i++) a[i] = at(in + (long)top * wd, x0 - 1 + i, wd, top >= 0 && top < h);
  if (STRIDE == 1)
    for (int i = 0; i < 3; i++) b[i] = at(in + (long)(top + 1) * wd, x0 - 1 + i, wd, top + 1 < h);
  for (int r = 0; r < kRows && oy0 + r < oh; r++) {
    int yc = (oy0 + r) * STRIDE;
    if (STRIDE == 2)
      for (int i = 0; i < 3; i++) b[i] = at(in + (long)yc * wd, x0 - 1 + i, wd, yc < h);
    for (int i = 0; i < 3; i++) d[i] = at(in + (long)(yc + 1) * wd, x0 - 1 + i, wd, yc + 1 < h);
    float s = 0;
    for (int i = 0; i < 3; i++) s += k[i] * a[i] + k[3 + i] * b[i] + k[6 + i] * d[i];
    out[(long)(oy0 + r) * ow + ox] = __float2bfloat16(s);
    for (int i = 0; i < 3; i++) {
      a[i] = STRIDE == 1 ? b[i] : d[i];
      if (STRIDE == 1) b[i] = d[i];
    }
  }
}

/** Gradient of stride 2 by its input: each input pixel gathers from the outputs that it reached. */
__global__ void dw_back_stride2(const bf16* __restrict__ dy, const float* __restrict__ w, bf16* __restrict__ dx, int channels,
                                int h, int wd, int oh, int ow, long pixels) {
  long id = (long)blockIdx.x * kThreads + threadIdx.x;
  if (id >= pixels) return;
  int px = (int)(id % wd);
  long rest = id / wd;
  int py = (int)(rest % h);
  long plane = rest / h;
  int c = (int)(plane % channels);
  const bf16* g = dy + plane * oh * ow;
  float s = 0;
  for (int ky = 0; ky < 3; ky++) {
    int ty = py + 1 - ky;
    if (ty < 0 || (ty & 1) || ty / 2 >= oh) continue;
    for (int kx = 0; kx < 3; kx++) {
      int tx = px + 1 - kx;
      if (tx < 0 || (tx & 1) || tx / 2 >= ow) continue;
      s += w[c * 9 + ky * 3 + kx] * __bfloat162float(g[(long)(ty / 2) * ow + tx / 2]);
    }
  }
  dx[id] = __float2bfloat16(s);
}

/** Sum over the block; the result is right in thread 0. `scratch` holds 32 values. */
__device__ float block_sum(float v, float* scratch) {
  for (int o = 16; o > 0; o >>= 1) v += __shfl_down_sync(0xffffffffu, v, o);
  int warp = threadIdx.x >> 5, lane = threadIdx.x & 31;
  __syncthreads();
  if (lane == 0) scratch[warp] = v;
  __syncthreads();
  v = threadIdx.x < kThreads / 32 ? scratch[threadIdx.x] : 0.f;
  if (warp == 0)
    for (int o = 16; o > 0; o >>= 1) v += __shfl_down_sync(0xffffffffu, v, o);
  return v;
}

/** Gradient by the weights, added to dw [C, 9], which the caller has set to zero. Grid: channels x chunks. */
template <int STRIDE>
__global__ void dw_back_weight(const bf16* __restrict__ x, const bf16* __restrict__ dy, float* __restrict__ dw, int batch,
                               int channels, int h, int wd, int oh, int ow) {
  __shared__ float scratch[32];
  int c = blockIdx.x;
  int perPlane = (oh + kRows - 1) / kRows;
  long strips = (long)batch * perPlane * ow;
  float acc[9] = {0, 0, 0, 0, 0, 0, 0, 0, 0};
  for (long id = (long)blockIdx.y * kThreads + threadIdx.x; id < strips; id += (long)gridDim.y * kThreads) {
    int ox = (int)(id % ow);
    long rest = id / ow;
    int oy0 = (int)(rest % perPlane) * kRows;
    long plane = (rest / perPlane) * channels + c;
    const bf16* in = x + plane * h * wd;
    const bf16* g = dy + plane * oh * ow;
    int x0 = ox * STRIDE;
    float a[3], b[3], d[3];
    int top = oy0 * STRIDE - 1;
    for (int i = 0; i < 3; i++) a[i] = at(in + (long)top * wd, x0 - 1 + i, wd, top >= 0 && top < h);
    if (STRIDE == 1)
      for (int i = 0; i < 3; i++) b[i] = at(in + (long)(top + 1) * wd, x0 - 1 + i, wd, top + 1 < h);
    for (int r = 0; r < kRows && oy0 + r < oh; r++) {
      int yc = (oy0 + r) * STRIDE;
      if (STRIDE == 2)
        for (int i = 0; i < 3; i++) b[i] = at(in + (long)yc * wd, x0 - 1 + i, wd, yc < h);
      for (int i = 0; i < 3; i++) d[i] = at(in + (long)(yc + 1) * wd, x0 - 1 + i, wd, yc + 1 < h);
      float v = __bfloat162float(g[(long)(oy0 + r) * ow + ox]);
      for (int i = 0; i < 3; i++) {
        acc[i] += v * a[i];
        acc[3 + i] += v * b[i];
        acc[6 + i] += v * d[i];
        a[i] = STRIDE == 1 ? b[i] : d[i];
        if (STRIDE == 1) b[i] = d[i];
      }
    }
  }
  for (int i = 0; i < 9; i++) {
    float s = block_sum(acc[i], scratch);
    if (threadIdx.x == 0) atomicAdd(dw + c * 9 + i, s);
  }
}

struct Eight {
  float v[8];
};

__device__ __forceinline__ Eight load8(const bf16* p) {
  uint4 raw = *reinterpret_cast<const uint4*>(p);
  const __nv_bfloat162* pairs = reinterpret_cast<const __nv_bfloat162*>(&raw);
  Eight e;
  for (int i = 0; i < 4; i++) {
    float2 f = __bfloat1622float2(pairs[i]);
    e.v[2 * i] = f.x;
    e.v[2 * i + 1] = f.y;
  }
  return e;
}

__device__ __forceinline__ void store8(bf16* p, const Eight& e) {
  uint4 raw;
  __nv_bfloat162* pairs = reinterpret_cast<__nv_bfloat162*>(&raw);
  for (int i = 0; i < 4; i++) pairs[i] = __floats2bfloat162_rn(e.v[2 * i], e.v[2 * i + 1]);
  *reinterpret_cast<uint4*>(p) = raw;
}

/** Sum and sum of squares per channel, added to sums [2, C]. Grid: channels x chunks; `area` a multiple of 8. */
__global__ void bn_sums(const bf16* __restrict__ x, float* __restrict__ sums, int batch, int channels, int area) {
  __shared__ float scratch[32];
  int c = blockIdx.x, per = area / 8;
  long total = (long)batch * per;
  float s = 0, q = 0;
  for (long id = (long)blockIdx.y * kThreads + threadIdx.x; id < total; id += (long)gridDim.y * kThreads) {
    long b = id / per;
    Eight e = load8(x + (b * channels + c) * area + (id % per) * 8);
    for (int i = 0; i < 8; i++) {
      s += e.v[i];
      q += e.v[i] * e.v[i];
    }
  }
  s = block_sum(s, scratch);
  q = block_sum(q, scratch);
  if (threadIdx.x == 0) {
    atomicAdd(sums + c, s);
    atomicAdd(sums + channels + c, q);
  }
}

/** Mean and 1/deviation per channel into stats [2, C]; running values move by `momentum`, the variance unbiased. */
__global__ void bn_stats(const float* __restrict__ sums, float* __restrict__ stats, float* __restrict__ runningMean,
                         float* __restrict__ runningVar, int channels, float count, float eps, float momentum) {
  int c = blockIdx.x * kThreads + threadIdx.x;
  if (c >= channels) return;
  float mean = sums[c] / count, var = fmaxf(0.f, sums[channels + c] / count - mean * mean);
  stats[c] = mean;
  stats[channels + c] = rsqrtf(var + eps);
  runningMean[c] += momentum * (mean - runningMean[c]);
  runningVar[c] += momentum * (var * count / (count - 1) - runningVar[c]);
}

__global__ void bn_apply(const bf16* __restrict__ x, const float* __restrict__ stats, const float* __restrict__ gamma,
                         const float* __restrict__ beta, bf16* __restrict__ y, int channels, int area, bool relu6, long eights) {
  long id = (long)blockIdx.x * kThreads + threadIdx.x;
  if (id >= eights) return;
  int c = (int)((id * 8 / area) % channels);
  float a = gamma[c] * stats[channels + c], b = beta[c] - stats[c] * a;
  Eight e = load8(x + id * 8);
  for (int i = 0; i < 8; i++) {
    e.v[i] = e.v[i] * a + b;
    if (relu6) e.v[i] = fminf(6.f, fmaxf(0.f, e.v[i]));
  }
  store8(y + id * 8, e);
}

/** Sums of the gradient and of gradient times normalized input per channel, added to sums [2, C]. */
__global__ void bn_back_sums(const bf16* __restrict__ x, const bf16* __restrict__ dy, const float* __restrict__ stats,
                             const float* __restrict__ gamma, const float* __restrict__ beta, float* __restrict__ sums,
                             int batch, int channels, int area, bool relu6) {
  __shared__ float scratch[32];
  int c = blockIdx.x, per = area / 8;
  float mean = stats[c], inv = stats[channels + c], g = gamma[c], sh = beta[c];
  long total = (long)batch * per;
  float s = 0, q = 0;
  for (long id = (long)blockIdx.y * kThreads + threadIdx.x; id < total; id += (long)gridDim.y * kThreads) {
    long b = id / per, p = (b * channels + c) * area + (id % per) * 8;
    Eight e = load8(x + p), d = load8(dy + p);
    for (int i = 0; i < 8; i++) {
      float n = (e.v[i] - mean) * inv, z = n * g + sh;
      float v = relu6 && (z <= 0.f || z >= 6.f) ? 0.f : d.v[i];
      s += v;
      q += v * n;
    }
  }
  s = block_sum(s, scratch);
  q = block_sum(q, scratch);
  if (threadIdx.x == 0) {
    atomicAdd(sums + c, s);
    atomicAdd(sums + channels + c, q);
  }
}

__global__ void bn_back(const bf16* __restrict__ x, const bf16* __restrict__ dy, const float* __restrict__ stats,
                        const float* __restrict__ gamma, const float* __restrict__ beta, const float* __restrict__ sums,
                        bf16* __restrict__ dx, int channels, int area, float count, bool relu6, long eights) {
  long id = (long)blockIdx.x * kThreads + threadIdx.x;
  if (id >= eights) return;
  int c = (int)((id * 8 / area) % channels);
  float mean = stats[c], inv = stats[channels + c], g = gamma[c], sh = beta[c];
  float s = sums[c] / count, q = sums[channels + c] / count;
  Eight e = load8(x + id * 8), d = load8(dy + id * 8);
  for (int i = 0; i < 8; i++) {
    float n = (e.v[i] - mean) * inv, z = n * g + sh;
    float v = relu6 && (z <= 0.f || z >= 6.f) ? 0.f : d.v[i];
    e.v[i] = g * inv * (v - s - n * q);
  }
  store8(dx + id * 8, e);
}

unsigned blocks(long n) { return (unsigned)((n + kThreads - 1) / kThreads); }

/** Chunks a channel is cut into, so that the whole card is busy. */
unsigned chunks(long perChannel, int channels) {
  long most = (perChannel + kThreads - 1) / kThreads, wanted = 132 * 8 / channels + 1;
  return (unsigned)(most < wanted ? most : wanted);
}

}  // namespace

extern "C" {

int hp_dw_forward(const void* x, const float* w, void* y, int batch, int channels, int h, int wd, int stride, int flip, void* stream) {
  int oh = (h - 1) / stride + 1, ow = (wd - 1) / stride + 1;
  long strips = (long)batch * channels * ((oh + kRows - 1) / kRows) * ow;
  auto s = (cudaStream_t)stream;
  if (stride == 1)
    dw_forward<1><<<blocks(strips), kThreads, 0, s>>>((const bf16*)x, w, (bf16*)y, channels, h, wd, oh, ow, flip != 0, strips);
  else
    dw_forward<2><<<blocks(strips), kThreads, 0, s>>>((const bf16*)x, w, (bf16*)y, channels, h, wd, oh, ow, flip != 0, strips);
  return (int)cudaGetLastError();
}

/** h, wd: size of the layer's input, which dx has. */
int hp_dw_backward(const void* dy, const float* w, void* dx, int batch, int channels, int h, int wd, int stride, void* stream) {
  if (stride == 1) return hp_dw_forward(dy, w, dx, batch, channels, h, wd, 1, 1, stream);
  long pixels = (long)batch * channels * h * wd;
  dw_back_stride2<<<blocks(pixels), kThreads, 0, (cudaStream_t)stream>>>((const bf16*)dy, w, (bf16*)dx, channels, h, wd,
                                                                         (h - 1) / 2 + 1, (wd - 1) / 2 + 1, pixels);
  return (int)cudaGetLastError();
}

int hp_dw_backward_weight(const void* x, const void* dy, float* dw, int batch, int channels, int h, int wd, int stride, void* stream) {
  int oh = (h - 1) / stride + 1, ow = (wd - 1) / stride + 1;
  auto s = (cudaStream_t)stream;
  dim3 grid(channels, chunks((long)batch * ((oh + kRows - 1) / kRows) * ow, channels));
  if (stride == 1)
    dw_back_weight<1><<<grid, kThreads, 0, s>>>((const bf16*)x, (const bf16*)dy, dw, batch, channels, h, wd, oh, ow);
  else
    dw_back_weight<2><<<grid, kThreads, 0, s>>>((const bf16*)x, (const bf16*)dy, dw, batch, channels, h, wd, oh, ow);
  return (int)cudaGetLastError();
}

/** sums [2, C] must be zero; stats [2, C] is kept for the way back. */
int hp_bn_forward(const void* x, const float* gamma, const float* beta, float* runningMean, float* runningVar, float* sums,
                  float* stats, void* y, int batch, int channels, int area, float eps, float momentum, int relu6, void* stream) {
  auto s = (cudaStream_t)stream;
  long eights = (long)batch * channels * area / 8;
  bn_sums<<<dim3(channels, chunks((long)batch * area / 8, channels)), kThreads, 0, s>>>((const bf16*)x, sums, batch, channels, area);
  bn_stats<<<blocks(channels), kThreads, 0, s>>>(sums, stats, runningMean, runningVar, channels, (float)((long)batch * area), eps, momentum);
  bn_apply<<<blocks(eights), kThreads, 0, s>>>((const bf16*)x, stats, gamma, beta, (bf16*)y, channels, area, relu6 != 0, eights);
  return (int)cudaGetLastError();
}

/** sums [2, C] must be zero and becomes the gradients by beta and gamma. */
int hp_bn_backward(const void* x, const void* dy, const float* stats, const float* gamma, const float* beta, float* sums, void* dx,
                   int batch, int channels, int area, int relu6, void* stream) {
  auto s = (cudaStream_t)stream;
  long eights = (long)batch * channels * area / 8;
  bn_back_sums<<<dim3(channels, chunks((long)batch * area / 8, channels)), kThreads, 0, s>>>(
      (const bf16*)x, (const bf16*)dy, stats, gamma, beta, sums, batch, channels, area, relu6 != 0);
  bn_back<<<blocks(eights), kThreads, 0, s>>>((const bf16*)x, (const bf16*)dy, stats, gamma, beta, sums, (bf16*)dx, channels, area,
                                              (float)((long)batch * area), relu6 != 0, eights);
  return (int)cudaGetLastError();
}
}
