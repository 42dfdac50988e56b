#include "surfaces.hpp"

namespace hp {

int any_surface(Builder& b, float across) {
  Rng& r = b.rng;
  if (b.photos > 0 && r.chance(0.45f)) return b.photo(r.pick(0, b.photos - 1), across * r.log(0.6f, 2));
  switch (r.pick(0, 9)) {
    case 0: case 1: {
      float g = r.log(0.05f, 0.85f);
      float t = r.gauss() * 0.06f, u = r.gauss() * 0.06f;
      int c = b.rgb(g * (1 + t), g, g * (1 + u));
      return b.textured(kPainted, c, b.pigment(pgDust), r.log(5, 200), r.range(0, 0.4f));
    }
    case 2: case 3: return b.textured(kWood, b.pigment(pgWoodLight, r.range(0.6f, 1.1f)), b.pigment(pgWoodDark, r.range(0.6f, 1)), r.log(4, 40), r.range(0.3f, 1));
    case 4: return b.textured(kConcrete, b.pigment(pgConcrete, r.range(0.4f, 1.1f)), b.pigment(pgDirt), r.log(5, 60), r.range(0.3f, 0.8f));
    case 5: return b.textured(kCardboard, b.pigment(pgCardboard, r.range(0.7f, 1.1f)), b.pigment(pgDirt), r.log(3, 8), r.range(0.3f, 1));
    case 6: return b.textured(kCloth, b.rgb(r.log(0.03f, 0.7f), r.log(0.03f, 0.7f), r.log(0.03f, 0.7f)), b.pigment(pgDust), r.log(0.8f, 4), r.range(0.3f, 0.9f));
    case 7: return b.textured(kCarpet, b.pigment(pgCarpet, r.range(0.4f, 1.6f)), b.pigment(pgDust), r.log(1, 5), r.range(0.3f, 0.9f));
    case 8: return r.chance(0.5f) ? b.galvanized() : b.steel();
    default: return b.textured(kPainted, b.pigment(r.pick(0, 175), r.range(0.5f, 1)), b.pigment(pgDirt), r.log(5, 200), r.range(0, 0.5f));
  }
}

int enclosure_surface(Builder& b) {
  Rng& r = b.rng;
  int c;
  const float w[] = {0.3f, 0.15f, 0.2f, 0.2f, 0.07f, 0.08f};
  switch (r.weighted(w)) {
    case 0: c = b.pigment(pgLightGrayEnclosure, r.range(0.7f, 1.05f)); break;
    case 1: c = b.pigment(pgPaper, r.range(0.7f, 0.95f)); break;
    case 2: c = b.pigment(pgDeviceGray, r.log(0.35f, 1)); break;
    case 3: return b.galvanized();
    case 4: c = b.pigment(pgBackPlateOrange, r.range(0.7f, 1.1f)); break;
    default: c = b.pigment(pgBeige, r.range(0.6f, 1)); break;
  }
  int m = b.textured(kPainted, c, b.pigment(pgDust, 0.8f), r.log(20, 300), r.range(0, 0.35f));
  b.mat(m).rough = r.range(0.3f, 0.6f);
  b.mat(m).dirt = r.chance(0.4f) ? r.u() * 0.5f : 0;
  return m;
}

void clutter(Builder& b, Vec3 p, float size) {
  Rng& r = b.rng;
  Quat q = turn(v3(0, 0, 1), r.range(0, 6.28f));
  b.push(p, q);
  switch (r.pick(0, 6)) {
    case 0: case 1: {
      Vec3 h = v3(size, size * r.range(0.2f, 1), size * r.range(0.05f, 0.5f));
      b.box(v3(0, 0, h.z), h, b.plastic(), size * 0.05f);
      if (r.chance(0.5f)) b.box(v3(0, 0, 2 * h.z), v3(h.x * 0.7f, h.y * 0.7f, 0.15f), b.label_material(b.pigment(pgPaper, 0.9f), b.pigment(pgInk), size * r.range(0.06f, 0.2f)), 0);
      break;
    }
    case 2: b.cylinder(v3(0, 0, 0), v3(0, 0, size * r.range(0.2f, 1)), size * r.range(0.15f, 0.5f), b.plastic()); break;
    case 3: {  // screw lying or standing
      int m = r.chance(0.7f) ? b.zinc() : b.brass();
      float rr = size * 0.12f;
      b.cylinder(v3(0, 0, rr), v3(size * 0.5f, 0, rr), rr * 0.6f, m);
      b.cone(v3(0, 0, rr), v3(-rr, 0, rr), rr * 1.2f, rr * 0.9f, m);
      break;
    }
    case 4: b.box(v3(0, 0, 0.1f), v3(size, size * r.range(0.4f, 1), 0.1f), b.label_material(b.pigment(pgPaper, r.range(0.7f, 1)), b.pigment(pgInk), size * r.range(0.04f, 0.15f)), 0); break;
    case 5: b.ring(v3(0, 0, size * 0.06f), v3(0, 0, 1), size * 0.4f, size * r.range(0.04f, 0.12f), r.chance(0.5f) ? b.zinc() : b.plastic()); break;
    default: {  // connector with a row of holes
      int n = r.pick(2, 8), m = b.plastic(), d = b.paint(b.gray(0.01f));
      float w = size / n;
      b.box(v3(0, 0, size * 0.15f), v3(size * 0.5f, size * 0.25f, size * 0.15f), m, size * 0.03f);
      for (int k = 0; k < n; k++) b.box(v3((k + 0.5f) * w - size * 0.5f, 0, size * 0.3f), v3(w * 0.3f, size * 0.1f, 0.1f), d, 0);
    }
  }
  b.pop();
}

}  // namespace hp
