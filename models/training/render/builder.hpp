// Builds one scene on the host. Generators and parts talk only to this class.
//
//   Builder b(seed);
//   b.lamps(...)                                  // optional: else drawn at random
//   int gray = b.paint(b.rgb(0.6f, 0.6f, 0.58f)); // a material
//   b.box(v3(0, 0, -1), v3(200, 150, 1), gray);
//   b.conductor(b.style(kRed, b.thhn(12))).from(p, dir).via(q).to(r, dir).strip_end(9);
//   b.look(target, 250, 20, 0, 0);                // camera: 250 mm of the target plane across the picture
//
// Conductor paths are polylines of the given points; finish() turns them into elastic curves (diffusion with the
// conductor's bend radius), pushes touching conductors apart and emits capsule chains, sleeves and bare ends.
#pragma once
#include <string>
#include <vector>

#include "scene.hpp"
#include "spectral.hpp"

namespace hp {

/** Gauge: insulated outer diameter and metal diameter in mm. */
struct Gauge {
  float outer, metal;
};

/** How a conductor looks. Builder::style draws a plausible one; change fields afterwards. */
struct Style {
  int name = kBlack;
  Gauge gauge{3.3f, 2.05f};
  bool bare = false;            // no insulation at all
  bool stranded = true, tinned = false;
  int stripe = kNoStripe, stripeName = kWhite;
  float stripeCount = 1, stripeWidth = 0.2f, stripePitch = 0;
  float specular = 0.04f, rough = 0.35f;
  float fade0 = 0, fade1 = 0, dirt = 0, dust = 0;
  float print = 0;              // legend print strength
  int pigment = -1;             // row of the pigment table, -1: drawn for the name
  float shade = 1;              // factor on the color
  int covering = kInsulated;    // kJacket for cables, kBackground for hoses and rope
  int tex = kPlain; float texScale = 1, texAmount = 0, bump = 0;
  float twist = 0;              // turns of the pattern per mm
};

/** Something round the conductor from arc length s (negative: counted from the end) over len mm. */
struct Sleeve {
  float s, len;
  int mat;
  float grow;                   // radius factor against the insulated radius
};

/** A conductor being described; lives in the builder. */
struct Strand {
  Style style;
  std::vector<Vec3> points;
  Vec3 dirStart, dirEnd;
  bool hasStart = false, hasEnd = false;
  float stripStart = 0, stripEnd = 0;   // mm of bare metal
  float bend = 4;                       // bend radius in outer diameters
  float wobble = 0.15f;                 // low-frequency irregularity, in outer diameters
  float frozen = 0;                     // 0..1, how little settle() may move it
  bool fixedStart = true, fixedEnd = true;
  std::vector<Sleeve> sleeves;
  int instance = 0;
  std::vector<Vec3> nodes;              // after relaxing
  float spacing = 1;
};

class Builder;

/** Handle for describing a conductor; cheap to copy. */
class Conductor {
 public:
  Conductor(Builder* b, int i) : b_(b), i_(i) {}
  /** Start at p, leaving along dir (zero: free). */
  Conductor& from(Vec3 p, Vec3 dir = v3(0, 0, 0));
  Conductor& via(Vec3 p);
  Conductor& through(const std::vector<Vec3>& points);
  /** End at p, arriving along dir (zero: free). */
  Conductor& to(Vec3 p, Vec3 dir = v3(0, 0, 0));
  Conductor& strip_start(float mm);
  Conductor& strip_end(float mm);
  /** Radius of bends in outer diameters (default 4). */
  Conductor& bend(float diameters);
  Conductor& wobble(float diameters);
  Conductor& frozen(float f);
  Conductor& loose_ends();
  /** Tape, sleeve or marker of that color from s (negative: from the end) over len mm. */
  Conductor& sleeve(float s, float len, int colorName, float grow = 1.12f, float specular = 0.05f);
  Conductor& sleeve_material(float s, float len, int mat, float grow);
  /** Wire marker: a short white or yellow ring with a printed sign. */
  Conductor& marker(float s);
  /** Insulated ferrule on the start or end: collar of a color, metal barrel. The bare length is set too. */
  Conductor& ferrule(bool atStart, int colorName);
  Strand& strand();
  int id() const;

 private:
  Builder* b_;
  int i_;
};

class Builder {
 public:
  explicit Builder(uint64_t seed, int photoCount = 0);

  Rng rng;
  int photos;                         // how many photographic backdrops the caller supplies

  // ---- light and camera -------------------------------------------------------------------------------
  /** Spectra of the ambient light and up to three lamps (rows of the lamp table), and the camera. */
  void spectra(int ambient, int lamp1, int lamp2, int lamp3, int camera, int whiteBalanceLamp);
  void random_spectra();
  /** Ambient radiance from above and below, and how much near surfaces give back. */
  void ambient(float top, float bottom, float bounce = 0.35f, Vec3 up = v3(0, 0.6f, 0.8f));
  /** Area lamp: `power` is the irradiance of a surface at the aim facing it. */
  void lamp(Vec3 pos, Vec3 aim, float radius, float power, float coneDegrees = 180, float soft = 0.3f);
  /** Headlamp or flash near the camera (call after look()). */
  void headlamp(float power, float coneDegrees, Vec3 offset);
  /** A usual set of lights for a subject at `aim` of `size` mm; call after look(). dark: 0 bright room .. 1 cellar. */
  void random_lights(Vec3 aim, float size, float dark = -1);
  /**
   * Camera looking at target so that `across` mm of the target's plane fill the picture's width. Tilt (degrees from
   * +z), azimuth of the tilt, roll (degrees), full field of view (degrees).
   */
  void look(Vec3 target, float across, float tilt, float azimuth, float roll, float fov = 58);
  /** Draws tilt up to maxTilt (mostly small), any azimuth, roll by quarter turns with jitter (upright: mostly none). */
  void random_look(Vec3 target, float across, float maxTilt = 40, float upright = 0.6f);
  /** A point on a conductor described so far (any if none), for aiming the camera; `spread` mm of Gaussian jitter. */
  Vec3 some_conductor(float spread);
  /** Depth of field: lens radius in mm and focus distance (0: at the target). */
  void focus(float lens, float distance = 0);
  /** What is seen where nothing is hit: a photo (index) or a plain radiance. */
  void backdrop(Vec3 radiance, int photo = -1);
  void exposure(float factor) { globals.cam.exposure *= factor; }

  // ---- colors and materials ---------------------------------------------------------------------------
  /** Pigment row mixed with nothing; see spectral.hpp for rows. */
  int pigment(int row, float gain = 1);
  /** A mixture of two pigments by weight t of the second. */
  int blend(int rowA, int rowB, float t, float gain = 1);
  /** A non-spectral color: reflectance given in linear sRGB. */
  int rgb(float r, float g, float b);
  int gray(float reflectance) { return rgb(reflectance, reflectance, reflectance); }
  /** A color of that name, drawn from the pigments of the name. */
  int named(int colorName);
  /** Pigment row drawn for a color name. */
  int pigment_of(int colorName);
  /** A color id as often as on site: black, white, red, blue, green most; any other less (assumed shares). */
  int any_color();
  /** Whether a color was made from that pigment row. */
  bool is_pigment(int color, int row) const { return recipes_[color].spectral && recipes_[color].a == row; }
  Material blank(int color);
  int add(const Material& m);
  /** Painted or molded surface. */
  int paint(int color, float specular = 0.04f, float rough = 0.4f);
  int metal(int color, float rough = 0.25f, int tex = kPlain, float texScale = 8, float texAmount = 0.2f);
  int textured(int tex, int color, int second, float scale, float amount);
  /** Photo `index` spread over `mm` millimeters. */
  int photo(int index, float mm);
  int copper(); int tin(); int brass(); int zinc(); int steel(); int galvanized();
  /** Dull molded plastic: black, gray, white, beige or a random color. */
  int plastic(int kind = -1);
  int label_material(int paper, int ink, float textHeight);
  Material& mat(int i) { return mats[i]; }

  // ---- shapes -----------------------------------------------------------------------------------------
  void box(Vec3 center, Vec3 half, int mat, float edge = 0.4f, Quat q = Quat());
  /** Box between two corners. */
  void span(Vec3 lo, Vec3 hi, int mat, float edge = 0.4f);
  void cylinder(Vec3 a, Vec3 b, float r, int mat) { cone(a, b, r, r, mat); }
  void cone(Vec3 a, Vec3 b, float ra, float rb, int mat);
  void tube(Vec3 a, Vec3 b, float ra, float rb, int mat);
  void capsule(Vec3 a, Vec3 b, float r, int mat);
  void sphere(Vec3 c, float r, int mat) { capsule(c, c, r, mat); }
  /** Capsule with two radii (fingers, grips). */
  void round_cone(Vec3 a, Vec3 b, float ra, float rb, int mat);
  /** Smooth chain through the points. */
  void rod(const std::vector<Vec3>& points, float r, int mat, bool smoothed = true);
  void ring(Vec3 c, Vec3 axis, float R, float r, int mat, int segments = 20);

  /**
   * Local frame: until pop(), shapes, conductor points and obstacles are rotated by q, then moved by t
   * (frames nest). Lights and camera are always in world coordinates.
   */
  void push(Vec3 t, Quat q = Quat());
  void pop();
  /** Rotation whose local x and y axes point along the given directions (y is made orthogonal). */
  static Quat axes(Vec3 x, Vec3 y);
  Vec3 world(Vec3 p) const;
  Vec3 world_dir(Vec3 d) const { return rotate(frame_.q, d); }

  // ---- conductors -------------------------------------------------------------------------------------
  static Gauge thhn(int awg);           // 18..1, 0 = 1/0, -1 = 2/0, -2 = 3/0, -3 = 4/0, kcmil as 250, 350, 500
  static Gauge metric(float mm2);       // flexible single core, 0.25 .. 16 mm2
  /** A plausible conductor: stripes (rare), print, wear. wear 0 new .. 1 old and dirty. */
  Style style(int colorName, Gauge g, float wear = -1);
  Style bare_ground(Gauge g);
  Style jacket(int colorName, float outer);
  Conductor conductor(const Style& s);
  /** Keeps conductors out of a box (local corners) while settling. */
  void obstacle(Vec3 lo, Vec3 hi);
  /** Keeps conductors above this plane: dot(p, n) >= d. */
  void floor_plane(Vec3 n, float d);
  int settle_rounds = 10;
  /** Cable tie round a bundle: conductors near p. Drawn after settling. */
  void tie(Vec3 p, Vec3 axis, float reach, int mat);

  /** Relaxes conductors, emits their shapes, builds the BVH, resolves colors. */
  void finish();

  // ---- result -----------------------------------------------------------------------------------------
  std::vector<Prim> prims;
  std::vector<Node> nodes;
  std::vector<Material> mats;
  std::vector<Color> colors;
  Globals globals{};
  std::vector<Strand> strands;
  int lampRows[kLamps]{}, cameraRow = 0, whiteRow = 0;
  Vec3 cast = v3(1, 1, 1);              // residual white-balance error
  Vec3 target; float targetDistance = 500, across = 300;
  std::string note;                      // the generator's own remark, for a person looking at it

 private:
  friend class Conductor;
  struct Frame { Vec3 t; Quat q; };
  struct ColorRecipe { int a, b; float t, gain; Vec3 rgb; bool spectral; };
  struct Obstacle { Vec3 lo, hi; Frame f; };
  struct Floor { Vec3 n; float d; };
  struct Tie { Vec3 p, axis; float reach; int mat; };
  Frame frame_;
  std::vector<Frame> stack_;
  std::vector<ColorRecipe> recipes_;
  std::vector<Obstacle> obstacles_;
  std::vector<Floor> floors_;
  std::vector<Tie> ties_;
  bool spectraSet_ = false;
  int shared_[16];
  int nextInstance_ = 1;
  int recipe(ColorRecipe r);
  void relax();
  void settle();
  void emit(Strand& s);
  void emit_ties();
  void resolve_colors();
  void build_bvh();
  void plan_samples();
  int shared(int slot, int (Builder::*make)());
};

}  // namespace hp
