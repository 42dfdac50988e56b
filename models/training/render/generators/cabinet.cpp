// Control cabinets and DIN distribution boards: rails with rows of devices, conductors entering from above and
// below, slotted trunking between the rows with bundles behind its fingers, wire markers and ferrules.
//
// rows 1 to 4; style: control cabinet with trunking (60 %) or distribution board without (40 %). A row is modular
// devices (17.5 mm a pole), terminal blocks (5 to 10 mm), relays, or a mixture. Conductors on 85 % of the entries, 0.5 to
// 6 mm2; one color through the whole cabinet 40 % (red, blue, black, gray, orange, white), by row 25 %, any else.
// Trunking: gray, white or blue-gray, lid on 45 %, half filled. Combs and jumpers at distribution boards. Ferrules 55 %,
// markers 35 %. View 60 to 700 mm; tilt to 40 degrees.
#include <algorithm>

#include "../builder.hpp"
#include "../parts/devices.hpp"
#include "../parts/surfaces.hpp"

namespace hp {

void cabinet(Builder& b) {
  Rng& r = b.rng;
  bool control = r.chance(0.6f);
  int rows = r.pick(1, 4);
  float W = r.range(180, 620);
  float rowPitch = control ? r.range(150, 210) : r.range(120, 165);
  float H = rows * rowPitch + 80;
  float depth = r.range(90, 160);
  int plate = enclosure_surface(b);
  b.span(v3(-W / 2 - 60, -H / 2 - 40, -3), v3(W / 2 + 60, H / 2 + 40, 0), plate, 0.5f);
  int box = enclosure_surface(b);
  float bx = W / 2 + r.range(20, 60), by = H / 2 + r.range(10, 60);
  if (r.chance(0.7f)) {
    b.span(v3(-bx - 2, -by, -3), v3(-bx, by, depth), box, 0.5f);
    b.span(v3(bx, -by, -3), v3(bx + 2, by, depth), box, 0.5f);
    b.span(v3(-bx, by, -3), v3(bx, by + 2, depth), box, 0.5f);
    b.span(v3(-bx, -by - 2, -3), v3(bx, -by, depth), box, 0.5f);
  }
  int wall = any_surface(b, 600);
  b.span(v3(-2500, -2500, -10), v3(2500, 2500, -4), wall, 0);
  b.floor_plane(v3(0, 0, 1), 0.5f);

  int habit = r.weighted({0.4f, 0.25f, 0.35f});
  int one = r.one_of({(int)kRed, (int)kBlue, (int)kBlack, (int)kGray, (int)kOrange, (int)kWhite, (int)kRed, (int)kBlue, (int)kBlack});
  float wear = r.chance(0.7f) ? r.u() * 0.2f : r.u();
  bool ferrules = r.chance(0.55f), markers = r.chance(0.35f);
  float mm2 = r.one_of({0.5f, 0.75f, 0.75f, 1.0f, 1.5f, 1.5f, 2.5f, 4.0f, 6.0f});
  if (!control) mm2 = r.one_of({1.5f, 2.5f, 2.5f, 4.0f, 6.0f, 10.0f});
  int ferruleName = r.one_of({(int)kWhite, (int)kGray, (int)kRed, (int)kBlack, (int)kBlue, (int)kYellow, (int)kOrange});
  DeviceLook look = device_look(b, r.chance(0.7f) ? r.pick(1, 2) : -1);
  int trunkColor = r.chance(0.7f) ? b.paint(b.pigment(r.chance(0.5f) ? pgLightGrayEnclosure : pgDeviceGray, r.range(0.6f, 1.05f)), 0.04f, 0.45f) : b.plastic(r.pick(0, 2));
  int budget = r.pick(15, 85), used = 0;

  struct Entry { Vec3 p; float side; int row; };
  std::vector<Entry> entries;
  std::vector<float> trunkY;
  float trunkW = r.range(25, 60), trunkH = r.range(40, 75);
  for (int row = 0; row < rows; row++) {
    float y = (0.5f * (rows - 1) - row) * rowPitch + r.gauss() * 3;
    b.push(v3(0, y, 0));
    din_rail(b, W);
    float x = -W / 2 + r.range(4, 30), stop = W / 2 - r.range(0, 0.35f) * W;
    int kind = control ? r.pick(0, 3) : (r.chance(0.85f) ? 0 : r.pick(0, 3));
    float tw = r.range(5, 10), th = r.range(42, 62), td = r.range(36, 50);
    int tbody = r.chance(0.5f) ? b.plastic(1) : b.plastic();
    while (x < stop) {
      int k = kind == 3 ? r.pick(0, 2) : kind;
      float w;
      if (k == 0) {
        int poles = r.one_of({1, 1, 1, 2, 2, 3, 4});
        w = 17.5f * poles;
        b.push(v3(x + w / 2, 0, 3));
        DeviceLook lk = look;
        if (r.chance(0.12f)) lk = device_look(b);
        modular(b, lk, w, poles);
        b.pop();
        for (int i = 0; i < poles; i++)
          for (int s = -1; s <= 1; s += 2) entries.push_back({v3(x + (i + 0.5f) * 17.5f, y + s * (kModularEntry - 2), 26), (float)s, row});
        b.obstacle(v3(x, -kModularEntry, 0), v3(x + w, kModularEntry, 62));
      } else if (k == 1) {
        int n = r.pick(4, 14);
        w = n * tw;
        b.push(v3(x + w / 2, 0, 3));
        terminal_row(b, n, tw, th, td, tbody);
        b.pop();
        for (int i = 0; i < n; i++)
          for (int s = -1; s <= 1; s += 2) entries.push_back({v3(x + (i + 0.5f) * tw, y + s * (th * 0.5f - 2), 3 + td * 0.35f + tw * 0.4f), (float)s, row});
        b.obstacle(v3(x, -th * 0.5f, 0), v3(x + w, th * 0.5f, td + 3));
      } else {
        w = r.range(22, 70);
        float h = r.range(70, 95), d = r.range(45, 90);
        b.push(v3(x + w / 2, 0, 3));
        relay(b, r.chance(0.5f) ? look : device_look(b), w, h, d);
        b.pop();
        int n = std::max(2, (int)(w / 11));
        for (int i = 0; i < n; i++)
          for (int s = -1; s <= 1; s += 2) entries.push_back({v3(x + w * (i + 0.5f) / n, y + s * h * 0.47f, 3 + d * 0.65f + 1.5f), (float)s, row});
        b.obstacle(v3(x, -h * 0.5f, 0), v3(x + w, h * 0.5f, d * 0.65f));
      }
      x += w + (r.chance(0.12f) ? r.range(2, 40) : 0.3f);
    }
    b.pop();
    if (!control && r.chance(0.25f)) {
      // insulated comb bar along the upper or lower screws
      int m = b.paint(b.named(r.one_of({(int)kGray, (int)kWhite, (int)kBlack, (int)kBlue})));
      float s = r.chance(0.7f) ? 1.0f : -1.0f;
      b.span(v3(-W / 2 + 10, y + s * 46 - 3, 20), v3(-W / 2 + 10 + r.range(0.2f, 0.7f) * W, y + s * 46 + 3, 32), m, 1);
    }
  }
  bool lid = r.chance(0.45f);
  if (control)
    for (int t = 0; t <= rows; t++) {
      if (t == rows && r.chance(0.4f)) break;
      float y = (0.5f * rows - t) * rowPitch;
      trunkY.push_back(y);
      b.push(v3(0, y, 0));
      trunking(b, W + 30, trunkW, trunkH, trunkColor, lid && r.chance(0.9f));
      b.pop();
    }
  bool vertical = control && r.chance(0.7f);
  float vx = W / 2 + 18 + trunkW / 2;
  if (vertical)
    for (int s = -1; s <= 1; s += 2) {
      b.push(v3(s * vx, 0, 0), turn(v3(0, 0, 1), kPi / 2));
      trunking(b, H + 20, trunkW, trunkH, trunkColor, lid);
      b.pop();
    }

  float keep = r.range(0.35f, 1);
  std::vector<int> order;
  for (int i = 0; i < (int)entries.size(); i++) order.push_back(i);
  // wires run in stretches of neighboring entries
  int startAt = order.empty() ? 0 : r.pick(0, (int)order.size() - 1);
  for (size_t k = 0; k < order.size() && used < budget; k++) {
    const Entry& e = entries[(startAt + k) % order.size()];
    if (!r.chance(0.85f * keep)) continue;
    used++;
    int name = habit == 0 ? (r.chance(0.85f) ? one : b.any_color()) : habit == 1 ? (e.row * 3 + (e.side > 0) + one) % 10 : b.any_color();
    Gauge g = Builder::metric(r.chance(0.85f) ? mm2 : mm2 * r.range(0.6f, 1.7f));
    Style st = b.style(name, g, wear);
    st.stranded = r.chance(0.85f);
    if (r.chance(0.03f)) { st.stripe = kAlong; st.stripeName = r.pick(0, 11); }
    Conductor c = b.conductor(st);
    Vec3 in = v3(0, -e.side, 0);
    c.from(e.p, -in);
    float straight = r.range(8, 26);
    if (control) {
      // into the nearest trunking on that side, through its fingers, then along inside
      float ty = 0, best = 1e9f;
      for (float y : trunkY) {
        float d = (y - e.p.y) * e.side;
        if (d > 0 && d < best) { best = d; ty = y; }
      }
      if (best < 1e8f) {
        float edge = ty - e.side * trunkW * 0.5f;
        float zin = r.range(0.2f, 0.8f) * trunkH;
        c.via(v3(e.p.x + r.gauss() * 1.5f, mixf(e.p.y, edge, 0.5f), mixf(e.p.z, zin, 0.4f) + r.range(0, 8)));
        c.via(v3(e.p.x + r.gauss() * 3, edge, zin));
        float lane = ty + r.range(-0.38f, 0.38f) * trunkW;
        float dir = r.chance(0.5f) ? 1.0f : -1.0f;
        c.via(v3(e.p.x + dir * 6, lane, zin));
        c.to(v3(dir * (W / 2 + 10) * (r.chance(0.6f) ? 1 : r.range(0.2f, 1)), lane + r.gauss() * 2, r.range(0.1f, 0.8f) * trunkH));
        c.bend(1.6f);
      } else {
        c.via(e.p - in * straight).to(e.p - in * r.range(60, 150) + v3(r.gauss() * 40, 0, r.gauss() * 8));
      }
    } else {
      float gap = rowPitch - 84;
      float dir = r.chance(0.5f) ? 1.0f : -1.0f;
      float kind = r.u();
      if (kind < 0.3f) {
        // jumper to an entry of the same side of this row
        float far = e.p.x + dir * 17.5f * r.pick(1, 6);
        if (fabsf(far) > W / 2) far = e.p.x - dir * 17.5f * 2;
        float lift = e.side * gap * r.range(0.3f, 0.8f), z = e.p.z + r.range(-8, 22);
        c.via(v3(e.p.x, e.p.y + lift, z)).via(v3(far, e.p.y + lift, z)).to(v3(far, e.p.y, e.p.z), in).bend(2);
      } else if (kind < 0.6f) {
        // along the row to the side, then up or down
        float lane = e.p.y + e.side * gap * r.range(0.2f, 0.75f), z = r.range(8, 60);
        float sx = dir * (bx - r.range(6, 40));
        c.via(v3(e.p.x, lane - e.side * 5, e.p.z)).via(v3(e.p.x + dir * 12, lane, z)).via(v3(sx, lane + r.gauss() * 3, z));
        float ye = (r.chance(0.5f) ? 1.0f : -1.0f) * by;
        c.to(v3(sx + r.gauss() * 6, ye, z + r.gauss() * 6)).bend(2.5f);
      } else {
        // behind the rail to another row or out of the box
        float ye = e.p.y + e.side * r.range(0.6f, 1.6f) * rowPitch;
        float x2 = e.p.x + r.gauss() * 60;
        c.via(e.p - in * straight + v3(0, 0, r.range(0, 8)));
        c.via(v3(mixf(e.p.x, x2, 0.5f), e.p.y + e.side * gap * 0.7f, r.range(4, 30)));
        c.to(v3(x2, ye, r.range(2, 14))).bend(2.5f);
      }
    }
    c.wobble(r.range(0.1f, 0.6f));
    if (ferrules && r.chance(0.9f)) {
      c.ferrule(true, ferruleName);
      c.strand().stripStart = 2.5f;
      c.strand().sleeves.back().s = 2.5f;
    } else {
      c.strip_start(r.range(0, 3));
    }
    if (markers && r.chance(0.9f)) c.marker(r.range(9, 14));
  }
  // free bundle across
  if (r.chance(0.25f)) {
    int n = r.pick(3, 9);
    Vec3 a = v3(-W * 0.5f, r.range(-0.5f, 0.5f) * H, r.range(60, 85)), e = v3(W * 0.5f, r.range(-0.5f, 0.5f) * H, r.range(60, 85));
    for (int i = 0; i < n; i++)
      b.conductor(b.style(b.any_color(), Builder::metric(mm2), wear)).from(a + r.gauss3(5)).via(lerp(a, e, 0.35f) + r.gauss3(4)).via(lerp(a, e, 0.7f) + r.gauss3(4)).to(e + r.gauss3(5));
  }
  Vec3 at;
  float across;
  if (!entries.empty() && r.chance(0.75f)) {
    across = r.log(60, 330);
    at = b.some_conductor(across * 0.12f);
  } else {
    at = v3(r.gauss() * 0.1f * W, r.gauss() * 0.15f * H, 30);
    across = r.range(0.6f, 1.2f) * fmaxf(W, H);
  }
  b.random_look(at, across, 40, 0.7f);
  b.random_lights(b.target, across, r.u() * 0.8f);
  b.globals.aoRange = r.range(40, 100);
  b.settle_rounds = used > 45 ? 6 : 9;
}

}  // namespace hp
