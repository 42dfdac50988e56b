/*
 * C interface of the scene renderer (libhprender.so). Same functions in the CPU and the CUDA build.
 *
 * Sizes: n images of size x size pixels. Image x runs right, y runs down. Every pointer to pixels is a
 * device pointer in the CUDA build and a host pointer in the CPU build; seeds and mixture are always host
 * pointers. The same seed (with the same mixture, size and quality) always gives the same scene.
 */
#ifndef HPRENDER_API_H
#define HPRENDER_API_H
#include <stdint.h>
#ifdef __cplusplus
extern "C" {
#endif

/* Covering classes of the label plane `covering`. */
enum {
  HP_BACKGROUND = 0,
  HP_INSULATED = 1,  /* insulated conductor */
  HP_BARE = 2,       /* bare metal of a conductor: stripped end, bare ground, ferrule barrel */
  HP_TAPE = 3,       /* tape, sleeve, marker, shrink tubing or ferrule collar on a conductor */
  HP_JACKET = 4      /* jacket of a cable that holds several conductors */
};

/*
 * Base color ids: black 0, brown 1, red 2, orange 3, yellow 4, green 5, blue 6, violet 7, gray 8, white 9,
 * pink 10, turquoise 11, green-yellow 12 (order of COLOR_NAMES in src/flow/color-name.ts); 255 none.
 * On tape pixels the id is the color of the tape.
 */

/* Buffers one call fills. Any pointer may be NULL: that plane is then not written. */
typedef struct hp_outputs {
  float* rgb;          /* [n,3,S,S] scene-linear sRGB primaries, white-balanced with a residual cast, about 0..2 */
  uint8_t* covering;   /* [n,S,S] HP_* */
  uint16_t* instance;  /* [n,S,S] 0 none; one id per conductor, tape on it included */
  float* geometry;     /* [n,4,S,S] cos2t, sin2t of the projected direction (t in [0,pi), y down); position
                          across in [-1,1], positive on the side of (-sin t, cos t); half width in pixels */
  uint8_t* color;      /* [n,S,S] base color id, 255 none */
  uint8_t* stripe;     /* [n,S,S] low four bits: 0 no stripe at this pixel, 1 + color id of the stripe, 15 legend print;
                          high bits, where there is a stripe: 0 along, 1 spiral, 2 rings */
  float* depth;        /* [n,S,S] distance along the view axis in mm, 0 where nothing is hit */
} hp_outputs;

int hp_generator_count(void);
const char* hp_generator_name(int i);

/* Samples per pixel (1..64, default 4), for later calls. */
void hp_set_samples(int samples);
/* Share of scenes whose conductors get stripes and tape (marks.hpp; default 0), for later calls. */
void hp_set_marked(float share);
/* Host threads for scene generation (default: all cores), for later calls. */
void hp_set_threads(int threads);

/*
 * Renders n images. mixture[i] is the weight of generator i (missing ones weigh 0; NULL or all 0: equal).
 * bgRgb: bgCount photographic backdrops [bgCount,3,bgSize,bgSize], linear, 0..1, or NULL with bgCount 0.
 * stream: a cudaStream_t or NULL (CPU build: ignored). The CUDA build returns when the work is enqueued.
 * Returns 0, or a positive error code (1 bad argument, 2 out of memory, 3 CUDA error; hp_last_error says more).
 */
int hp_render(const uint64_t* seeds, const float* mixture, int mixtureCount, int n, int size,
              const float* bgRgb, int bgCount, int bgSize, float* rgb, uint8_t* covering,
              uint16_t* instance, float* geometry, uint8_t* color, uint8_t* stripe, void* stream);

/*
 * The same in two steps, so that scenes of the next batch are generated on the host while the current one
 * renders: hp_prepare starts generating in the background and returns at once; hp_submit waits for it,
 * enqueues the rendering and frees the handle. bgCount must be the same in both.
 */
typedef struct hp_batch hp_batch;
hp_batch* hp_prepare(const uint64_t* seeds, const float* mixture, int mixtureCount, int n, int bgCount);
int hp_submit(hp_batch* batch, int size, const float* bgRgb, int bgCount, int bgSize,
              const hp_outputs* outputs, void* stream);

/* The generator that a seed draws under this mixture. */
int hp_generator_of(uint64_t seed, const float* mixture, int mixtureCount);
const char* hp_last_error(void);

#ifdef __cplusplus
}
#endif
#endif
