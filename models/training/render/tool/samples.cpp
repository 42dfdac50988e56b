// Renders the invented demo scenes of sample-images/ with their truth.
//
//   samples OUTDIR [SIZE=1200] [SAMPLES=9] [only=-1]
// writes NAME.png for every scene and OUTDIR/manifest.json; samples.sh turns the PNGs into JPEGs.
// Truth points are taken from the label planes: pixels well inside a visible stretch of the conductor, away from
// stripes; background points lie well away from every conductor.
#include <algorithm>
#include <cstdlib>
#include <functional>

#include "../parts/devices.hpp"
#include "../parts/surfaces.hpp"
#include "../render_cpu.hpp"
#include "image.hpp"

using namespace hp;

static const char* kNames[] = {"black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "gray", "white",
                               "pink", "turquoise", "green-yellow"};

struct Wire {
  int name;
  const char* system;
  const char* role;
  int stripe = kNoColor;      // stripe color along the conductor
  int awg = 12;
  int tape = kNoColor;        // phase tape
  bool bare = false;
  int instance = 0;
};

struct Sample {
  const char* id; const char* title; const char* description; const char* lamp;
  std::vector<Wire> wires;
  std::function<void(Builder&, Sample&)> build;
};

static Style wire_style(Builder& b, const Wire& w, float wear) {
  Gauge g = Builder::thhn(w.awg);
  if (w.bare) return b.bare_ground(g);
  Style s = b.style(w.name, g, wear);
  s.shade = 1;
  // a clear center of the color: the published one, for black and red the deeper ones usual on building wire
  if (w.name != kGreenYellow) s.pigment = pigment_row(w.name, w.name == kBlack || w.name == kRed ? 2 : 0);
  s.print = b.rng.chance(0.5f) ? 0.5f : 0;
  s.fade0 = s.fade1 = 0;
  if (w.name == kGreenYellow) {
    s.stripeWidth = 0.45f;
    s.stripeCount = 1;
    s.stripePitch = 70;
  }
  if (w.stripe != kNoColor) {
    s.stripe = kAlong;
    s.stripeName = w.stripe;
    s.stripeCount = 1;
    s.stripeWidth = 0.17f;
    s.stripePitch = 55;   // turns slowly, so that it shows somewhere on every length
    s.print = 0;
  }
  return s;
}

/** A wireway seen from the front: conductors run from the left conduits to the right, some leave through the bottom. */
static void wireway(Builder& b, Sample& s, float wear, float height, int color) {
  Rng& r = b.rng;
  float X = 210, Y = height / 2, depth = 90;
  int can = b.textured(kPainted, color, b.pigment(pgDust, 0.8f), 120, 0.12f);
  b.span(v3(-X, -Y, -2), v3(X, Y, 0), can, 0);
  b.span(v3(-X, Y, 0), v3(X, Y + 2, depth), can, 0.5f);
  b.span(v3(-X, -Y - 2, 0), v3(X, -Y, depth), can, 0.5f);
  b.span(v3(-X - 2, -Y, 0), v3(-X, Y, depth), can, 0.5f);
  b.span(v3(X, -Y, 0), v3(X + 2, Y, depth), can, 0.5f);
  int wall = b.textured(kConcrete, b.pigment(pgConcrete, 0.8f), b.pigment(pgDirt), 30, 0.5f);
  b.span(v3(-900, -900, -4), v3(-X - 2, 900, depth - 25), wall, 0);
  b.span(v3(X + 2, -900, -4), v3(900, 900, depth - 25), wall, 0);
  b.span(v3(-900, Y + 2, -4), v3(900, 900, depth - 25), wall, 0);
  b.span(v3(-900, -900, -4), v3(900, -Y - 2, depth - 25), wall, 0);
  b.floor_plane(v3(0, 0, 1), 0.5f);
  b.floor_plane(v3(0, -1, 0), -Y);
  b.floor_plane(v3(0, 1, 0), -Y);
  for (int i = 0; i < 4; i++) {
    b.push(v3(-150 + 100 * i, Y * 0.86f, 0));
    knockout(b, 7, false, can);
    b.pop();
  }
  const float downX[] = {-42, 22, 84};
  for (float x : downX) {
    b.push(v3(x, -Y, 45), Builder::axes(v3(1, 0, 0), v3(0, 0, -1)));
    conduit_end(b, 15, true);
    b.pop();
  }
  int n = (int)s.wires.size();
  std::vector<int> order(n);
  for (int i = 0; i < n; i++) order[i] = i;
  // every conductor has a lane of its own; a third turn down into a conduit on their way
  float pitch = fminf((height - 40) / n, 17);
  int turned = 0;
  for (int i = 0; i < n; i++) {
    Wire& w = s.wires[i];
    Style st = wire_style(b, w, wear);
    Conductor c = b.conductor(st);
    w.instance = c.id();
    float y = Y - 14 - (i + 0.5f) * pitch, z = 14 + r.u() * 40;
    c.from(v3(-X - 5, y + r.gauss() * 2, 20 + r.u() * 45), v3(1, 0, 0));
    bool down = i * 3 >= n && i % 2 == 1 && turned < 3;
    if (down) {
      float x = downX[turned++];
      c.via(v3(mixf(-X, x, 0.6f), y + r.gauss() * 2, z)).via(v3(x - 6, y + r.gauss() * 3, z + 6));
      c.via(v3(x, mixf(y, -Y, 0.5f), 55)).to(v3(x + r.gauss() * 3, -Y + 2, 45 + r.gauss() * 3), v3(0, -1, 0)).bend(3);
    } else {
      for (int k = 1; k <= 4; k++) c.via(v3(-X + 2 * X * k / 5, y + r.gauss() * 3.5f, z + r.gauss() * 8));
      c.to(v3(X + 5, y + r.gauss() * 4, 20 + r.u() * 40), v3(1, 0, 0)).bend(8);
    }
    c.wobble(0.5f);
    if (w.tape != kNoColor) c.sleeve(r.range(120, 230), 22, w.tape, 1.07f);
  }
  b.push(v3(120, Y * 0.62f, 0.1f));
  label(b, 60, 26);
  b.pop();
}

static void jobsite_light(Builder& b, int lamp, int balance, Vec3 cast, float strength) {
  b.spectra(lamp, lamp, lampD65, lampLEDB5, 1, balance);
  b.cast = cast;
  b.ambient(0.28f, 0.12f, 0.4f);
  b.lamp(b.target + v3(-350, 500, 900), b.target, 90, strength);
  b.lamp(b.target + v3(600, 200, 1300), b.target, 200, 0.25f);
  b.exposure(0.8f / (0.28f + strength * 0.75f + 0.18f));
}

/** Splice box with cables from above and below; conductors fold out to the front. */
static void splice_box(Builder& b, Sample& s) {
  Rng& r = b.rng;
  float H = 62, depth = 60;
  int steel = b.galvanized();
  b.mat(steel).texAmount = 0.25f;
  b.span(v3(-H, -H, -1), v3(H, H, 0), steel, 0);
  for (int k = 0; k < 4; k++) {
    b.push(v3(0, 0, 0), turn(v3(0, 0, 1), k * kPi / 2));
    b.span(v3(H, -H, 0), v3(H + 1.6f, H, depth), steel, 0.4f);
    b.pop();
  }
  int stud = b.textured(kWood, b.pigment(pgWoodLight), b.pigment(pgWoodDark), 12, 0.7f);
  int plaster = b.textured(kConcrete, b.pigment(pgLightGrayEnclosure, 0.9f), b.pigment(pgDust), 20, 0.3f);
  b.span(v3(-700, -700, -30), v3(-H - 2, 700, depth - 14), stud, 0);
  b.span(v3(H + 2, -700, -30), v3(700, 700, depth - 14), plaster, 0);
  b.span(v3(-H - 2, H + 2, -30), v3(H + 2, 700, depth - 14), plaster, 0);
  b.span(v3(-H - 2, -700, -30), v3(H + 2, -H - 2, depth - 14), plaster, 0);
  b.floor_plane(v3(0, 0, 1), 1);
  for (int k = 0; k < 4; k++) {
    b.push(v3(k % 2 ? 28.0f : -28.0f, k < 2 ? H - 0.3f : -H + 0.3f, 26), Builder::axes(v3(1, 0, 0), v3(0, 0, k < 2 ? 1.0f : -1.0f)));
    conduit_end(b, 10, false);
    b.pop();
  }
  int n = (int)s.wires.size();
  for (int i = 0; i < n; i++) {
    Wire& w = s.wires[i];
    Conductor c = b.conductor(wire_style(b, w, 0.15f));
    w.instance = c.id();
    bool top = i % 2 == 0;
    float x = -48 + 96.0f * i / (n - 1), sy = top ? 1.0f : -1.0f;
    float hole = x < 0 ? -28.0f : 28.0f;
    c.from(v3(hole + r.gauss() * 3, sy * (H - 1), 26 + r.gauss() * 3), v3(0, -sy, 0));
    c.via(v3(mixf(hole, x, 0.6f), sy * 38, 28 + r.u() * 8)).via(v3(x, sy * 10, 34 + r.u() * 10));
    c.via(v3(x + r.gauss() * 2, -sy * 22, 48 + r.u() * 6));
    c.to(v3(x + r.gauss() * 3, -sy * (44 + r.u() * 12), 62 + r.u() * 8)).bend(3).wobble(0.15f);
    c.strand().fixedEnd = false;
    if (!w.bare) c.strip_end(12);
  }
}

/** A single old conductor from a breaker, close up. */
static void faded_single(Builder& b, Sample& s) {
  int wall = b.textured(kPainted, b.pigment(pgDeviceGray, 0.8f), b.pigment(pgDust), 30, 0.4f);
  b.span(v3(-300, -300, -2), v3(300, 300, 0), wall, 0);
  b.floor_plane(v3(0, 0, 1), 0.2f);
  DeviceLook k = device_look(b, 0);
  for (int i = -1; i <= 1; i++) {
    b.push(v3(-72, 26.0f * i, 4));
    plug_breaker(b, k, 1, 70, 25.4f, 50);
    b.pop();
  }
  Wire& w = s.wires[0];
  Style st = wire_style(b, w, 0.4f);
  st.fade0 = 0.08f;
  st.fade1 = 0.34f;
  st.dust = 0.25f;
  st.dirt = 0.25f;
  st.rough = 0.6f;
  st.print = 0;
  Conductor c = b.conductor(st);
  w.instance = c.id();
  c.from(v3(-4, 0, 30), v3(1, 0, 0)).via(v3(20, 1, 28)).via(v3(38, -14, 22)).to(v3(44, -60, 12)).bend(2.5f).strip_start(5);
}

static std::vector<Sample> samples() {
  std::vector<Sample> v;
  const char* y208 = "us-208y120"; const char* y480 = "us-480y277"; const char* delta = "us-240-120-high-leg";
  const char* iso = "us-isolated-power";
  const char *split = "us-120-240-1ph", *legs = "us-switch-legs";
  auto gutterAcross = 250.0f;
  v.push_back({"gutter-208y120", "Wireway, 208Y/120 V", "One four-wire wye system and its equipment grounding conductor in a wireway; US habit colors.",
               "LED work light",
               {{kBlack, y208, "phase A", kNoColor, 10}, {kRed, y208, "phase B", kNoColor, 10}, {kBlue, y208, "phase C", kNoColor, 10},
                {kWhite, y208, "grounded conductor", kNoColor, 10}, {kBlack, y208, "phase A"}, {kRed, y208, "phase B"},
                {kBlue, y208, "phase C"}, {kWhite, y208, "grounded conductor"}, {kGreen, y208, "equipment grounding conductor", kNoColor, 10}},
               [gutterAcross](Builder& b, Sample& s) {
                 wireway(b, s, 0.15f, 190, b.pigment(pgLightGrayEnclosure, 0.75f));
                 b.look(v3(-10, 0, 20), gutterAcross, 9, 250, 1.5f, 56);
                 jobsite_light(b, lampLEDB3, lampLEDB3, v3(1.07f, 1, 0.92f), 0.6f);
               }});
  v.push_back({"gutter-mixed-480-208", "Wireway with two systems", "Conductors of a 480Y/277 V and a 208Y/120 V system share one wireway; one green grounding conductor.",
               "fluorescent and LED",
               {{kBrown, y480, "phase A", kNoColor, 10}, {kOrange, y480, "phase B", kNoColor, 10}, {kYellow, y480, "phase C", kNoColor, 10},
                {kGray, y480, "grounded conductor", kNoColor, 10}, {kBlack, y208, "phase A"}, {kRed, y208, "phase B"},
                {kBlue, y208, "phase C"}, {kWhite, y208, "grounded conductor"}, {kBrown, y480, "phase A"}, {kOrange, y480, "phase B"},
                {kGreen, "", "equipment grounding conductor", kNoColor, 10}},
               [gutterAcross](Builder& b, Sample& s) {
                 wireway(b, s, 0.25f, 210, b.pigment(pgLightGrayEnclosure, 0.7f));
                 b.look(v3(-5, 2, 20), gutterAcross + 10, 12, 100, -2, 56);
                 jobsite_light(b, lampFL2, lampFL2, v3(1.05f, 1.02f, 0.92f), 0.55f);
               }});
  v.push_back({"gutter-high-leg", "Wireway, 240/120 V high-leg delta", "A four-wire delta whose phase B is the high leg, orange.",
               "incandescent work light",
               {{kBlack, delta, "phase A", kNoColor, 8}, {kOrange, delta, "high leg", kNoColor, 8}, {kRed, delta, "phase C", kNoColor, 8},
                {kWhite, delta, "grounded conductor", kNoColor, 8}, {kBlack, delta, "phase A"}, {kWhite, delta, "grounded conductor"},
                {kGreen, delta, "equipment grounding conductor", kNoColor, 10}},
               [](Builder& b, Sample& s) {
                 wireway(b, s, 0.3f, 170, b.pigment(pgDeviceGray, 0.9f));
                 b.look(v3(0, -4, 20), 220, 8, 300, 2, 56);
                 jobsite_light(b, lampA, lampA, v3(1.14f, 1, 0.86f), 0.6f);
               }});
  v.push_back({"isolated-power", "Isolated power panel", "Two isolated conductors with a distinctive stripe each (violet on orange, pink on brown) in two circuits, with their grounding conductors.",
               "neutral LED",
               {{kOrange, iso, "isolated conductor 1", kViolet, 8}, {kBrown, iso, "isolated conductor 2", kPink, 8},
                {kGreen, iso, "equipment grounding conductor", kYellow, 8},
                {kOrange, iso, "isolated conductor 1", kViolet, 10}, {kBrown, iso, "isolated conductor 2", kPink, 10},
                {kGreen, iso, "equipment grounding conductor", kNoColor, 10}},
               [](Builder& b, Sample& s) {
                 wireway(b, s, 0.05f, 150, b.pigment(pgPaper, 0.7f));
                 b.look(v3(-15, -2, 20), 190, 8, 80, -1, 56);
                 jobsite_light(b, lampLEDB5, lampLEDB5, v3(0.99f, 1, 1.02f), 0.55f);
               }});
  v.push_back({"switch-box", "Box with switch leg and travelers", "A metal box with a switch loop: travelers, switch leg, feed, grounded conductor, bare grounding conductors.",
               "LED work light",
               {{kPink, legs, "traveler"}, {kViolet, legs, "switch leg"}, {kBlack, split, "line 1"}, {kPink, legs, "traveler"},
                {kRed, legs, "switch leg"}, {kWhite, split, "grounded conductor"}, {kGray, split, "equipment grounding conductor", kNoColor, 12, kNoColor, true},
                {kBlack, split, "line 1"}},
               [](Builder& b, Sample& s) {
                 splice_box(b, s);
                 b.look(v3(0, 0, 35), 150, 6, 260, -2, 56);
                 jobsite_light(b, lampLEDB1, lampLEDB1, v3(1.09f, 1, 0.92f), 0.6f);
               }});
  v.push_back({"faded-red", "One faded conductor", "A red conductor that has faded and gathered dust, at a breaker.", "warm LED, dim",
               {{kRed, "", "unassigned", kNoColor, 10}},
               [](Builder& b, Sample& s) {
                 faded_single(b, s);
                 b.look(v3(22, -14, 24), 92, 10, 30, 3, 50);
                 jobsite_light(b, lampLEDB1, lampLEDB1, v3(1.08f, 1, 0.9f), 0.5f);
                 b.focus(1.2f, b.targetDistance);
               }});
  return v;
}

struct Point2 {
  int x, y;
};

int main(int argc, char** argv) {
  if (argc < 2) {
    std::fprintf(stderr, "usage: samples OUTDIR [SIZE] [SAMPLES] [only]\n");
    return 2;
  }
  std::string dir = argv[1];
  int size = argc > 2 ? std::atoi(argv[2]) : 1200, spp = argc > 3 ? std::atoi(argv[3]) : 9, only = argc > 4 ? std::atoi(argv[4]) : -1;
  std::string json = "{\n  \"note\": \"Invented scenes, rendered by models/training/render (tool/samples.cpp); no real place, person or product. Points are pixels of the JPEG, x right, y down.\",\n"
                     "  \"invented\": true,\n  \"rendered\": true,\n  \"scenes\": [\n";
  std::vector<Sample> list = samples();
  for (size_t k = 0; k < list.size(); k++) {
    if (only >= 0 && (int)k != only) continue;
    Sample& s = list[k];
    Builder b(7100 + k * 13);
    s.build(b, s);
    b.globals.aoRange = 70;
    b.settle_rounds = 20;
    b.finish();
    const Builder* one[1] = {&b};
    Packed p = pack(one, 1);
    size_t S2 = (size_t)size * size;
    std::vector<float> rgb(S2 * 3), geo(S2 * 4);
    std::vector<uint8_t> cov(S2), stripe(S2);
    std::vector<uint16_t> inst(S2);
    hp_outputs o = {rgb.data(), cov.data(), inst.data(), geo.data(), nullptr, stripe.data(), nullptr};
    render_image(view_of(p, 0, nullptr, 0, 0), size, spp, o, 0);
    // camera: slight blur, shot and read noise that is smooth over 2 px as after a phone's denoising, viewing curve
    Image im(size, size);
    Rng r(99 + k);
    std::vector<float> noise(S2 * 3);
    for (float& x : noise) x = r.gauss();
    auto px = [&](int c, int x, int y) {
      x = std::min(std::max(x, 0), size - 1);
      y = std::min(std::max(y, 0), size - 1);
      return (size_t)c * S2 + (size_t)y * size + x;
    };
    for (int y = 0; y < size; y++)
      for (int x = 0; x < size; x++) {
        uint8_t v[3];
        for (int c = 0; c < 3; c++) {
          float a = 0, nz = 0, w = 0;
          for (int j = -1; j <= 1; j++)
            for (int i = -1; i <= 1; i++) {
              float q = (i ? 0.35f : 1) * (j ? 0.35f : 1);
              a += q * rgb[px(c, x + i, y + j)];
              nz += q * noise[px(c, x + i, y + j)];
              w += q;
            }
          a /= w;
          nz /= w;
          v[c] = view8(a + nz * std::sqrt(0.00012f * a + 0.000004f) * 2.0f);
        }
        im.put(x, y, v[0], v[1], v[2]);
      }
    if (!write_png(dir + "/" + s.id + ".png", im)) return 1;

    auto inside = [&](int x, int y, int id) {
      // a disc of radius 3 all on this conductor's insulation (or metal), off its stripes
      for (int j = -3; j <= 3; j++)
        for (int i = -3; i <= 3; i++) {
          int xx = x + i, yy = y + j;
          if (xx < 0 || yy < 0 || xx >= size || yy >= size) return false;
          size_t q = (size_t)yy * size + xx;
          if (inst[q] != id || cov[q] == kTape) return false;
        }
      return true;
    };
    char buf[1024];
    std::snprintf(buf, sizeof buf, "%s    {\n      \"id\": \"%s\",\n      \"file\": \"%s.jpg\",\n      \"width\": %d,\n      \"height\": %d,\n      \"rendered\": true,\n      \"title\": \"%s\",\n      \"description\": \"%s\",\n      \"lamp\": \"%s\",\n",
                  k && only < 0 ? ",\n" : "", s.id, s.id, size, size, s.title, s.description, s.lamp);
    json += buf;
    std::vector<std::string> systems;
    for (const Wire& w : s.wires)
      if (*w.system && std::find(systems.begin(), systems.end(), w.system) == systems.end()) systems.push_back(w.system);
    json += "      \"systems\": [";
    for (size_t i = 0; i < systems.size(); i++) json += (i ? ", \"" : "\"") + systems[i] + "\"";
    json += "],\n      \"conductors\": [\n";
    for (size_t i = 0; i < s.wires.size(); i++) {
      const Wire& w = s.wires[i];
      std::vector<Point2> good;
      std::vector<float> widths;
      int visible = 0;
      for (int y = 8; y < size - 8; y++)
        for (int x = 8; x < size - 8; x++) {
          size_t q = (size_t)y * size + x;
          if (inst[q] != w.instance) continue;
          visible++;
          int want = w.bare ? kBare : kInsulated;
          if (cov[q] != want || stripe[q] || std::fabs(geo[2 * S2 + q]) > 0.3f) continue;
          if (x > 40 && y > 40 && x < size - 40 && y < size - 40 && (x + y) % 3 == 0 && inside(x, y, w.instance)) {
            good.push_back({x, y});
            widths.push_back(2 * geo[3 * S2 + q]);
          }
        }
      Point2 pa{-1, -1}, pb{-1, -1};
      if (!good.empty()) {
        // the two good points that lie farthest apart along x + 0.6 y, a sixth in from the ends
        std::sort(good.begin(), good.end(), [](Point2 a, Point2 c) { return a.x + 0.6f * a.y < c.x + 0.6f * c.y; });
        pa = good[good.size() / 6];
        pb = good[good.size() - 1 - good.size() / 6];
        std::nth_element(widths.begin(), widths.begin() + widths.size() / 2, widths.end());
      }
      std::fprintf(stderr, "%s c%zu %s: %d px visible, %zu good points, width %.1f\n", s.id, i + 1, kNames[w.name], visible, good.size(),
                   widths.empty() ? 0 : widths[widths.size() / 2]);
      std::string stripeText = w.stripe != kNoColor ? "\"" + std::string(kNames[w.stripe]) + "\"" : "null";
      std::string tapeText = w.tape != kNoColor ? "\"" + std::string(kNames[w.tape]) + "\"" : "null";
      std::string colorText = w.bare ? "null" : "\"" + std::string(kNames[w.name]) + "\"";
      std::string systemText = *w.system ? "\"" + std::string(w.system) + "\"" : "null";
      std::snprintf(buf, sizeof buf, "        { \"id\": \"c%zu\", \"color\": %s, \"stripe\": %s, \"tape\": %s, \"covering\": \"%s\", \"system\": %s, \"role\": \"%s\", \"widthPx\": %.0f, \"points\": [[%d, %d], [%d, %d]] }%s\n",
                    i + 1, colorText.c_str(), stripeText.c_str(), tapeText.c_str(), w.bare ? "bare" : "insulated", systemText.c_str(), w.role,
                    widths.empty() ? 0 : widths[widths.size() / 2], pa.x, pa.y, pb.x, pb.y, i + 1 < s.wires.size() ? "," : "");
      json += buf;
    }
    json += "      ],\n      \"background\": [";
    int found = 0;
    for (int tries = 0; tries < 4000 && found < 6; tries++) {
      int x = r.pick(30, size - 30), y = r.pick(30, size - 30);
      bool clear = true;
      for (int j = -14; j <= 14 && clear; j += 2)
        for (int i = -14; i <= 14; i += 2)
          if (cov[(size_t)(y + j) * size + x + i]) { clear = false; break; }
      if (!clear) continue;
      json += (found++ ? ", [" : "[") + std::to_string(x) + ", " + std::to_string(y) + "]";
    }
    json += "]\n    }";
  }
  json += "\n  ]\n}\n";
  FILE* f = std::fopen((dir + "/manifest.json").c_str(), "w");
  if (!f) return 1;
  std::fwrite(json.data(), 1, json.size(), f);
  return std::fclose(f) == 0 ? 0 : 1;
}
