// Things at the ends of conductors and round them: connectors, plugs, crimp terminals, glands, corrugated tube, tape.
// Each draws itself in the current frame; none of it is a conductor.
#pragma once
#include <vector>

#include "../builder.hpp"

namespace hp {

/** Color of a twist-on connector: red, yellow, tan, gray, blue, orange, black. */
int connector_plastic(Builder& b);
/** Body length of a twist-on connector that holds that many conductors of outer diameter d, mm. */
float connector_size(Rng& r, int count, float d);

/** Twist-on connector of any build (ribbed cone, fluted cap with a skirt and a flat tip), tip along +z, open at the origin. */
void wire_cap(Builder& b, float size, int mat);

/** Lever connector along +y: n ports of `pitch` mm along x, open toward -y at the origin. Gives the port centers. */
std::vector<Vec3> lever_connector(Builder& b, int n, float pitch);

/** Small multi-pin plug along +y with n pins at `pitch` along x, open toward -y at y = 0. Gives the pin entries. */
std::vector<Vec3> pin_plug(Builder& b, int n, float pitch);

/** Crimp terminal along +y from the conductor's end at the origin: 0 ring, 1 fork, 2 blade, 3 receptacle. d: outer diameter. */
void crimp_terminal(Builder& b, int kind, float d, int metal);

/** Corrugated (split) tube through the points. */
void corrugated(Builder& b, const std::vector<Vec3>& points, float radius, int colorMat);

/** Cable gland along +z from a wall at z = 0: hexagon nut, body, dome; radius of the cable it holds. */
void gland(Builder& b, float radius, int mat);

/** Sheet of foil or cloth tape lying on z = top, w x h, crumpled (a grid of small tilted boxes). */
void tape_sheet(Builder& b, float w, float h, float top, int mat);

/** Clamp: strap over a cable along x at the origin with two screws; r is the cable's radius. */
void clamp(Builder& b, float r, int mat);

}  // namespace hp
