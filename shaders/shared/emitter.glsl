// A light's emitting face: what it sends toward a place, and what it looks like.
//
// Same rules as emission.glsl, whose text and beam.glsl's come before this one. Places and directions
// are the room's unless they are said to be local; `per_lumen` is a measured distribution's intensity
// for one lumen toward the direction in question, looked up by the caller, and not read otherwise.

struct EmitterFace {
    int shape;
    Flat3 centre;
    Flat3 across; // axes of the face: width, height, outward
    Flat3 upward;
    Flat3 outward;
    Flat2 half_size; // half width and half height, m
    Flat inner;      // ring: inner over outer diameter
    Flat depth;      // umbrella: sagitta, m
    bool bulges;     // umbrella: convex side out
    Flat deflector;  // ring left of a dish: deflector over dish
    Flat hot_spot;
    bool measured;   // a table takes the place of the profile
    bool profiled;   // false: a Lambertian face
    Flat exponent;
    Flat cutoff;     // radians
    Flat cutoff_edge;
    Flat gain;
    int cell;
    Flat grid_width; // of a cell, m
    Flat grid_depth;
    Flat grid_open;
    Flat grid_wall;
    bool fronted;
    FaceFront front;
};

SHARED Real3 in_face(EmitterFace face, Real3 direction) {
    return Real3(dot(direction, Real3(face.across)), dot(direction, Real3(face.upward)),
                 dot(direction, Real3(face.outward)));
}

SHARED Real3 place_in_face(EmitterFace face, Real3 position) {
    return in_face(face, position - Real3(face.centre));
}

SHARED bool is_cap(EmitterFace face) {
    return face.shape == shape_umbrella && face.depth > Flat(0.0);
}

SHARED bool is_bulging(EmitterFace face) { return is_cap(face) && face.bulges; }

SHARED Real grid_toward(EmitterFace face, Real3 local) {
    bool all_round = (face.shape == shape_bare && !face.profiled) || is_bulging(face);
    if (all_round && face.cell == cell_none) {
        return Real(1.0);
    }
    return grid_transmittance(face.cell, face.grid_depth / max(face.grid_width, Flat(1e-6)),
                              face.grid_open, face.grid_wall, local);
}

// Gain and profile of the beam; `leaving` is the cosine at the place it leaves.
SHARED Real profile_toward(EmitterFace face, Real3 local, Real leaving, Real per_lumen) {
    if (face.measured) {
        // Radiance that makes this intensity on the area seen from there.
        if (face.shape == shape_bare) {
            return Flat(4.0) * emission_pi * per_lumen;
        }
        return emission_pi * per_lumen / max(local.z, Real(1e-4));
    }
    if (is_bulging(face)) {
        return face.gain * gathering(face.exponent, leaving);
    }
    if (!face.profiled) {
        return Real(face.gain);
    }
    return face.gain * beam_profile(face.exponent, face.cutoff, face.cutoff_edge, local);
}

// Relative radiance (exitance 1) of a sample on the face toward unit `direction`; `relative` is the
// sample's exitance over the mean.
SHARED Real sample_radiance(EmitterFace face, Real3 position, Real3 normal, Real relative,
                            Real3 direction, Real per_lumen) {
    Real leaving = dot(normal, direction);
    Real3 local = in_face(face, direction);
    Mask leaves = leaving > Real(0.0);
    if (is_cap(face) && !face.bulges) {
        leaves = leaves && leaves_cap(place_in_face(face, position), local, face.half_size.x,
                                      face.depth);
    }
    if (face.fronted) {
        leaves = leaves &&
                 clears_front(face.front, face.shape, place_in_face(face, position), local);
    }
    if (!some(leaves)) {
        return Real(0.0);
    }
    Real sent = relative / emission_pi * profile_toward(face, local, leaving, per_lumen) *
                grid_toward(face, local);
    return choose(leaves, sent, Real(0.0));
}

// One cell of the grid as the eye sees it, at place `at` of the face (m) along `direction`: into the
// wall or onto it is black. Its mean over the face is the transmittance.
SHARED Real seen_through_cell(EmitterFace face, Real2 at, Real3 local) {
    Flat pitch = face.grid_width / sqrt(face.grid_open);
    Real slope_x = local.x / local.z * face.grid_depth;
    Real slope_y = local.y / local.z * face.grid_depth;
    if (face.cell == cell_square) {
        Real x = (fract(at.x / pitch + Real(0.5)) - Real(0.5)) * pitch;
        Real y = (fract(at.y / pitch + Real(0.5)) - Real(0.5)) * pitch;
        Real outer = max(max(abs(x), abs(x - slope_x)), max(abs(y), abs(y - slope_y)));
        return choose(outer <= Real(Flat(0.5) * face.grid_width), Real(1.0), Real(0.0));
    }
    // Round cells lie in rows, every other one moved by half.
    Flat row_height = Flat(0.8660254) * pitch;
    Real row = floor(at.y / row_height + Real(0.5));
    Real shift = row * Real(0.5) - floor(row * Real(0.5));
    Real x = (fract(at.x / pitch + shift + Real(0.5)) - Real(0.5)) * pitch;
    Real y = at.y - row * row_height;
    Flat radius = Flat(0.5) * face.grid_width;
    Real near_end = x * x + y * y;
    Real far_end = (x - slope_x) * (x - slope_x) + (y - slope_y) * (y - slope_y);
    // Circles cover less of the plane than thin-walled cells do: brighter, so that the mean holds.
    Flat bright = face.grid_open / (Flat(0.9068997) * radius * radius * Flat(4.0) / (pitch * pitch));
    return choose(near_end <= Real(radius * radius) && far_end <= Real(radius * radius),
                  Real(bright), Real(0.0));
}

// Transmittance of the grid as it is seen: cells where they are wider than the pixel, with what the
// walls send on; the mean where they are finer.
SHARED Real grid_seen(EmitterFace face, Real2 at, Real3 local, Real footprint_m) {
    Real through = grid_toward(face, local);
    if (face.cell == cell_none) {
        return through;
    }
    Real shown =
        clamp(face.grid_width / max(footprint_m, Real(1e-6)) - Real(1.5), Real(0.0), Real(1.0));
    Real open_cell = seen_through_cell(face, at, local);
    Real cell = open_cell + face.grid_wall * max(Real(0.0), face.grid_open - open_cell);
    return choose(local.z > Real(0.0), through + (cell - through) * shown, through);
}

// Exitance over the mean at a place of a flat or cupped face.
SHARED Real exitance_at(EmitterFace face, Real2 q) {
    Flat sagitta = Flat(0.0);
    if (face.shape == shape_umbrella) {
        sagitta = face.depth / max(face.half_size.x, Flat(1e-6));
    }
    Real relative = hot_spot_factor(face.shape, face.hot_spot, q, face.inner, sagitta);
    if (face.deflector > Flat(0.0)) {
        relative = relative * (Flat(1.0) - face.deflector * face.deflector) +
                   deflected(sqrt(q.x * q.x + q.y * q.y), face.deflector);
    }
    return relative;
}

// Cosine at the face between its normal at a place and a direction, both local.
SHARED Real leaving_cosine(EmitterFace face, Real3 at, Real3 local) {
    if (!is_bulging(face)) {
        return local.z;
    }
    Flat radius = Flat(0.5) * (face.half_size.x * face.half_size.x / face.depth + face.depth);
    return dot(normalize(Real3(at.x, at.y, at.z + radius - face.depth)), local);
}

// Relative radiance of the face at a visible place toward unit `direction` (to the eye).
SHARED Real seen_radiance(EmitterFace face, Real3 position, Real3 direction, Real footprint_m,
                          Real per_lumen) {
    Real3 local = in_face(face, direction);
    if (face.shape == shape_bare) {
        // A ball glows whichever way the beam goes; behind a profile it is as bright as that.
        return profile_toward(face, local, Real(1.0), per_lumen) / emission_pi;
    }
    Real3 at = place_in_face(face, position);
    Real leaving = leaving_cosine(face, at, local);
    Mask leaves = leaving > Real(0.0);
    if (face.fronted) {
        leaves = leaves && clears_front(face.front, face.shape, at, local);
    }
    if (!some(leaves)) {
        return Real(0.0);
    }
    Real relative =
        exitance_at(face, Real2(at.x / face.half_size.x, at.y / face.half_size.y));
    Real sent = relative / emission_pi * profile_toward(face, local, leaving, per_lumen) *
                grid_seen(face, Real2(at.x, at.y), local, footprint_m);
    return choose(leaves, sent, Real(0.0));
}

// Is a place of the face's plane inside its outline? 1 inside, 0 outside, soft over `blur` (m).
SHARED Real on_face(EmitterFace face, Real2 at, Real blur) {
    Real2 q = Real2(at.x / face.half_size.x, at.y / face.half_size.y);
    Real inside = Real(0.0); // distance to the outline, m, positive inside
    if (face.shape == shape_rectangle) {
        inside = min(face.half_size.x - abs(at.x), face.half_size.y - abs(at.y));
    } else {
        inside = (Real(1.0) - outline_place(face.shape, q)) * face.half_size.x;
        if (face.shape == shape_ring) {
            inside = min(inside, (outline_place(face.shape, q) - face.inner) * face.half_size.x);
        }
    }
    return smoothstep(-blur, blur, inside);
}

// Radiance that a mirror at `from` gets out of unit direction `toward`, of a mirror of `roughness`
// that a sharp shape stands for: sampled points would show as dots. `per_lumen` is for -toward.
SHARED Real mirrored_face(EmitterFace face, Real3 from, Real3 toward, Real roughness,
                          Real per_lumen) {
    Real half_blur = Real(0.5) * roughness * roughness;
    if (face.shape == shape_bare) {
        Real3 way = Real3(face.centre) - from;
        Real ahead = dot(way, toward);
        Real3 aside = way - toward * ahead;
        Real blur = half_blur * max(ahead, Real(0.0)) + Real(1e-4);
        Real shown = smoothstep(-blur, blur, face.half_size.x - sqrt(dot(aside, aside)));
        Real glow = seen_radiance(face, Real3(face.centre), -toward, blur, per_lumen);
        return choose(ahead > Real(0.0), shown * glow, Real(0.0));
    }
    Real3 local = in_face(face, toward);
    Real3 place = place_in_face(face, from);
    Mask meets = local.z < Real(0.0);
    Real ahead = -place.z / choose(meets, local.z, Real(1.0));
    meets = meets && ahead > Real(0.0);
    if (!some(meets)) {
        return Real(0.0);
    }
    ahead = max(ahead, Real(0.0));
    Real blur = half_blur * ahead + Real(1e-4);
    Real2 at = Real2(place.x + ahead * local.x, place.y + ahead * local.y);
    Real sent = on_face(face, at, blur) *
                seen_radiance(face, from + toward * ahead, -toward, blur, per_lumen);
    return choose(meets, sent, Real(0.0));
}
