// Terminals close up: few devices, plugs or screw terminals large in the frame, thick-looking conductors leaving them
// in tight bends.
//
// One of: plug with 2 to 12 ways and stacked rows, barrier strip with spade ends, screw terminal row, modular devices, plug
// breakers, board with screw terminals, hooked posts. Conductors 1.1 to 5 mm; view 8 to 45 diameters wide; tilt to 50
// degrees. Background board, wood, plate or photograph; often out of focus.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/devices.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void terminals(Builder& b) {
  Rng& r = b.rng;
  Gauge g = r.chance(0.6f) ? Builder::metric(r.one_of({0.25f, 0.5f, 0.75f, 1.0f, 1.5f, 2.5f, 4.0f})) : Builder::thhn(r.one_of({14, 12, 12, 10, 8}));
  float D = g.outer;
  float pitch = D * r.range(1.15f, 2.6f);
  int n = r.pick(2, 10);
  int kind = r.pick(0, 5);
  float wear = r.chance(0.7f) ? r.u() * 0.3f : r.u();
  struct Entry { Vec3 p, dir; };
  std::vector<Entry> e;
  float back = 0;
  if (kind == 0) {
    // plug: body with entries in front, one or two stacked rows, clamp screws on top
    int m = b.plastic(), dark = b.paint(b.gray(0.01f)), face = b.plastic();
    int stacked = r.chance(0.3f) ? 2 : 1;
    float w = n * pitch, h = D * r.range(2.5f, 6), d = pitch * r.range(1.2f, 1.8f);
    b.span(v3(-w / 2 - D * 0.4f, 0, 0), v3(w / 2 + D * 0.4f, h, d * stacked + D * 0.4f), m, D * 0.2f);
    for (int k = 0; k < stacked; k++)
      for (int i = 0; i < n; i++) {
        float x = (i - 0.5f * (n - 1)) * pitch, z = d * (k + 0.5f);
        b.box(v3(x, -0.05f, z), v3(pitch * 0.38f, 0.1f, d * 0.38f), dark, 0);
        if (r.chance(0.9f)) b.box(v3(x, h * 0.4f, d * stacked + D * 0.4f + 0.05f), v3(pitch * 0.3f, h * 0.2f, 0.05f), face, 0);
        if (k == stacked - 1) screw(b, v3(x, h * 0.35f, d * stacked + D * 0.38f), v3(0, 0, 1), pitch * 0.3f);
        e.push_back({v3(x, 0.6f, z), v3(0, -1, 0)});
      }
    if (r.chance(0.6f)) {
      float bw = w * r.range(0.8f, 2.5f), bh = h * r.range(2, 6);
      b.span(v3(-bw / 2, h, -D), v3(bw / 2, h + bh, d * stacked + D * r.range(0.5f, 4)), b.plastic(), D * 0.4f);
      b.push(v3(0, h + bh * 0.4f, d * stacked + D * 4.2f));
      b.pop();
    }
  } else if (kind == 1) {
    // barrier strip: screws in rows between fins, conductors from both sides
    int m = b.plastic(0), metal = b.zinc();
    float w = n * pitch, h = D * r.range(5, 8), z = D * r.range(1, 3);
    b.span(v3(-w / 2, -h / 2, 0), v3(w / 2, h / 2, z), m, D * 0.15f);
    for (int i = 0; i <= n; i++) b.span(v3(-w / 2 + i * pitch - pitch * 0.07f, -h / 2, z), v3(-w / 2 + i * pitch + pitch * 0.07f, h / 2, z + D * 1.6f), m, 0.2f);
    for (int i = 0; i < n; i++)
      for (int s = -1; s <= 1; s += 2) {
        float x = (i - 0.5f * (n - 1)) * pitch;
        b.box(v3(x, s * h * 0.25f, z + 0.2f), v3(pitch * 0.36f, h * 0.18f, 0.3f), metal, 0.1f);
        screw(b, v3(x, s * h * 0.25f, z + 0.7f), v3(0, 0, 1), pitch * 0.3f, metal);
        if (r.chance(0.8f)) e.push_back({v3(x, s * (h * 0.36f), z + 0.6f + D * 0.5f), v3(0, (float)s, 0.15f)});
      }
  } else if (kind == 2) {
    float h = D * r.range(9, 16), d = D * r.range(6, 12);
    din_rail(b, n * pitch + 200);
    b.push(v3(0, 0, 3));
    terminal_row(b, n + 4, pitch, h, d, b.plastic());
    b.pop();
    for (int i = 0; i < n + 4; i++)
      for (int s = -1; s <= 1; s += 2)
        if (r.chance(0.75f)) e.push_back({v3((i - 0.5f * (n + 3)) * pitch, s * (h * 0.5f - 1), 3 + d * 0.35f + pitch * 0.4f), v3(0, (float)s, 0)});
    back = 0;
  } else if (kind == 3) {
    din_rail(b, 300);
    DeviceLook k = device_look(b, r.pick(1, 3));
    int m = r.pick(2, 5);
    g = Builder::metric(r.one_of({1.5f, 2.5f, 4.0f, 6.0f, 10.0f}));
    D = g.outer;
    for (int i = 0; i < m; i++) {
      float x = (i - 0.5f * (m - 1)) * 18;
      b.push(v3(x, 0, 3));
      modular(b, k, 17.5f, 1);
      b.pop();
      for (int s = -1; s <= 1; s += 2)
        if (r.chance(0.85f)) e.push_back({v3(x, s * (kModularEntry - 2), 26), v3(0, (float)s, 0)});
    }
    pitch = 18;
    n = m;
  } else if (kind == 4) {
    DeviceLook k = device_look(b, 0);
    g = Builder::thhn(r.one_of({14, 12, 12, 10, 8, 6}));
    D = g.outer;
    int m = r.pick(2, 5);
    for (int i = 0; i < m; i++) {
      b.push(v3(-70, (i - 0.5f * (m - 1)) * 25.4f, 6));
      std::vector<Vec3> in = plug_breaker(b, k, 1, 70, 25.4f, r.range(46, 52));
      b.pop();
      if (r.chance(0.9f)) e.push_back({in[0] + v3(-70, (i - 0.5f * (m - 1)) * 25.4f, 6), v3(1, 0, 0)});
    }
    pitch = 25.4f;
    n = m;
  } else {
    circuit_board(b, r.range(30, 90), r.range(30, 90));
    int m = b.plastic(4), dark = b.paint(b.gray(0.01f));
    for (int i = 0; i < n; i++) {
      float x = (i - 0.5f * (n - 1)) * pitch;
      b.box(v3(x, -D, 1.6f + D * 1.3f), v3(pitch * 0.49f, D * 1.2f, D * 1.3f), m, 0.2f);
      screw(b, v3(x, -D, 1.6f + D * 2.6f), v3(0, 0, 1), pitch * 0.28f);
      b.box(v3(x, -D * 2.2f, 1.6f + D * 0.9f), v3(pitch * 0.33f, 0.06f, D * 0.7f), dark, 0);
      if (r.chance(0.9f)) e.push_back({v3(x, -D * 2.1f, 1.6f + D * 0.9f), v3(0, -1, 0)});
    }
  }
  float across = r.chance(0.8f) ? D * r.log(8, 45) : D * r.log(30, 80);
  across = fmaxf(across, pitch * 2.2f);
  back = -D * r.range(0.5f, 12);
  if (kind >= 2) back = 0;
  int surface = any_surface(b, across * 2);
  b.span(v3(-across * 6, -across * 6, back - 20), v3(across * 6, across * 6, back - 0.05f), surface, 0);
  b.floor_plane(v3(0, 0, 1), back);
  int oneName = r.chance(0.25f) ? b.any_color() : -1;
  bool ferrules = r.chance(0.35f), spade = kind == 1 && r.chance(0.6f), bared = r.chance(0.5f), together = r.chance(0.6f);
  int ferruleName = r.pick(0, 9);
  float bundleX = r.gauss() * across * 0.3f;
  for (size_t i = 0; i < e.size(); i++) {
    Style st = b.style(oneName >= 0 ? oneName : b.any_color(), g, wear);
    if (r.chance(0.05f)) { st.stripe = kAlong; st.stripeName = r.pick(0, 11); }
    Conductor c = b.conductor(st);
    Vec3 p = e[i].p, d = unit(e[i].dir);
    c.from(p, d);
    float out = D * r.range(1.5f, 5);
    Vec3 q = p + d * out;
    Vec3 toward = together ? unit(d * r.range(0.3f, 1.5f) + v3((bundleX - p.x) / (across * 0.6f), 0, r.range(-0.2f, 0.5f))) : unit(d + r.gauss3(0.5f));
    c.via(q + r.gauss3(D * 0.2f));
    float step = across * r.range(0.25f, 0.5f);
    int steps = r.pick(2, 4);
    Vec3 side = unit(cross(d, v3(0, 0, 1)));
    float curl = r.gauss() * 0.5f;
    for (int k = 0; k < steps; k++) {
      q += toward * step;
      q.z = fmaxf(q.z, back + D * 0.5f);
      c.via(q + r.gauss3(D * 0.6f));
      toward = unit(toward + side * (curl + r.gauss() * 0.25f) + v3(0, 0, r.range(-0.35f, 0.2f)));
    }
    c.bend(r.range(1.5f, 4)).wobble(r.range(0.1f, 0.5f));
    if (ferrules) {
      c.ferrule(true, ferruleName);
      float hide = r.range(0.5f, 4);
      c.strand().stripStart = hide;
      c.strand().sleeves.back().s = hide;
    } else if (spade) {
      c.strip_start(0);
      Material m = b.blank(b.named(r.one_of({(int)kRed, (int)kBlue, (int)kYellow})));
      m.covering = kTape;
      m.colorName = kRed;
      c.sleeve_material(0, D * r.range(2, 4), b.add(m), 1.2f);
    } else if (bared) {
      c.strip_start(r.log(0.5f, 8));
    }
    if (r.chance(0.1f)) c.marker(D * r.range(3, 8));
    if (r.chance(0.05f)) c.sleeve(D * r.range(3, 8), D * r.log(2, 8), r.pick(0, 11), r.range(1.05f, 1.25f));
  }
  for (int k = r.pick(0, 2); k > 0; k--) clutter(b, v3(r.range(-1, 1) * across, r.range(-1, 1) * across, back), across * r.log(0.1f, 0.5f));
  Vec3 at = e.empty() ? v3(0, 0, 0) : e[r.pick(0, (int)e.size() - 1)].p;
  if (!e.empty()) at = at + e[0].dir * (D * r.range(0, 6));
  b.random_look(at, across, 50, 0.4f);
  if (r.chance(0.5f)) b.focus(r.log(0.5f, 3), b.targetDistance);
  b.random_lights(b.target, across);
  b.globals.aoRange = fmaxf(6 * D, across * 0.2f);
}

}  // namespace hp
