// What a scene is made of: plain records that host and device share. Units: mm. World axes of most scenes:
// the back plate is the plane z = 0, x right, y up, z toward the viewer.
#pragma once
#include "vec.hpp"

namespace hp {

/** Covering classes (HP_* in api.h). */
enum Covering : int { kBackground = 0, kInsulated = 1, kBare = 2, kTape = 3, kJacket = 4 };

/** Color ids (COLOR_NAMES order in src/flow/color-name.ts). */
enum ColorName : int {
  kBlack, kBrown, kRed, kOrange, kYellow, kGreen, kBlue, kViolet, kGray, kWhite, kPink, kTurquoise,
  kGreenYellow, kColorNames, kPrintLabel = 15, kNoColor = 255
};

enum PrimType : int {
  kCapsule = 0,  // a, b, ra (constant radius, round ends)
  kCone = 1,     // a, b, ra, rb: frustum or cylinder with flat caps
  kTube = 2,     // as kCone without caps, seen from both sides
  kBox = 3       // a center, b half sizes, ra edge radius (shading only), u and w rotation
};

/** One traceable shape, 64 bytes. */
struct Prim {
  Vec3 a; float ra;
  Vec3 b; float rb;
  Vec3 u; float w;     // capsule, cone: direction of angle zero; box: quaternion
  float s0, s1;        // arc length at a and b (conductors), mm
  int type;
  int mat;
};

/** BVH node: inner when count == 0 (children at `first` and first + 1), leaf otherwise. */
struct Node {
  Vec3 lo; int first;
  Vec3 hi; int count;
};

/** How a surface looks under each lamp of the scene: linear RGB for unit irradiance. Lamp 0 is ambient. */
constexpr int kLamps = 4;
struct Color {
  Vec3 c[kLamps];
};

/** Surface patterns. Boxes use their local coordinates in mm, capsules and cones (arc length, angle x radius). */
enum Texture : int {
  kPlain, kBrushed, kGalvanized, kPainted, kWood, kBrick, kConcrete, kCardboard, kCloth, kBoard /* PCB */,
  kLabel, kPhoto, kStranded, kRibs, kStripesTex, kRope, kCarpet, kSkin, kGrid
};

enum StripeKind : int { kNoStripe, kAlong, kSpiral, kRings, kHalves /* two colors half and half, green-yellow */ };

/** Surface of a primitive; indices point into the scene's Color list. */
struct Material {
  int covering = kBackground, instance = 0, colorName = kNoColor, stripeName = kNoColor;
  int base = 0, second = 0, print = 0, faded = 0, dirtColor = 0, dustColor = 0;
  int tex = kPlain; float texScale = 10, texAmount = 0; uint32_t seed = 1;
  float specular = 0.04f, rough = 0.4f, metal = 0; int photo = -1;
  int stripe = kNoStripe; float stripeCount = 1, stripeWidth = 0.3f, stripePitch = 0, stripePhase = 0;
  float printStrength = 0, printHeight = 1, printPitch = 40; float glow = 0;
  float dirt = 0, dust = 0, fade0 = 0, fade1 = 0; float len = 1, bump = 0; int pad0 = 0, pad1 = 0;
};

/** Area light (a disc facing the scene) or spot. Irradiance at `range` mm on its axis is `power`. */
struct Light {
  Vec3 pos; float radius;
  Vec3 dir; float cosIn, cosOut;   // spot cone; cosOut <= -1: all round
  float power, range;
  int lamp;                        // index into Color.c
  Vec3 white;                      // RGB of a white surface under it
};

struct Camera {
  Vec3 pos; float tanHalf;
  Vec3 right; float lens;          // lens radius in mm, 0 pinhole
  Vec3 up; float focus;            // distance of the plane in focus, mm
  Vec3 fwd; float exposure;
};

/** Scene-wide values. */
struct Globals {
  Camera cam;
  Light lights[3]; int lightCount;
  Vec3 envUp; float envTop, envBottom;   // ambient radiance along and against envUp
  Vec3 envWhite; float bounce;           // RGB of white under lamp 0; share of light returned by near surfaces
  Vec3 softbox; float softboxPower;      // a bright window in the surroundings, seen in gloss only
  Vec3 backdrop; float aoRange;          // radiance where nothing is hit; reach of occlusion rays, mm
  int primOffset, nodeOffset, matOffset, colorOffset;
  uint32_t seed; int backdropPhoto;
  int sampleScale;                       // samples are multiplied by this where blur from the lens is wide
  int pad1;
};

}  // namespace hp
