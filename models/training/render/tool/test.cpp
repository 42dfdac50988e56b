// Checks of the renderer. Every check has a twin: a disturbed input that the same check must reject.
#include <cmath>
#include <cstdio>
#include <cstring>

#include "../generators.hpp"
#include "../render_cpu.hpp"

using namespace hp;

static int failures = 0;
static void expect(bool ok, const char* what) {
  std::printf("%s %s\n", ok ? "ok  " : "FAIL", what);
  if (!ok) failures++;
}

struct Planes {
  int size;
  std::vector<float> rgb, geometry, depth;
  std::vector<uint8_t> covering, color, stripe;
  std::vector<uint16_t> instance;
  explicit Planes(int s)
      : size(s), rgb(3 * s * s), geometry(4 * s * s), depth(s * s), covering(s * s), color(s * s), stripe(s * s), instance(s * s) {}
  hp_outputs out() { return {rgb.data(), covering.data(), instance.data(), geometry.data(), color.data(), stripe.data(), depth.data()}; }
};

static void render(const Builder& b, Planes& p, int samples) {
  const Builder* one[1] = {&b};
  Packed k = pack(one, 1);
  render_image(view_of(k, 0, nullptr, 0, 0), p.size, samples, p.out(), 2);
}

/** One straight 10 mm conductor along x at z = 50, seen from straight above; `turn` degrees about z. */
static void straight(Builder& b, float turnDegrees) {
  b.spectra(lampD65, lampD65, lampD65, lampD65, 1, lampD65);
  b.span(v3(-500, -500, -10), v3(500, 500, 0), b.paint(b.gray(0.4f)), 0);
  Style s = b.style(kRed, {10, 5}, 0);
  s.stripe = kNoStripe;
  s.print = 0;
  b.push(v3(0, 0, 50), turn(v3(0, 0, 1), turnDegrees * kPi / 180));
  b.conductor(s).from(v3(-300, 0, 0)).to(v3(300, 0, 0)).wobble(0);
  b.pop();
  b.look(v3(0, 0, 50), 100, 0, 0, 0, 60);
  b.ambient(0.4f, 0.4f);
  b.lamp(v3(200, 300, 800), v3(0, 0, 0), 50, 0.6f);
  b.finish();
}

static bool horizontal(const Planes& p, float expectHalf) {
  int S = p.size, inside = 0, wrong = 0;
  double half = 0, c2 = 0;
  for (int y = 0; y < S; y++)
    for (int x = 0; x < S; x++) {
      int i = y * S + x;
      bool wire = std::fabs(y + 0.5f - S * 0.5f) < expectHalf - 1;
      bool out = std::fabs(y + 0.5f - S * 0.5f) > expectHalf + 1;
      if (wire && p.covering[i] != kInsulated) wrong++;
      if (out && p.covering[i] != kBackground) wrong++;
      if (!p.covering[i]) continue;
      inside++;
      c2 += p.geometry[i];
      half += p.geometry[3 * S * S + i];
      float across = (y + 0.5f - S * 0.5f) / expectHalf;   // t = 0: positive side is +y
      if (std::fabs(p.geometry[2 * S * S + i] - across) > 0.08f) wrong++;
      if (p.color[i] != kRed || p.instance[i] != 1) wrong++;
    }
  return inside > 0 && wrong < inside / 100 && c2 / inside > 0.999 && std::fabs(half / inside - expectHalf) < 0.06 * expectHalf;
}

int main() {
  // 1. labels against geometry known beforehand: 10 mm at the distance where 100 mm fill 100 px is 10 px wide. The visible
  // outline of a cylinder in perspective is a little wider than its diameter (by 1/sqrt(1 - (r/d)^2)), below 0.2 % here.
  {
    Planes p(100);
    Builder a(1);
    straight(a, 0);
    render(a, p, 1);
    expect(horizontal(p, 5), "labels of a straight conductor agree with its geometry");
    Planes q(100);
    Builder c(1);
    straight(c, 12);
    render(c, q, 1);
    expect(!horizontal(q, 5), "  twin: a conductor turned by 12 degrees is rejected");
    expect(p.rgb[(50) * 100 + 50] > 1.5f * p.rgb[100 * 100 + 50 * 100 + 50], "a red conductor is red in the picture");
  }
  // 2. direction: 30 degrees counter-clockwise in the world is -30 (150) degrees in a picture whose y runs down
  {
    Planes p(64);
    Builder a(1);
    straight(a, 30);
    render(a, p, 1);
    int i = 32 * 64 + 32, n = 64 * 64;
    float t = std::atan2(p.geometry[n + i], p.geometry[i]) * 90 / kPi;
    expect(std::fabs(t + 30) < 1, "direction has the sign that the interface promises");
    expect(std::fabs(t - 30) > 1, "  twin: the mirrored direction is rejected");
  }
  // 3. nearest hit by BVH equals the nearest by trying every shape
  {
    Builder b(77);
    make_scene(b, 0);
    const Builder* one[1] = {&b};
    Packed k = pack(one, 1);
    SceneView v = view_of(k, 0, nullptr, 0, 0);
    Rng r(5);
    int bad = 0, hits = 0, lost = 0;
    for (int n = 0; n < 400; n++) {
      Ray ray = primary(v.g->cam, r.range(0, 64), r.range(0, 64), 64, 0, 0);
      Hit h = trace(v, ray, 0, 1e6f, false);
      float best = 1e6f;
      int prim = -1;
      for (size_t i = 0; i < b.prims.size(); i++) {
        float t = cut(v.prims[i], ray, 0, best);
        if (t > 0) { best = t; prim = (int)i; }
      }
      if (prim >= 0) hits++;
      if ((prim < 0) != (h.prim < 0) || std::fabs(best - h.t) > 1e-3f * best) bad++;
      if (prim >= 0 && std::fabs(best * 1.01f - h.t) > 1e-3f * best) lost++;
    }
    expect(bad == 0 && hits > 100, "BVH finds the same nearest hits as brute force");
    expect(lost > 0, "  twin: distances off by 1 % are noticed");
  }
  // 4. same seed same picture; another seed another picture
  {
    uint64_t s1[2] = {11, 12}, s2[2] = {11, 13};
    Planes a(48), b(48), c(48);
    std::vector<float> ra(2 * 3 * 48 * 48), rb(ra), rc(ra);
    hp_set_samples(1);
    hp_render(s1, nullptr, 0, 2, 48, nullptr, 0, 0, ra.data(), nullptr, nullptr, nullptr, nullptr, nullptr, nullptr);
    hp_render(s1, nullptr, 0, 2, 48, nullptr, 0, 0, rb.data(), nullptr, nullptr, nullptr, nullptr, nullptr, nullptr);
    hp_render(s2, nullptr, 0, 2, 48, nullptr, 0, 0, rc.data(), nullptr, nullptr, nullptr, nullptr, nullptr, nullptr);
    expect(!std::memcmp(ra.data(), rb.data(), ra.size() * 4), "same seeds give the same pictures, bit for bit");
    expect(std::memcmp(ra.data(), rc.data(), ra.size() * 4) != 0, "  twin: another seed gives another picture");
  }
  // 5. every generator: finite light, labels within their ranges, some conductors
  for (int g = 0; g < generator_count(); g++) {
    bool finite = true, ranges = true;
    long wire = 0, lit = 0;
    for (int k = 0; k < 3; k++) {
      Builder b(500 + k);
      make_scene(b, g);
      Planes p(40);
      render(b, p, 1);
      for (float x : p.rgb) {
        if (!std::isfinite(x) || x < 0) finite = false;
        lit += x > 0.001f;
      }
      int n = 40 * 40;
      for (int i = 0; i < n; i++) {
        wire += p.covering[i] != 0;
        bool ok = p.covering[i] <= kJacket && (p.covering[i] == 0) == (p.instance[i] == 0) && std::fabs(p.geometry[2 * n + i]) <= 1 &&
                  (p.color[i] < kColorNames || p.color[i] == kNoColor) && ((p.stripe[i] & 15) <= kColorNames || p.stripe[i] == kPrintLabel) && p.stripe[i] < 48;
        if (p.covering[i]) ok = ok && std::fabs(std::hypot(p.geometry[i], p.geometry[n + i]) - 1) < 1e-3f && p.geometry[3 * n + i] > 0;
        if (!ok) ranges = false;
      }
    }
    char text[128];
    std::snprintf(text, sizeof text, "%s: finite light, labels in range, %ld conductor pixels of 4800", generator(g).name, wire);
    expect(finite && ranges && lit > 1000, text);
  }
  // 6. gauges: NEC chapter 9 table 5 lists 12 AWG THHN with 0.130 in and 0.0133 square inch
  {
    float d = Builder::thhn(12).outer / 25.4f;
    auto table = [](float inch) { return std::fabs(kPi * inch * inch / 4 - 0.0133f) < 0.00005f; };
    expect(table(d), "12 AWG THHN has the listed area");
    expect(!table(Builder::thhn(10).outer / 25.4f), "  twin: 10 AWG does not");
  }
  // 7. spectra: the camera's white balance makes a white sheet neutral under its own lamp, not under another
  {
    auto spread = [](int lamp, int balance) {
      Vec3 w = balanced(raw_white(0, lamp), 0, balance, v3(1, 1, 1));
      return fmaxf(w.x, fmaxf(w.y, w.z)) / fminf(w.x, fminf(w.y, w.z));
    };
    expect(spread(lampA, lampA) < 1.01f && spread(lampFL2, lampFL2) < 1.01f, "white is neutral under the balanced lamp");
    expect(spread(lampA, lampD65) > 1.3f, "  twin: incandescent light balanced for daylight is not");
  }
  std::printf(failures ? "%d failed\n" : "all passed\n", failures);
  return failures ? 1 : 0;
}
