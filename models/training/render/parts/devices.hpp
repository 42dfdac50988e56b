// Electrical parts. Each draws itself in the builder's current frame: push() a frame first to place it.
// Sizes in mm follow common trade sizes; no maker's form is copied.
#pragma once
#include <vector>

#include "../builder.hpp"

namespace hp {

/** Screw head of radius r at p facing n: slotted or crossed, zinc or brass. */
void screw(Builder& b, Vec3 p, Vec3 n, float r, int mat = -1);

/** Look shared by the devices of one row. */
struct DeviceLook {
  int body, face, handle, accent, dark, label, metal;
};
DeviceLook device_look(Builder& b, int bodyKind = -1);

/**
 * Plug-in breaker lying along +x: bus end at the origin, terminal end at x = length, y spans poles x pitch,
 * z from the mounting plane. Returns the points where conductors enter (facing +x), one a pole.
 */
std::vector<Vec3> plug_breaker(Builder& b, const DeviceLook& k, int poles, float length, float pitch, float height);

/**
 * Modular device on a DIN rail: width mm along x centered on the origin, 85 mm along y, 60 deep in z.
 * Conductors enter at y = +-entry().
 */
void modular(Builder& b, const DeviceLook& k, float width, int poles);
constexpr float kModularEntry = 42;

/** DIN rail of length mm along x, centered. */
void din_rail(Builder& b, float length);

/** Terminal block pieces along x: n pieces of width w, height h (y), depth d (z); entries at y = +-(h/2 - 4). */
void terminal_row(Builder& b, int n, float w, float h, float d, int bodyMat);

/** Relay or contactor: w x h x d with terminal screws above and below and a label. */
void relay(Builder& b, const DeviceLook& k, float w, float h, float d);

/** Slotted trunking along x: length, width (y), height (z), with or without its lid. */
void trunking(Builder& b, float length, float width, float height, int mat, bool lid);

/** Metal bar with a row of screws along y: n screws at pitch; conductors enter at x = +half width, z = height/2. */
void screw_bar(Builder& b, int n, float pitch, float width, float height, int barMat);

/** Lug (one barrel with a set screw) whose barrel opens along +y at the origin; r is the barrel's inner radius. */
void lug(Builder& b, float r, int mat);

/** Lock nut and bushing of a conduit that comes through a wall: axis +z into the enclosure, radius r. */
void conduit_end(Builder& b, float r, bool plasticBushing);

/** Knockout: a round blank with its rim, in the plane z = 0, or an open dark hole. */
void knockout(Builder& b, float r, bool open, int wallMat);

/** Twist-on connector: cone with ribs, tip along +z, open end at the origin. */
void twist_connector(Builder& b, float size, int mat);

/** Printed circuit board in the xy plane at z 0..1.6, centered, with parts on it. */
void circuit_board(Builder& b, float w, float h);

/** Printed label of w x h mm at z = 0. */
void label(Builder& b, float w, float h, int paper = -1);

}  // namespace hp
